/**
 * The 12 V side alone: before its battery is joined, fuses in one by one, the bus and the loop at rest, and what each consumer gets in
 * the modes that need no high voltage. The pack stays open throughout.
 */
import type { CarPart } from '../car/car.ts';
import { metalOf } from '../car/metal-graph.ts';
import type { State } from '../car/state.ts';
import { busSuspects } from './bus-suspects.ts';
import { ohmmeter, voltmeter } from './instruments.ts';
import { canBuses, interlockLoopEnds } from './loop-ends.ts';
import { voltageBetween } from './plan.ts';
import type { Plan } from './plan.ts';
import type { StepDraft } from './step.ts';

/** A voltage below this is no supply [V]. */
const FED = 1;
/** Name of the setting by which a fuse is out of its holder. */
const PULLED = 'pulled';
const LOW_VOLTAGE = 32;

export function lowVoltageSteps(plan: Plan): StepDraft[] {
  const { car, batteries, open, batteryRuns } = plan;
  if (batteries.length === 0) {
    const feeding = [...car.parts.values()].filter(({ kind }) => kind.feedsLowVoltage);
    const needsOne = feeding.length > 0 || [...car.parts.values()].some(({ roles }) => roles.consumers !== undefined);
    const missing = feeding.flatMap((part) => part.missing);
    return needsOne ? [{ id: 'low-voltage.battery', phase: 'low_voltage', title: 'What feeds the 12 V side', about: feeding.map(({ name }) => name), hazard: 'class_a', isHoldPoint: true, action: 'Nothing of the 12 V side can be predicted before its battery is in the file, complete.', unknown: missing.length > 0 ? missing : ['parts: a battery_12v'] }] : [];
  }
  const dead: State = { without: [...(open.without ?? []), ...batteryRuns] };
  return [...beforeBattery(plan, dead), ...fuseSteps(plan), ...busSteps(plan, dead), ...consumerSteps(plan), ...idleBusSteps(plan)];
}

function beforeBattery({ batteries, car, batteryRuns }: Plan, dead: State): StepDraft[] {
  return batteries.flatMap(({ name, names, roles, missing }): StepDraft[] => {
    const [positive, negative] = [names.of(roles.lowVoltageBattery!.positive), names.of(roles.lowVoltageBattery!.negative)];
    const lead = batteryRuns.map((run) => car.runs.get(run)!).find(({ from, to }) => from === positive || to === positive);
    const far = lead && (lead.from === positive ? lead.to : lead.from);
    return [
      { id: `low-voltage.rest-voltage.${name}`, phase: 'low_voltage', title: `${name} by itself`, about: [name], hazard: 'class_a', isHoldPoint: true, state: dead, action: `${batteryRuns.join(' and ')} off its positive post. Read its posts.`, measure: { is: 'voltage', a: positive, b: negative }, instrument: voltmeter(LOW_VOLTAGE), expect: 'Its rest voltage.', instead: 'Lower: it is discharged; charge it before going on.', cautions: ['It drives hundreds of amperes into a spanner: earth post off first, on last.'], unknown: missing },
      ...(far === undefined || lead === undefined ? [] : [{ id: `low-voltage.no-short.${name}`, phase: 'low_voltage', title: 'No short behind the battery lead', about: [lead.name], hazard: 'none', isHoldPoint: true, state: dead, action: `Battery still off, every fuse in, everything switched off. Ohms from the loose end of ${lead.name} (towards ${far}) to the chassis.`, measure: { is: 'resistance', a: far, b: 'chassis' }, instrument: ohmmeter, expect: 'It climbs for some seconds, while capacitors fill; electronics make its exact value uncertain.', instead: 'Near 0 Ω is a short: do not join the battery.', limit: { sense: 'at_least', value: 0.5, source: 'common-practice' } } satisfies StepDraft]),
    ];
  });
}

interface Outwards { readonly fuse: CarPart; /** its points, the nearer to the battery first */ readonly near: string; readonly far: string }

