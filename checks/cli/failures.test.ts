/** `halfshaft failures` as a person meets it: the built program, run as a process. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { root } from '../architecture/imports.ts';
import { lowVoltageCar } from '../fixtures/low-voltage-car.ts';

const folder = mkdtempSync(join(tmpdir(), 'halfshaft-failures-'));
writeFileSync(join(folder, 'build.yaml'), lowVoltageCar);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function halfshaft(...args: readonly string[]): { readonly code: number | null; readonly out: string; readonly err: string } {
  const done = spawnSync(process.execPath, [join(root, 'dist/program/main.cjs'), 'failures', folder, ...args], { encoding: 'utf8', cwd: root, env: { ...process.env, NO_COLOR: '1' }, timeout: 60_000, maxBuffer: 64e6 });
  return { code: done.status, out: done.stdout, err: done.stderr };
}

interface Printed { version: number; failures: { id: string; severity: string; modes: { mode: string }[] }[]; severities: { name: string; count: number }[]; findings: { code: string; level: string }[] }

describe('halfshaft failures', () => {
  const all = halfshaft();
  it('prints failures worst first, with what happens and what tells', () => {
    expect(all.code).toBe(0);
    expect(all.out.split('\n')[0]).toMatch(/^Low-voltage bench: \d+ single failures$/);
    expect(all.out.indexOf('dangerous at once')).toBeLessThan(all.out.indexOf('something does not work'));
    expect(all.out).toMatch(/Tells: /);
    expect(all.out).not.toMatch(/NaN|undefined|\[object|\bsafe\b/);
    for (const line of all.out.split('\n')) expect(line.length, line).toBeLessThanOrEqual(110);
  });
  it('gives the same as JSON, and parts of it', () => {
    const whole = JSON.parse(halfshaft('--json').out) as Printed;
    expect(whole.version).toBe(1);
    expect(whole.severities.reduce((sum, { count }) => sum + count, 0)).toBe(whole.failures.length);
    const stops = JSON.parse(halfshaft('--json', '--severity', 'stops').out) as Printed;
    expect(stops.failures).toEqual(whole.failures.filter(({ severity }) => severity === 'stops'));
    const off = JSON.parse(halfshaft('--json', '--mode', 'off').out) as Printed;
    expect(off.failures.length).toBeGreaterThan(0);
    expect(off.failures.every(({ modes }) => modes.every(({ mode }) => mode === 'off'))).toBe(true);
  });
  it('chooses by what tells, by part or run, and by words', () => {
    interface Chosen { failures: { id: string; noticed: boolean; about: string[]; words: string }[] }
    const chosen = (...args: readonly string[]): Chosen['failures'] => (JSON.parse(halfshaft('--json', ...args).out) as Chosen).failures;
    const whole = chosen();
    expect(chosen('--told', 'no')).toEqual(whole.filter(({ noticed }) => !noticed));
    expect(chosen('--told', 'yes').length + chosen('--told', 'no').length).toBe(whole.length);
    expect(chosen('--about', 'KP')).toEqual(whole.filter(({ about }) => about.includes('KP')));
    const worded = chosen('--words', 'FUSE opens');
    expect(worded.length).toBeGreaterThan(0);
    expect(worded.length).toBeLessThan(whole.length);
    expect(halfshaft('--told', 'no', '--about', 'KP').out.split('\n')[0]).toMatch(/single failures, about KP, that nothing tells of$/);
    expect(halfshaft('--about', 'KQ')).toMatchObject({ code: 2, out: '' });
  });
  it('refuses a mode or a severity that is not there, and names those that are', () => {
    expect(halfshaft('--mode', 'driv')).toMatchObject({ code: 2, out: '' });
    expect(halfshaft('--mode', 'driv').err).toMatch(/did you mean drive/);
    expect(halfshaft('--severity', 'grave').err).toMatch(/danger, hidden, guard/);
  });
});
