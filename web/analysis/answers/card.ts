/** Everything that a card shows: every field that the thing may have, its ends, its findings. */
import { fieldsOfEntry } from '../../../core/build/field-at.ts';
import { handbookUsers } from '../../../core/build/handbook-users.ts';
import { nominal, plainValues } from '../../../core/build/plain-values.ts';
import { conditionFields, fileFields, sectionMeanings, vehicleFields } from '../../../core/build/sections.ts';
import { readSourceAgain } from '../../../core/build/source-memory.ts';
import type { Analysis } from '../../../core/analyse.ts';
import type { Fields } from '../../../core/part/field.ts';
import { cardField, cardFields, cardSource, nodeAt, writtenAt } from '../card-field.ts';
import type { CardSource } from '../card-field.ts';
import { findingRow } from '../../../study/finding-row.ts';
import type { KeptAnalysis } from '../../../study/kept-analysis.ts';
import type { Card, CardField, Questions } from '../protocol.ts';

const namedSections = ['removed', 'cells', 'stock', 'parts', 'runs', 'modes'];

/** What the card of a path is about: a whole section of single values, or one entry. `''` is the head of the file. */
export function ownerOf(path: string): string | undefined {
  const [section = '', name] = path.split('.');
  if (section === '' || Object.hasOwn(fileFields, section)) return '';
  if (section === 'vehicle' || section === 'conditions') return section;
  return namedSections.includes(section) && name !== undefined && name !== '' ? `${section}.${name}` : undefined;
}

/** @returns undefined when the build has nothing at the path */
export function answerCard({ text, path: asked, units }: Questions['card']['asks'], kept: Pick<KeptAnalysis, 'of' | 'words' | 'memory'>): Card | undefined {
  const analysis = kept.of(text);
  const { build, car } = analysis;
  const path = asked.startsWith('handbook:') ? handbookUsers(build, asked)[0] ?? '' : asked;
  const owner = ownerOf(path);
  if (owner === undefined) return undefined;
  const root = readSourceAgain(text, kept.memory, () => undefined);
  const source = cardSource({ text, root, build, car, words: kept.words, units });
  const [section = '', name = ''] = owner.split('.');
  if (name === '') {
    const fields = section === '' ? fileFields : section === 'vehicle' ? vehicleFields : conditionFields;
    const meaning = section === '' ? 'What the whole build is called and how it is shown.' : sectionMeanings[section as 'vehicle' | 'conditions'];
    return { path: owner, title: section === '' ? 'Build' : section === 'vehicle' ? 'Vehicle' : 'Conditions', meaning, kind: undefined, fields: cardFields(fields, owner, source), ends: [], findings: findingsOf(owner, analysis), place: build.places.get(owner) };
  }
  if (!entryIsThere(owner, source)) return undefined;
  const kind = kindOf(owner, source);
  const fields = fieldsOfEntry(section, name, root, kept.words) ?? {};
  return {
    path: owner, title: name, kind: kind.word, meaning: kind.meaning,
    fields: [...kind.fields, ...cardFields(ordered(section, fields), owner, source), ...(section === 'modes' ? [settingsField(owner, source)] : [])],
    ends: section === 'parts' ? portsOf(name, analysis) : section === 'runs' ? endsOf(name, analysis) : [],
    findings: findingsOf(owner, analysis), place: build.places.get(owner),
  };
}

function entryIsThere(owner: string, source: CardSource): boolean {
  return source.build.places.has(owner) || nodeAt(owner, source) !== undefined;
}

/** What the kind itself asks for first, then what every part has. */
function ordered(section: string, fields: Fields): Fields {
  if (section !== 'parts') return fields;
  const common = ['mass', 'size', 'at', 'note'];
  const entries = Object.entries(fields);
  return Object.fromEntries([...entries.filter(([name]) => !common.includes(name)), ...entries.filter(([name]) => common.includes(name))]);
}

