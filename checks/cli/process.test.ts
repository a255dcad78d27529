/** The built program, run as a process: what the calls beside this file (call.ts) cannot show. */
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { lowVoltageCar } from '../fixtures/low-voltage-car.ts';
import { root } from '../architecture/imports.ts';
import { call, program, run, start } from './call.ts';
import type { Called } from './call.ts';

const folder = mkdtempSync(join(tmpdir(), 'halfshaft-process-'));
writeFileSync(join(folder, 'build.yaml'), lowVoltageCar);
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const log = (): string => readFileSync(join(folder, 'readings.csv'), 'utf8');

const quoted = (text: string): string => `'${text}'`;

it('the program is built (npm test builds it; alone: npm run build)', () => expect(existsSync(program)).toBe(true));

describe('the program', () => {
  // what one process keeps between two calls must not change what the second prints: a new one has kept nothing
  it.each<readonly [number, string, readonly string[]]>([
    [0, 'a build with nothing at stop', ['check', 'examples/bakery-van']],
    [1, 'one with something at stop', ['check', 'examples/two-string-coupe']],
    [2, 'one that is not there', ['check', 'examples/nowhere']],
    [2, 'a word that it has not', ['chekc']],
    [0, 'a fault', ['fault', folder, '--symptom', 'no_click', '--json']],
  ])('exits %i for %s, and prints what the same call prints in this process', async (code, _, args) => {
    const done = run(...args);
    expect(done.code).toBe(code);
    expect(done.out + done.err).not.toContain('\u001b[');
    expect(await call(...args)).toEqual(done);
  });
  it('gives the documented JSON, every finding with its keys and finite numbers', () => {
    const { out } = run('check', 'examples/bakery-van', '--json', '--draws', '20');
    const result = JSON.parse(out) as { version: number; findings: Record<string, unknown>[]; results: Record<string, unknown>; next: Record<string, unknown> };
    expect(result.version).toBe(1);
    expect(Object.keys(result.results).sort()).toEqual(['high-voltage', 'low-voltage', 'mass', 'modes', 'pack']);
    expect(result.next['do']).toBeTruthy();
    for (const finding of result.findings) {
      expect(Object.keys(finding)).toEqual(['code', 'topic', 'about', 'variant', 'level', 'statement', 'what_to_do', 'value', 'limit', 'sense', 'unit', 'margin', 'chance', 'settled_by', 'needs', 'source', 'path', 'place']);
      // conditions of modes are judged at the nominal values alone
      if (finding['level'] !== 'unknown' && finding['topic'] !== 'modes') expect(finding['chance']).not.toBeNull();
    }
  });
  it('gives the same chances for the same seed, whatever the number of workers', () => {
    const chances = (workers: string): unknown => (JSON.parse(run('check', 'examples/orchard-hauler', '--json', '--draws', '24', '--workers', workers).out) as { findings: { chance: number }[] }).findings.map(({ chance }) => chance);
    expect(chances('1')).toEqual(chances('3'));
  });
  it('takes answers from a pipe, and keeps them', () => {
    const talk = start(process.execPath, [program, 'fault', folder, '--ask', '--who', 'Ada', '--symptom', 'no_click'], 'F2.a-chassis=13.6 V\nF2.b-chassis=0 V\n');
    expect(talk.code).toBe(0);
    expect(log()).toMatch(/,Ada,fault,drive-1,drive,F2\.b chassis,voltage,0 V,/);
  });
});

describe.skipIf(process.platform === 'win32')('a reader that has seen enough', () => {
  it('ends it without a word', () => {
    // far more than a pipe holds
    const done = start('sh', ['-c', `{ ${quoted(process.execPath)} ${quoted(program)} schema; echo "ended with $?" >&2; } | head -c 10`]);
    expect(done).toEqual({ code: 0, out: '{\n  "$sche', err: 'ended with 0\n' });
  });
});

// only there does the command `script` make a terminal for a program in this way
describe.skipIf(process.platform !== 'linux' || spawnSync('script', ['--version']).status !== 0)('on a terminal', () => {
  /** Types the next line whenever it is asked; the terminal stays open until the program ends, as a person's does. */
  const onTerminal = (lines: readonly string[], ...args: readonly string[]): Promise<Called> => new Promise((resolve, reject) => {
    const child = spawn('script', ['-qec', [process.execPath, program, ...args].map(quoted).join(' '), '/dev/null'], { cwd: root, env: { ...process.env, NO_COLOR: undefined, TERM: 'xterm' } });
    let out = '', typed = 0;
    child.stdout.setEncoding('utf8').on('data', (piece: string) => {
      out += piece;
      for (const asked = out.split('What did you find?').length - 1; typed < Math.min(asked, lines.length);) child.stdin.write(`${lines[typed++]!}\n`);
    });
    child.on('error', reject);
    child.on('close', (code) => resolve({ code: code ?? -1, out, err: '' }));
  });
  it('paints, and asks on without being told to', async () => {
    const done = await onTerminal(['F2.a-chassis=13.6 V', 'leave'], 'fault', folder, '--symptom', 'fuse_blows', '--who', 'Ada');
    expect(done.code).toBe(0);
    expect(done.out).toMatch(/\u001b\[1mNext\u001b\[0m/);
    expect(done.out).toContain('What did you find?');
    expect(done.out).toMatch(/Kept in readings\.csv as drive-\d+\./);
    expect(log()).toMatch(/,F2\.a chassis,voltage,13\.6 V,/);
  });
});
