/**
 * Build file text -> source tree, with a problem for each thing in the text that is not YAML 1.2 or is beyond the limits.
 * The `yaml` library does the reading of the syntax, with a schema that leaves every scalar as typed.
 */
import { Composer, Lexer, Parser, isAlias, isMap, isScalar, isSeq } from 'yaml';
import type { Alias, Document, ParsedNode, Scalar, YAMLMap, YAMLSeq } from 'yaml';
import type { Place } from './place.ts';
import { lineStartsOf, placeAt } from './place-at.ts';
import type { Report } from './report-problem.ts';
import { excerpt } from './report-problem.ts';
import { MAXIMUM_ALIASES, MAXIMUM_DEPTH, MAXIMUM_LENGTH, MAXIMUM_NODES } from './source-tree.ts';
import type { SourceEntry, SourceNode } from './source-tree.ts';

type Token = Parameters<Composer<ParsedNode>['next']>[0];

/** Problems of syntax beyond this many are counted, not listed: a file of garbage would have thousands. */
const MOST_SYNTAX_PROBLEMS = 100;
/** What this much text takes to read is what the limits are for; a build of 500 parts and 500 runs has a fifth of it. */
const MAXIMUM_TOKENS = 200_000;
/** Signs that never follow themselves on a line of YAML; each time they do, as for each directive, the library makes an error object. */
const neverTwice: ReadonlySet<string> = new Set([',', '"', "'", '&', '!']);
const MOST_GARBLED = 500;
/** Aliases beyond `MAXIMUM_ALIASES` are refused one by one; so many of them are not worth composing. */
const MOST_ALIASES = 2 * MAXIMUM_ALIASES;
/** Composing a tree recurses, so absurd indentation is refused before it. */
const WIDEST_INDENT = 400;

/**
 * @returns the tree, or undefined when there is nothing to read
 * Errors: reports every problem; never throws
 */
export function readSource(text: string, report: Report): SourceNode | undefined {
  if (text.length > MAXIMUM_LENGTH) {
    report({ code: 'too_large', path: '', place: { line: 1, column: 1, offset: 0, end: text.length }, found: `${text.length} characters`, expected: `at most ${MAXIMUM_LENGTH}` });
    return undefined;
  }
  const lineStarts = lineStartsOf(text);
  const place = (from: number, to: number): Place => placeAt(lineStarts, from, to);
  const { tokens, stop } = tokensOf(text);
  if (stop) report({ ...stopWords[stop.why], path: '', place: place(stop.at, Math.min(stop.at + 1, text.length)) });
  // What follows from breaking off is no mistake of the builder.
  const document = composed(tokens, text, stop ? () => undefined : report, place);
  return document ? treeOf(document, text, report, place) : undefined;
}

interface Stop { readonly why: 'too_deep' | 'too_many' | 'too_many_aliases' | 'garbled'; readonly at: number }

/** What a builder has most likely done, by the library's code; others keep the library's own sentence. */
const syntaxWords: Readonly<Partial<Record<string, string>>> = {
  TAB_AS_INDENT: 'lines are indented with spaces, never with tabs',
  BLOCK_IN_FLOW: 'a { or [ further up is not closed, or a comma is missing before this',
  MISSING_CHAR: 'a comma, a colon, a quote or a closing bracket is missing here',
  BAD_INDENT: 'this line is indented more or less than the lines it belongs to',
  UNEXPECTED_TOKEN: 'this does not belong here; look for a missing comma, colon, quote or bracket just before',
  MULTILINE_IMPLICIT_KEY: 'a colon is missing, or a { or [ is not closed on this line',
  BLOCK_AS_IMPLICIT_KEY: 'two colons on one line: put the value into quotes, or on a line of its own',
  BAD_ALIAS: 'a * starts an alias in YAML: put the text into quotes',
  BAD_SCALAR_START: 'a value cannot start with this sign: put it into quotes',
  BAD_DQ_ESCAPE: 'a backslash in double quotes starts an escape: use single quotes',
};

const stopWords = {
  too_deep: { code: 'too_deep', found: `values inside values more than ${MAXIMUM_DEPTH} deep`, expected: 'a flat file; the rest of the text was not read' },
  garbled: { code: 'bad_yaml', found: 'one stray sign after the other', expected: 'this is no build file; the rest of the text was not read' },
  too_many_aliases: { code: 'too_many_aliases', found: `more than ${MOST_ALIASES} aliases`, expected: `at most ${MAXIMUM_ALIASES}; the rest of the text was not read` },
  too_many: { code: 'too_large', found: `more than ${MAXIMUM_TOKENS} words and signs`, expected: 'fewer; the rest of the text was not read' },
} as const;

