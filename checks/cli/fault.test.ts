/** halfshaft fault, as a person calls it. */
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { lowVoltageCar } from '../fixtures/low-voltage-car.ts';
import { call, callWith, run } from './call.ts';
import type { Called } from './call.ts';

const folder = mkdtempSync(join(tmpdir(), 'halfshaft-fault-'));
writeFileSync(join(folder, 'build.yaml'), lowVoltageCar);
afterAll(() => rmSync(folder, { recursive: true }));

const fault = (...args: readonly string[]): Promise<Called> => call('fault', folder, ...args);

const logFile = join(folder, 'readings.csv');
const log = (): string => (existsSync(logFile) ? readFileSync(logFile, 'utf8') : '');

/** Answers a line each, as somebody types them. */
const converse = (answers: readonly string[], ...args: readonly string[]): Promise<Called> => callWith(`${answers.join('\n')}\n`, ['fault', folder, '--ask', '--who', 'Ada', ...args]);

describe('a conversation of halfshaft fault', () => {
  it('keeps nothing of what is only tried', async () => {
    expect((await fault('--symptom', 'no_click')).code).toBe(0);
    expect((await fault('--symptom', 'no_click', '--json')).code).toBe(0);
    expect(existsSync(logFile)).toBe(false);
  });
  it('keeps every answer in readings.csv, goes on another time, takes back by a further line, and is ended', async () => {
    const first = await converse(['F2.a-chassis=13.6 V', 'F2.b-chassis=what', 'F2.b-chassis=3 V', 'path'], '--symptom', 'no_click');
    expect(first.code).toBe(0);
    expect(first.out).toMatch(/the value is not understood/);
    expect(first.out).toMatch(/Kept in readings\.csv as drive-1\./);
    expect(log().trimEnd().split('\r\n')).toHaveLength(4);
    expect(log()).toMatch(/,Ada,fault,drive-1,drive,symptom no_click,observation,yes,/);
    expect(log()).toMatch(/,Ada,fault,drive-1,drive,F2\.b chassis,voltage,3 V,/);
    const before = log();
    const resumed = await converse(['back', 'F2.b-chassis=0 V', 'leave'], '--resume');
    expect(resumed.out).toMatch(/1\. no contactor clicks/);
    // only added to
    expect(log().startsWith(before)).toBe(true);
    expect(log()).toMatch(/observation,withdrawn,/);
    interface Answer { readonly case: string; readonly said: readonly { readonly text: string }[]; readonly causes: readonly { readonly cause: string }[] }
    const json = JSON.parse((await fault('--resume', 'drive-1', '--json')).out) as Answer;
    expect(json).toMatchObject({ case: 'drive-1', said: [{ is: 'symptom', text: 'no_click' }, { text: 'F2.a-chassis=13.6 V' }, { text: 'F2.b-chassis=0 V' }] });
    expect(json.causes[0]!.cause).toBe((JSON.parse((await fault('--symptom', 'no_click', '--observe', 'F2.a-chassis=13.6 V', '--observe', 'F2.b-chassis=0 V', '--json')).out) as Answer).causes[0]!.cause);
    expect((await fault('--cases')).out).toMatch(/drive-1 .*3 seen, 1 taken back {2}open/);
    // a process: reading all sheets into this one takes longer
    const printed = run('sheet', 'fault-finding', folder, '--text').out;
    expect(printed).toMatch(/Volts from F2\.b to clean metal of the body\t.*\t0 V\t/);
    expect((await fault('--resume', 'drive-1', '--end', 'new fuse')).out).toMatch(/It is ended/);
    expect((await fault('--cases')).out).toMatch(/ended: new fuse/);
    expect(await fault('--resume')).toMatchObject({ code: 2, out: '' });
  });
  it('writes with --keep, tries with --no-keep, and begins another conversation each time', async () => {
    expect((await fault('--symptom', 'fuse_blows', '--keep')).out).toMatch(/as drive-2\./);
    const kept = log();
    expect((await fault('--resume', 'drive-2', '--observe', 'F2.blown=yes', '--no-keep')).code).toBe(0);
    expect(log()).toBe(kept);
  });
  it.each([
    [['--resume', 'drive-9'], 'drive-'],
    [['--resume', 'drive-2', '--take-back', 'nobody'], 'nobody'],
    [['--resume', 'drive-2', '--mode', 'ready'], 'drive-2 is about mode drive'],
    [['--end', 'mended'], 'nothing to end'],
  ])('answers %j with what is meant, code 2, and writes nothing', async (args, hint) => {
    const before = log();
    const { code, err } = await fault(...args);
    expect([code, log() === before]).toEqual([2, true]);
    expect(err).toContain(hint);
  });
});

describe('halfshaft fault', () => {
  it('ranks what may be wrong and says what to measure next, and what each outcome would leave', async () => {
    const { code, out } = await fault('--symptom', 'no_click');
    expect(code).toBe(0);
    expect(out).toMatch(/It may be\n/);
    expect(out).toMatch(/Next\n/);
    expect(out).toMatch(/remain/);
    expect(out).not.toMatch(/NaN|undefined|\bsafe\b/);
  });
  it('suspects the blown fuse, asks whether a short took it, and names it when none did', async () => {
    const seen = ['--symptom', 'no_click', '--observe', 'F2.a-chassis=13.6 V', '--observe', 'F2.b-chassis=0 V', '--observe', 'F2.a-F2.b=open'];
    interface Answer { readonly verdict: { readonly settled: boolean; readonly group: readonly { readonly cause: string; readonly mend: string }[] }; readonly causes: readonly { readonly cause: string }[]; readonly next: { readonly look: { readonly is: string } } | null }
    const first = JSON.parse((await fault(...seen, '--json')).out) as Answer;
    expect([first.causes[0]!.cause, first.verdict.settled, first.next?.look.is]).toEqual(['F2.blown', false, 'resistance']);
    const last = JSON.parse((await fault(...seen, '--observe', 'F2.b-chassis=4.5 kΩ', '--observe', 'KP.coil_a-chassis=30 Ω', '--observe', 'L1.supply-chassis=6 Ω', '--json')).out) as Answer;
    expect(last.causes[0]!.cause).toBe('F2.blown');
  });
  it.each([
    [['--mode', 'drove'], 'drive'],
    [['--symptom', 'no_clack'], 'no_click'],
    [['--observe', 'F2.x-chassis=1 V'], 'F2'],
    [['--symptom', 'charger_does_not_start'], 'charger'],
  ])('answers %j with what is meant, and code 2', async (args, hint) => {
    const { code, err } = await fault(...args);
    expect(code).toBe(2);
    expect(err).toContain(hint);
  });
});
