/**
 * Proofs that the vehicle refuses: each deliberate action to drive left out, the plug in, the loop open, what no file shows, and the
 * key turned off while the wheels turn. What the file's conditions say is worked out; what it does not say is asked for.
 *
 * A proof reads what would be otherwise if nothing refused: the state of the car that goes on to drive is solved too, and a meter that shows
 * the same in both is not put there.
 */
import type { CarPart } from '../car/car.ts';
import { remembered } from '../car/remembered.ts';
import type { State } from '../car/state.ts';
import { settingsIn } from '../condition/condition.ts';
import { closedContacts, reach, startModes } from '../topics/modes/mode-graph.ts';
import type { Held, Reach } from '../topics/modes/mode-graph.ts';
import { driveRules } from '../topics/modes/drive-rules.ts';
import { settingIn } from '../topics/modes/situation.ts';
import { CLASS_A_HIGHEST } from '../physics/voltage-class.ts';
import { isApart } from './bands.ts';
import { voltmeter } from './instruments.ts';
import { interlockLoopEnds } from './loop-ends.ts';
import { pedalProofs } from './pedal-steps.ts';
import type { Plan } from './plan.ts';
import { isPlugged, linksOf } from './plan.ts';
import { joinedStep, splitStep } from './reach-in.ts';
import { readMeasure } from './read-measure.ts';
import type { Measure, StepDraft } from './step.ts';

const LOW_VOLTAGE = 32;
/** A refusal must move a reading by so much of it: a pack that sags a little under load tells nothing. Our choice. */
const TELLING = 0.2;
/** Of a closed interlock contact [ohm]. */
const CONTACT = 0.01;

export function proofSteps(plan: Plan): StepDraft[] {
  const { car, ask, driveModes } = plan;
  const movers = [...car.parts.values()].filter(({ roles }) => roles.traction).map(({ name }) => name);
  if (movers.length === 0) return [];
  const [drive] = driveModes;
  const rules = driveRules(car, ask, 'all').results;
  const proofs = [...actionProofs(plan, rules.actions), ...plugProofs(plan), ...loopProofs(plan), ...pedalProofs(plan, movers), ...keyProofs(plan, rules.offBy, drive)];
  // the shut-down before has split the pack
  const joined = joinedStep(plan, { id: 'proof.joined', phase: 'proof', title: 'Joined again for the proofs' });
  return [...joined, ...proofs, ...(joined.length > 0 && drive !== undefined ? [splitStep(plan, { id: 'proof.split', phase: 'proof', title: 'Split again at the end' }, { mode: drive })] : [])];
}

interface Refusal { readonly stays: string; readonly entry: string; readonly by: readonly string[] }
/** The modes on the way to drive, where it begins included. */
type Way = readonly string[];

/** What refuses drive with something held, on the way by which it is reached otherwise. */
function refusalOn(way: Way, { reached, refused }: Reach): Refusal | undefined {
  const at = way.findIndex((mode) => !reached.has(mode));
  const [stays, entry] = [way[at - 1], way[at]];
  if (stays === undefined || entry === undefined) return undefined;
  return { stays, entry, by: refused.filter(({ from, to }) => from === stays && to === entry).flatMap(({ refusedBy }) => refusedBy.map(({ text }) => text)) };
}

/** The shortest way to the first drive mode with everything as for driving; undefined: the file reaches none. */
const wayToDrive = remembered(function wayToDrive({ car, ask, driveModes, start }: Plan): Way | undefined {
  const [drive] = driveModes;
  const { taken } = reach(car, ask);
  const before = new Map<string, string>();
  for (const { from, to } of taken) if (!before.has(to) && to !== start) before.set(to, from);
  const way: string[] = [];
  for (let mode = drive; mode !== undefined && !way.includes(mode); mode = before.get(mode)) way.unshift(mode);
  return way.length > 1 && way[0] === start ? way : undefined;
});

/**
 * A reading that differs between the car that refuses and the one that does not: the voltage of the bus, else of a contactor's coil.
 * Both are worked out; what reads the same in both proves nothing.
 */
