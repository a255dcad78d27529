/** `halfshaft failures` as a person meets it. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { lowVoltageCar } from '../fixtures/low-voltage-car.ts';
import { call } from './call.ts';
import type { Called } from './call.ts';

const folder = mkdtempSync(join(tmpdir(), 'halfshaft-failures-'));
writeFileSync(join(folder, 'build.yaml'), lowVoltageCar);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const failures = (...args: readonly string[]): Promise<Called> => call('failures', folder, ...args);

interface Printed { version: number; failures: { id: string; severity: string; modes: { mode: string }[] }[]; severities: { name: string; count: number }[]; findings: { code: string; level: string }[] }

describe('halfshaft failures', () => {
  it('prints failures worst first, with what happens and what tells', async () => {
    const all = await failures();
    expect(all.code).toBe(0);
    expect(all.out.split('\n')[0]).toMatch(/^Low-voltage bench: \d+ single failures$/);
    expect(all.out.indexOf('dangerous at once')).toBeLessThan(all.out.indexOf('something does not work'));
    expect(all.out).toMatch(/Tells: /);
    expect(all.out).not.toMatch(/NaN|undefined|\[object|\bsafe\b/);
    for (const line of all.out.split('\n')) expect(line.length, line).toBeLessThanOrEqual(110);
  });
  it('gives the same as JSON, and parts of it', async () => {
    const whole = JSON.parse((await failures('--json')).out) as Printed;
    expect(whole.version).toBe(1);
    expect(whole.severities.reduce((sum, { count }) => sum + count, 0)).toBe(whole.failures.length);
    const stops = JSON.parse((await failures('--json', '--severity', 'stops')).out) as Printed;
    expect(stops.failures).toEqual(whole.failures.filter(({ severity }) => severity === 'stops'));
    const off = JSON.parse((await failures('--json', '--mode', 'off')).out) as Printed;
    expect(off.failures.length).toBeGreaterThan(0);
    expect(off.failures.every(({ modes }) => modes.every(({ mode }) => mode === 'off'))).toBe(true);
  });
  it('chooses by what tells, by part or run, and by words', async () => {
    interface Chosen { failures: { id: string; noticed: boolean; about: string[]; words: string }[] }
    const chosen = async (...args: readonly string[]): Promise<Chosen['failures']> => (JSON.parse((await failures('--json', ...args)).out) as Chosen).failures;
    const whole = await chosen();
    const untold = await chosen('--told', 'no');
    expect(untold).toEqual(whole.filter(({ noticed }) => !noticed));
    expect((await chosen('--told', 'yes')).length + untold.length).toBe(whole.length);
    expect(await chosen('--about', 'KP')).toEqual(whole.filter(({ about }) => about.includes('KP')));
    const worded = await chosen('--words', 'FUSE opens');
    expect(worded.length).toBeGreaterThan(0);
    expect(worded.length).toBeLessThan(whole.length);
    expect((await failures('--told', 'no', '--about', 'KP')).out.split('\n')[0]).toMatch(/single failures, about KP, that nothing tells of$/);
    expect(await failures('--about', 'KQ')).toMatchObject({ code: 2, out: '' });
  });
  it('refuses a mode or a severity that is not there, and names those that are', async () => {
    expect(await failures('--mode', 'driv')).toMatchObject({ code: 2, out: '', err: expect.stringMatching(/did you mean drive/) });
    expect((await failures('--severity', 'grave')).err).toMatch(/danger, hidden, guard/);
  });
});
