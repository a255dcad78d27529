/**
 * Edits of the build file: text -> text, touching only the characters that change.
 *
 * Invariants: comments, order, blank lines and line ends stay; nothing but the edited value reads differently afterwards
 * (proved on every edit by reading the new text); each edit comes with splices that take the text back to the byte.
 */
import type { Fields } from '../part/field.ts';
import { insertIntoEmpty, insertIntoList, insertIntoMap, lineEndOf, removeAt } from './edit-entry.ts';
import type { IsText } from './edit-entry.ts';
import { fieldAt, fieldWithin } from './field-at.ts';
import { flatten, locate } from './locate.ts';
import type { Spot } from './locate.ts';
import { nameReferences } from './name-references.ts';
import { nameRule, nameRuleInWords } from './name-rule.ts';
import type { Place } from './place.ts';
import type { Problem } from './problem.ts';
import { readBuild } from './read-build.ts';
import type { Words } from './read-build.ts';
import { partFields } from './read-parts.ts';
import { commonFieldsBeside } from './read-runs.ts';
import { sizePieces } from './read-triple.ts';
import { collectProblems, problemOf } from './report-problem.ts';
import { emptyMemory, readSourceAgain } from './source-memory.ts';
import type { SourceMemory } from './source-memory.ts';
import { applySplices, inOrder, inverseOf } from './splice.ts';
import type { Splice } from './splice.ts';
import { isEmpty } from './source-tree.ts';
import type { SourceNode } from './source-tree.ts';
import { isTypedCollection, writeBlock, writeFlow, writeScalar } from './write-value.ts';
import type { Entered } from './write-value.ts';

export type NamedSection = 'removed' | 'cells' | 'stock' | 'parts' | 'runs' | 'modes';

export type Edit =
  /** writes a value, as typed; adds the key when it is absent. `force` writes it even when its descriptor refuses it */
  | { readonly do: 'set'; readonly path: string; readonly to: Entered; readonly force?: boolean }
  /** takes out a value with its key, a whole entry (`runs.W1`) or an item of a list */
  | { readonly do: 'remove'; readonly path: string }
  /** adds an entry behind the last one of a group (with `key`) or an item to a list (without) */
  | { readonly do: 'insert'; readonly into: string; readonly key?: string; readonly value: Entered; readonly force?: boolean }
  | { readonly do: 'add_part'; readonly name: string; readonly kind: string; readonly fields?: Readonly<Record<string, Entered>> }
  | { readonly do: 'add_run'; readonly name: string; readonly from: string; readonly to: string; readonly fields?: Readonly<Record<string, Entered>> }
  /** without `withRuns` a part that runs or modes use is not removed */
  | { readonly do: 'remove_part'; readonly name: string; readonly withRuns: boolean }
  /** renames an entry and every reference to it */
  | { readonly do: 'rename'; readonly section: NamedSection; readonly name: string; readonly to: string }
  /** replaces stretches of the text; what `inverse` is made of */
  | { readonly do: 'splice'; readonly splices: readonly Splice[] };

export type EditResult =
  | {
    readonly ok: true; readonly text: string; readonly splices: readonly Splice[];
    /** takes the new text back to the old one, byte for byte */
    readonly inverse: Edit;
    /** the same in the words of the build, for edits that have such a reverse; still right after other edits */
    readonly reverse: Edit | undefined;
  }
  | { readonly ok: false; readonly problem: Problem };

/**
 * Edits the text of a build file.
 *
 * @param text   the file
 * @param edit   what to change
 * @param words  kinds, run kinds and handbook that the value is checked against
 * @param memory of the reader of this file; makes it quicker, changes nothing else
 * @returns the new text and how to take it back, or why the edit was not made
 * Checked: core/build/edit-build.test.ts
 */
