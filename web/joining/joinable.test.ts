import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { words } from '../../catalogue/words.ts';
import { keptAnalysis } from '../../study/kept-analysis.ts';
import { outlineOf } from '../../study/outline.ts';
import { proposedRunName } from '../card/names.ts';
import { doubtAbout, proposedStock, whyNot } from './joinable.ts';

const outline = outlineOf(keptAnalysis(words).of(readFileSync('examples/bakery-van/build.yaml', 'utf8')));
const free = outline.parts.flatMap(({ ports }) => ports).filter((port) => port.free > 0);
const full = outline.parts.flatMap(({ ports }) => ports).find((port) => port.free === 0);

test('a port with room takes a run, a full one says what is on it', () => {
  expect(whyNot(free[0]?.point ?? '', outline)).toBeUndefined();
  expect(whyNot(full?.point ?? '', outline)).toMatch(/has no room: .* on it/);
  expect(whyNot('M1.poss', outline)).toMatch(/no port/);
  expect(whyNot('chassis', outline)).toMatch(/ground stud/);
  expect(whyNot(free[0]?.point ?? '', outline, free[0]?.point)).toMatch(/different/);
});
test('doubts', () => {
  const run = outline.runs[0];
  expect(doubtAbout(run?.to ?? '', run?.from ?? '', outline)).toMatch(new RegExp(`${run?.name} joins`));
  expect(doubtAbout('M1.pos', 'K_neg.coil_a', outline)).toMatch(/M1.pos carries high voltage/);
});
test('what is proposed is free, and cut from what such runs are cut from', () => {
  expect(outline.runs.map(({ name }) => name)).not.toContain(proposedRunName(outline.runs));
  const stock = proposedStock('M1.pos', 'M2.neg', outline);
  expect(outline.stock.map(({ name }) => name)).toContain(stock);
  expect(proposedStock('K_neg.coil_a', 'K_pos.coil_a', outline)).not.toBe(stock);
  expect(proposedRunName([])).toBe('W1');
});