function tellingMeasure({ car, ask, packVoltage }: Plan, refuses: State, goesOn: State): Pick<StepDraft, 'measure' | 'instrument' | 'noEffect'> & { readonly words: string } | undefined {
  const [link] = linksOf(car);
  const coils = (closedContacts(car, ask, goesOn) ?? []).flatMap((name) => { const { names, roles } = car.parts.get(name)!; const coil = roles.switching!.find((one) => one.coil)?.coil; return coil ? [{ a: names.of(coil.positive), b: names.of(coil.negative), instrument: voltmeter(LOW_VOLTAGE) }] : []; });
  for (const { a, b, instrument } of [...(link ? [{ a: link.positive, b: link.negative, instrument: voltmeter(packVoltage) }] : []), ...coils]) {
    const measure: Measure = { is: 'voltage', a, b };
    const [nominal, noEffect] = [readMeasure(car, ask, refuses, measure), readMeasure(car, ask, goesOn, measure)];
    if (nominal !== undefined && noEffect !== undefined && isApart(nominal, noEffect, instrument) && Math.abs(nominal - noEffect) > TELLING * Math.max(Math.abs(nominal), Math.abs(noEffect))) return { measure, instrument, noEffect, words: `Read ${a} against ${b}.` };
  }
  return undefined;
}

/** Drive is tried with something held; what refuses, and what the meter shows because it was refused. undefined: by the file it is not refused. */
function refusedStep(plan: Plan, draft: Pick<StepDraft, 'id' | 'title' | 'about' | 'hazard'> & { readonly how: string; /** only the contact that is to refuse does not: its two ends */ readonly contact?: readonly [string, string] }, held: Held): StepDraft | undefined {
  const { car, ask } = plan;
  const { how, contact, ...rest } = draft;
  const way = wayToDrive(plan);
  const common = { ...rest, phase: 'proof', isHoldPoint: true } as const;
  if (!way) {
    const { reached, refused } = reach(car, ask);
    const last = refused.find(({ from, to }) => reached.has(from) && !isPlugged(car, car.modes.get(to)!.set));
    return { ...common, action: `Cannot be proved yet: by the file drive is not reached with everything as for driving either${last ? `. It stays in ${last.from}; ${last.to} is refused by ${last.refusedBy.map(({ text }) => `“${text}”`).join(' and ')}` : ''}. Put that right first: a vehicle that never drives refuses everything.`, unknown: last ? last.refusedBy.map(({ path }) => path) : plan.driveModes.map((mode) => `modes.${mode}.needs`) };
  }
  const found = refusalOn(way, reach(car, ask, held));
  if (!found) return undefined;
  const { stays, entry, by } = found;
  const state: State = { mode: stays, set: held };
  const goesOn: State = contact ? { mode: way.at(-1)!, set: held, bridges: [{ a: contact[0], b: contact[1], resistance: CONTACT }] } : { mode: way.at(-1)! };
  const closed = closedContacts(car, ask, state) ?? [];
  const telling = tellingMeasure(plan, state, goesOn);
  const { words: reads = 'No meter tells it: with the numbers of the file every reading is the same whether it refuses or not. Watch the wheels and listen.', ...measured } = telling ?? {};
  return {
    ...common, state, ...measured,
    action: `${how} Try to drive: ${way.slice(1).join(', then ')}. ${reads} Key off again.`,
    expect: `It stays in ${stays}, ${closed.length > 0 ? `with ${closed.join(', ')} closed as before` : 'every contactor open'}. What refuses ${entry}, by the file: ${by.length > 0 ? by.map((text) => `“${text}”`).join(' and ') : 'the wires'}.`,
    instead: 'It goes further: what should refuse is not looked at. Key off, and put that right before anything else.',
  };
}

function actionProofs(plan: Plan, actions: readonly { readonly part: string; readonly setting: string }[]): StepDraft[] {
  const { car } = plan;
  const [start] = startModes(car);
  if (actions.length === 0) return [{ id: 'proof.actions', phase: 'proof', title: 'No drive by one action', about: plan.driveModes, hazard: 'moving', isHoldPoint: true, action: 'From switched off, try to drive with the brake pedal untouched, then with each other action left out.', expect: 'It refuses each time.', instead: 'It drives: one slip of a foot is enough. The file does not say what it waits for.', unknown: plan.driveModes.slice(0, 1).map((mode) => `modes.${mode}.needs`) }];
  return actions.flatMap(({ part, setting }): StepDraft[] => {
    const value = start === undefined ? undefined : settingIn(car, { mode: start }, part, setting);
    const step = refusedStep(plan, { id: `proof.action.${part}.${setting}`, title: `No drive without ${part}`, about: [part], hazard: 'moving', how: `${part} left as in the parked vehicle (${typeof value === 'boolean' ? (value ? `${setting}` : `not ${setting}`) : String(value)}), everything else as for driving.` }, { [part]: { [setting]: value } });
    return step ? [step] : [];
  });
}

