/** High voltage for the first time: from a limited source where there is one, then the pack joined, and its isolation from three readings. */
import type { CarPart } from '../car/car.ts';
import type { State } from '../car/state.ts';
import { printValue } from '../quantity/print-value.ts';
import { hasLimitedSource, linksOf, voltageBetween } from './plan.ts';
import type { Plan } from './plan.ts';
import { knownResistor, voltmeter } from './instruments.ts';
import { disconnectsOut } from './stands.ts';
import type { StepDraft } from './step.ts';
import { stringSteps } from './string-steps.ts';
import { weldSteps, weldSuspects, weldWords } from './weld-steps.ts';
import { CLASS_A_HIGHEST } from '../physics/voltage-class.ts';

/** A converter that fills the capacitors from 12 V is a source that cannot burn anything: it comes before the pack. */
export function limitedSourceSteps({ car, ask, open, packVoltage }: Plan): StepDraft[] {
  if (packVoltage <= 0) return [];
  return [...car.modes.keys()].filter((mode) => hasLimitedSource(car, ask, mode)).flatMap((mode): StepDraft[] => {
    const [link] = linksOf(car);
    if (!link) return [];
    const converter = [...car.parts.values()].find(({ roles }) => roles.prechargeConverter)!;
    const { outputVoltage, outputCurrent } = converter.roles.prechargeConverter!;
    return [{
      id: `limited-source.${mode}`, phase: 'limited_source', title: `${converter.name} alone lifts the bus`, about: [converter.name, link.part.name], hazard: 'class_b', isHoldPoint: true, state: { ...open, mode },
      action: `Pack open. Mode ${mode}: ${converter.name} gives ${printValue(outputCurrent, 'current')} at the most. Read ${link.positive} against ${link.negative} as it rises; switch off, and wait until it is below ${CLASS_A_HIGHEST} V.`,
      measure: { is: 'voltage', a: link.positive, b: link.negative }, instrument: voltmeter(outputVoltage),
      expect: `Up to the ${printValue(outputVoltage, 'voltage')} that it is set to.`, instead: 'It stays lower: something on the bus takes current. Find it now, while nothing can burn.', noEffect: 0,
      cautions: ['The capacitors hold their voltage after it stops: this is class B without a battery.'],
    }];
  });
}

export function joinSteps(plan: Plan): StepDraft[] {
  const { car, ask, open, openRuns, strings, notCounted, start, disconnects, packVoltage } = plan;
  const unknown: StepDraft[] = notCounted.length === 0 ? [] : [{ id: 'join.unknown', phase: 'join', title: 'Modules that could not be counted', about: [], hazard: 'class_b', isHoldPoint: true, action: 'Do not join the pack before the file is complete: every voltage in the steps that follow leaves out a module.', unknown: notCounted }];
  if (strings.length === 0) return unknown;
  const off: State = { ...open, ...(start === undefined ? {} : { mode: start }) };
  const joints = openRuns.map((run, index): StepDraft => {
    const { from, to } = car.runs.get(run)!;
    // joined one after the other
    const state: State = { ...off, without: openRuns.slice(index), set: disconnectsOut(car) };
    return {
      id: `join.${run}`, phase: 'join', title: `Last joint of the string: ${run}`, about: [run], hazard: 'class_b', isHoldPoint: true, state,
      action: `Everything off${disconnects.length > 0 ? `, ${disconnects.map(({ name }) => name).join(' and ')} out` : ''}. Read between ${from} and ${to}, the two ends about to meet; then each against the chassis. Then join, torque, mark, cover.`,
      measure: { is: 'voltage', a: from, b: to }, instrument: voltmeter(packVoltage),
      expect: 'What the meter and the leaks make of two ends that nothing joins: a small voltage.', instead: 'The string’s own voltage: something joins the other side already. Do not join.',
      cautions: ['Insulated tool, one hand, the other end covered.'],
    };
  });
  const whole: State = start === undefined ? {} : { mode: start };
  const joined = strings.map(({ name, positive, negative, modules }): StepDraft => ({
    id: `join.voltage.${name}`, phase: 'join', title: `Voltage of string ${name}`, about: [name], hazard: 'class_b', isHoldPoint: true, state: whole,
    action: `Key off, covers on, nobody reaches in. ${disconnects.length > 0 ? `${disconnects.map((one) => one.name).join(' and ')} in. ` : ''}Read ${positive} against ${negative}: sign and size.`,
    measure: { is: 'voltage', a: positive, b: negative }, instrument: voltmeter(packVoltage),
    expect: `${sumWords(modules.map(({ part }) => part))}`, instead: 'Less by twice a module’s voltage: that one is reversed. Less by one: it is bridged or left out.',
  }));
  const welds = weldSteps(plan, whole, 'join', 'join');
  const dead = linksOf(car).slice(0, 1).filter(({ positive, negative }) => Math.abs(voltageBetween(ask, whole, positive, negative)) < CLASS_A_HIGHEST).map(({ part, positive, negative }): StepDraft => ({
    id: `join.bus-dead.${part.name}`, phase: 'join', title: 'Nothing behind the contactors', about: [part.name], hazard: 'class_b', isHoldPoint: true, state: whole,
    action: `Still off. Read ${positive} against ${negative}, then each against the chassis.`, measure: { is: 'voltage', a: positive, b: negative }, instrument: voltmeter(packVoltage),
    expect: 'Near 0 V, and it stays there for a minute.', instead: `A voltage that stays or climbs: ${weldWords(plan, welds)}`, suspects: weldSuspects(plan),
  }));
  return [...unknown, ...joints, ...joined, ...stringSteps(plan, whole), ...dead, ...welds];
}

