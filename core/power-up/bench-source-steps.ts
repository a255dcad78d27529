/**
 * High voltage from a bench source before the pack is connected: the bus filled slowly, first below the border of class A, then to the
 * voltage that it will bear; what it takes when it is full; its isolation; each contactor closed from it; and empty again before the clips
 * come off. What is wrong on the bus is met with some watts behind it instead of a battery.
 */
import type { CarPart } from '../car/car.ts';
import type { State } from '../car/state.ts';
import { elementsOfParts } from '../car/wire-car.ts';
import { CLASS_A_HIGHEST } from '../physics/voltage-class.ts';
import { printValue } from '../quantity/print-value.ts';
import { closedContacts, coilContacts } from '../topics/modes/mode-graph.ts';
import { benchSourceOf, currentFrom, fedBy, incompleteSources } from './bench-settings.ts';
import type { BenchSource } from './bench-settings.ts';
import { sourceAmmeter, stopwatch, voltmeter } from './instruments.ts';
import { wireNets } from './loop-ends.ts';
import { threeReadings } from './pack-steps.ts';
import { hasLimitedSource, isPlugged, linksOf, voltageBetween } from './plan.ts';
import type { Plan } from './plan.ts';
import { EMPTY, FULL } from './read-measure.ts';
import type { StepDraft } from './step.ts';

/** A source that gives so much of its limit is held down by it. */
const AT_LIMIT = 0.98;
/** A part that takes more than this from the bus counts as a load [W]. */
const LOAD = 5;
/** An isolation reading means something at half the working voltage or more, [un-r100] annex 4A. */
const ISOLATION_SHARE = 0.5;

/** One line where the build has no source of its own; else the whole block for each. */
export function benchSourceSteps(plan: Plan): StepDraft[] {
  const { car, packVoltage, start, open } = plan;
  if (packVoltage <= 0 || linksOf(car).length === 0) return [];
  const unknown = incompleteSources(car).map(({ name, missing }): StepDraft => ({ id: `limited-source.${name}`, phase: 'limited_source', title: `${name} first`, about: [name], hazard: 'class_b', isHoldPoint: true, action: `What ${name} does to the bus cannot be predicted before its values are in the file.`, unknown: missing }));
  const parts = [...car.parts.values()].filter(({ roles }) => roles.benchSource);
  if (parts.length === 0 && unknown.length === 0) return [withoutSource(plan)];
  const rest: State = { ...open, ...(start === undefined ? {} : { mode: start }) };
  return [...unknown, ...parts.flatMap((part) => { const source = benchSourceOf(plan, part, rest); return source ? blockOf(plan, source, rest) : []; })];
}

/** What a build without one gives up. */
function withoutSource({ car, ask, packVoltage, strings }: Plan): StepDraft {
  const [string] = strings;
  const fault = string && ask.faultCurrent({}, string.positive, string.negative);
  const drives = fault !== undefined && 'current' in fault && fault.current !== undefined ? `, which drives ${printValue(fault.current, 'current', { rounding: 'up' })} into a short` : '';
  const converter = [...car.modes.keys()].some((mode) => hasLimitedSource(car, ask, mode));
  return {
    id: 'limited-source.none', phase: 'limited_source', title: 'No bench source in the file', about: [], hazard: 'none', isHoldPoint: false,
    action: `The file has no bench source, so this part of the procedure is ${converter ? 'only what the car’s own converter can do' : 'left out'}. A laboratory supply with a current limit, borrowed for a day, would do; enter it as a part of kind bench_source.`,
    expect: `What is lost: a short on the bus, a pole on the wrong side, a leak, a contactor that does not close or does not open are${converter ? ' (but for what keeps the bus down)' : ''} met for the first time with the pack behind them: ${printValue(packVoltage, 'voltage', { rounding: 'up' })}${drives}. Only fuses and the precharge stand between.`,
  };
}

function blockOf(plan: Plan, source: BenchSource, rest: State): StepDraft[] {
  const top = source.stages.at(-1)!;
  return [
    ...setUpSteps(plan, source, rest), ...source.stages.flatMap((volts) => riseSteps(plan, source, rest, volts)), ...remainSteps(plan, source, rest),
    ...(top > CLASS_A_HIGHEST && top >= ISOLATION_SHARE * plan.packVoltage ? isolationOf(plan, source, rest) : []), ...contactSteps(plan, source), ...offSteps(plan, source, rest),
  ];
}

const common = ({ part }: BenchSource, volts: number) => ({ phase: 'limited_source' as const, about: [part.name], hazard: volts > CLASS_A_HIGHEST ? 'class_b' as const : 'class_a' as const });
const say = (volts: number): string => printValue(volts, 'voltage');

