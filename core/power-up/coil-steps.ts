/** Contactor coils while the pack is open, and everything that must make them let go. */
import type { CarPart } from '../car/car.ts';
import type { State } from '../car/state.ts';
import { elementsOfParts } from '../car/wire-car.ts';
import { failuresOf } from '../part/kind.ts';
import { closedContacts, coilContacts, workedSettings } from '../topics/modes/mode-graph.ts';
import { settingIn } from '../topics/modes/situation.ts';
import { ohmmeter, voltmeter } from './instruments.ts';
import { isPlugged, voltageBetween } from './plan.ts';
import type { Plan } from './plan.ts';
import { readyMode } from './running-steps.ts';
import type { StepDraft } from './step.ts';

const LOW_VOLTAGE = 32;

export function coilSteps(plan: Plan): StepDraft[] {
  const { car, open } = plan;
  const coils = [...new Set(coilContacts(car).map(({ part }) => part))].map((name) => car.parts.get(name)!);
  if (coils.length === 0) return [];
  const held = [...car.modes.values()].map(({ name }) => ({ mode: name, closed: closedContacts(car, plan.ask, { ...open, mode: name }) ?? [] }));
  return [...coils.flatMap((part) => drivenSteps(plan, part, held)), ...releaseSteps(plan, held)];
}

type Held = readonly { readonly mode: string; readonly closed: readonly string[] }[];

function drivenSteps({ car, open, openRuns, disconnects }: Plan, part: CarPart, held: Held): StepDraft[] {
  const readiness = `Pack open at ${openRuns.join(' and ') || 'a joint of each string'}.${disconnects.length > 0 ? ` ${disconnects.map((one) => one.name).join(' and ')} in, for the interlock loop: the open joint parts the string.` : ''}`;
  const { name, names, roles } = part;
  const mode = held.find(({ closed }) => closed.includes(name))?.mode;
  const contact = roles.switching!.find(({ by }) => by === 'coil')!;
  if (mode === undefined || !contact.coil) {
    return [{ id: `coils.${name}`, phase: 'coils', title: `${name} never closes`, about: [name], hazard: 'none', isHoldPoint: true, action: `With the pack open no mode of the file closes ${name}. Find out why before going on: its coil feed, its ground, or the mode that should switch it.`, instead: 'halfshaft check says what its coil gets in each mode.', unknown: [`modes: one that closes ${name}`] }];
  }
  const state: State = { ...open, mode };
  const { positive, negative, pickUp } = contact.coil;
  return [
    {
      id: `coils.${name}.voltage`, phase: 'coils', title: `Coil of ${name}`, about: [name, mode], hazard: 'class_a', isHoldPoint: true, state,
      action: `${readiness} Mode ${mode}. Listen for one clack; read ${names.of(positive)} against ${names.of(negative)}.`,
      measure: { is: 'voltage', a: names.of(positive), b: names.of(negative) }, instrument: voltmeter(LOW_VOLTAGE),
      expect: 'One clack, no buzz.', instead: 'No clack: coil, its feed or its ground. A buzz: too little voltage, or a feed that drops out again.', noEffect: 0, limit: { sense: 'at_least', value: pickUp, source: 'closed-form' },
      cautions: [`Check first that ${car.modes.get(mode)?.name} cannot reach cells: the open joint is still open.`],
    },
    {
      id: `coils.${name}.contact`, phase: 'coils', title: `Contact of ${name} closes`, about: [name, mode], hazard: 'class_b', isHoldPoint: true, state,
      action: `Same mode. Read 0 V across ${names.of(contact.a)} and ${names.of(contact.b)} first, then ohms between them. Then switch off: the reading goes back to open.`,
      measure: { is: 'resistance', a: names.of(contact.a), b: names.of(contact.b) }, instrument: ohmmeter,
      expect: roles.prechargeResistor ? 'Its resistor while it is closed, open when it is off.' : 'Near 0 Ω while closed, open when off.',
      instead: roles.prechargeResistor ? 'Open in both: coil, contact or resistor. The resistor in both: welded.' : 'Near 0 Ω in both: welded. Open in both: coil or contact.',
      cautions: ['A part of the string hangs on each pole although it is open: from this contact to other metal there may be class B voltage. Only across the contact itself must it be 0 V.'],
    },
  ];
}

