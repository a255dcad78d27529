/**
 * Troubleshooting exercises of the direct-current textbook kind, with the readings and the answer given: a string of lamps, two resistors in
 * parallel, a ladder, a loaded divider, a feed wire with a bad ground. The diagnosis engine gets the faults of each circuit (every element open, shorted or
 * bad) with what Ohm's and Kirchhoff's laws make of them, worked out in this file by hand formulas, and must name the fault that the exercise names.
 * The circuits are then solved by our solver as well and must give the same readings.
 *
 * Source:    the usual exercises of introductory texts on direct-current circuits, from memory: the patterns only (all of the supply voltage stands across
 *            an open in series, none across a short; the total current falls when a parallel branch opens), numbers chosen here, no sentence copied
 * Tolerance: the named fault must have at least 90 % after the readings given; readings of the solver within 1 mV
 */
import { describe, expect, it } from 'vitest';
import { groupsOf } from '../../core/faults/engine/groups.ts';
import type { ValueForecast } from '../../core/faults/engine/forecast.ts';
import { logPriors, posterior } from '../../core/faults/engine/posterior.ts';
import type { Element } from '../../core/solve/element.ts';
import { solveAtRest } from '../../core/solve/solve-at-rest.ts';

/** What an open or a short is in the hand formulas and in the network [ohm]. */
const OPEN = 1e9, SHORT = 1e-6;

interface Exercise {
  readonly name: string;
  /** resistances of the healthy circuit [ohm] */
  readonly whole: Readonly<Record<string, number>>;
  /** by hand: readings from resistances [V], [A] */
  readonly readings: (r: Readonly<Record<string, number>>) => Readonly<Record<string, number>>;
  /** the same circuit: elements between nodes; readings as a difference of nodes, or the current of the source */
  readonly ends: Readonly<Record<string, readonly [string, string]>>;
  readonly supply: number;
  readonly read: Readonly<Record<string, readonly [string, string] | 'current'>>;
  /** readings given by the exercise */
  readonly given: Readonly<Record<string, number>>;
  /** its answer: faults, several where the readings cannot tell them apart */
  readonly answer: readonly string[];
}

const parallel = (a: number, b: number): number => (a * b) / (a + b);

const ladder = (r: Readonly<Record<string, number>>): Readonly<Record<string, number>> => {
  const inner = r['R3']! + r['R4']!, at = parallel(r['R2']!, inner), total = 24 / (r['R1']! + at), node = total * at;
  return { total, R2: node, R4: (node * r['R4']!) / inner };
};
const series = (r: Readonly<Record<string, number>>): Readonly<Record<string, number>> => {
  const current = 12 / (r['L1']! + r['L2']! + r['L3']!);
  return { L1: current * r['L1']!, L2: current * r['L2']!, L3: current * r['L3']! };
};
const branches = (r: Readonly<Record<string, number>>): Readonly<Record<string, number>> => {
  const both = parallel(r['R1']!, r['R2']!), total = 12 / (r['W']! + both);
  return { total, R1: total * both };
};
const divider = (r: Readonly<Record<string, number>>): Readonly<Record<string, number>> => { const low = parallel(r['R2']!, r['load']!); return { out: (10 * low) / (r['R1']! + low) }; };
const feed = (r: Readonly<Record<string, number>>): Readonly<Record<string, number>> => {
  const current = 12 / (r['fuse']! + r['switch']! + r['lamp']! + r['ground']!);
  return { afterFuse: 12 - current * r['fuse']!, afterSwitch: 12 - current * (r['fuse']! + r['switch']!), lampGround: current * r['ground']! };
};

const lamps = { whole: { L1: 4, L2: 4, L3: 4 }, readings: series, ends: { L1: ['s', 'a'], L2: ['a', 'b'], L3: ['b', 'chassis'] }, supply: 12, read: { L1: ['s', 'a'], L2: ['a', 'b'], L3: ['b', 'chassis'] } } as const;
const pair = { whole: { W: 0.5, R1: 6, R2: 12 }, readings: branches, ends: { W: ['s', 'a'], R1: ['a', 'chassis'], R2: ['a', 'chassis'] }, supply: 12, read: { total: 'current', R1: ['a', 'chassis'] } } as const;
const rungs = { whole: { R1: 100, R2: 300, R3: 100, R4: 200 }, readings: ladder, ends: { R1: ['s', 'a'], R2: ['a', 'chassis'], R3: ['a', 'b'], R4: ['b', 'chassis'] }, supply: 24, read: { total: 'current', R2: ['a', 'chassis'], R4: ['b', 'chassis'] } } as const;
const loaded = { whole: { R1: 1000, R2: 1000, load: 10000 }, readings: divider, ends: { R1: ['s', 'a'], R2: ['a', 'chassis'], load: ['a', 'chassis'] }, supply: 10, read: { out: ['a', 'chassis'] } } as const;
const wire = { whole: { fuse: 0.01, switch: 0.01, lamp: 3, ground: 0.01 }, readings: feed, ends: { fuse: ['s', 'a'], switch: ['a', 'b'], lamp: ['b', 'c'], ground: ['c', 'chassis'] }, supply: 12, read: { afterFuse: ['a', 'chassis'], afterSwitch: ['b', 'chassis'], lampGround: ['c', 'chassis'] } } as const;