export function editBuild(text: string, edit: Edit, words: Words, memory: SourceMemory = emptyMemory()): EditResult {
  const context = contextOf(text, words, memory);
  switch (edit.do) {
    case 'splice': return edited(context, edit.splices, { reverse: undefined });
    case 'set': return setValue(context, edit);
    case 'remove': return removeValue(context, edit.path);
    case 'insert': return insertEntry(context, edit);
    case 'add_part': {
      const fields = words.kinds.get(edit.kind)?.fields;
      return addEntry(context, 'parts', edit.name, { kind: edit.kind, ...edit.fields }, fields && partFields(fields));
    }
    case 'add_run': {
      const kind = words.runKinds.get(typeof edit.fields?.['kind'] === 'string' ? edit.fields['kind'] : '');
      return addEntry(context, 'runs', edit.name, { from: edit.from, to: edit.to, ...edit.fields }, { ...commonFieldsBeside(kind), ...kind?.fields });
    }
    case 'remove_part': return removePart(context, edit.name, edit.withRuns);
    case 'rename': return rename(context, edit.section, edit.name, edit.to);
  }
}

/** A text, its tree and what is wrong with its syntax. */
interface Context { readonly text: string; readonly root: SourceNode | undefined; readonly broken: readonly Problem[]; readonly words: Words; readonly memory: SourceMemory }

function contextOf(text: string, words: Words, memory: SourceMemory): Context {
  const problems = collectProblems();
  const root = readSourceAgain(text, memory, problems.report);
  return { text, root, broken: problems.all(), words, memory };
}

interface Proof {
  readonly reverse: Edit | undefined;
  /** only what is at or below this path may read differently */
  readonly path?: string;
  /** problems at or below the path refuse the edit */
  readonly isChecked?: boolean;
}

const top: Place = { line: 1, column: 1, offset: 0, end: 0 };

/** Makes the change and proves that it did what it should and nothing else. */
function edited(context: Context, splices: readonly Splice[], { reverse, path, isChecked = false }: Proof): EditResult {
  const { text, words, memory } = context;
  const after = applySplices(text, splices);
  if (after === undefined) return refused('', top, 'another text than the edit was made for', 'the text as it was then');
  const result: EditResult = { ok: true, text: after, splices, inverse: { do: 'splice', splices: inverseOf(splices) }, reverse };
  if (path === undefined) return result;
  const now = contextOf(after, words, memory);
  const broken = freshProblem(now.broken, context.broken);
  if (broken) return { ok: false, problem: broken };
  const other = changedElsewhere(context.root, now.root, path);
  if (other !== undefined) return refused(path, top, `a place in the text that ${other} shares or is written around`, 'a value of its own; change the text by hand');
  if (!isChecked) return result;
  const isAgainst = (problem: Problem): boolean => isBelow(problem.path, path) && problem.level === 'stop' && problem.code !== 'missing_value';
  const against = readBuild(after, words, memory).problems.filter(isAgainst);
  const fresh = against.length === 0 ? undefined : freshProblem(against, readBuild(text, words, memory).problems);
  return fresh ? { ok: false, problem: fresh } : result;
}

/** A value that reads differently although it is neither at the path, nor below it, nor a group around it. */
function changedElsewhere(before: SourceNode | undefined, after: SourceNode | undefined, path: string): string | undefined {
  const [old, now] = [flatten(before), flatten(after)];
  const isOther = (key: string): boolean => !isBelow(key, path) && !path.startsWith(`${key}.`);
  for (const [key, value] of old) if (isOther(key) && now.get(key) !== value) return key;
  for (const key of now.keys()) if (isOther(key) && !old.has(key)) return key;
  return undefined;
}

function isBelow(path: string, above: string): boolean {
  return path === above || path.startsWith(`${above}.`);
}

/** A problem that was not there before; the same mistake may have moved. */
function freshProblem(problems: readonly Problem[], known: readonly Problem[]): Problem | undefined {
  const old = new Set(known.map((problem) => `${problem.code} ${problem.message}`));
  return problems.find((problem) => !old.has(`${problem.code} ${problem.message}`));
}

