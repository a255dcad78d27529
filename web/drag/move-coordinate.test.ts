import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { words } from '../../catalogue/words.ts';
import { editBuild } from '../../core/build/edit-build.ts';
import { readBuild } from '../../core/build/read-build.ts';
import { valueAt } from '../../sheets/shown.ts';
import { moveCoordinates } from './move-coordinate.ts';

describe('moveCoordinates', () => {
  test.each([
    [['1040', '-130', '262 mm ±10 measured'], [0, 0, 0.01], [undefined, undefined, '272 mm ±10 estimate']],
    [['1040', '-130', '262 mm ±10 measured'], [0.01, -0.01, 0], ['1050', '-140', '262 mm ±10 estimate']],
    [['1.04 m', '-130', '262 mm'], [0.01, 0.13, 0], ['1.05 m', '0', undefined]],
    [['980', '-310', '13 1/2 in estimate'], [0, 0, 0.0254], [undefined, undefined, '14.5 in estimate']],
    [['5 ft 3 in ±1 in', '0', '0 mm'], [0.3048, 0, 0], ['6.25 ft ±1 in', undefined, undefined]],
    [['~ 200 mm', '190..210 mm', '262 ±10 mm'], [0.01, 0.02, 0.03], ['~ 210 mm', '210..230 mm', '292 ±10 mm']],
    [['10', '20', '30'], [0.01, 0, 0], undefined],
    [['here', '20', '30 mm'], [0.01, 0, 0], undefined],
    [['here', '20', '30 mm'], [0, 0.01, 0], [undefined, '30', undefined]],
    [['1', '2'], [0, 0.01, 0], undefined],
  ] as const)('%j by %j', (written, by, expected) => {
    expect(moveCoordinates(written, by)).toEqual(expected);
  });

  test('what the reader makes of it has moved as far as it should, with the same tolerance, as an estimate', () => {
    const text = readFileSync('examples/bakery-van/build.yaml', 'utf8');
    const before = valueAt(readBuild(text, words), 'parts.M1.at') as readonly { nominal: number; low: number; high: number; basis: string }[];
    const step = fc.integer({ min: -200, max: 200 }).map((count) => count / 1000);
    fc.assert(fc.property(fc.tuple(step, step, step), (by) => {
      let now = text;
      for (const [axis, to] of (moveCoordinates(['1040', '-130', '262 mm ±10 measured'], by) ?? []).entries()) {
        if (to === undefined) continue;
        const result = editBuild(now, { do: 'set', path: `parts.M1.at.${'xyz'[axis]}`, to }, words);
        if (!result.ok) throw new Error(result.problem.message);
        now = result.text;
      }
      const after = valueAt(readBuild(now, words), 'parts.M1.at') as typeof before;
      for (const axis of [0, 1, 2] as const) {
        expect(after[axis]?.nominal).toBeCloseTo((before[axis]?.nominal ?? 0) + by[axis], 9);
        expect((after[axis]?.high ?? 0) - (after[axis]?.low ?? 0)).toBeCloseTo((before[axis]?.high ?? 0) - (before[axis]?.low ?? 0), 9);
        expect(after[axis]?.basis).toBe(by.some((distance) => distance !== 0) ? 'estimate' : before[axis]?.basis);
      }
    }), { numRuns: 8 });
  });
});
