/**
 * Stock and runs: what a run is cut from, where it starts and ends, and whether its ports can take it.
 */
import type { Fields } from '../part/field.ts';
import type { RunKind, RunKinds } from '../part/run-kind.ts';
import type { Build, BuildRun, RunEnd } from './build.ts';
import type { Place } from './place.ts';
import { readEntry } from './entry-memory.ts';
import { readFields } from './read-field.ts';
import type { Values } from './read-field.ts';
import { readKindWord } from './read-parts.ts';
import type { Ports } from './read-parts.ts';
import type { Reading } from './reading.ts';
import { excerpt } from './report-problem.ts';
import { commonRunFields } from './sections.ts';
import type { SectionEntry } from './section-entries.ts';
import { entryOf, isEmpty } from './source-tree.ts';

type Stock = Build['stock'] extends ReadonlyMap<string, infer S> ? S : never;

/** Stock of a known run kind; the others have a problem and are left out. */
export function readStock(entries: readonly SectionEntry[], runKinds: RunKinds, reading: Reading): Map<string, Stock> {
  const stock = new Map<string, Stock>();
  for (const entry of entries) {
    const kind = runKinds.get(readKindWord(entry, runKinds.keys(), 'a kind of run', reading) ?? '');
    if (!kind) continue;
    stock.set(entry.name, readEntry(entry, [kind], reading, (own) => ({ name: entry.name, kind: kind.kind, fields: readFields(kind.fields, entry.node, entry.path, entry.keyPlace, own, { besides: ['kind'] }) })));
  }
  return stock;
}

/** Runs between two ports that exist, of a known kind; the others have a problem and are left out. */
export function readRuns(entries: readonly SectionEntry[], runKinds: RunKinds, stock: ReadonlyMap<string, Stock>, ports: Ports, reading: Reading): Map<string, BuildRun> {
  const runs = new Map<string, BuildRun>();
  const shares = new Map([undefined, ...runKinds.values()].map((kind) => [kind, shareOf(kind)]));
  const usage: Usage = { held: new Map(), joined: new Map() };
  for (const entry of entries) {
    const { kind, from: cutFrom, isUndecided } = kindOfRun(entry, runKinds, stock, reading);
    const { ends, fields } = readEntry(entry, [kind, cutFrom, isUndecided], reading, (own) => readOneRun(entry, shares.get(kind) as Share, kind, cutFrom, isUndecided, own));
    const from = readEnd(ends.from, `${entry.path}.from`, ports, reading);
    const to = readEnd(ends.to, `${entry.path}.to`, ports, reading);
    if (!kind || !from || !to) continue;
    if (!takeUp(entry, from, to, ports, usage, reading)) continue;
    runs.set(entry.name, { name: entry.name, from, to, kind: kind.kind, stock: cutFrom?.name, fields });
  }
  return runs;
}

interface OneRun { readonly ends: { readonly from: Values[string] | undefined; readonly to: Values[string] | undefined }; readonly fields: Values }

function readOneRun(entry: SectionEntry, { common, ownKeys, commonKeys }: Share, kind: RunKind | undefined, cutFrom: Stock | undefined, isUndecided: boolean, reading: Reading): OneRun {
  const values = readFields(common, entry.node, entry.path, entry.keyPlace, reading, { besides: ownKeys, anyKey: kind === undefined });
  const own = kind ? readFields(kind.fields, entry.node, entry.path, entry.keyPlace, reading, { besides: commonKeys, isOverlay: cutFrom !== undefined || isUndecided }) : {};
  // the two ends are looked up by whoever asked, other ports that a run kind may name with all the rest
  for (const end of ['from', 'to']) forget(`${entry.path}.${end}`, reading);
  const { from, to, stock: _, ...shared } = values;
  return { ends: { from, to }, fields: { ...cutFrom?.fields, ...shared, ...own } };
}

/** Fields that all runs have, less those that the kind describes itself. */
export function commonFieldsBeside(kind: RunKind | undefined): Fields {
  return Object.fromEntries(Object.entries(commonRunFields).filter(([name]) => !kind || !Object.hasOwn(kind.fields, name)));
}

/** Which keys of a run are common to all and which are its kind's. */
interface Share { readonly common: Fields; readonly ownKeys: readonly string[]; readonly commonKeys: readonly string[] }

function shareOf(kind: RunKind | undefined): Share {
  const common = commonFieldsBeside(kind);
  return { common, ownKeys: [...Object.keys(kind?.fields ?? {}), 'kind'], commonKeys: [...Object.keys(common), 'kind'] };
}