function setUpSteps({ disconnects, openRuns, packVoltage }: Plan, source: BenchSource, rest: State): StepDraft[] {
  const { part, role, positive, negative, stages, current } = source;
  const { name, names } = part;
  const [first] = stages;
  const [plus, minus] = [names.of(role.positive), names.of(role.negative)];
  const out = [...(disconnects.length > 0 ? [`${disconnects.map((one) => one.name).join(' and ')} out`] : []), ...(openRuns.length > 0 ? [`${openRuns.join(' and ')} off`] : [])].join(', ');
  return [
    {
      ...common(source, packVoltage), id: `limited-source.${name}.dead`, title: `Dead where ${name} goes`, isHoldPoint: true, state: rest,
      action: `${out}. Everything off. Read ${positive} against ${negative}, then each against the chassis.`, measure: { is: 'voltage', a: positive, b: negative }, instrument: voltmeter(packVoltage),
      expect: 'Near 0 V each time.', instead: 'A voltage that stays: something of the pack is joined already, or a capacitor is full. Nothing is clipped on before it is gone.',
    },
    {
      ...common(source, first!), id: `limited-source.${name}.set`, title: `${name} set up, its clips free`, isHoldPoint: true, state: { ...rest, set: { [name]: { [role.voltageSetting]: first!, [role.currentSetting]: current } } },
      action: `Clips apart and touching nothing. ${say(first!)}; limit ${printValue(current, 'current')}: hold the clips together and turn the limit until its display shows that. Then apart again; read ${plus} against ${minus}.${role.isEarthed ? '' : ' The link between its negative and its earth terminal off.'} Chassis of the vehicle to the protective earth of its socket.`,
      measure: { is: 'voltage', a: plus, b: minus }, instrument: voltmeter(CLASS_A_HIGHEST),
      expect: 'Red clip positive. The limit lamp goes out when the clips part.', noEffect: 0,
      cautions: [
        `The limit spares cables, not people: ${printValue(Math.min(current, role.maximumCurrent), 'current')} at ${say(stages.at(-1)!)} can kill, and the capacitors give what they hold without any limit.`,
        ...(role.isEarthed ? [`${name} ties its negative to earth: every reading against the chassis shows that and not the vehicle. The isolation readings of this part are worthless with it.`] : []),
      ],
    },
  ];
}

function riseSteps({ packVoltage }: Plan, source: BenchSource, rest: State, volts: number): StepDraft[] {
  const { part, positive, negative, current, links, stages, capacitance } = source;
  const { name } = part;
  const state = fedBy(source, rest, volts, current);
  const isFirst = volts === stages[0];
  const names = links.map((link) => link.part.name);
  const energy = (capacitance * volts ** 2) / 2;
  return [
    ...(links.length === 0 ? [] : [{
      ...common(source, volts), id: `limited-source.${name}.rise.${volts}`, title: `${name} fills the capacitors, ${say(volts)}`, isHoldPoint: isFirst, state, about: [name, ...names],
      action: `${isFirst ? `Output off; red clip on ${positive}, black on ${negative}, cover both. ` : `Output off and wait for 0 V; set ${say(volts)}, the limit as it is. `}Output on; time until ${positive} is ${say(FULL * volts)} above ${negative}.`,
      measure: { is: 'time', of: 'charge', links: names, through: name, voltageAt: [positive, negative] } as const, instrument: { ...stopwatch(packVoltage), category: voltmeter(packVoltage).category },
      expect: 'A steady rise, at the limit all the way.', instead: 'Near 0 V with the limit lamp lit: a short, a part with its poles the wrong way round, or a discharge that works against it: off. At once: the capacitors are not on it. Longer: more capacitance than the file has, or a leak.',
      ...(volts > CLASS_A_HIGHEST ? { cautions: [`From here on class B, and ${printValue(energy, 'energy', { rounding: 'up' })} in the capacitors.`] } : {}),
    } satisfies StepDraft]),
    ...(isFirst ? links.slice(0, 1) : links).map((link): StepDraft => ({
      ...common(source, volts), id: `limited-source.${name}.at.${volts}.${link.part.name}`, title: `${say(volts)} at ${link.part.name}`, isHoldPoint: true, state, about: [name, link.part.name],
      action: `Read ${link.positive} against ${link.negative}: size and sign.`, measure: { is: 'voltage', a: link.positive, b: link.negative }, instrument: voltmeter(Math.max(volts, CLASS_A_HIGHEST + 1)),
      expect: 'What the source is set to, right way round.', instead: 'With a minus sign: its cables are crossed. Nothing: its fuse, or a cable. Lower than set: something takes the current; find it now.', noEffect: 0,
    })),
  ];
}