function refused(path: string, place: Place, found: string, expected: string): EditResult {
  return { ok: false, problem: problemOf({ code: 'bad_value', path, place, found, expected }) };
}

function setValue(context: Context, { path, to, force }: Extract<Edit, { do: 'set' }>): EditResult {
  const { text, root, words } = context;
  const segments = path.split('.');
  const field = fieldAt(path, root, words);
  const spots = locate(root, segments, text);
  const spot = spots.at(-1);
  if (spot && spots.length === segments.length && !isEmpty(spot.node)) {
    if (spot.isShared) return refused(path, spot.at, 'a value behind an alias, which others share', 'a value of its own');
    const isText = field !== undefined ? isScalarField(field) : spot.node.form === 'scalar' && typeof to === 'string' && !isTypedCollection(to);
    const old = text.slice(spot.at.offset, spot.at.end).trimEnd();
    const reverse: Edit | undefined = spot.node.form === 'scalar' && spot.at.offset === spot.node.place.offset ? { do: 'set', path, to: spot.node.text, force: true } : undefined;
    const written = replacement(spot, to, isText, old);
    return edited(context, [{ at: spot.at.offset, removed: old, inserted: written }], { reverse, path: spot.parent.form === 'list' ? segments.slice(0, -1).join('.') : path, isChecked: !force });
  }
  const piece = sizePiece(context, segments, spots);
  if (piece && typeof to === 'string') return edited(context, [{ ...piece, inserted: to.trim() }], { reverse: { do: 'set', path, to: piece.removed, force: true }, path: segments.slice(0, -1).join('.'), isChecked: !force });
  return addMissing(context, segments, spots, to, force === true);
}

/** The new value in the style of the old one: quoted if it was, in brackets if it stands in brackets. */
function replacement(spot: Spot, to: Entered, isText: boolean, old: string): string {
  if (typeof to !== 'string' || (!isText && isTypedCollection(to))) return typeof to === 'string' ? to.trim() : writeFlow(to);
  const quote = old.startsWith("'") ? 'single' : old.startsWith('"') ? 'double' : 'plain';
  return writeScalar(to, spot.inFlow ? 'flow' : 'block', quote);
}

/** `size.x` is a stretch of the size's text. */
function sizePiece(context: Context, segments: readonly string[], spots: readonly Spot[]): { at: number; removed: string } | undefined {
  const axis = ['x', 'y', 'z'].indexOf(segments.at(-1) ?? '');
  const spot = spots.at(-1);
  if (axis === -1 || !spot || spots.length !== segments.length - 1 || spot.node.form !== 'scalar' || spot.isShared || spot.at.offset !== spot.node.place.offset) return undefined;
  if (fieldAt(segments.slice(0, -1).join('.'), context.root, context.words)?.type !== 'size') return undefined;
  const piece = sizePieces(spot.node.text)?.[axis];
  const at = spot.at.offset + (spot.node.isQuoted ? 1 : 0) + (piece?.at ?? 0);
  return piece && context.text.startsWith(piece.text, at) ? { at, removed: piece.text } : undefined;
}

/** Adds the key that is absent, with the groups around it when they are absent too. */
function addMissing(context: Context, segments: readonly string[], spots: readonly Spot[], to: Entered, force: boolean): EditResult {
  const path = segments.join('.');
  const isEntryMissing = segments.length > 2 && spots.length < 2 && !['vehicle', 'conditions'].includes(segments[0] ?? '');
  if (isEntryMissing || segments.some((segment) => segment === '')) return refused(path, spots.at(-1)?.at ?? top, 'no such entry', 'the path of a value, of an entry that is there');
  const depth = spots.at(-1) && spots.length === segments.length ? spots.length - 1 : spots.length;
  const rest = segments.slice(depth + 1);
  const value = rest.reduceRight<Entered>((inner, name) => ({ [name]: inner }), to);
  return insertAt(context, segments.slice(0, depth), segments[depth] as string, value, path, force);
}