const exercises: readonly Exercise[] = [
  { name: 'three lamps in series, all dark, 12 V across the second', ...lamps, given: { L1: 0, L2: 12, L3: 0 }, answer: ['L2 open'] },
  { name: 'three lamps in series, two of them bright, 0 V across the first', ...lamps, given: { L1: 0, L2: 6, L3: 6 }, answer: ['L1 shorted'] },
  { name: 'two resistors in parallel, 1.85 A instead of 2.67 A', ...pair, given: { total: 12 / 6.5 }, answer: ['R2 open'] },
  { name: 'two resistors in parallel, 0.96 A instead of 2.67 A', ...pair, given: { total: 12 / 12.5 }, answer: ['R1 open'] },
  { name: 'two resistors in parallel, 24 A and no voltage across them: which of the two is shorted cannot be told', ...pair, given: { total: 24, R1: 0 }, answer: ['R1 shorted', 'R2 shorted'] },
  { name: 'a ladder with all it has at the first rung and nothing at the last', ...rungs, given: { total: 0.06, R2: 18, R4: 0 }, answer: ['R3 open'] },
  { name: 'a ladder whose last rung has all the voltage of the first', ...rungs, given: { R2: (24 * 120) / 220, R4: (24 * 120) / 220 }, answer: ['R3 shorted'] },
  { name: 'a divider that gives nearly all of the supply', ...loaded, given: { out: (10 * 10000) / 11000 }, answer: ['R2 open'] },
  { name: 'a divider that gives exactly half: its load hangs in the air', ...loaded, given: { out: 5 }, answer: ['load open'] },
  { name: 'a dim lamp with 12 V at its feed and 3 V at its ground', ...wire, given: { afterFuse: 11.97, afterSwitch: 11.94, lampGround: 3 }, answer: ['ground bad'] },
  { name: 'a dark lamp with 12 V before the switch and none behind', ...wire, given: { afterFuse: 12, afterSwitch: 0, lampGround: 0 }, answer: ['switch open'] },
  { name: 'a dark lamp with 12 V at its ground', ...wire, given: { afterFuse: 12, afterSwitch: 12, lampGround: 12 }, answer: ['ground open'] },
];

/** Every element open, shorted, and (where it should be next to nothing) bad with 1 ohm. */
function faultsOf({ whole }: Exercise): readonly { readonly name: string; readonly r: Readonly<Record<string, number>> }[] {
  return [{ name: 'none', r: whole }, ...Object.entries(whole).flatMap(([name, ohms]) => [
    { name: `${name} open`, r: { ...whole, [name]: OPEN } },
    ...(ohms > 0.5 ? [{ name: `${name} shorted`, r: { ...whole, [name]: SHORT } }] : []),
    ...(ohms < 0.5 ? [{ name: `${name} bad`, r: { ...whole, [name]: 1 } }] : []),
  ])];
}

describe.each(exercises)('$name', (exercise) => {
  const faults = faultsOf(exercise);
  const forecasts = Object.keys(exercise.given).map((reading): ValueForecast => ({ is: 'value', means: Float64Array.from(faults, ({ r }) => exercise.readings(r)[reading]!), spread: (mean) => 0.02 + 0.005 * Math.abs(mean), range: [-50, 50] }));
  it('is the fault that the exercise names', () => {
    const chances = posterior(logPriors(faults.map(() => 1)), forecasts.map((forecast, index) => ({ forecast, outcome: Object.values(exercise.given)[index]! })));
    const order = [...faults.keys()].sort((a, b) => chances[b]! - chances[a]!);
    const [group] = groupsOf(forecasts, order);
    expect(group!.map((index) => faults[index]!.name).sort()).toEqual([...exercise.answer].sort());
    expect(group!.reduce((sum, index) => sum + chances[index]!, 0)).toBeGreaterThan(0.9);
  });
  it('reads as our solver says', () => {
    for (const { name, r } of faults) {
      if (Object.keys(exercise.given).some((reading) => Math.abs(exercise.readings(r)[reading]!) > 1e3)) continue;
      const elements: Element[] = [{ type: 'source', id: 'supply', a: 's', b: 'chassis', voltage: exercise.supply, resistance: 0 }, ...Object.entries(exercise.ends).map(([id, [a, b]]): Element => ({ type: 'resistor', id, a, b, resistance: r[id]! }))];
      const result = solveAtRest({ nodes: ['s', 'a', 'b', 'c', 'chassis'].filter((node) => elements.some((element) => element.type !== 'converter' && (element.a === node || element.b === node))), elements });
      if (result.outcome !== 'solved') throw new Error(result.outcome);
      for (const [reading, where] of Object.entries(exercise.read)) {
        const solved = where === 'current' ? -result.currentOf('supply') : result.voltageOf(where[0]) - result.voltageOf(where[1]);
        expect(Math.abs(solved - exercise.readings(r)[reading]!), `${name}: ${reading}`).toBeLessThan(1e-3 + 1e-4 * Math.abs(solved));
      }
    }
  });
});
