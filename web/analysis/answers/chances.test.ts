import { expect, test } from 'vitest';
import { words } from '../../../catalogue/words.ts';
import { small } from '../../../checks/e2e/small-build.ts';
import { analyse, topics, withChances } from '../../../core/analyse.ts';
import { answerStore } from '../../../core/car/ask-network.ts';
import { joinMargins, sampleMargins } from '../../../core/chance/sample-margins.ts';
import { countLevels } from '../../../sheets/levels.ts';
import { findingRow } from '../../../study/finding-row.ts';
import { chancesOf } from './chances.ts';

test('all draws together say what the command line says, part of them something in between', () => {
  const [draws, seed, store] = [60, 1, answerStore()];
  const analysis = analyse(small, words, { store });
  const ranges = [0, 20, 40].map((first) => { const request = { draws, seed, first, end: first + 20 }; return { request, margins: sampleMargins(analysis.prepared, topics, request, store) }; });
  const whole = withChances(analysis, joinMargins(ranges), { draws, seed });
  const all = chancesOf(analysis, joinMargins(ranges), { made: draws, draws, seed });
  expect(all.counts).toEqual(countLevels(whole.findings));
  expect(all.open).toEqual(whole.findings.filter(({ level }) => level !== 'holds').map(findingRow));
  expect(all.next.do).toBe(whole.next.do);
  const some = chancesOf(analysis, joinMargins(ranges.slice(0, 2)), { made: 40, draws, seed });
  expect(some.draws).toBe(40);
  const chance = (of: typeof all, key: string | undefined): number => of.open.find((row) => row.key === key)?.chance ?? 1;
  const doubtful = all.open.find((row) => row.chance !== undefined && row.chance > 0 && row.chance < 1);
  expect(Math.abs(chance(some, doubtful?.key) - chance(all, doubtful?.key))).toBeLessThanOrEqual(20 / 60);
});
