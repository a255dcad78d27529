/** `halfshaft order` as a person meets it. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { root } from '../architecture/imports.ts';
import { call } from './call.ts';

const folder = mkdtempSync(join(tmpdir(), 'halfshaft-order-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const van = join(root, 'examples/bakery-van');
const coupe = join(root, 'examples/two-string-coupe');

interface Ordered { version: number; order: string; best: { sum_of_touchable: number; joints: { joint: string; touchable: number }[] }; own: { sum_of_touchable: number; joints: { joint: string }[] }; modules: { id: string; module: string; between: string[] }[]; meet_by_contacts: { strings: string[]; contacts: string[]; not_read: string[]; difference: number; flow: { current: number; heat: number; settled: number }; may_differ: { voltage: number } }[]; steps: { number: number; joint: string; touchable: number; reading_ids: { before: string; after: string } }[] }

describe('halfshaft order', () => {
  it('prints every joint with its readings, cautions first, and both orders side by side', async () => {
    const { code, out } = await call('order', van);
    expect(code).toBe(0);
    expect(out.split('\n')[0]).toBe('Bakery van: joining 13 high-voltage joints, best order');
    expect(out).toMatch(/\[ \] 13 {2}push SD in: SD\.in to SD\.out/);
    expect(out).toMatch(/Before: M1\.pos \(red\) to M2\.neg: \+941 mV/);
    expect(out).toMatch(/Steps in class B: 6 of 13 in the best order, 12 in that of the file\./);
    expect(out).not.toMatch(/NaN|undefined|\[object/);
    for (const line of out.split('\n')) expect(line.length, line).toBeLessThanOrEqual(110);
  });
  it('gives the same as JSON, and backwards the same joints in reverse', async () => {
    const best = JSON.parse((await call('order', van, '--json')).out) as Ordered;
    expect(best).toMatchObject({ version: 1, order: 'best' });
    expect(best.steps.map(({ joint, touchable }) => ({ joint, touchable }))).toEqual(best.best.joints);
    expect(best.best.sum_of_touchable).toBeLessThan(best.own.sum_of_touchable);
    expect(best.modules[3]).toEqual({ id: 'assembly.M4.voltage', module: 'M4', between: ['M4.pos', 'M4.neg'] });
    expect(best.steps[0]!.reading_ids).toEqual({ before: `assembly.${best.steps[0]!.joint}.before`, after: `assembly.${best.steps[0]!.joint}.after` });
    expect(best.meet_by_contacts).toEqual([]);
    const back = JSON.parse((await call('order', van, '--json', '--reverse')).out) as Ordered;
    expect(back.steps.map(({ joint }) => joint)).toEqual(best.steps.map(({ joint }) => joint).reverse());
    const own = JSON.parse((await call('order', van, '--json', '--own')).out) as Ordered;
    expect(own.steps.map(({ joint }) => joint)).toEqual(best.own.joints.map(({ joint }) => joint));
  });
  it('tells what flows between strings that only contactors lay in parallel', async () => {
    const { code, out } = await call('order', coupe);
    expect(code).toBe(0);
    expect(out.replace(/\s+/g, ' ')).toMatch(/Strings A1 and B1 meet when the last of [^]*K_B_pos[^]*A1 is the fuller\. By the modules’ readings the ends stand 16\.3 V apart: [\d.]+ A will flow at first, [\d.]+ kJ turn to heat, and after [\d.]+ min a hundredth is left\. Close them at 9\.\d+ V apart or less/);
    const { meet_by_contacts: [meeting, ...more] } = JSON.parse((await call('order', coupe, '--json')).out) as Ordered;
    expect(more).toEqual([]);
    expect(meeting).toMatchObject({ strings: ['A1', 'B1'], not_read: [], difference: expect.closeTo(16.3, 6), may_differ: { by: 'cells', current: 63 } });
  }, 60_000);
  it('says why there is no order', async () => {
    const path = join(folder, 'build.yaml');
    writeFileSync(path, 'halfshaft: 1\nname: new\n');
    const { code, err } = await call('order', path);
    expect(code).toBe(2);
    expect(err).toMatch(/has no high-voltage joint that its battery reaches/);
  });
});