function remainSteps(_: Plan, source: BenchSource, rest: State): StepDraft[] {
  const { part, role, current, stages, endCurrent, positive, negative } = source;
  const top = stages.at(-1)!;
  return [{
    ...common(source, top), id: `limited-source.${part.name}.remains`, title: 'What still flows when all is full', isHoldPoint: true, state: fedBy(source, rest, top, current),
    action: `${say(top)} for two minutes. Read the ammeter of ${part.name}, or a milliammeter in its red lead: what ${positive} and ${negative} go on taking.`,
    measure: { is: 'current', element: part.names.of(role.element), isReversed: false }, instrument: sourceAmmeter(role.maximumCurrent),
    expect: `Steady: the bleeders and the leaks of the file make ${printValue(endCurrent, 'current')}.`, instead: 'More, or rising: insulation that gives way, or a part that is awake and should not be. Less: a bleeder is broken, and what it should empty stays full.',
  }];
}

function isolationOf(plan: Plan, source: BenchSource, rest: State): StepDraft[] {
  const { part, positive, negative, stages, current } = source;
  const top = stages.at(-1)!;
  return threeReadings(plan, `source.${part.name}`, `Bus alone, from ${part.name}`, fedBy(source, rest, top, current), positive, negative, part.name, top).map((step) => ({ ...step, id: step.id.replace('isolation.source.', 'limited-source.').replace(`${part.name}.`, `${part.name}.isolation.`), phase: 'limited_source' }));
}

/** Each contact that a coil moves: its far side follows the source when it closes, and lets go when it opens. */
function contactSteps(plan: Plan, source: BenchSource): StepDraft[] {
  const { car, ask, open } = plan;
  const held = [...car.modes.values()].filter(({ set }) => !isPlugged(car, set)).map(({ name }) => ({ mode: name, closed: closedContacts(car, ask, { ...open, mode: name }) ?? [] }));
  const nets = wireNets(car);
  const top = source.stages.at(-1)!;
  const inLoop = plan.disconnects.filter(({ roles }) => roles.disconnect?.hasInterlock === true).map(({ name }) => name);
  return [...new Set(coilContacts(car).map(({ part }) => part))].flatMap((name): StepDraft[] => {
    const { names, roles } = car.parts.get(name)!;
    const modes = held.filter(({ closed }) => closed.includes(name)).sort((a, b) => a.closed.length - b.closed.length);
    const [a, b] = [names.of(roles.switching![0]!.a), names.of(roles.switching![0]!.b)];
    const near = [a, b].find((end) => [source.positive, source.negative].some((clip) => nets(clip) === nets(end)));
    const [mode] = modes;
    if (mode === undefined || near === undefined) return [];
    const far = near === a ? b : a;
    const other = nets(near) === nets(source.positive) ? source.negative : source.positive;
    const { state, off, asleep, isHeld } = fedIn(plan, source, mode.mode, mode.closed);
    const before = ask.meter(fedBy(source, { ...open, ...(plan.start === undefined ? {} : { mode: plan.start }) }, top, source.current), far, other);
    const loose = before.outcome === 'reads' ? `about ${say(before.voltage)}, through leaks alone` : 'not the voltage of the source';
    return [{
      ...common(source, top), id: `limited-source.${source.part.name}.contact.${name}`, title: `${name} closed from ${source.part.name}`, isHoldPoint: true, about: [name, source.part.name, mode.mode], state,
      action: `${off.length > 0 ? `${off.join(' and ')} off, so that ${asleep.join(' and ')} ${asleep.length > 1 ? 'stay' : 'stays'} asleep. ` : ''}${inLoop.length > 0 ? `${inLoop.join(' and ')} in again for the interlock loop; ${plan.openRuns.join(' and ')} stays off. ` : ''}Read ${far} against ${other} first, in mode ${plan.start ?? 'off'}: ${loose}. Then mode ${mode.mode}: one clack; read again. Back: it goes again.`,
      measure: { is: 'voltage', a: far, b: other }, instrument: voltmeter(Math.max(top, CLASS_A_HIGHEST + 1)),
      expect: `${isHeld ? `In mode ${mode.mode} something takes more than ${source.part.name} gives: what the meter shows is what is left.` : 'Only while it is closed.'}`, instead: 'The source’s voltage already before: it is welded, or a way round it is closed. The first reading still there after: coil, contact, or a cable.', ...(before.outcome === 'reads' ? { noEffect: before.voltage } : {}),
      cautions: ['The pack is still open, and must stay so: with both contactors closed the source would work on the pack.'],
    }];
  });
}

interface Fed { readonly state: State; /** wires taken off so that what they wake takes nothing */ readonly off: readonly string[]; readonly asleep: readonly string[]; /** its limit holds the bus down all the same */ readonly isHeld: boolean }

/**
 * A mode with the pack open and the source on the bus. What that mode wakes and what takes power there is left asleep: on a source of some
 * watts a converter starts, pulls the bus down, stops, and starts again.
 */
