import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lettersInTrouble } from '../table/text-boxes.ts';
import { niceAxis, niceStep } from './axis.ts';
import { crosses, overlap, placeLabels } from './place-labels.ts';
import { TimePlot } from './time-plot.tsx';
import type { Plot } from './time-plot.tsx';

const metric = { system: 'metric' } as const;

describe('an axis', () => {
  it('holds what must be on it, with round ticks evenly apart', () => {
    fc.assert(fc.property(fc.double({ min: 1e-6, max: 1e6, noNaN: true }), (most) => {
      const axis = niceAxis('voltage', 'voltage', 0, most, metric);
      expect(axis.from).toBe(0);
      expect(axis.to).toBeGreaterThanOrEqual(most * (1 - 1e-9));
      expect(axis.ticks.length).toBeGreaterThanOrEqual(3);
      expect(axis.ticks.length).toBeLessThanOrEqual(12);
      const steps = axis.ticks.slice(1).map(({ at }, index) => at - axis.ticks[index]!.at);
      for (const step of steps) expect(step / steps[0]!).toBeCloseTo(1, 6);
      expect(new Set(axis.ticks.map(({ text }) => text)).size).toBe(axis.ticks.length);
    }));
  });
  it('names the unit that its numbers are in', () => {
    expect(niceAxis('time', 'time', 0, 0.5, metric)).toMatchObject({ unit: 'ms', to: 0.5 });
    expect(niceAxis('time', 'time', 0, 0.5, metric).ticks.at(-1)!.text).toBe('500');
  });
  it('steps by 1, 2 or 5', () => { expect([0.9, 1.1, 3, 7, 45].map(niceStep)).toEqual([1, 2, 5, 10, 50]); });
});

describe('labels', () => {
  it('take the first place that is free', () => {
    const box = { width: 10, height: 4, candidates: [{ x: 0, y: 0 }, { x: 20, y: 0 }] };
    const [first, second] = placeLabels([box, box], [], { x: 0, y: 0, width: 100, height: 100 });
    expect([first!.x, second!.x]).toEqual([0, 20]);
    expect(overlap(first!, second!)).toBe(0);
    expect(placeLabels([box], [{ x1: -5, y1: 2, x2: 12, y2: 2 }], { x: -10, y: -10, width: 100, height: 100 })[0]!.x).toBe(20);
  });
  it('know a line that passes through from one that passes by', () => {
    const box = { x: 10, y: 10, width: 10, height: 10 };
    expect(crosses({ x1: 0, y1: 0, x2: 30, y2: 30 }, box)).toBe(true);
    expect(crosses({ x1: 0, y1: 0, x2: 30, y2: 0 }, box)).toBe(false);
    expect(crosses({ x1: 0, y1: 0, x2: 9, y2: 9 }, box)).toBe(false);
  });
});

it('a plot keeps its labels clear of each other', () => {
  const plot: Plot = {
    time: niceAxis('time', 'time', 0, 0.6, metric), value: niceAxis('voltage', 'voltage', 0, 380, metric),
    curves: [{ name: 'capacitors', points: Array.from({ length: 41 }, (_, k) => [k * 0.015, 350 * (1 - Math.exp(-k * 0.15))] as const), tone: 'highVoltage', line: 'solid' }],
    levels: [{ value: 352, text: 'full pack 352 V', tone: 'ink', line: 'dashed' }, { value: 335, text: '95 % of it', tone: 'muted', line: 'chain' }],
    moments: [{ time: 0.5, text: 'the main contactor closes after 500 ms', tone: 'ink', line: 'chain' }],
    points: [{ time: 0.27, value: 335, text: '95 % after 270 ms', tone: 'ink' }, { time: 0.5, value: 350, text: '2.1 V left', tone: 'ink' }],
  };
  expect(lettersInTrouble(<TimePlot plot={plot} x={0} y={0} width={220} height={94} />)).toEqual([]);
});
