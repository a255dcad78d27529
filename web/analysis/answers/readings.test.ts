import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { words } from '../../../catalogue/words.ts';
import { printLog } from '../../../core/readings/log.ts';
import type { Reading } from '../../../core/readings/reading.ts';
import { keptAnalysis } from '../../../study/kept-analysis.ts';
import { answerGuide, answerJudge, answerProposals } from './readings.ts';

const text = readFileSync(join(import.meta.dirname, '../../../examples/bakery-van/build.yaml'), 'utf8');
const kept = keptAnalysis(words);
const guide = answerGuide({ text, log: '', procedure: 'power-up' }, kept);
const place = (id: string): number => guide.steps.findIndex((step) => step.id === id);

test('every step that is measured can be entered in a unit of its quantity, and only behind the hold points before it', () => {
  expect(guide.goOn).toBe(0);
  for (const { isMeasured, units, unit, quantity } of guide.steps) if (isMeasured) expect([quantity !== undefined, units.includes(unit)]).toEqual([true, true]);
  expect(guide.steps[place('insulation.H05')]).toMatchObject({ isMeasured: true, quantity: 'resistance', limit: 'at least 100 MΩ', heldBy: 0 });
});
test('a changed build: a step about another part than before must be repeated, mere numbers leave it', () => {
  const step = guide.steps[place('join.voltage.M1')]!;
  const reading: Reading = { id: 'r1', when: '2026-11-25T14:30:00Z', who: '', procedure: 'power-up', step: step.id, state: step.state, points: step.points, quantity: 'voltage', reading: '336 V', instrument: '', verdict: 'agrees', revision: '', restsOn: step.restsOn, replaces: '', note: '', more: [] };
  const status = (of: string): string | undefined => answerGuide({ text: of, log: printLog([reading]), procedure: 'power-up' }, kept).steps.find(({ id }) => id === step.id)?.status;
  expect(status(text)).toBe('passed');
  const heavier = text.replace('mass: 25.3 kg ±0.2 measured', 'mass: 25.5 kg ±0.2 measured');
  expect(heavier).not.toBe(text);
  expect(status(heavier)).toBe('passed');
  const fewer = text.replace(/series: 12/, 'series: 11');
  expect(fewer).not.toBe(text);
  expect(status(fewer)).toBe('repeat');
});
test('the verdict comes first, what it means after it; both say the same', () => {
  const asks = { text, log: '', procedure: 'power-up', step: 'join.voltage.M1', reading: '240.1 V', isObservation: false } as const;
  const [first, then] = [answerJudge({ ...asks, hasMeanings: false }, kept), answerJudge({ ...asks, hasMeanings: true }, kept)];
  expect(first).toMatchObject({ ok: true, word: 'outside', meanings: [] });
  expect({ ...then, meanings: [] }).toEqual(first);
  expect(then.ok && then.meanings[0]?.says).toMatch(/^One of M1, .*M7 appears reversed: \+240\.1 V from M7\.pos to M1\.neg where \+335\.4 V is expected$/);
  expect(answerJudge({ ...asks, step: 'gone', hasMeanings: false }, kept)).toMatchObject({ ok: false });
});
test('the assembly beside it: each module and joint, judged with what was read before, and better numbers from what agrees', () => {
  const assembly = answerGuide({ text, log: '', procedure: 'assembly' }, kept);
  expect(assembly.steps[0]).toMatchObject({ id: 'assembly.M1.voltage', isHoldPoint: true, units: expect.arrayContaining(['V']), probes: [{ lead: 'red', on: 'M1.pos' }, { lead: 'black', on: 'M1.neg' }] });
  const line = (id: string, reading: string): Reading => ({ id: `r${id.replaceAll('.', '-')}`, when: '2026-11-26T02:00:00Z', who: '', procedure: 'assembly', step: id, state: '', points: [], quantity: 'voltage', reading, instrument: '', verdict: 'agrees', revision: '', restsOn: '', replaces: '', note: '', more: [] });
  const log = printLog([line('assembly.M1.voltage', '47.60 V'), line('assembly.M2.voltage', '47.95 V')]);
  expect(answerProposals({ text, log }, kept)).toMatchObject([{ path: 'parts.M1.measured_voltage', text: '47.60 V ±0.26 measured' }]);
  expect(answerGuide({ text, log, procedure: 'assembly' }, kept).steps.slice(0, 3).map(({ status }) => status)).toEqual(['passed', 'passed', 'open']);
  const joint = assembly.steps.find(({ id, shouldRead }) => id.endsWith('.after') && shouldRead?.startsWith('95.'))!;
  const verdict = answerJudge({ text, log, procedure: 'assembly', step: joint.id, reading: '0.03 V', isObservation: false, hasMeanings: true }, kept);
  expect(verdict).toMatchObject({ ok: true, word: 'outside' });
});