function insertEntry(context: Context, { into, key, value, force }: Extract<Edit, { do: 'insert' }>): EditResult {
  const parents = into === '' ? [] : into.split('.');
  const spots = locate(context.root, parents, context.text);
  if (spots.length !== parents.length) {
    if (key === undefined) return setValue(context, { do: 'set', path: into, to: [value], force: force === true });
    return addMissing(context, [...parents, key], spots, value, force === true);
  }
  return insertAt(context, parents, key, value, key === undefined ? into : `${into === '' ? '' : `${into}.`}${key}`, force === true);
}

function addEntry(context: Context, section: NamedSection, name: string, value: { readonly [name: string]: Entered }, fields: Fields | undefined): EditResult {
  const path = `${section}.${name}`;
  if (!nameRule.test(name)) return refused(path, top, `the name “${name}”`, nameRuleInWords);
  return insertAt(context, [section], name, value, path, false, (inner) => isScalarField(fieldWithin(fields, inner)));
}

/** Puts an entry into the group or list at `parents`, which exists, is empty or (a section) is absent. */
function insertAt(context: Context, parents: readonly string[], key: string | undefined, value: Entered, path: string, force: boolean, isTextOfEntry?: IsText): EditResult {
  const { text, root, words } = context;
  const isText: IsText = isTextOfEntry ?? ((inner) => isScalarField(fieldAt([path, ...inner].join('.'), root, words)));
  const proof: Proof = { path, isChecked: !force, reverse: key === undefined ? undefined : { do: 'remove', path } };
  const spots = locate(root, parents, text);
  const spot = spots.at(-1);
  if (spots.length < parents.length) {
    if (parents.length !== 1 || key === undefined) return refused(path, spot?.at ?? top, 'no such entry', 'the path of a group or list that is there');
    return insertAt(context, [], parents[0], { [key]: value }, path, force, (inner) => isText(inner.slice(1)));
  }
  const target = parents.length === 0 ? root : spot?.node;
  if (spot && (spot.isShared || spot.at.offset !== spot.node.place.offset)) return refused(path, spot.at, 'a value behind an alias, which others share', 'a value of its own');
  if (target && target.form !== 'scalar') {
    if (target.form === 'list') return key === undefined ? edited(context, [insertIntoList(target, value, text, isText)], { ...proof, reverse: { do: 'remove', path: `${path}.${target.items.length}` } }) : refused(path, target.place, 'a list', 'a group of keys');
    if (key === undefined) return refused(path, target.place, 'a group of keys', 'a list, or a key for the new entry');
    const index = target.entries.findIndex((entry) => entry.key === key);
    const there = target.entries[index];
    if (there && !isEmpty(there.value)) return refused(path, there.keyPlace, `${key}, which is there already`, 'a new name');
    if (there) return edited(context, [insertIntoEmpty(there.keyPlace, there.at, value, locate(root, path.split('.'), text).at(-1)?.inFlow ?? false, text, isText)], { ...proof, reverse: undefined });
    return edited(context, [insertIntoMap(target, key, value, text, isText)], proof);
  }
  if (target && !isEmpty(target)) return refused(path, target.place, `“${target.text}”`, 'a group of keys or a list');
  if (spot?.keyPlace) {
    const inner: IsText = key === undefined ? isText : (below) => isText(below.slice(1));
    return edited(context, [insertIntoEmpty(spot.keyPlace, spot.at, key === undefined ? [value] : { [key]: value }, spot.inFlow, text, inner)], { ...proof, reverse: undefined });
  }
  if (key === undefined) return refused(path, top, 'an empty file', 'a group to put it into');
  const lineEnd = lineEndOf(text);
  const lineBreak = text === '' || text.endsWith('\n') ? '' : lineEnd;
  return edited(context, [{ at: text.length, removed: '', inserted: `${lineBreak}${key}:${writeBlock(value, 0, 2, lineEnd, isText)}${lineEnd}` }], proof);
}

