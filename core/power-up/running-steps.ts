/** Modes with the pack joined: contactors, DC-DC, the other modes, driven wheels on stands. */
import type { Car, CarPart } from '../car/car.ts';
import type { State } from '../car/state.ts';
import { printValue } from '../quantity/print-value.ts';
import { coilContacts, workedSettings, workedValues } from '../topics/modes/mode-graph.ts';
import { settingIn } from '../topics/modes/situation.ts';
import { isApart } from './bands.ts';
import { clampMeter, voltmeter } from './instruments.ts';
import { suppliesWithPack } from './low-voltage-steps.ts';
import { busIsolationSteps } from './pack-steps.ts';
import { isPlugged, linksOf, voltageBetween } from './plan.ts';
import type { Plan } from './plan.ts';
import { readMeasure } from './read-measure.ts';
import type { Measure, StepDraft } from './step.ts';

const LOW_VOLTAGE = 32;
/** Power at which wheels turn on stands and little can happen [W]; our choice. */
const GENTLE = 500;
/** A precharge contact is closed in the mode. */
function isPrecharge({ car, closedIn }: Plan, mode: string): boolean {
  return closedIn(mode).some((name) => car.parts.get(name)?.roles.prechargeResistor !== undefined);
}

export function readySteps(plan: Plan): StepDraft[] {
  const { car, ask, packVoltage, start } = plan;
  const mode = readyMode(plan);
  if (mode === undefined) return [];
  const state: State = { mode };
  const closed = plan.closedIn(mode);
  const contacts = coilContacts(car).filter(({ part }) => closed.includes(part)).map(({ part }) => car.parts.get(part)!);
  const [link] = linksOf(car);
  const steps: StepDraft[] = [];
  for (const part of contacts) steps.push(contactStep(plan, part, state));
  if (link) steps.push({ id: `ready.link.${link.part.name}`, phase: 'ready', title: 'The bus is at the pack’s voltage', about: [link.part.name, mode], hazard: 'class_b', isHoldPoint: true, state, action: `Read ${link.positive} against ${link.negative}.`, measure: { is: 'voltage', a: link.positive, b: link.negative }, instrument: voltmeter(packVoltage), expect: 'The pack’s voltage, right way round.', instead: 'A minus sign: key off at once, the poles are crossed. Less: a fuse, a cable, or a contact that is open.', noEffect: 0 });
  for (const { name, names, roles } of plan.batteries) {
    const battery = roles.lowVoltageBattery!;
    const supplies = [...car.parts.values()].filter((part) => part.roles.lowVoltageSupply).map((part) => part.name);
    if (supplies.length > 0) steps.push({ id: `ready.dcdc.${name}`, phase: 'ready', title: `${supplies.join(', ')} feeds ${name}`, about: [...supplies, name], hazard: 'class_b', isHoldPoint: true, state, action: `Same mode. Read the posts of ${name}.`, measure: { is: 'voltage', a: names.of(battery.positive), b: names.of(battery.negative) }, instrument: voltmeter(LOW_VOLTAGE), expect: 'About a volt above its rest voltage.', instead: 'Unchanged: the DC-DC does not run.', ...noEffectOf(readMeasure(car, ask, start === undefined ? {} : { mode: start }, { is: 'voltage', a: names.of(battery.positive), b: names.of(battery.negative) })), ...(battery.charge ? { limit: { sense: 'between', value: battery.charge.least, to: battery.charge.most, source: 'common-practice' } as const } : {}) });
  }
  const indicators = [...car.parts.values()].filter(({ names, roles }) => { const solved = roles.indicator ? ask.solve(state) : undefined; return solved?.outcome === 'solved' && Math.abs(solved.currentOf(names.of(roles.indicator!.element))) > 1e-3; }).map(({ name }) => name);
  steps.push(indicators.length > 0
    ? { id: 'ready.indication', phase: 'ready', title: 'The driver is told', about: indicators, hazard: 'class_b', isHoldPoint: true, state, action: `Look at ${indicators.join(', ')} from the driver’s seat.`, expect: 'Lit. From now on the vehicle may move when the pedal is touched.', instead: 'Dark: nobody would know. Do not drive before it lights.' }
    : { id: 'ready.indication', phase: 'ready', title: 'The driver is told', about: [mode], hazard: 'class_b', isHoldPoint: true, state, action: 'See that something tells the driver that the vehicle can move: a lamp, a word on the display.', expect: 'The file shows no indicator that is lit in this mode.', unknown: ['parts: an indicator'] });
  return [...steps, ...suppliesWithPack(plan, mode), ...busIsolationSteps(plan, mode), ...otherModeSteps(plan, mode)];
}