function plugProofs(plan: Plan): StepDraft[] {
  const { car } = plan;
  const inlets = [...car.parts.values()].filter(({ roles, kind }) => roles.mains?.inlet && kind.worked);
  return inlets.map(({ name, kind }): StepDraft => {
    const held: Held = { [name]: Object.fromEntries(kind.worked!.map((setting) => [setting, true])) };
    const speaks = [...car.build.modes.values()].some(({ needs }) => needs.some((need) => settingsIn(need).some(({ part }) => part === name)));
    const step = speaks ? refusedStep(plan, { id: `proof.plug.${name}`, title: `No drive with the plug in ${name}`, about: [name], hazard: 'moving', how: `Cable plugged into ${name}, the station switched off. Everything else as for driving.` }, held) : undefined;
    return step ?? { id: `proof.plug.${name}`, phase: 'proof', title: `No drive with the plug in ${name}`, about: [name], hazard: 'moving', isHoldPoint: true, action: `Cable plugged into ${name}, the station switched off. Try to drive.`, expect: 'It refuses.', instead: 'It drives away with the cable. The file names no condition that refuses.', unknown: plan.driveModes.slice(0, 1).map((mode) => `modes.${mode}.needs`) };
  });
}

/** What opens the loop with the pack joined: one contact stands for all, the others were tried while the pack was open. */
function loopProofs(plan: Plan): StepDraft[] {
  const { car, packVoltage } = plan;
  const loops = interlockLoopEnds(car);
  if (loops.length === 0) {
    return packVoltage <= CLASS_A_HIGHEST ? [] : [{ id: 'proof.interlock', phase: 'proof', title: 'Nothing starts with a lid off', about: [], hazard: 'class_b', isHoldPoint: true, action: 'With the pack split again: a lid off, a plug out; try each mode.', expect: 'It refuses.', instead: 'It starts: whoever opens a lid meets the pack. The file has no interlock loop that could refuse.', unknown: ['parts: interlock contacts'] }];
  }
  return loops.flatMap(({ parts }): StepDraft[] => {
    const all = parts.map((name) => car.parts.get(name)!);
    const part = all.find(({ kind, roles }) => kind.worked !== undefined && !roles.disconnect) ?? all.find(({ kind }) => kind.worked !== undefined);
    return part ? loopProof(plan, part, parts) : [];
  });
}

/** Reached into with the pack split, tried with it joined, put back with it split: three hold points. */
function loopProof(plan: Plan, part: CarPart, parts: readonly string[]): StepDraft[] {
  const { car, ask } = plan;
  const { name, names, roles, kind } = part;
  const held: Held = { [name]: { [kind.worked![0]!]: true } };
  const pair = roles.interlock![0]!;
  const contact = [names.of(pair[0]), names.of(pair[1])] as const;
  const isDisconnect = roles.disconnect !== undefined;
  const about = [name, ...parts.filter((one) => one !== name)];
  const common = { id: `proof.interlock.${name}`, title: 'No start from an open interlock loop', about, hazard: 'class_b' } as const;
  const how = isDisconnect ? `Key off, ${name} out, nobody reaches in.` : `Pack joined, key off, the small plug of ${name} out, its lid on.`;
  // with a disconnect out the bus is dead whatever the loop does: then only its contact is bridged in the car that does not refuse
  const proof = refusedStep(plan, { ...common, how, ...(isDisconnect ? { contact } : {}) }, held) ?? byWires(plan, common, how, held, contact);
  if (isDisconnect) return [proof, ...joinedStep(plan, { id: `proof.interlock.${name}.back`, phase: 'proof', title: `${name} in again` })];
  const starts = (wayToDrive(plan) ?? [...car.modes.keys()]).find((mode) => (closedContacts(car, ask, { mode }) ?? []).length > 0);
  const live: State = starts === undefined ? {} : { mode: starts };
  const telling = starts === undefined ? undefined : tellingMeasure(plan, { mode: starts }, { mode: starts, set: held });
  const { words: reads, ...measured } = telling ?? { words: '' };
  return [
    splitStep(plan, { id: `proof.interlock.${name}.opened`, phase: 'proof', title: `The plug of ${name} out`, about: [name], then: `pull the small plug of ${name}, lid on again.` }, live),
    ...joinedStep(plan, { id: `proof.interlock.${name}.joined`, phase: 'proof', title: `Joined again, ${name} still out` }).map((step): StepDraft => ({ ...step, state: { ...step.state, set: held } })),
    proof,
    splitStep(plan, { id: `proof.interlock.${name}.back`, phase: 'proof', title: `The plug of ${name} in again`, about: [name], then: `push the small plug of ${name} in, lid on again.` }, live),
    ...joinedStep(plan, { id: `proof.interlock.${name}.whole`, phase: 'proof', title: 'Joined again, the loop whole' }),
    ...(starts === undefined || !telling ? [] : [{
      ...common, ...measured, id: `proof.interlock.${name}.starts`, phase: 'proof', title: 'It starts again with the loop whole', isHoldPoint: true, state: { mode: starts },
      action: `Mode ${starts}. ${reads} Key off again.`, expect: 'It starts as before: what refused was the loop, and nothing else.', instead: 'It still refuses: the refusal before proved nothing. Find what refuses.',
    } satisfies StepDraft]),
  ];
}