/** The kind of a part, stock or run, as a field that can be chosen, and what it means. */
function kindOf(owner: string, source: CardSource): { readonly word: string | undefined; readonly meaning: string; readonly fields: readonly CardField[] } {
  const [section = '', name = ''] = owner.split('.');
  const { words, build } = source;
  if (section === 'parts' || section === 'stock' || section === 'runs') {
    const known = [...(section === 'parts' ? words.kinds.values() : words.runKinds.values())];
    const node = nodeAt(`${owner}.kind`, source);
    const word = node?.form === 'scalar' ? node.text : section === 'runs' ? build.runs.get(name)?.kind : undefined;
    const kind = known.find((each) => each.kind === word);
    const stock = section === 'runs' ? build.runs.get(name)?.stock : undefined;
    const field = cardField({ type: 'choice', need: section === 'runs' ? 'optional' : 'required', choices: known.map((each) => each.kind), meaning: section === 'runs' ? 'what sort of run it is, when it is cut from no stock' : 'what sort of thing it is; decides which fields there are' }, 'kind', `${owner}.kind`, source);
    const titled = { ...field, options: known.map((each) => ({ value: each.kind, says: each.title })), instead: stock === undefined ? undefined : `${word}, as stock ${stock}` };
    return { word, meaning: kind ? `${kind.title}: ${kind.meaning}` : 'of a kind that is not known', fields: [titled] };
  }
  const meanings: Readonly<Record<string, string>> = { removed: 'taken out of the vehicle; it was on the scale before', cells: 'a type of cell that battery parts are made of', modes: 'what the vehicle is asked to do' };
  return { word: undefined, meaning: meanings[section] ?? '', fields: [] };
}

/** What a mode sets, part by part. */
function settingsField(owner: string, source: CardSource): CardField {
  const path = `${owner}.set`;
  const node = nodeAt(path, source);
  const set = node?.form === 'map' ? node.entries.map(({ key }) => key) : [];
  const parts = [...source.car.parts.values()].filter(({ kind }) => Object.keys(kind.settings).length > 0);
  const groups = set.map((name): CardField => {
    const part = parts.find((each) => each.name === name);
    const here = `${path}.${name}`;
    const words = part?.kind.settingWords?.(plainValues(source.build.parts.get(name)?.fields ?? {}, nominal) as never);
    return { path: here, name, type: 'group', need: 'optional', meaning: part ? part.kind.title : 'no such part, or one that nothing can be set on', example: undefined, written: writtenAt(here, nodeAt(here, source), source), instead: undefined, options: [], problems: source.problems.get(here) ?? [], fields: part ? cardFields(part.kind.settings, here, source, words) : [] };
  });
  return { path, name: 'set', type: 'map', need: 'optional', meaning: 'what it sets on each part; a setting that is not given is at rest', example: undefined, written: writtenAt(path, node, source), instead: undefined, options: parts.filter(({ name }) => !set.includes(name)).map(({ name, kind }) => ({ value: name, says: kind.title })), problems: source.problems.get(path) ?? [], fields: groups };
}

function findingsOf(owner: string, { findings }: Analysis): Card['findings'] {
  const name = owner.split('.')[1] ?? owner;
  return findings.filter(({ about, path }) => (name !== '' && about.includes(name)) || (owner !== '' && (path === owner || path.startsWith(`${owner}.`)))).map(findingRow);
}

function portsOf(name: string, { car }: Analysis): Card['ends'] {
  return (car.parts.get(name)?.ports ?? []).map((port) => {
    const point = `${name}.${port.name}`;
    const runs = runsAt(point, car);
    return { point, carries: port.carries, meaning: port.meaning, runs, free: Math.max(0, port.holds - runs.length) };
  });
}

function endsOf(name: string, { car }: Analysis): Card['ends'] {
  const run = car.runs.get(name);
  return (run ? [run.from, run.to] : []).map((point) => {
    const port = portAt(point, car);
    const runs = runsAt(point, car);
    return { point, carries: port?.carries ?? run?.carries ?? '', meaning: port ? `${port.title}: ${port.meaning}` : '', runs: runs.filter((other) => other.name !== name), free: Math.max(0, (port?.holds ?? 0) - runs.length) };
  });
}

function portAt(point: string, car: Analysis['car']): { readonly carries: string; readonly meaning: string; readonly holds: number; readonly title: string } | undefined {
  const dot = point.indexOf('.');
  const part = car.parts.get(point.slice(0, dot));
  const port = part?.ports.find(({ name }) => name === point.slice(dot + 1));
  return part && port ? { ...port, title: part.kind.title } : undefined;
}

function runsAt(point: string, car: Analysis['car']): readonly { readonly name: string; readonly to: string }[] {
  return [...car.runs.values()].filter(({ from, to }) => from === point || to === point).map(({ name, from, to }) => ({ name, to: from === point ? to : from }));
}