/** Each hand switch, lid and plug that opens the coil circuit through wires, one by one, while the contactors are held. */
function releaseSteps(plan: Plan, held: Held): StepDraft[] {
  const { car, open, ask } = plan;
  const unplugged = held.filter(({ mode, closed }) => closed.length > 0 && !isPlugged(car, car.modes.get(mode)!.set));
  const ready = readyMode(plan);
  const most = unplugged.find(({ mode }) => mode === ready) ?? unplugged.reduce<Held[number] | undefined>((best, one) => (best === undefined || one.closed.length > best.closed.length ? one : best), undefined);
  if (!most || most.closed.length === 0) return [];
  const base: State = { ...open, mode: most.mode };
  const ways = [...switchWays(plan, base), ...interlockWays(plan)];
  return ways.flatMap(({ part, words, state: change }): StepDraft[] => {
    const state: State = { ...base, ...change };
    const closed = closedContacts(car, ask, state);
    const lost = most.closed.filter((name) => closed !== undefined && !closed.includes(name));
    const isInterlock = car.parts.get(part)!.roles.interlock !== undefined;
    if (lost.length === 0 && !isInterlock) return [];
    const first = car.parts.get(lost[0] ?? most.closed[0]!)!;
    const coil = first.roles.switching!.find((one) => one.coil)!.coil!;
    const isKept = lost.length === 0;
    return [{
      id: `coils.release.${part}`, phase: 'coils', title: isKept ? `${words} is only seen by the controller` : `${words} lets go ${lost.join(', ')}`, about: [part, ...lost], hazard: 'class_a', isHoldPoint: true, state, lost,
      action: `Pack open, mode ${most.mode}, contactors held. ${words}; read the coil of ${first.name}.${lost.length > 1 ? ` ${lost.join(', ')} fall off together.` : ''}`,
      measure: { is: 'voltage', a: first.names.of(coil.positive), b: first.names.of(coil.negative) }, instrument: voltmeter(LOW_VOLTAGE),
      ...(isKept
        ? { expect: 'By its wires alone nothing lets go: the controller sees it and switches off within a second.', instead: 'It stays on: the controller does not look. No joint of the pack is made before it does.' }
        : { expect: 'A clack; the coil has lost its voltage and stays without when it is put back, until the key is turned again.', instead: 'It comes back by itself, or never lets go: nothing would switch the pack off.', noEffect: voltageBetween(ask, base, first.names.of(coil.positive), first.names.of(coil.negative)) }),
      ...(isKept ? {} : { limit: { sense: 'at_most', value: coil.dropOut, source: 'closed-form' } as const }),
    }];
  });
}

interface Way { readonly part: string; readonly words: string; readonly state: Pick<State, 'set' | 'failures'> }

/** Every switch of a hand, foot or crash, in its other position. */
function switchWays({ car, start }: Plan, base: State): readonly Way[] {
  return workedSettings(car).flatMap(({ part, setting }): Way[] => {
    const { roles } = car.parts.get(part)!;
    if (!roles.switching?.some(({ by }) => by === 'hand') || roles.disconnect || roles.interlock) return [];
    const now = settingIn(car, base, part, setting);
    const other = typeof now === 'boolean' ? !now : start === undefined ? undefined : settingIn(car, { mode: start }, part, setting);
    if (now === undefined || other === undefined || other === now) return [];
    return [{ part, words: typeof other === 'boolean' ? `${part} worked` : `${part} turned to ${other as string}`, state: { set: { [part]: { [setting]: other } } } }];
  });
}

/** Every contact of the interlock loop: by its own setting, by the part's failure that opens it where it has none. */
function interlockWays({ car }: Plan): readonly Way[] {
  return [...car.parts.values()].flatMap((part): Way[] => {
    const pair = part.roles.interlock?.[0];
    if (!pair) return [];
    const { name, kind, names, fields } = part;
    const setting = kind.worked?.[0];
    const guards = fields['guards'];
    const words = typeof guards === 'string' ? `Lid of ${guards} off (${name})` : setting === undefined ? `High-voltage plug of ${name} out` : `${name} out`;
    if (setting !== undefined) return [{ part: name, words, state: { set: { [name]: { [setting]: true } } } }];
    const [a, b] = [names.of(pair[0]), names.of(pair[1])];
    const element = elementsOfParts(car, {}, [part]).find((one) => 'a' in one && ((one.a === a && one.b === b) || (one.a === b && one.b === a)))?.id;
    const failure = failuresOf(kind, part.now({})).find(({ changes }) => { const [change, ...more] = changes(part.now({})); return more.length === 0 && change !== undefined && 'element' in change && names.of(change.element) === element && (change.becomes === 'stuck_open' || change.becomes === 'open'); });
    return failure ? [{ part: name, words, state: { failures: [{ part: name, failure: failure.code }] } }] : [];
  });
}
