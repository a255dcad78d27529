/**
 * The rules of the house: direction of imports, no cycles, no siblings, purity of the core, no forbidden names.
 * Each rule has a failing example beside it, so that a rule that no longer bites is noticed.
 */
import { describe, expect, it } from 'vitest';
import { importsIn, sourceFiles, type SourceFile } from './imports.ts';

/** Left to right; a rung imports only rungs to its left (and itself). Rooms of one rung never import each other. */
const ladder: readonly (readonly string[])[] = [
  ['core/quantity', 'core/solve'],
  ['core/physics', 'core/condition'],
  ['core/part'],
  ['core/build', 'core/kinds'],
  ['core/car'],
  ['core/findings'],
  ['core/topics'],
  ['core/chance'],
  ['core/order', 'core/power-up', 'core/faults'],
  ['core/readings'],
  ['core/analyse.ts'],
  ['catalogue'],
  ['sheets'],
  ['book', 'server', 'study'],
  ['web', 'cli'],
];
/** A deliberate look across, with its reason. */
const allowed: readonly { readonly from: string; readonly to: string; readonly reason: string }[] = [];

function roomOf(path: string): string | undefined {
  return ladder.flat().filter((room) => path === room || path.startsWith(`${room}/`)).sort((a, b) => b.length - a.length)[0];
}
const rungOf = (room: string): number => ladder.findIndex((rung) => rung.includes(room));

function brokenDirections(files: readonly SourceFile[]): string[] {
  return files.flatMap((file) => file.imports.filter(({ to }) => !isAllowed(file.path, to)).map(({ to }) => `${file.path} -> ${to}`));
}

function isAllowed(from: string, to: string): boolean {
  const here = roomOf(from);
  const there = roomOf(to);
  if (here === undefined || there === undefined || here === there) return true;
  if (allowed.some((rule) => from.startsWith(rule.from) && to.startsWith(rule.to))) return true;
  // the catalogue is data: programs hand it to the core
  if (there === 'catalogue') return here === 'cli' || here === 'web';
  return rungOf(there) < rungOf(here);
}

function siblingTopics(files: readonly SourceFile[]): string[] {
  const topicOf = (path: string): string | undefined => /^core\/topics\/([^/]+)\//.exec(path)?.[1];
  return files.flatMap((file) => file.imports.filter(({ to }) => topicOf(file.path) !== undefined && topicOf(to) !== undefined && topicOf(to) !== topicOf(file.path)).map(({ to }) => `${file.path} -> ${to}`));
}

function cycles(files: readonly SourceFile[]): string[] {
  const edges = new Map(files.map((file) => [file.path, file.imports.filter(({ isTypeOnly }) => !isTypeOnly).map(({ to }) => to)]));
  const state = new Map<string, 'open' | 'done'>();
  const found: string[] = [];
  const visit = (path: string, trail: readonly string[]): void => {
    if (state.get(path) === 'done') return;
    if (state.get(path) === 'open') { found.push([...trail.slice(trail.indexOf(path)), path].join(' -> ')); return; }
    state.set(path, 'open');
    for (const to of edges.get(path) ?? []) if (edges.has(to)) visit(to, [...trail, path]);
    state.set(path, 'done');
  };
  for (const path of edges.keys()) visit(path, []);
  return found;
}