/** No condition refuses: do wires? */
function byWires(plan: Plan, common: Pick<StepDraft, 'id' | 'title' | 'about' | 'hazard'>, how: string, held: Held, [a, b]: readonly [string, string]): StepDraft {
  const { car, ask } = plan;
  const mode = [...car.modes.keys()].find((name) => plan.closedIn(name).length > 0);
  const state: State | undefined = mode === undefined ? undefined : { mode, set: held };
  const isHeld = state !== undefined && closedContacts(car, ask, state)?.length === 0;
  const telling = isHeld ? tellingMeasure(plan, state, { ...state, bridges: [{ a, b, resistance: CONTACT }] }) : undefined;
  const { words: reads = '', ...measured } = telling ?? {};
  return {
    ...common, phase: 'proof', isHoldPoint: true, ...(state === undefined ? {} : { state }), ...measured, action: `${how} Try to start. ${reads} Key off again.`.replace('  ', ' '),
    expect: isHeld ? 'No contactor closes: the wires alone see to it. The file names no condition besides.' : 'It refuses.', instead: isHeld ? 'A contactor closes: the loop is bridged.' : 'It starts. Neither a condition nor the wiring of the file sees to it.', unknown: isHeld ? [] : ['modes: needs with interlock_closed'],
  };
}

function keyProofs({ car, ask, packVoltage, start }: Plan, offBy: readonly { readonly part: string; readonly setting: string }[], drive: string | undefined): StepDraft[] {
  if (drive === undefined) return [];
  if (offBy.length === 0) return [{ id: 'proof.off', phase: 'proof', title: 'Off while the wheels turn', about: [drive], hazard: 'moving', isHoldPoint: true, action: 'Wheels turning slowly on the stands: key off.', expect: 'Torque ends at once, contactors open.', instead: 'They stay closed: pull the disconnect. By the file no switch alone opens them.', unknown: ['parts: a switch in the feed of the contactor coils'] }];
  const [link] = linksOf(car);
  const before = closedContacts(car, ask, { mode: drive }) ?? [];
  return offBy.map(({ part, setting }): StepDraft => {
    const now = settingIn(car, { mode: drive }, part, setting);
    const other = typeof now === 'boolean' ? !now : start === undefined ? now : settingIn(car, { mode: start }, part, setting);
    const state: State = { mode: drive, set: { [part]: { [setting]: other } } };
    const gone = closedContacts(car, ask, state) ?? [];
    const measure: Measure | undefined = link && { is: 'voltage', a: link.positive, b: link.negative };
    const noEffect = measure && readMeasure(car, ask, { mode: drive }, measure);
    return {
      id: `proof.off.${part}`, phase: 'proof', title: `${part} while the wheels turn`, about: [part, ...before], hazard: 'moving', isHoldPoint: true, state, lost: before.filter((name) => !gone.includes(name)),
      action: `Drive entered as before, wheels turning slowly, pedal let go. ${part} ${typeof other === 'boolean' ? 'worked' : `to ${String(other)}`}.${link ? ` Read ${link.positive} against ${link.negative} when the wheels stand.` : ''} Then key off, and ${part} as it was.`,
      ...(measure ? { measure, instrument: voltmeter(packVoltage), noEffect } : {}),
      expect: `${before.join(', ')} fall off; the wheels run out freely, no jerk, no bang from the inverter. The steering still helps, the brake lamps still light.`, instead: 'The voltage stays: they did not fall off. Pull the disconnect, and find out why.',
      cautions: ['Turning wheels make voltage by themselves: slowly, so that it stays far below the pack’s. Never at speed.'],
    };
  });
}