function removeValue(context: Context, path: string): EditResult {
  const segments = path.split('.');
  const spots = locate(context.root, segments, context.text);
  const spot = spots.at(-1);
  if (!spot || spots.length !== segments.length) return refused(path, spot?.at ?? top, 'no such value', 'the path of a value that is there');
  if (spot.isShared) return refused(path, spot.at, 'a value behind an alias, which others share', 'a value of its own');
  const splices = removeAt(spot.parent, spot.index, context.text);
  if (!splices) return refused(path, spot.at, 'a value that shares its line with the start of its group', 'a line of its own; change the text by hand');
  // Items of a list move up when one before them goes.
  return edited(context, splices, { path: spot.parent.form === 'list' ? segments.slice(0, -1).join('.') : path, reverse: undefined });
}

/** Removes a part, and with it the runs that end at it and what modes set on it. */
function removePart(context: Context, name: string, withRuns: boolean): EditResult {
  const users = nameReferences(context.root, context.words).filter(({ path, text, of }) =>
    (of === 'ports' && /^runs\.[^.]+\.(?:from|to)$/.test(path) && text.split('.', 1)[0] === name) || (of === 'parts' && /^modes\.[^.]+\.set\.[^.]+$/.test(path) && text === name));
  const first = users[0];
  if (first && !withRuns) return refused(`parts.${name}`, first.place, `${first.path}, which uses it`, 'a part that no run and no mode uses');
  const paths = new Set(users.map(({ path }) => path.startsWith('runs.') ? path.split('.').slice(0, 2).join('.') : path));
  const splices: Splice[] = [];
  let text = context.text;
  for (const path of [...paths, `parts.${name}`]) {
    const step = removeValue(contextOf(text, context.words, context.memory), path);
    if (!step.ok) return step;
    splices.push(...step.splices);
    text = step.text;
  }
  return { ok: true, text, splices, inverse: { do: 'splice', splices: inverseOf(splices) }, reverse: undefined };
}

/** Renames an entry and everything that names it. */
function rename(context: Context, section: NamedSection, name: string, to: string): EditResult {
  const { text, root, words } = context;
  const path = `${section}.${name}`;
  const spots = locate(root, [section, name], text);
  const spot = spots[1];
  if (!spot?.keyPlace) return refused(path, top, 'no such entry', `a name of the ${section} section`);
  if (!nameRule.test(to)) return refused(path, spot.keyPlace, `the name “${to}”`, nameRuleInWords);
  const taken = locate(root, [section, to], text)[1];
  if (taken) return refused(path, taken.keyPlace ?? taken.at, `${to}, which is there already`, 'a new name');
  const splices = [respelt(spot.keyPlace, to, text)];
  for (const reference of nameReferences(root, words)) {
    if (reference.of === section && reference.text === name) splices.push(respelt(reference.place, to, text));
    else if (reference.of === 'ports' && section === 'parts' && reference.text.startsWith(`${name}.`)) splices.push(respelt(reference.place, to + reference.text.slice(name.length), text));
  }
  const result = edited(context, inOrder(splices), { reverse: { do: 'rename', section, name: to, to: name } });
  if (!result.ok) return result;
  const broken = freshProblem(contextOf(result.text, words, context.memory).broken, context.broken);
  return broken ? { ok: false, problem: broken } : result;
}

function respelt(place: Place, to: string, text: string): Splice {
  const removed = text.slice(place.offset, place.end);
  const quote = removed.startsWith("'") ? 'single' : removed.startsWith('"') ? 'double' : 'plain';
  return { at: place.offset, removed, inserted: writeScalar(to, 'flow', quote) };
}

function isScalarField(field: ReturnType<typeof fieldAt>): boolean {
  return field !== undefined && !['position', 'list', 'map', 'group'].includes(field.type);
}