const impure = /\b(Math\.random|Date\.now|new Date\b|performance\.|console\.|process\.|setTimeout|setInterval|fetch\()/;
const withoutComments = (text: string): string => text.replace(/\/\*[\s\S]*?\*\//g, '').replace(/\/\/.*$/gm, '');

const rooms = ['core', 'catalogue', 'sheets', 'study', 'book', 'server', 'web', 'cli'];
const core = sourceFiles(['core']);
const all = sourceFiles(rooms);

describe('the direction of imports', () => {
  it('has every file of core in a room of the ladder', () => {
    expect(core.filter(({ path }) => roomOf(path) === undefined).map(({ path }) => path)).toEqual([]);
  });
  it('is kept by every file', () => expect(brokenDirections(all)).toEqual([]));
  it('would notice a solver that imports a part', () => {
    const bad = { path: 'core/solve/x.ts', text: '', imports: importsIn("import { a } from '../part/kind.ts';", 'core/solve/x.ts') };
    expect(brokenDirections([bad])).toEqual(['core/solve/x.ts -> core/part/kind.ts']);
  });
  it('has no subject that imports another', () => expect(siblingTopics(core)).toEqual([]));
  it('would notice a subject that imports another', () => {
    const bad = { path: 'core/topics/pack/x.ts', text: '', imports: importsIn("import type { a } from '../mass/study.ts';", 'core/topics/pack/x.ts') };
    expect(siblingTopics([bad])).toEqual(['core/topics/pack/x.ts -> core/topics/mass/study.ts']);
  });
  it('has no cycle', () => expect(cycles(all)).toEqual([]));
  it('would notice a cycle', () => {
    const file = (path: string, to: string): SourceFile => ({ path, text: '', imports: [{ to, isTypeOnly: false }] });
    expect(cycles([file('a.ts', 'b.ts'), file('b.ts', 'a.ts')])).toEqual(['a.ts -> b.ts -> a.ts']);
  });
});

describe('the core', () => {
  it('uses no clock, chance, screen or disk', () => expect(core.filter(({ text }) => impure.test(withoutComments(text))).map(({ path }) => path)).toEqual([]));
  it('would notice a clock', () => expect(impure.test('const t = Date.now();')).toBe(true));
  it('imports only packages that are known to be pure', () => {
    const packages = new Set(core.flatMap(({ imports }) => imports.map(({ to }) => to)).filter((to) => !to.startsWith('core/')));
    expect([...packages].sort()).toEqual(['fastest-levenshtein', 'node-diff3', 'yaml']);
  });
  it('never branches on the name of a kind in shared code', () => {
    const shared = core.filter(({ path }) => !path.startsWith('core/kinds/'));
    const branch = /kind\.kind\s*===?\s*['"]|\.kind\s*===?\s*['"](battery_module|contactor|inverter|fuse|relay|hv_fuse)/;
    expect(shared.filter(({ text }) => branch.test(withoutComments(text))).map(({ path }) => path)).toEqual([]);
  });
});

describe('the checks that comments name', () => {
  const missing = (files: readonly SourceFile[], tests: ReadonlySet<string>): string[] => files.flatMap(({ path, text }) => [...text.matchAll(/(?:[\w-]+\/)*[\w.-]+\.(?:test|check)\.tsx?/g)].map(([name]) => name)
    .filter((name) => !tests.has(name) && !tests.has(`${path.slice(0, path.lastIndexOf('/'))}/${name}`)).map((name) => `${path}: ${name}`));
  const tests = new Set(sourceFiles([...rooms, 'checks'], true).map(({ path }) => path).filter((path) => /\.(test|check)\.tsx?$/.test(path)));
  it('are there', () => expect(missing(all, tests)).toEqual([]));
  it('would be missed', () => expect(missing([{ path: 'core/x.ts', text: '/** Checked: core/gone.test.ts */', imports: [] }], tests)).toEqual(['core/x.ts: core/gone.test.ts']));
});

describe('the sheets', () => {
  const sheets = all.filter(({ path }) => path.startsWith('sheets/'));
  it('use no clock, chance, screen or disk', () => expect(sheets.filter(({ text }) => impure.test(withoutComments(text))).map(({ path }) => path)).toEqual([]));
  it('are drawn with React and laid out with elkjs, and import nothing else from outside', () => {
    const packages = new Set(sheets.flatMap(({ imports }) => imports.map(({ to }) => to)).filter((to) => !/^(core|sheets)\//.test(to)));
    expect([...packages].filter((name) => !/^(react|react-dom\/server|react\/jsx-runtime|elkjs(\/.*)?)$/.test(name))).toEqual([]);
  });
  it('keep models apart from drawings: what a worker loads draws nothing', () => {
    const byPath = new Map(sheets.map((file) => [file.path, file]));
    const drawingsBehind = (path: string, seen = new Set<string>()): string[] => {
      if (seen.has(path)) return [];
      seen.add(path);
      return (byPath.get(path)?.imports ?? []).filter(({ isTypeOnly }) => !isTypeOnly).flatMap(({ to }) => [...(to.endsWith('.tsx') ? [`${path} -> ${to}`] : []), ...drawingsBehind(to, seen)]);
    };
    expect(sheets.map(({ path }) => path).filter((path) => path.endsWith('/model.ts')).flatMap((path) => drawingsBehind(path))).toEqual([]);
    expect(drawingsBehind('sheets/drawings.ts')).not.toEqual([]);
  });
});

describe('names', () => {
  it('has no rooms without a subject', () => {
    expect(sourceFiles([...rooms, 'checks', 'bench'], true).map(({ path }) => path).filter((path) => /(^|\/)(utils?|helpers?|types|common|misc)(\.tsx?$|\/)/.test(path))).toEqual([]);
  });
  it('imports files by their explicit .ts name', () => {
    expect(all.flatMap(({ path, imports }) => imports.filter(({ to }) => rooms.some((room) => to.startsWith(`${room}/`)) && !/\.(tsx?|css)$/.test(to)).map(({ to }) => `${path} -> ${to}`))).toEqual([]);
  });
});
