/** halfshaft fault, as a person calls it. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { root } from '../architecture/imports.ts';
import { lowVoltageCar } from '../fixtures/low-voltage-car.ts';

const folder = mkdtempSync(join(tmpdir(), 'halfshaft-fault-'));
writeFileSync(join(folder, 'build.yaml'), lowVoltageCar);
afterAll(() => rmSync(folder, { recursive: true }));

function fault(...args: string[]): { code: number; out: string; err: string } {
  const { status, stdout, stderr } = spawnSync(process.execPath, [join(root, 'dist/program/main.cjs'), 'fault', folder, ...args], { encoding: 'utf8', env: { ...process.env, NO_COLOR: '1' } });
  return { code: status ?? -1, out: stdout, err: stderr };
}

describe('halfshaft fault', () => {
  it('ranks what may be wrong and says what to measure next, and what each outcome would leave', () => {
    const { code, out } = fault('--symptom', 'no_click');
    expect(code).toBe(0);
    expect(out).toMatch(/It may be\n/);
    expect(out).toMatch(/Next\n/);
    expect(out).toMatch(/remain/);
    expect(out).not.toMatch(/NaN|undefined|\bsafe\b/);
  });
  it('suspects the blown fuse, asks whether a short took it, and names it when none did', () => {
    const seen = ['--symptom', 'no_click', '--observe', 'F2.a-chassis=13.6 V', '--observe', 'F2.b-chassis=0 V', '--observe', 'F2.a-F2.b=open'];
    interface Answer { readonly verdict: { readonly settled: boolean; readonly group: readonly { readonly cause: string; readonly mend: string }[] }; readonly causes: readonly { readonly cause: string }[]; readonly next: { readonly look: { readonly is: string } } | null }
    const first = JSON.parse(fault(...seen, '--json').out) as Answer;
    expect([first.causes[0]!.cause, first.verdict.settled, first.next?.look.is]).toEqual(['F2.blown', false, 'resistance']);
    const last = JSON.parse(fault(...seen, '--observe', 'F2.b-chassis=4.5 kΩ', '--observe', 'KP.coil_a-chassis=30 Ω', '--observe', 'L1.supply-chassis=6 Ω', '--json').out) as Answer;
    expect(last.causes[0]!.cause).toBe('F2.blown');
  });
  it.each([
    [['--mode', 'drove'], 'drive'],
    [['--symptom', 'no_clack'], 'no_click'],
    [['--observe', 'F2.x-chassis=1 V'], 'F2'],
    [['--symptom', 'charger_does_not_start'], 'charger'],
  ])('answers %j with what is meant, and code 2', (args, hint) => {
    const { code, err } = fault(...args);
    expect(code).toBe(2);
    expect(err).toContain(hint);
  });
});
