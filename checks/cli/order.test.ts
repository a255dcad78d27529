/** `halfshaft order` as a person meets it: the built program, run as a process. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { root } from '../architecture/imports.ts';

const folder = mkdtempSync(join(tmpdir(), 'halfshaft-order-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function halfshaft(...args: readonly string[]): { readonly code: number | null; readonly out: string; readonly err: string } {
  const done = spawnSync(process.execPath, [join(root, 'dist/program/main.cjs'), ...args], { encoding: 'utf8', cwd: root, env: { ...process.env, NO_COLOR: '1' }, timeout: 60_000, maxBuffer: 64e6 });
  return { code: done.status, out: done.stdout, err: done.stderr };
}

interface Ordered { version: number; order: string; best: { sum_of_touchable: number; joints: { joint: string; touchable: number }[] }; own: { sum_of_touchable: number; joints: { joint: string }[] }; steps: { number: number; joint: string; touchable: number }[] }

describe('halfshaft order', () => {
  it('prints every joint with its readings, cautions first, and both orders side by side', () => {
    const { code, out } = halfshaft('order', 'examples/bakery-van');
    expect(code).toBe(0);
    expect(out.split('\n')[0]).toBe('Bakery van: joining 13 high-voltage joints, best order');
    expect(out).toMatch(/\[ \] 13 {2}push SD in: SD\.in to SD\.out/);
    expect(out).toMatch(/Before: M1\.pos \(red\) to M2\.neg: \+941 mV/);
    expect(out).toMatch(/Steps in class B: 6 of 13 in the best order, 12 in that of the file\./);
    expect(out).not.toMatch(/NaN|undefined|\[object/);
    for (const line of out.split('\n')) expect(line.length, line).toBeLessThanOrEqual(110);
  });
  it('gives the same as JSON, and backwards the same joints in reverse', () => {
    const best = JSON.parse(halfshaft('order', 'examples/bakery-van', '--json').out) as Ordered;
    expect(best).toMatchObject({ version: 1, order: 'best' });
    expect(best.steps.map(({ joint, touchable }) => ({ joint, touchable }))).toEqual(best.best.joints);
    expect(best.best.sum_of_touchable).toBeLessThan(best.own.sum_of_touchable);
    const back = JSON.parse(halfshaft('order', 'examples/bakery-van', '--json', '--reverse').out) as Ordered;
    expect(back.steps.map(({ joint }) => joint)).toEqual(best.steps.map(({ joint }) => joint).reverse());
    const own = JSON.parse(halfshaft('order', 'examples/bakery-van', '--json', '--own').out) as Ordered;
    expect(own.steps.map(({ joint }) => joint)).toEqual(best.own.joints.map(({ joint }) => joint));
  });
  it('says why there is no order', () => {
    const path = join(folder, 'build.yaml');
    writeFileSync(path, 'halfshaft: 1\nname: new\n');
    const { code, err } = halfshaft('order', path);
    expect(code).toBe(2);
    expect(err).toMatch(/has no high-voltage joint that its battery reaches/);
  });
});