function fedIn(plan: Plan, source: BenchSource, mode: string, closed: readonly string[]): Fed {
  const { car, ask, open } = plan;
  const top = source.stages.at(-1)!;
  const fed = (without: readonly string[]): State => fedBy(source, { ...open, mode, ...(without.length > 0 ? { without: [...(open.without ?? []), ...without] } : {}) }, top, source.current);
  const isEnough = (state: State): boolean => { const current = currentFrom(ask, source.part, source.role, state); return current !== undefined && current < AT_LIMIT * source.current; };
  const asleep = [...car.parts.values()].filter((part) => takes(plan, part, mode));
  if (asleep.length === 0) return { state: fed([]), off: [], asleep: [], isHeld: !isEnough(fed([])) };
  const off = [...new Set(asleep.flatMap((part) => wakingRuns(plan, part)))];
  const quiet = fed(off);
  const still = closedContacts(car, ask, quiet) ?? [];
  if (off.length > 0 && closed.every((name) => still.includes(name)) && isEnough(quiet)) return { state: quiet, off, asleep: asleep.map(({ name }) => name), isHeld: false };
  return { state: fed([]), off: [], asleep: [], isHeld: true };
}

/** It takes power from the bus in a mode with the pack whole. */
function takes({ car, ask, packVoltage }: Plan, part: CarPart, mode: string): boolean {
  if (!part.ports.some(({ carries }) => carries === 'high_voltage') || part.roles.benchSource) return false;
  const solved = ask.solve({ mode });
  return solved.outcome === 'solved' && elementsOfParts(car, { mode }, [part]).some((element) => {
    if (element.type !== 'converter' && element.type !== 'power' && element.type !== 'draw') return false;
    const [a, b] = element.type === 'converter' ? element.input : [element.a, element.b];
    const volts = voltageBetween(ask, { mode }, a, b);
    return Math.abs(volts) > packVoltage / 2 && Math.abs(solved.currentOf(element.type === 'converter' ? `${element.id}:in` : element.id) * volts) > LOAD;
  });
}

/** The wire that wakes a part, else the one that feeds its electronics. */
function wakingRuns({ car }: Plan, { names, ports, roles }: CarPart): readonly string[] {
  const point = ports.some(({ name }) => name === 'enable') ? 'enable' : roles.consumers?.[0]?.positive;
  return point === undefined ? [] : [...car.runs.values()].filter(({ from, to }) => [from, to].includes(names.of(point))).map(({ name }) => name);
}

function offSteps({ packVoltage }: Plan, source: BenchSource, rest: State): StepDraft[] {
  const { part, role, positive, negative, stages, current, links } = source;
  const { name } = part;
  const top = stages.at(-1)!;
  const bleeds = links.some((link) => link.part.roles.dcLink!.bleeder !== undefined || link.part.roles.dcLink!.activeDischarge !== undefined);
  const off: State = { ...rest, set: { ...rest.set, [name]: { [role.voltageSetting]: 0, [role.currentSetting]: current } }, bridges: source.clips };
  return [
    ...(top <= EMPTY ? [] : [{
      ...common(source, top), id: `limited-source.${name}.empty`, title: `Empty again: below ${say(EMPTY)}`, isHoldPoint: true, isWayBack: true, state: fedBy(source, rest, top, current), about: [name, ...links.map((link) => link.part.name)],
      action: `From ${say(top)}, everything back in mode ${rest.mode ?? 'off'}: output off, clips left on; time until ${positive} is below ${say(EMPTY)} against ${negative}.`,
      measure: { is: 'time', of: 'empty', links: links.map((link) => link.part.name), through: name, voltageAt: [positive, negative] } as const, instrument: stopwatch(packVoltage),
      expect: bleeds ? 'Bleeders, a discharge of the parts’ own, and what the source itself takes.' : 'Only what the source itself takes empties the bus: fit a bleed resistor.', instead: 'Longer: a discharge that sleeps without 12 V, or a bleeder that is broken.',
    } satisfies StepDraft]),
    {
      ...common(source, top), id: `limited-source.${name}.off`, title: `${name} comes off`, isHoldPoint: true, isWayBack: true, state: off, about: [name],
      action: `Read ${positive} against ${negative} once more, meter tried on a known source before and after. Below ${say(EMPTY)}: black clip off, then red. ${name} out of the way; what was taken off goes on again.`,
      measure: { is: 'voltage', a: positive, b: negative }, instrument: voltmeter(packVoltage), expect: 'It falls to 0 V by itself.', instead: 'It stays: the clips stay on and covered until it is below.', limit: { sense: 'at_most', value: EMPTY, source: 'un-r100' },
    },
  ];
}