/** Fuses of the 12 V side from the battery outwards. */
function fusesOutwards(plan: Plan): readonly Outwards[] {
  const { car, batteries } = plan;
  const metal = metalOf(car);
  const fuses = [...car.parts.values()].filter(({ kind, roles, missing }) => missing.length === 0 && kind.family === 'low_voltage' && kind.settings[PULLED] !== undefined && (roles.protection ?? []).length > 0);
  const [battery] = batteries;
  const from = battery && battery.names.of(battery.roles.lowVoltageBattery!.positive);
  const steps = (point: string): number => (from === undefined ? Infinity : metal.path(from, point)?.links.length ?? Infinity);
  return fuses.map((fuse) => {
    const [a, b] = [fuse.names.of(fuse.roles.protection![0]!.a), fuse.names.of(fuse.roles.protection![0]!.b)];
    const [toA, toB] = [steps(a), steps(b)];
    return { fuse, near: toB < toA ? b : a, far: toB < toA ? a : b, steps: Math.min(toA, toB) };
  }).sort((one, other) => one.steps - other.steps);
}

function fuseSteps(plan: Plan): StepDraft[] {
  const { ask, open, start, lowVoltageModes } = plan;
  const fuses = fusesOutwards(plan);
  const whole: State = { ...open, ...(start === undefined ? {} : { mode: start }) };
  return fuses.flatMap(({ fuse, near, far }, index): StepDraft[] => {
    const out = Object.fromEntries(fuses.slice(index + 1).map((one) => [one.fuse.name, { [PULLED]: true }]));
    const isFed = (state: State): boolean => Math.abs(voltageBetween(ask, state, near, 'chassis')) > FED;
    const draft = (state: State, mode: string | undefined, bandState: State): StepDraft => {
      return {
        id: `low-voltage.fuse.${fuse.name}`, phase: 'low_voltage', title: `Fuse ${fuse.name} in`, about: index === 0 ? [fuse.name, ...plan.batteryRuns] : [fuse.name], hazard: 'class_a', isHoldPoint: index === 0, state, bandState,
        action: `${mode === undefined ? (index === 0 ? 'All fuses out, then the battery on. ' : '') : `Mode ${mode}, all fuses before it in. `}Put ${fuse.name} in; read its far side, ${far}, against the chassis.`,
        measure: { is: 'voltage', a: far, b: 'chassis' }, instrument: voltmeter(LOW_VOLTAGE),
        expect: 'No more than a small spark while capacitors fill; nothing gets warm.', instead: 'A bang, warmth or a blown fuse: out again, and look for the short behind it.', noEffect: 0,
      };
    };
    const state: State = { ...whole, set: out };
    if (isFed(whole)) return [draft(state, undefined, whole)];
    // behind a relay: when the mode that feeds it is on
    const mode = lowVoltageModes.find((name) => isFed({ ...open, mode: name }));
    return mode === undefined ? [] : [draft({ ...open, mode }, mode, { ...open, mode })];
  });
}

function busSteps({ car }: Plan, dead: State): StepDraft[] {
  const buses = canBuses(car).map(({ parts, high, low }): StepDraft => ({
    id: `low-voltage.bus-resistance.${parts[0]!}`, phase: 'low_voltage', title: 'Resistance of the CAN bus', about: parts, hazard: 'none', isHoldPoint: true, state: dead,
    action: `Battery off again, two minutes for the units to fall asleep. Ohms between ${high} and ${low}, plugs mated: ${parts.join(', ')} hang on this bus.`,
    measure: { is: 'resistance', a: high, b: low }, instrument: ohmmeter,
    expect: 'Two terminations of 120 Ω side by side; it stays while you move each plug.', instead: 'A reading that jumps while you move a plug: a bad pin.', suspects: busSuspects(car, parts, high, low),
    limit: { sense: 'between', value: 54, to: 66, source: 'iso-11898-2' },
  }));
  const loops = interlockLoopEnds(car).map(({ parts, a, b }, index): StepDraft => ({
    id: `low-voltage.interlock-loop.${parts[0] ?? index}`, phase: 'low_voltage', title: 'Resistance of the interlock loop', about: parts, hazard: 'none', isHoldPoint: true, state: dead,
    action: `Battery still off, every lid on and every plug in. Ohms from ${a} to ${b}: through ${parts.join(', ')}.`,
    measure: { is: 'resistance', a, b }, instrument: ohmmeter, expect: 'A few ohms at the most; it stays while you wiggle each plug.', instead: 'Open: a lid, a plug or a disconnect is not in. A reading that jumps: a bad pin.',
  }));
  return [...buses, ...loops];
}

