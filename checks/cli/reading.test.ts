/** halfshaft reading, as a person meets it, on a copy of the demo van. */
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { readLog } from '../../core/readings/log.ts';
import { root } from '../architecture/imports.ts';
import { call } from './call.ts';
import type { Called } from './call.ts';

const folder = mkdtempSync(join(tmpdir(), 'halfshaft-reading-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
cpSync(join(root, 'examples/bakery-van'), folder, { recursive: true });
const reading = (...args: readonly string[]): Promise<Called> => call('reading', folder, ...args);

it('judges a reading of a step, writes it down, and names a module that is in the wrong way round', async () => {
  const { code, out } = await reading('--step', 'join.voltage.M1', '--value', '240.1 V', '--who', 'Ada', '--note', 'steady, "quiet"');
  expect(out).toMatch(/■ outside[^]*below what is expected[^]*reversed[^]*hold point[^]*Written into readings\.csv/i);
  expect(code).toBe(1);
  const { readings, problems } = readLog(readFileSync(join(folder, 'readings.csv'), 'utf8'));
  expect(problems).toEqual([]);
  expect(readings).toMatchObject([{ step: 'join.voltage.M1', points: ['M7.pos', 'M1.neg'], reading: '240.1 V', verdict: 'outside', who: 'Ada', note: 'steady, "quiet"', procedure: 'power-up' }]);
  const right = await reading('--step', 'join.voltage.M1', '--value', '336.2 V', '--corrects', readings[0]!.id, '--json');
  expect([right.code, JSON.parse(right.out)]).toMatchObject([0, { verdict: 'agrees', reading: { replaces: readings[0]!.id } }]);
});
it('judges between any two points in a mode', async () => {
  expect(await reading('--between', 'K_pos.out', 'K_neg.out', '--mode', 'drive', '--value', '330 V')).toMatchObject({ code: 0, out: expect.stringContaining('✓ agrees') });
  expect(await reading('--between', 'K_pos.out', 'K_neg.out', '--mode', 'drive', '--value', '-330 V')).toMatchObject({ code: 1, out: expect.stringContaining('wrong sign') });
});
it('takes an answer where nothing is measured, and lists the log with where to go on', async () => {
  expect((await reading('--step', 'prepare.vehicle', '--seen', 'yes')).code).toBe(0);
  const list = await reading('--list');
  expect(list.out).toMatch(/replaced[^]*prepare\.vehicle[^]*go on with prepare\.people/);
  const json = JSON.parse((await reading('--list', '--json')).out) as { readings: { counts: boolean }[]; goes_on: string };
  expect(json.readings.map(({ counts }) => counts)).toEqual([false, true, true, true, true]);
  expect(json.goes_on).toBe('prepare.people');
});
it('takes the assembly in short, a minus in front too, and names what is wrong by all that was read', async () => {
  const turned = await reading('assembly.M4.voltage', '-47.9 V', '--who', 'Ada');
  expect(turned).toMatchObject({ code: 1, out: expect.stringMatching(/M4: appears reversed: -47\.9 V where \+47\.93 V is expected/) });
  expect(await reading('assembly.M4.voltage', '47.9 V')).toMatchObject({ code: 0, out: expect.stringContaining('✓ agrees') });
  // the hold points before it are not passed: it is told, and written down all the same
  expect(await reading('assembly.H02.before', '0.9 V')).toMatchObject({ code: 0, out: expect.stringMatching(/■ The hold point assembly\.M1\.voltage/) });
  const last = readLog(readFileSync(join(folder, 'readings.csv'), 'utf8')).readings.at(-1)!;
  expect(last).toMatchObject({ procedure: 'assembly', step: 'assembly.H02.before', quantity: 'voltage', state: expect.stringContaining('contactors open') });
  expect(last.restsOn).toMatch(/^[0-9a-f]{8}\/-?[\d.e-]+$/);
}, 120_000);
it('proposes better numbers, writes one when asked, and tells what must be done again', async () => {
  expect((await reading('assembly.M1.voltage', '47.60 V')).code).toBe(0);
  expect((await reading('coils.PRE.contact', '98.4 Ω')).code).toBe(0);
  const before = readFileSync(join(folder, 'build.yaml'), 'utf8');
  const { proposals } = JSON.parse((await reading('--proposals', '--json')).out) as { proposals: { number: number; path: string; text: string; instead: string }[] };
  expect(proposals).toMatchObject([{ number: 1, path: 'parts.M1.measured_voltage', text: '47.60 V ±0.26 measured', instead: '47.92 V ±0.03 measured' }, { number: 2, path: 'parts.PRE.resistance' }]);
  expect(readFileSync(join(folder, 'build.yaml'), 'utf8')).toBe(before);
  expect(await reading('--apply', '3')).toMatchObject({ code: 2, err: expect.stringContaining('--apply') });
  expect(await reading('--apply', '1')).toMatchObject({ code: 0, out: expect.stringContaining('parts.M1.measured_voltage is 47.60 V ±0.26 measured now') });
  expect(readFileSync(join(folder, 'build.yaml'), 'utf8')).toBe(before.replace('47.92 V ±0.03 measured', '47.60 V ±0.26 measured'));
  expect((await reading('--proposals')).out).toMatch(/^1 {2}parts\.PRE\.resistance: 98\.4 Ω ±1\.\d measured\n/);
  writeFileSync(join(folder, 'build.yaml'), before.replace('resistance: 100 Ω ±5 %', 'resistance: 103 Ω ±5 %'));
  expect((await reading('--list')).out).toMatch(/To be done again, because the build has changed in what they rest on: coils\.PRE\.contact\./);
  writeFileSync(join(folder, 'build.yaml'), before);
}, 120_000);
it('exits 2 with one clear message for a wrong call, and writes nothing then', async () => {
  const before = readFileSync(join(folder, 'readings.csv'), 'utf8');
  for (const [args, says] of [
    [['--step', 'join.H6', '--value', '1 V'], /no step join\.H6; did you mean join\.H06/], [['--value', '1 V'], /--step/], [['--step', 'join.H06', '--value', '1 Ω'], /voltage/],
    [['--step', 'join.H06', '--value', 'OL'], /beyond its range/], [['--step', 'prepare.vehicle', '--value', '1 V'], /--seen/], [['--between', 'M1.pos', '--value', '1 V'], /two points/], [['--step', 'join.H06', '--value', '1 V', '--corrects', 'nobody'], /nobody/],
    [['assembly.H6.before', '1 V'], /did you mean assembly\.H06\.before/], [['assembly.H06.before', '1', 'V'], /in quotes/], [['assembly.H06.before', '1 V', '--whom', 'Ada'], /unknown option '--whom'/],
  ] as const) expect(await reading(...args)).toMatchObject({ code: 2, out: '', err: expect.stringMatching(says) });
  expect(readFileSync(join(folder, 'readings.csv'), 'utf8')).toBe(before);
}, 120_000);
