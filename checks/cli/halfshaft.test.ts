/** The command line as a person meets it: the built program, run as a process. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { sheetNames } from '../../sheets/sheet.ts';
import { root } from '../architecture/imports.ts';

const program = join(root, 'dist/program/main.cjs');
const folder = mkdtempSync(join(tmpdir(), 'halfshaft-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function halfshaft(...args: readonly string[]): { readonly code: number | null; readonly out: string; readonly err: string } {
  const done = spawnSync(process.execPath, [program, ...args], { encoding: 'utf8', cwd: root, env: { ...process.env, NO_COLOR: '1' }, timeout: 60_000, maxBuffer: 64e6 });
  return { code: done.status, out: done.stdout, err: done.stderr };
}
const buildOf = (name: string, text: string): string => {
  const path = join(folder, `${name}.yaml`);
  writeFileSync(path, text);
  return path;
};

it('the program is built (npm test builds it; alone: npm run build)', () => expect(existsSync(program)).toBe(true));

describe('halfshaft check', () => {
  it('prints findings, cautions and the next thing, and exits 0 when nothing is at stop', () => {
    const { code, out } = halfshaft('check', 'examples/bakery-van');
    expect(out).toContain('Bakery van');
    expect(out).toContain('proves nothing about');
    expect(out).toMatch(/\nNext: \S/);
    expect(out).not.toContain('\u001b[');
    expect(code).toBe(0);
  });
  it('exits 1 when something is at stop', () => expect(halfshaft('check', 'examples/two-string-coupe').code).toBe(1));
  it('gives the documented JSON, every finding with its keys and finite numbers', () => {
    const { out } = halfshaft('check', 'examples/bakery-van', '--json', '--draws', '20');
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
    const chances = (workers: string): unknown => (JSON.parse(halfshaft('check', 'examples/orchard-hauler', '--json', '--draws', '24', '--workers', workers).out) as { findings: { chance: number }[] }).findings.map(({ chance }) => chance);
    expect(chances('1')).toEqual(chances('3'));
  });
  it('studies one subject when asked', () => {
    const { findings } = JSON.parse(halfshaft('check', 'examples/bakery-van', '--json', '--topic', 'mass').out) as { findings: { topic: string }[] };
    expect(new Set(findings.map(({ topic }) => topic))).toEqual(new Set(['mass']));
  });
  it('reports a misspelt word with place and nearest spelling, and still judges the rest', () => {
    const path = buildOf('misspelt', readFileSync(join(root, 'examples/orchard-hauler/build.yaml'), 'utf8').replace('wheelbase:', 'wheelbas:'));
    const { out, code } = halfshaft('check', path, '--all');
    expect(out).toMatch(/wheelbas\b[^]*wheelbase[^]*misspelt\.yaml:\d+:\d+/);
    expect(out).toContain('pack.');
    expect(code).not.toBe(2);
  });
  it('exits 2 for a file that is not there, or cannot be read, with one clear message', () => {
    expect(halfshaft('check', join(folder, 'nowhere'))).toMatchObject({ code: 2, out: '', err: expect.stringContaining('There is no') });
    expect(halfshaft('check', buildOf('broken', 'parts: [\n  }{')).code).toBe(2);
  });
  it('exits 2 for a wrong call', () => {
    expect(halfshaft('check', 'examples/bakery-van', '--draws', 'many')).toMatchObject({ code: 2, err: expect.stringContaining('whole number') });
    expect(halfshaft('check', 'examples/bakery-van', '--topic', 'brakes')).toMatchObject({ code: 2, err: expect.stringContaining('high-voltage') });
    expect(halfshaft('chekc').code).toBe(2);
    expect(halfshaft().code).toBe(2);
  });
});

describe('the other commands', () => {
  it('sheet names every sheet in its help, which loads none of them', () => {
    const { out } = halfshaft('sheet', '--help');
    expect(out.replace(/\s+/g, ' ')).toContain(`as SVG: ${sheetNames.join(', ')} `);
  });
  it('points lists every point', () => {
    const { out, code } = halfshaft('points', 'examples/orchard-hauler');
    expect(code).toBe(0);
    expect(out).toMatch(/^chassis\s/m);
    expect(out.trim().split('\n').length).toBeGreaterThan(80);
  });
  it('read says what a meter shows, with its band, and that this proves nothing', () => {
    const points = halfshaft('points', 'examples/bakery-van').out.split('\n').map((line) => line.split(' ')[0] as string);
    const module = points.find((point) => /^M\d+\.pos$|\.pos$/.test(point)) as string;
    const { out, code } = halfshaft('read', 'examples/bakery-van', '--between', module, module.replace('.pos', '.neg'), '--draws', '20');
    expect(out).toMatch(/: -?[\d.]+ m?V, 95 % of draws between -?[\d.]+ m?V and -?[\d.]+ m?V/);
    expect(out).toContain('never proves');
    expect(code).toBe(0);
  });
  it('read names a wrong point, mode or setting with the nearest right one', () => {
    expect(halfshaft('read', 'examples/bakery-van', '--between', 'chasis', 'M1.pos').err).toContain('did you mean chassis?');
    expect(halfshaft('read', 'examples/bakery-van', '--between', 'chassis', 'chassis', '--state', 'drvie').err).toContain('did you mean drive?');
  });
  it('precharge plots the curve and writes it as CSV', () => {
    expect(halfshaft('precharge', 'examples/bakery-van').out).toMatch(/[\u2801-\u28ff]{5}/);
    const rows = halfshaft('precharge', 'examples/bakery-van', '--csv', '-').out.split('\r\n');
    expect(rows[0]).toBe('mode,by,time_s,voltage_V,current_A');
    expect(rows.length).toBeGreaterThan(20);
    expect(rows.slice(1, -1).every((row) => row.split(',').slice(2).every((cell) => Number.isFinite(Number(cell))))).toBe(true);
  });
  it('spice prints a netlist', () => expect(halfshaft('spice', 'examples/orchard-hauler', '--state', 'drive').out).toMatch(/\.end\s*$/i));
  it('schema prints a JSON Schema', () => expect((JSON.parse(halfshaft('schema').out) as { $schema: string })['$schema']).toContain('2020-12'));
  it('explain tells a finding in full, and the nearest code for a wrong one', () => {
    expect(halfshaft('explain', 'mass.total').out).toContain('permitted mass');
    expect(halfshaft('explain', 'mass.totl')).toMatchObject({ code: 2, err: expect.stringContaining('did you mean mass.total?') });
    expect(halfshaft('explain').out.trim().split('\n').length).toBeGreaterThan(60);
  });
  it('new writes a starter that reads without a problem, and never writes over one', () => {
    const path = join(folder, 'My "first" van');
    expect(halfshaft('new', path).code).toBe(0);
    const { findings } = JSON.parse(halfshaft('check', path, '--json').out) as { findings: { code: string; statement: string }[] };
    expect(findings.filter(({ code }) => code.startsWith('file.')).map(({ statement }) => statement)).toEqual([]);
    expect(halfshaft('new', path)).toMatchObject({ code: 2, err: expect.stringContaining('nothing was written') });
  });
});