/** A run is of the kind of its stock, or says its kind itself. */
function kindOfRun(entry: SectionEntry, runKinds: RunKinds, stock: ReadonlyMap<string, Stock>, reading: Reading): { kind: RunKind | undefined; from: Stock | undefined; isUndecided: boolean } {
  const stockEntry = entryOf(entry.node, 'stock');
  const hasStock = stockEntry !== undefined && !isEmpty(stockEntry.value);
  const hasKind = entryOf(entry.node, 'kind') !== undefined;
  const named = hasStock && stockEntry.value.form === 'scalar' ? stock.get(stockEntry.value.text) : undefined;
  if (!hasStock && !hasKind) {
    reading.report({ code: 'missing_value', path: `${entry.path}.stock`, place: entry.keyPlace, found: 'nothing', expected: 'a name from the stock section, or a kind with its fields' });
    return { kind: undefined, from: undefined, isUndecided: true };
  }
  if (!hasKind) return { kind: named && runKinds.get(named.kind), from: named, isUndecided: named === undefined };
  const word = readKindWord(entry, runKinds.keys(), 'a kind of run', reading);
  if (word !== undefined && named && named.kind !== word) {
    const place = reading.places.get(`${entry.path}.kind`) ?? entry.keyPlace;
    reading.report({ code: 'bad_value', path: `${entry.path}.kind`, place, found: `“${word}”`, expected: `${named.kind}, as its stock ${named.name}; or no kind at all`, level: 'note' });
    return { kind: runKinds.get(named.kind), from: named, isUndecided: false };
  }
  return { kind: runKinds.get(word ?? named?.kind ?? ''), from: named, isUndecided: hasStock && named === undefined };
}

function forget(path: string, reading: Reading): void {
  const index = reading.portReferences.findIndex((reference) => reference.path === path);
  if (index !== -1) reading.portReferences.splice(index, 1);
}

/** `M1.pos` as an end; undefined with a problem when there is no such port, silently when its part was left out. */
function readEnd(value: Values[string] | undefined, path: string, ports: Ports, reading: Reading): RunEnd | undefined {
  if (typeof value !== 'string') return undefined;
  return findPort(value, path, reading.places.get(path) as Place, ports, reading);
}

/** Finds a port by `Part.port`, or reports what is wrong with it. */
export function findPort(text: string, path: string, place: Place, ports: Ports, reading: Reading): RunEnd | undefined {
  const dot = text.indexOf('.');
  const part = dot === -1 ? text : text.slice(0, dot);
  const port = dot === -1 ? '' : text.slice(dot + 1);
  const found = `“${excerpt(text)}”`;
  const known = ports.get(part);
  if (known?.has(port)) return { part, port };
  if (known) {
    const names = [...known.keys()];
    const near = port === '' ? undefined : reading.nearest(port, names);
    reading.report({ code: 'unknown_port', path, place, found, expected: names.length === 0 ? `a port; ${part} has none` : `a port of ${part}: ${names.join(', ')}`, nearest: near === undefined ? undefined : `${part}.${near}` });
  } else if (!reading.names.parts.has(part)) {
    const near = reading.nearest(part, reading.names.parts);
    reading.report({ code: 'unknown_name', path, place, found, expected: `a part and one of its ports; there is no part ${excerpt(part)}`, nearest: near === undefined ? undefined : port === '' ? near : `${near}.${port}` });
  }
  return undefined;
}

interface Usage { readonly held: Map<string, number>; readonly joined: Map<string, string> }

/** Notes what a run occupies; false when it cannot be in the model. */
function takeUp(entry: SectionEntry, from: RunEnd, to: RunEnd, ports: Ports, usage: Usage, reading: Reading): boolean {
  const a = `${from.part}.${from.port}`;
  const b = `${to.part}.${to.port}`;
  if (a === b) {
    reading.report({ code: 'run_to_itself', path: entry.path, place: reading.places.get(`${entry.path}.to`) ?? entry.keyPlace, found: `a run from ${a} to itself`, expected: 'two different ports' });
    return false;
  }
  const pair = [a, b].sort().join(' ');
  const other = usage.joined.get(pair);
  if (other !== undefined) reading.report({ code: 'double_connection', path: entry.path, place: entry.keyPlace, found: `a second run between ${a} and ${b}`, expected: `one; ${other} joins them already`, level: 'note' });
  else usage.joined.set(pair, entry.name);
  for (const [end, side] of [[from, 'from'], [to, 'to']] as const) {
    const name = `${end.part}.${end.port}`;
    const count = (usage.held.get(name) ?? 0) + 1;
    usage.held.set(name, count);
    const holds = ports.get(end.part)?.get(end.port)?.holds ?? Infinity;
    if (count > holds) reading.report({ code: 'double_connection', path: `${entry.path}.${side}`, place: reading.places.get(`${entry.path}.${side}`) ?? entry.keyPlace, found: `run number ${count} on ${name}`, expected: `at most ${holds} there`, level: 'note' });
  }
  return true;
}