/** Syntax tokens up to the second document, or to where the text passes a limit. */
function tokensOf(text: string): { tokens: Token[]; stop: Stop | undefined } {
  const parser = new Parser();
  const tokens: Token[] = [];
  let stop: Stop | undefined;
  let offset = 0;
  let depth = 0;
  let compact = 0;
  let indent = 0;
  let count = 0;
  let documents = 0;
  let garbled = 0;
  let aliases = 0;
  let previousSign = '';
  let previous = '\n';
  for (const lexeme of new Lexer().lex(text)) {
    if (previous !== '\x1f') {
      if (lexeme === '[' || lexeme === '{') depth++;
      else if (lexeme === ']' || lexeme === '}') depth--;
      else if (depth === 0 && (lexeme === '-' || lexeme === '?')) compact++;
      else if (isLineEnd(lexeme)) compact = 0;
      if (depth + compact > MAXIMUM_DEPTH || (indent > WIDEST_INDENT && !isMargin(lexeme) && !isLineEnd(lexeme))) stop = { why: 'too_deep', at: offset };
    }
    if (!isMargin(lexeme)) {
      const sign = lexeme.charAt(0);
      if (((sign === previousSign && neverTwice.has(sign)) || (sign === '%' && previous !== '\x1f')) && ++garbled > MOST_GARBLED) stop = { why: 'garbled', at: offset };
      if (++count > MAXIMUM_TOKENS) stop = { why: 'too_many', at: offset };
      if (sign === '*' && previous !== '\x1f' && ++aliases > MOST_ALIASES) stop = { why: 'too_many_aliases', at: offset };
      if (sign !== '\x1f') previousSign = sign;
    }
    if (stop) break;
    for (const token of parser.next(lexeme)) {
      tokens.push(token);
      if (token.type === 'document') documents++;
    }
    if (documents > 1) return { tokens, stop };
    if (isText(lexeme)) offset += lexeme.length;
    indent = isLineEnd(previous) ? indentOf(lexeme) : 0;
    previous = lexeme;
  }
  for (const token of parser.end()) tokens.push(token);
  return { tokens, stop };
}

/** The lexer marks documents, flow ends and scalars with control characters that are not in the text. */
function isText(lexeme: string): boolean {
  return lexeme !== '\x02' && lexeme !== '\x18' && lexeme !== '\x1f';
}

/** Comments and spaces, which cost little. */
function isMargin(lexeme: string): boolean {
  return lexeme.startsWith('#') || lexeme.startsWith(' ');
}

function isLineEnd(lexeme: string): boolean {
  return lexeme === '\n' || lexeme === '\r\n';
}

function indentOf(lexeme: string): number {
  return /^ +$/.test(lexeme) ? lexeme.length : 0;
}

/** The first document of the text. */
function composed(tokens: readonly Token[], text: string, report: Report, place: (from: number, to: number) => Place): Document.Parsed | undefined {
  const composer = new Composer({ schema: 'failsafe', uniqueKeys: false, prettyErrors: false, strict: true, logLevel: 'silent' });
  const documents: Document.Parsed[] = [];
  for (const token of tokens) for (const document of composer.next(token)) documents.push(document as Document.Parsed);
  for (const document of composer.end(true, text.length)) documents.push(document as Document.Parsed);
  const first = documents[0];
  let untold = 0;
  for (const [index, error] of (first?.errors ?? []).entries()) {
    if (index >= MOST_SYNTAX_PROBLEMS) { untold++; continue; }
    const from = Math.min(error.pos[0], text.length);
    const line = text.slice(from, from + 80).split(/\r?\n/, 1)[0] ?? '';
    report({ code: 'bad_yaml', path: '', place: place(from, Math.min(error.pos[1], text.length)), found: line.trim() === '' ? 'the end of the line' : `“${excerpt(line)}”`, expected: syntaxWords[error.code] ?? error.message });
  }
  if (untold > 0) report({ code: 'bad_yaml', path: '', place: place(text.length, text.length), found: 'the rest of the text', expected: `${untold} more problems of this sort` });
  const second = documents[1];
  if (second) report({ code: 'bad_yaml', path: '', place: place(second.range[0], second.range[0] + 3), found: 'a second document', expected: 'one build a file; what follows `---` was not read' });
  return first;
}

interface Grown { readonly node: SourceNode; /** nodes, aliases followed */ readonly size: number; /** levels below it */ readonly height: number }