/** By what a string’s voltage was added up. */
function sumWords(modules: readonly CarPart[]): string {
  const read = modules.filter(({ roles }) => roles.cells?.measuredVoltage !== undefined).length;
  return `Sum of ${modules.length} modules${read === modules.length ? ', as each was read' : read > 0 ? `, ${read} of them as read, the others at the charge of the file` : ', at the charge of the file: read each, and write it there'}. Charged since: higher by so much.`;
}

/** Two voltmeters' worth of readings at the pack itself, and with everything on the bus in the mode that closes most contacts. */
export function isolationSteps(plan: Plan): StepDraft[] {
  const { start, strings, packVoltage } = plan;
  const [first] = strings;
  if (!first || packVoltage <= CLASS_A_HIGHEST) return [];
  const whole: State = start === undefined ? {} : { mode: start };
  return strings.flatMap((string) => threeReadings(plan, `pack.${string.name}`, `String ${string.name}, contactors open`, whole, string.positive, string.negative, string.name));
}

/** The same on the bus, for the phase in which the contactors are closed. */
export function busIsolationSteps(plan: Plan, mode: string): StepDraft[] {
  const { car, packVoltage } = plan;
  const [link] = linksOf(car);
  return !link || packVoltage <= CLASS_A_HIGHEST ? [] : threeReadings(plan, `bus.${mode}`, `Everything on the bus, mode ${mode}`, { mode }, link.positive, link.negative, link.part.name).map((step) => ({ ...step, phase: 'ready' }));
}

/** @param key, where  of the names and the titles of the steps. @param voltage  between the poles, about [V] */
export function threeReadings({ ask, packVoltage, perVolt, car }: Plan, key: string, where: string, state: State, positive: string, negative: string, about: string, voltage: number = packVoltage): StepDraft[] {
  const added = knownResistor(perVolt, voltage);
  const volts = (pole: string): number => { const read = ask.meter(state, pole, 'chassis'); return read.outcome === 'reads' ? Math.abs(read.voltage) : 0; };
  const higher = volts(negative) >= volts(positive) ? negative : positive;
  const monitors = [...car.parts.values()].filter(({ roles }) => roles.isolationMonitor).map(({ name }) => name);
  const common = { phase: 'isolation' as const, about: [about], hazard: 'class_b' as const, instrument: voltmeter(packVoltage) };
  const monitor = monitors.length > 0 ? ` ${monitors.join(' and ')} off or unplugged would read higher: its own resistors count, and stay in.` : '';
  return [
    { ...common, id: `isolation.${key}.pack`, title: `${where}: pole to pole`, isHoldPoint: false, state, action: `Read ${positive} against ${negative}: this is Vb.`, measure: { is: 'voltage', a: positive, b: negative } },
    { ...common, id: `isolation.${key}.negative`, title: `${where}: negative to chassis`, isHoldPoint: false, state, action: `Read ${negative} against the chassis: its size is V1. Wait until it stands still: filter capacitors charge through the leaks.`, measure: { is: 'voltage', a: negative, b: 'chassis' }, expect: 'It comes to rest far below Vb.', instead: 'A steady value near Vb is a fault at the other pole.' },
    { ...common, id: `isolation.${key}.positive`, title: `${where}: positive to chassis`, isHoldPoint: false, state, action: `Read ${positive} against the chassis: V2.`, measure: { is: 'voltage', a: positive, b: 'chassis' }, expect: 'V1 and V2 add up to Vb, or to less: the meter with its 10 MΩ is a leak too. Their ratio tells where along the string a leak is.' },
    { ...common, id: `isolation.${key}.with-resistor`, title: `${where}: with the known resistor`, isHoldPoint: false, state: { ...state, bridges: [...(state.bridges ?? []), { a: higher, b: 'chassis', resistance: added }] }, action: `${printValue(added, 'resistance')} from the pole that read more (${higher}, as computed) to the chassis. Read that pole against the chassis again.`, measure: { is: 'voltage', a: higher, b: 'chassis' }, expect: 'Much lower than before: isolation is good.', instead: 'Hardly lower: it is bad.', cautions: ['The resistor and its leads are live; clip on with everything off, then switch on.'] },
    {
      ...common, id: `isolation.${key}.result`, title: `${where}: isolation`, isHoldPoint: true, state, instrument: { name: 'from the four readings', category: undefined, share: 0.02, fixed: 0 },
      action: `Ri = Ro · Vb · (1/V′ − 1/V), V the larger of V1 and V2, V′ the same pole with the resistor, Ro = ${printValue(added, 'resistance')}.${monitor}`,
      measure: { is: 'isolation', positive, negative, added }, expect: `At least ${perVolt} Ω for each volt.`, instead: 'Below it: stop, split the pack, and find the leak one part at a time.',
      limit: { sense: 'at_least', value: perVolt * voltage, source: 'un-r100' },
    },
  ];
}