/** Every consumer that a mode without high voltage feeds, once, in the first such mode. */
function consumerSteps({ car, ask, open, lowVoltageModes }: Plan): StepDraft[] {
  const done = new Set<string>();
  return lowVoltageModes.flatMap((mode) => suppliesIn({ car, ask }, { ...open, mode }, mode, done, true));
}

/** Consumers that only a mode with the pack joined feeds. */
export function suppliesWithPack(plan: Plan, mode: string): StepDraft[] {
  const done = new Set<string>();
  for (const one of plan.lowVoltageModes) suppliesIn(plan, { ...plan.open, mode: one }, one, done, true);
  return suppliesIn(plan, { mode }, mode, done, false);
}

function suppliesIn({ car, ask }: Pick<Plan, 'car' | 'ask'>, state: State, mode: string, done: Set<string>, isOpen: boolean): StepDraft[] {
  return [...car.parts.values()].flatMap(({ name, names, roles, kind }) => (roles.consumers ?? []).flatMap((consumer): StepDraft[] => {
    const [positive, negative] = [names.of(consumer.positive), names.of(consumer.negative)];
    // coils have steps of their own
    if (done.has(positive) || roles.switching?.some(({ by }) => by === 'coil') || voltageBetween(ask, state, positive, negative) < FED) return [];
    done.add(positive);
    const isLit = roles.indicator !== undefined;
    return [{
      id: `${isOpen ? 'low-voltage' : 'ready'}.supply.${mode}.${name}`, phase: isOpen ? 'low_voltage' : 'ready', title: `${name} in mode ${mode}`, about: [name], hazard: isOpen ? 'class_a' : 'class_b', isHoldPoint: kind.settings['on'] !== undefined && roles.switching !== undefined, state,
      action: `Mode ${mode}, ${isOpen ? 'pack open' : 'pack joined: the meter stays on the 12 V side, hands off everything orange'}. Read ${positive} against ${negative}, at its own plug, under its own load${isLit ? '; and look at it' : ''}.`, noEffect: 0,
      measure: { is: 'voltage', a: positive, b: negative }, instrument: voltmeter(LOW_VOLTAGE), expect: isLit ? 'It lights or sounds.' : '',
      ...(consumer.minimumVoltage === undefined ? {} : { limit: { sense: 'at_least', value: consumer.minimumVoltage, source: 'closed-form' } as const }),
    }];
  }));
}

/** A quiet bus, somebody on it awake. */
function idleBusSteps({ car, ask, open, lowVoltageModes }: Plan): StepDraft[] {
  return canBuses(car).flatMap(({ parts, high, low }) => {
    const mode = lowVoltageModes.find((name) => Math.abs(voltageBetween(ask, { ...open, mode: name }, high, 'chassis')) > 0.5);
    if (mode === undefined) return [];
    const state: State = { ...open, mode };
    return [['high', high], ['low', low]].map(([wire, point]): StepDraft => ({
      id: `low-voltage.bus-idle.${parts[0]!}.${wire!}`, phase: 'low_voltage', title: `CAN ${wire!} on a quiet bus`, about: parts, hazard: 'class_a', isHoldPoint: false, state,
      action: `Mode ${mode}. Read ${point!} against the chassis.`, measure: { is: 'voltage', a: point!, b: 'chassis' }, instrument: voltmeter(LOW_VOLTAGE),
      expect: 'About 2.5 V; while units talk, CAN high a little above and CAN low a little below it.', instead: '0 V or 12 V: a wire touches something.',
    }));
  });
}
