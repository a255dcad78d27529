/** The command line as a person meets it; what only a process can show is in process.test.ts. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { sheetNames } from '../../sheets/sheet.ts';
import { root, sourceFiles } from '../architecture/imports.ts';
import { call } from './call.ts';

const van = join(root, 'examples/bakery-van');
const hauler = join(root, 'examples/orchard-hauler');
const folder = mkdtempSync(join(tmpdir(), 'halfshaft-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const buildOf = (name: string, text: string): string => {
  const path = join(folder, `${name}.yaml`);
  writeFileSync(path, text);
  return path;
};

describe('halfshaft check', () => {
  it('prints findings, cautions and the next thing, and exits 0 when nothing is at stop', async () => {
    const { code, out } = await call('check', van);
    expect(out).toContain('Bakery van');
    expect(out).toContain('proves nothing about');
    expect(out).toMatch(/\nNext: \S/);
    expect(out).not.toContain('\u001b[');
    expect(code).toBe(0);
  });
  it('exits 1 when something is at stop', async () => expect((await call('check', join(root, 'examples/two-string-coupe'))).code).toBe(1));
  it('studies one subject when asked', async () => {
    const { findings } = JSON.parse((await call('check', van, '--json', '--topic', 'mass')).out) as { findings: { topic: string }[] };
    expect(new Set(findings.map(({ topic }) => topic))).toEqual(new Set(['mass']));
  });
  it('reports a misspelt word with place and nearest spelling, and still judges the rest', async () => {
    const path = buildOf('misspelt', readFileSync(join(hauler, 'build.yaml'), 'utf8').replace('wheelbase:', 'wheelbas:'));
    const { out, code } = await call('check', path, '--all');
    expect(out).toMatch(/wheelbas\b[^]*wheelbase[^]*misspelt\.yaml:\d+:\d+/);
    expect(out).toContain('pack.');
    expect(code).not.toBe(2);
  });
  it('exits 2 for a file that is not there, or cannot be read, with one clear message', async () => {
    expect(await call('check', join(folder, 'nowhere'))).toMatchObject({ code: 2, out: '', err: expect.stringContaining('There is no') });
    expect((await call('check', buildOf('broken', 'parts: [\n  }{'))).code).toBe(2);
  });
  it('exits 2 for a wrong call', async () => {
    expect(await call('check', van, '--draws', 'many')).toMatchObject({ code: 2, err: expect.stringContaining('whole number') });
    expect(await call('check', van, '--topic', 'brakes')).toMatchObject({ code: 2, err: expect.stringContaining('high-voltage') });
    expect((await call('chekc')).code).toBe(2);
    expect((await call()).code).toBe(2);
  });
});

describe('the other commands', () => {
  it('sheet names every sheet in its help, which loads none of them', async () => {
    const { out } = await call('sheet', '--help');
    expect(out.replace(/\s+/g, ' ')).toContain(`as SVG: ${sheetNames.join(', ')} `);
  });
  it('points lists every point', async () => {
    const { out, code } = await call('points', hauler);
    expect(code).toBe(0);
    expect(out).toMatch(/^chassis\s/m);
    expect(out.trim().split('\n').length).toBeGreaterThan(80);
  });
  it('read says what a meter shows, with its band, and that this proves nothing', async () => {
    const points = (await call('points', van)).out.split('\n').map((line) => line.split(' ')[0] as string);
    const module = points.find((point) => /^M\d+\.pos$|\.pos$/.test(point)) as string;
    const { out, code } = await call('read', van, '--between', module, module.replace('.pos', '.neg'), '--draws', '20');
    expect(out).toMatch(/: -?[\d.]+ m?V, 95 % of draws between -?[\d.]+ m?V and -?[\d.]+ m?V/);
    expect(out).toContain('never proves');
    expect(code).toBe(0);
  });
  it('read says so in a mode as well, and with something failed', async () => {
    for (const options of [['--state', 'drive'], ['--state', 'precharge', '--failed', 'K_pos.welded'], ['--without', 'H05']]) {
      const { out, code } = await call('read', van, '--between', 'K_pos.in', 'K_neg.in', ...options, '--draws', '5');
      expect(out, options.join(' ')).toMatch(/^K_pos\.in to K_neg\.in: [\s\S]*A model never proves that a circuit is dead/);
      expect(code).toBe(0);
    }
  });
  it('read knows the body by its names, and a run from a part', async () => {
    expect((await call('read', van, '--between', 'K_pos.in', 'bodywork', '--draws', '0')).out).toMatch(/^K_pos\.in to chassis: /);
    expect((await call('read', van, '--between', 'K_pos.in', 'chassis', '--failed', 'H21.open')).err).toContain('H21 is a run');
  });
  it('read names a wrong point, mode or setting with the nearest right one', async () => {
    expect((await call('read', van, '--between', 'chasis', 'M1.pos')).err).toContain('did you mean chassis?');
    expect((await call('read', van, '--between', 'chassis', 'chassis', '--state', 'drvie')).err).toContain('did you mean drive?');
  });
  it('precharge plots the curve and writes it as CSV', async () => {
    expect((await call('precharge', van)).out).toMatch(/[\u2801-\u28ff]{5}/);
    const rows = (await call('precharge', van, '--csv', '-')).out.split('\r\n');
    expect(rows[0]).toBe('mode,by,time_s,voltage_V,current_A');
    expect(rows.length).toBeGreaterThan(20);
    expect(rows.slice(1, -1).every((row) => row.split(',').slice(2).every((cell) => Number.isFinite(Number(cell))))).toBe(true);
  });
  it('spice prints a netlist', async () => expect((await call('spice', hauler, '--state', 'drive')).out).toMatch(/\.end\s*$/i));
  it('schema prints a JSON Schema', async () => expect((JSON.parse((await call('schema')).out) as { $schema: string })['$schema']).toContain('2020-12'));
  it('explain tells a finding in full, and the nearest code for a wrong one', async () => {
    expect((await call('explain', 'mass.total')).out).toContain('permitted mass');
    expect(await call('explain', 'mass.totl')).toMatchObject({ code: 2, err: expect.stringContaining('did you mean mass.total?') });
    expect((await call('explain')).out.trim().split('\n').length).toBeGreaterThan(60);
  });
  it('new writes a starter that reads without a problem, and never writes over one', async () => {
    const path = join(folder, 'My "first" van');
    expect((await call('new', path)).code).toBe(0);
    const { findings } = JSON.parse((await call('check', path, '--json')).out) as { findings: { code: string; statement: string }[] };
    expect(findings.filter(({ code }) => code.startsWith('file.')).map(({ statement }) => statement)).toEqual([]);
    expect(await call('new', path)).toMatchObject({ code: 2, err: expect.stringContaining('nothing was written') });
  });
});

// what a command knows of the process by itself no call of these tests would show
it('only the entry of the program reaches for the process it runs in', () => {
  const reaching = sourceFiles(['cli']).filter(({ text }) => /\bprocess\.(?:stdin|stdout|stderr|exit|exitCode|argv)\b|\bconsole\./.test(text)).map(({ path }) => path);
  expect(reaching).toEqual(['cli/main.ts']);
});
