import { describe, expect, it } from 'vitest';
import { elementsOf, partNow, portsOf, solvedOnBench } from '../../checks/fixtures/part-on-bench.ts';
import type { Element } from '../solve/element.ts';
import { failuresOf } from '../part/kind.ts';
import { pedal } from './pedal.ts';

const fields = { low_1: 0.16, high_1: 0.84, low_2: undefined, high_2: undefined, tracks: undefined, track_resistance: 2000 };
const bench: Element[] = [1, 2].flatMap((n): Element[] => [
  { type: 'resistor', id: `ground_${n}`, a: `X.ground_${n}`, b: 'chassis', resistance: 0 },
  { type: 'source', id: `supply_${n}`, a: `X.supply_${n}`, b: 'chassis', voltage: 5, resistance: 0 },
]);
const signals = (travel: number | undefined): number[] => {
  const solved = solvedOnBench(elementsOf(pedal, fields, travel === undefined ? {} : { travel }), bench);
  return ['X.signal_1', 'X.signal_2'].map((point) => solved.voltageOf(point));
};

describe('a pedal', () => {
  it('shows its shares of the supply at rest, half pressed and pressed; track 2 rises by half', () => {
    for (const [travel, share] of [[undefined, 0.16], [0.5, 0.5], [1, 0.84]] as const) {
      expect(signals(travel)[0]).toBeCloseTo(5 * share, 9);
      expect(signals(travel)[1]).toBeCloseTo(2.5 * share, 9);
    }
  });
  it('has one track when it is told so, and no failure of the other', () => {
    expect(portsOf(pedal, { tracks: 1 }).map(({ name }) => name)).toEqual(['supply_1', 'ground_1', 'signal_1']);
    expect(failuresOf(pedal, partNow(pedal, { ...fields, tracks: 1 }) as never).map(({ code }) => code).filter((code) => /2|touch/.test(code))).toEqual([]);
  });
  it('whose signals touch shows the same on both', () => {
    const touch = failuresOf(pedal, partNow(pedal, fields) as never).find(({ code }) => code === 'tracks_touch')!.changes({} as never)[0] as { a: string; b: string; resistance: number };
    const solved = solvedOnBench(elementsOf(pedal, fields), [...bench, { type: 'resistor', id: 'touch', a: `X.${touch.a}`, b: `X.${touch.b}`, resistance: touch.resistance }]);
    expect(solved.voltageOf('X.signal_1')).toBeCloseTo(solved.voltageOf('X.signal_2'), 2);
    // two dividers of 2 kΩ side by side: their open voltages, weighed by their conductances
    const [g1, g2] = [1 / (2000 * 0.16 * 0.84), 1 / (2000 * 0.08 * 0.92)];
    expect(solved.voltageOf('X.signal_1')).toBeCloseTo((5 * 0.16 * g1 + 5 * 0.08 * g2) / (g1 + g2), 2);
  });
});