/** That a contact is closed, by the voltage across it; where something else holds both its sides up, by its coil. */
function contactStep({ ask, packVoltage, car }: Plan, { name, names, roles }: CarPart, state: State): StepDraft {
  const contact = roles.switching!.find(({ by }) => by === 'coil')!;
  const [a, b] = [names.of(contact.a), names.of(contact.b)];
  const common = { id: `ready.contact.${name}`, phase: 'ready', title: `${name} closed`, about: [name, state.mode!], hazard: 'class_b', isHoldPoint: true, state } as const;
  const measure: Measure = { is: 'voltage', a, b };
  const nominal = readMeasure(car, ask, state, measure) ?? 0;
  const open = ask.changed(state, [{ kind: 'closed', element: names.of(contact.element), closed: false }]);
  const noEffect = open?.outcome !== 'solved' ? undefined : open.islandOf(a) === open.islandOf(b) ? open.voltageOf(a) - open.voltageOf(b) : 0;
  const instrument = voltmeter(packVoltage);
  const tells = noEffect === undefined || isApart(nominal, noEffect, instrument);
  if (tells || !contact.coil) return { ...common, action: `Mode ${state.mode!}. One clack each. Read across ${a} and ${b}.`, measure, instrument, ...noEffectOf(noEffect), expect: 'Millivolts.', instead: 'Anything more: it did not close, and current flows past it through another path.' };
  const { positive, negative, pickUp } = contact.coil;
  return {
    ...common, action: `Mode ${state.mode!}. One clack each. The voltage across ${a} and ${b} would prove nothing: what is joined beside it holds both sides up. Read its coil, ${names.of(positive)} against ${names.of(negative)}.`,
    measure: { is: 'voltage', a: names.of(positive), b: names.of(negative) }, instrument: voltmeter(LOW_VOLTAGE), noEffect: 0, limit: { sense: 'at_least', value: pickUp, source: 'closed-form' },
    expect: 'Its clack was heard, and its contact was read with the pack open.', instead: 'No clack: the string works without it, and the other carries all the current. Key off.',
  };
}

const noEffectOf = (value: number | undefined): { readonly noEffect?: number } => (value === undefined ? {} : { noEffect: value });

/** The mode that closes most contacts, no precharge among them, nothing driven and nothing plugged in. */
export function readyMode(plan: Plan): string | undefined {
  const { car, closedIn, driveModes } = plan;
  return [...car.modes.values()].filter(({ name, set }) => closedIn(name).length > 0 && !driveModes.includes(name) && !isPlugged(car, set) && !isPrecharge(plan, name))
    .reduce<{ name: string; count: number } | undefined>((best, { name }) => (best === undefined || closedIn(name).length > best.count ? { name, count: closedIn(name).length } : best), undefined)?.name;
}

/** Charging modes: pilot, link, 12 V. */
function otherModeSteps(plan: Plan, ready: string): StepDraft[] {
  const { car, ask, packVoltage, driveModes } = plan;
  const inlets = [...car.parts.values()].filter(({ roles }) => roles.mains?.inlet);
  const levels = new Set<string>();
  const isNewLevel = (inlet: string, volts: number): boolean => { const level = `${inlet} ${Math.round(volts)}`; return !levels.has(level) && levels.add(level) !== undefined; };
  return [...car.modes.values()].filter(({ name }) => name !== ready && name !== plan.start && !driveModes.includes(name)).flatMap(({ name: mode, set }): StepDraft[] => {
    if (!isPlugged(car, set)) return [];
    const state: State = { mode };
    const pilots = inlets.flatMap(({ name, names, ports, roles }): StepDraft[] => (ports.some((port) => port.name === 'pilot') && isNewLevel(name, voltageBetween(ask, state, names.of('pilot'), names.of(roles.mains!.earth))) ? [{
      id: `charge.${mode}.pilot.${name}`, phase: 'charge', title: `Pilot in mode ${mode}`, about: [name, mode], hazard: 'class_b', isHoldPoint: true, state,
      action: `Cable of a station that has its own residual-current protection into ${name}. Mode ${mode}. Read ${names.of('pilot')} against ${names.of(roles.mains!.earth)}: the positive half, with an instrument made for it; a multimeter shows the mean once the station sends its pulses.`,
      measure: { is: 'voltage', a: names.of('pilot'), b: names.of(roles.mains!.earth) }, instrument: voltmeter(600),
      expect: 'Of a station: 9 V when it sees a vehicle, 6 V when it is asked to charge.', instead: '12 V: the station sees no vehicle. Near 0 V: the pilot is broken or shorted.',
      cautions: ['Mains beside it: keep out of the inlet with anything but the two insulated tips, or read at the charger’s plug.'],
    }] : []));
    const solved = ask.solve(state);
    const charger = [...car.parts.values()].find(({ roles }) => roles.feedsPack);
    const run = charger && [...car.runs.values()].find(({ from, to, carries }) => carries === 'high_voltage' && [from, to].includes(charger.names.of(charger.roles.feedsPack!.positive)));
    if (solved.outcome !== 'solved' || !charger || !run || Math.abs(solved.currentOf(run.name)) < 0.1) return pilots;
    return [...pilots, {
      id: `charge.${mode}.current`, phase: 'charge', title: `Charging current in mode ${mode}`, about: [charger.name, mode], hazard: 'class_b', isHoldPoint: true, state,
      action: `Clamp around ${run.name}. Let it charge for ten minutes; feel with a thermometer along inlet, cable and ${charger.name}.`,
      measure: { is: 'current', element: run.name, isReversed: run.to === charger.names.of(charger.roles.feedsPack!.positive) }, instrument: clampMeter(packVoltage),
      expect: 'Steady; nothing hotter than a hand bears. It stops when the plug’s button is pressed, before the plug comes out.', instead: 'None, or another sign: it does not charge. Off, and look at what the charger is set to.', noEffect: 0,
    }];
  });
}

