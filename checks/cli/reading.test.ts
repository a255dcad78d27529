/** halfshaft reading, as a person meets it: the built program on a copy of the demo van. */
import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { readLog } from '../../core/readings/log.ts';
import { root } from '../architecture/imports.ts';

const folder = mkdtempSync(join(tmpdir(), 'halfshaft-reading-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
cpSync(join(root, 'examples/bakery-van'), folder, { recursive: true });
const call = (...args: readonly string[]): { readonly code: number | null; readonly out: string; readonly err: string } => {
  const done = spawnSync(process.execPath, [join(root, 'dist/program/main.cjs'), 'reading', folder, ...args], { encoding: 'utf8', cwd: root, env: { ...process.env, NO_COLOR: '1' }, timeout: 60_000 });
  return { code: done.status, out: done.stdout, err: done.stderr };
};

it('judges a reading of a step, writes it down, and names a module that is in the wrong way round', () => {
  const { code, out } = call('--step', 'join.voltage.M1', '--value', '240.1 V', '--who', 'Ada', '--note', 'steady, "quiet"');
  expect(out).toMatch(/■ outside[^]*below what is expected[^]*reversed[^]*hold point[^]*Written into readings\.csv/i);
  expect(code).toBe(1);
  const { readings, problems } = readLog(readFileSync(join(folder, 'readings.csv'), 'utf8'));
  expect(problems).toEqual([]);
  expect(readings).toMatchObject([{ step: 'join.voltage.M1', points: ['M7.pos', 'M1.neg'], reading: '240.1 V', verdict: 'outside', who: 'Ada', note: 'steady, "quiet"', procedure: 'power-up' }]);
  const right = call('--step', 'join.voltage.M1', '--value', '336.2 V', '--corrects', readings[0]!.id, '--json');
  expect([right.code, JSON.parse(right.out)]).toMatchObject([0, { verdict: 'agrees', reading: { replaces: readings[0]!.id } }]);
});
it('judges between any two points in a mode', () => {
  expect(call('--between', 'K_pos.out', 'K_neg.out', '--mode', 'drive', '--value', '330 V')).toMatchObject({ code: 0, out: expect.stringContaining('✓ agrees') });
  expect(call('--between', 'K_pos.out', 'K_neg.out', '--mode', 'drive', '--value', '-330 V')).toMatchObject({ code: 1, out: expect.stringContaining('wrong sign') });
});
it('takes an answer where nothing is measured, and lists the log with where to go on', () => {
  expect(call('--step', 'prepare.vehicle', '--seen', 'yes').code).toBe(0);
  const list = call('--list');
  expect(list.out).toMatch(/replaced[^]*prepare\.vehicle[^]*go on with prepare\.people/);
  const json = JSON.parse(call('--list', '--json').out) as { readings: { counts: boolean }[]; goes_on: string };
  expect(json.readings.map(({ counts }) => counts)).toEqual([false, true, true, true, true]);
  expect(json.goes_on).toBe('prepare.people');
});
it('exits 2 with one clear message for a wrong call, and writes nothing then', () => {
  const before = readFileSync(join(folder, 'readings.csv'), 'utf8');
  for (const [args, says] of [
    [['--step', 'join.H6', '--value', '1 V'], /no step join\.H6; did you mean join\.H06/], [['--value', '1 V'], /--step/], [['--step', 'join.H06', '--value', '1 Ω'], /voltage/],
    [['--step', 'join.H06', '--value', 'OL'], /beyond its range/], [['--step', 'prepare.vehicle', '--value', '1 V'], /--seen/], [['--between', 'M1.pos', '--value', '1 V'], /two points/], [['--step', 'join.H06', '--value', '1 V', '--corrects', 'nobody'], /nobody/],
  ] as const) expect(call(...args)).toMatchObject({ code: 2, out: '', err: expect.stringMatching(says) });
  expect(readFileSync(join(folder, 'readings.csv'), 'utf8')).toBe(before);
}, 120_000);