/** Library nodes -> source tree, with aliases followed and keys made unique. */
function treeOf(document: Document.Parsed, text: string, report: Report, place: (from: number, to: number) => Place): SourceNode | undefined {
  const anchors = new Map<string, Grown | 'growing'>();
  let aliases = 0;
  let size = 0;
  let deepest = 0;
  if (document.contents === null) return undefined;
  return grow(document.contents, '', 1)?.node;

  function grow(node: ParsedNode | null, path: string, depth: number): Grown | undefined {
    if (node === null) return undefined;
    const here = place(node.range[0], node.range[1]);
    if (isAlias(node)) return follow(node, path, here, depth);
    if (depth > MAXIMUM_DEPTH) {
      report({ code: 'too_deep', path, place: here, found: `values inside values more than ${MAXIMUM_DEPTH} deep`, expected: 'a flat file' });
      return undefined;
    }
    const anchor = node.anchor;
    if (anchor) anchors.set(anchor, 'growing');
    const before = size++;
    const outside = deepest;
    deepest = depth;
    const grown = isMap(node) ? growMap(node as YAMLMap.Parsed, path, here, depth) : isSeq(node) ? growList(node as YAMLSeq.Parsed, path, here, depth) : isScalar(node) ? growScalar(node as Scalar.Parsed, here) : undefined;
    if (!grown) return undefined;
    const result = { node: grown, size: size - before, height: deepest - depth };
    deepest = Math.max(outside, deepest);
    if (anchor) anchors.set(anchor, result);
    return result;
  }

  function growScalar(node: Scalar.Parsed, here: Place): SourceNode {
    return { form: 'scalar', text: String(node.value ?? ''), isQuoted: node.type !== 'PLAIN', place: here };
  }

  function growList(node: YAMLSeq.Parsed, path: string, here: Place, depth: number): SourceNode {
    const items: SourceNode[] = [];
    const itemPlaces: Place[] = [];
    node.items.forEach((item, index) => {
      const grown = grow(item as ParsedNode, `${path}.${index}`, depth + 1);
      if (!grown) return;
      items.push(grown.node);
      itemPlaces.push(place(item.range[0], item.range[1]));
    });
    return { form: 'list', items, itemPlaces, place: text[here.offset] === '[' ? here : closed(here, itemPlaces.at(-1)) };
  }

  function growMap(node: YAMLMap.Parsed, path: string, here: Place, depth: number): SourceNode {
    const entries: SourceEntry[] = [];
    const seen = new Set<string>();
    for (const pair of node.items) {
      const key = pair.key as ParsedNode | null;
      const keyPlace = key ? place(key.range[0], key.range[1]) : here;
      if (!isScalar(key)) {
        report({ code: 'bad_value', path, place: keyPlace, found: key ? excerpt(text.slice(key.range[0], key.range[1])) : 'a value without a key', expected: 'a name followed by a colon' });
        continue;
      }
      const name = String(key.value ?? '');
      const entryPath = path === '' ? name : `${path}.${name}`;
      if (seen.has(name)) {
        report({ code: 'duplicate_key', path: entryPath, place: keyPlace, found: `a second ${name}`, expected: 'each key once' });
        continue;
      }
      seen.add(name);
      const value = pair.value === null ? emptyBehind(keyPlace) : grow(pair.value as ParsedNode, entryPath, depth + 1)?.node;
      const at = pair.value === null ? value?.place : place((pair.value as ParsedNode).range[0], (pair.value as ParsedNode).range[1]);
      if (value && at) entries.push({ key: name, keyPlace, value, at });
    }
    return { form: 'map', entries, place: text[here.offset] === '{' ? here : closed(here, entries.at(-1)?.at) };
  }

  function follow(alias: Alias.Parsed, path: string, here: Place, depth: number): Grown | undefined {
    aliases++;
    const target = anchors.get(alias.source);
    const found = `*${alias.source}`;
    if (target === undefined) report({ code: 'bad_yaml', path, place: here, found: `“${found}”`, expected: 'no anchor of that name stands before it' });
    else if (target === 'growing') report({ code: 'too_many_aliases', path, place: here, found: `${found}, which contains itself`, expected: 'an anchor that does not contain its own alias' });
    else if (aliases > MAXIMUM_ALIASES || size + target.size > MAXIMUM_NODES) {
      report({ code: 'too_many_aliases', path, place: here, found, expected: `at most ${MAXIMUM_ALIASES} aliases and ${MAXIMUM_NODES} values once they are followed` });
    } else if (depth + target.height > MAXIMUM_DEPTH) {
      report({ code: 'too_deep', path, place: here, found, expected: `values at most ${MAXIMUM_DEPTH} deep once aliases are followed` });
    } else {
      size += target.size;
      deepest = Math.max(deepest, depth + target.height);
      return target;
    }
    return undefined;
  }
}

/** A collection in block style ends with its last value, not with the line ends and comments behind it. */
function closed(here: Place, last: Place | undefined): Place {
  return last && last.end > here.offset ? { ...here, end: last.end } : here;
}

function emptyBehind(key: Place): SourceNode {
  return { form: 'scalar', text: '', isQuoted: false, place: { ...key, column: key.column + key.end - key.offset, offset: key.end } };
}