export function driveSteps(plan: Plan): StepDraft[] {
  const { car, packVoltage } = plan;
  const [mode] = plan.driveModes;
  const movers = [...car.parts.values()].filter(({ roles }) => roles.traction);
  if (movers.length === 0) return [];
  if (mode === undefined) return [{ id: 'drive', phase: 'drive', title: 'Wheels turn', about: movers.map(({ name }) => name), hazard: 'moving', isHoldPoint: true, action: 'No mode of the file asks for power at the wheels, so nothing can be said of what the meters show.', unknown: ['modes: one that sets the draw of what drives'] }];
  const gentle = gentleState(car, mode, movers.map(({ name }) => name));
  const steps: StepDraft[] = movers.flatMap((part): StepDraft[] => {
    const positive = part.names.of(part.roles.dcLink?.positive ?? 'pos');
    const run = [...car.runs.values()].find(({ from, to }) => from === positive || to === positive);
    return run ? [{
      id: `drive.current.${part.name}`, phase: 'drive', title: `${part.name} at ${printValue(GENTLE, 'power')}`, about: [part.name, mode], hazard: 'moving', isHoldPoint: true, state: gentle,
      action: `Wheels clear of the ground. Enter drive, release the brake, the least pedal that turns the wheels; hold it at about ${printValue(GENTLE, 'power')}. Clamp around ${run.name}.`,
      measure: { is: 'current', element: run.name, isReversed: run.from === positive }, instrument: clampMeter(packVoltage),
      expect: 'The wheels turn the way the selector says, smoothly, and stop when the pedal is let go.', instead: 'Turning by themselves, or against the selector: off at once.', noEffect: 0,
      cautions: ['A free wheel on a differential runs at twice the speed when the other stands. Keep it slow; drive shafts on drooping suspension stand at an angle they are not made for.'],
    }] : [];
  });
  return [...steps, ...directionSteps(plan, mode, gentle)];
}

/** The drive mode with only so much power asked that little can happen. */
function gentleState(car: Car, mode: string, movers: readonly string[]): State {
  const set = Object.fromEntries(movers.flatMap((name) => {
    const asked = Object.entries(car.modes.get(mode)!.set[name] ?? {}).filter(([, value]) => typeof value === 'number' && value !== 0);
    return asked.length === 0 ? [] : [[name, Object.fromEntries(asked.map(([setting, value]) => [setting, Math.min(Math.abs(value as number), GENTLE)]))]];
  }));
  return { mode, set };
}

/** The other direction: another word of a selector that the drive mode sets. */
function directionSteps({ car, start }: Plan, mode: string, gentle: State): StepDraft[] {
  const selectors = workedSettings(car).flatMap(({ part, setting }) => {
    const now = settingIn(car, { mode }, part, setting);
    const parked = start === undefined ? undefined : settingIn(car, { mode: start }, part, setting);
    const before = (car.build.modes.get(mode)?.from ?? []).map((from) => settingIn(car, { mode: from }, part, setting));
    // a selector is moved between ready and drive; a key is not
    if (typeof now !== 'string' || now === parked || before.every((value) => value === now)) return [];
    const others = workedValues(car, part, setting).filter((word) => word !== now && word !== parked && !before.includes(word as string)) as string[];
    return others.map((word) => ({ part, setting, word }));
  });
  if (selectors.length === 0) {
    return [{ id: 'drive.direction', phase: 'drive', title: 'The other direction', about: [mode], hazard: 'moving', isHoldPoint: true, state: gentle, action: 'Standing still, foot on the brake, select the other direction. The least pedal that turns the wheels.', expect: 'The wheels turn backwards, and only after the change was asked for at a standstill. The driver sees which direction is selected.', instead: 'Forwards, or while they still turn the other way: off at once.', unknown: ['parts: a switch with positions that selects the direction, or a mode for reverse'] }];
  }
  return selectors.map(({ part, setting, word }): StepDraft => ({
    id: `drive.direction.${part}.${word}`, phase: 'drive', title: `Direction ${word}`, about: [part, mode], hazard: 'moving', isHoldPoint: true, state: { ...gentle, set: { ...gentle.set, [part]: { [setting]: word } } },
    action: `Standing still, foot on the brake, ${part} to ${word}. The least pedal that turns the wheels. Then try the change while the wheels turn.`,
    expect: 'The wheels turn the other way. While they turn, the change is refused or waits for a standstill.', instead: 'The same way, or a jerk while they turn: off at once.',
  }));
}
