/**
 * The keys and values of a build file while it is being typed: which value a place of the text belongs to.
 * Reads the YAML that builders write (indented `key: value`, `{ }`, `[ ]`, `- item`, quotes, comments) and never gives up: a bracket
 * that is not closed yet ends where a line is indented no deeper than the one it began on. What counts is what the real reader
 * says (`core/build/read-source.ts`); this only finds places.
 */

export interface ScanNode {
  readonly key: string;
  /** of the key; of the value where there is none (an item of a list) */
  readonly at: number; keyEnd: number;
  valueAt: number;
  /** behind the last character of the value and all that is in it */
  end: number;
  /** of a scalar, without quotes; undefined for groups and lists */
  text: string | undefined;
  readonly entries: ScanNode[];
}

/** What stands at a path of keys; undefined when the text has no such thing. */
export function scanNodeAt(root: ScanNode, path: readonly string[]): ScanNode | undefined {
  let node: ScanNode | undefined = root;
  for (const segment of path) node = node?.entries.find(({ key }) => key === segment);
  return node;
}

/** Where the text ends: what would be typed there. */
export interface TypingPlace {
  /** the group that a key would go into; with `isKey` false, the path of the value itself */
  readonly path: readonly string[];
  readonly isKey: boolean;
  /** where what has been typed so far starts */
  readonly from: number;
  readonly typed: string;
  readonly inFlow: boolean;
}

export interface Scan { readonly root: ScanNode; /** undefined inside a comment or a text in quotes that is over */ readonly typing: TypingPlace | undefined }

const keyPattern = /^("(?:[^"\\]|\\.)*"|'(?:[^']|'')*'|[^\s#[\]{},&*!|>'"%@`-][^#\n]*?|-[^\s#\n][^#\n]*?)\s*:(?=\s|$)/;

interface Frame { readonly indent: number; readonly node: ScanNode; readonly isItem: boolean }

/** @param text  the whole file, or its beginning: then `typing` says what stands at the end of it */
export function scanText(text: string): Scan {
  const root = nodeOf('', 0, 0);
  let frames: Frame[] = [{ indent: -1, node: root, isItem: false }];
  let typing: TypingPlace | undefined = { path: [], isKey: true, from: text.length, typed: '', inFlow: false };
  let at = 0;
  while (at <= text.length) {
    const stop = lineStop(text, at);
    let start = at;
    while (text[start] === ' ') start++;
    const isLast = stop === text.length;
    const nextLine = stop + 1;
    if (text[start] === '#') {
      if (isLast) typing = undefined;
      at = nextLine;
      continue;
    }
    if (start >= stop) {
      if (isLast) typing = { path: pathOf(popped(frames, start - at)), isKey: true, from: stop, typed: '', inFlow: false };
      at = nextLine;
      continue;
    }
    let indent = start - at;
    while (text[start] === '-' && (text[start + 1] === ' ' || start + 1 >= stop)) {
      frames = frames.filter((frame) => frame.indent < indent || (frame.indent === indent && !frame.isItem));
      const parent = (frames.at(-1) as Frame).node;
      let inner = start + 1;
      while (text[inner] === ' ') inner++;
      const item = nodeOf(String(parent.entries.length), inner, inner);
      parent.entries.push(item);
      frames = [...frames, { indent: indent + 0.5, node: item, isItem: true }];
      indent += inner - start;
      start = inner;
    }
    const item = frames.at(-1);
    const isItemValue = item?.isItem === true && item.node.at === start;
    if (!isItemValue) frames = popped(frames, indent);
    const parent = (frames.at(-1) as Frame).node;
    const found = keyPattern.exec(text.slice(start, stop));
    let valueAt = start;
    let node = parent;
    if (found) {
      node = nodeOf(unquoted(found[1] as string), start, start + (found[1] as string).length);
      parent.entries.push(node);
      frames = [...frames, { indent, node, isItem: false }];
      valueAt = start + found[0].length;
      while (text[valueAt] === ' ') valueAt++;
      node.valueAt = Math.min(valueAt, stop);
    } else if (!isItemValue) {
      if (isLast) typing = { path: pathOf(frames), isKey: true, from: start, typed: text.slice(start, stop), inFlow: false };
      at = nextLine;
      continue;
    }
    const path = pathOf(frames);
    if (text[valueAt] === '{' || text[valueAt] === '[') {
      const flow = scanFlow(text, valueAt, node, path, Math.floor(indent));
      typing = flow.typing;
      if (flow.isOpen && flow.end >= text.length) break;
      at = flow.isOpen ? flow.end : lineStop(text, flow.end) + 1;
      continue;
    }
    const value = scalarAt(text, valueAt, stop);
    node.text = value.text;
    node.end = Math.max(node.keyEnd, value.end);
    if (isLast) typing = value.isOver ? undefined : { path, isKey: false, from: Math.min(valueAt, stop), typed: text.slice(valueAt, stop), inFlow: false };
    at = nextLine;
    if (/^[|>][+-]?\d*\s*$/.test(text.slice(valueAt, stop))) at = behindBlockText(text, at, indent);
  }
  close(root);
  return { root, typing };
}

function popped(frames: readonly Frame[], indent: number): Frame[] {
  return frames.filter((frame) => frame.indent < indent);
}

function pathOf(frames: readonly Frame[]): string[] {
  return frames.slice(1).map(({ node }) => node.key);
}

interface FlowFrame { readonly isMap: boolean; readonly node: ScanNode; /** the entry whose value is being read */ entry: ScanNode | undefined; tokenAt: number | undefined }

/** Everything from a bracket to the one that closes it, over as many lines as it takes. */
function scanFlow(text: string, from: number, owner: ScanNode, path: readonly string[], indent: number): { readonly end: number; readonly isOpen: boolean; readonly typing: TypingPlace | undefined } {
  const stack: FlowFrame[] = [];
  let node = owner;
  let at = from;
  const finish = (frame: FlowFrame, end: number): void => {
    const token = frame.tokenAt === undefined ? '' : text.slice(frame.tokenAt, end).trimEnd();
    if (frame.tokenAt !== undefined && token !== '') {
      if (frame.isMap && frame.entry) Object.assign(frame.entry, { text: unquoted(token), end: frame.tokenAt + token.length });
      if (!frame.isMap) { const item = nodeOf(String(frame.node.entries.length), frame.tokenAt, frame.tokenAt); Object.assign(item, { text: unquoted(token), end: frame.tokenAt + token.length }); frame.node.entries.push(item); }
    }
    frame.tokenAt = undefined;
    frame.entry = undefined;
  };
  const names = (): string[] => [...path, ...stack.slice(1).map((frame) => frame.node.key)];
  const open = (isOver: boolean): { readonly end: number; readonly isOpen: true; readonly typing: TypingPlace | undefined } => {
    const frame = stack.at(-1);
    const tokenAt = frame?.tokenAt ?? text.length;
    const here = frame?.isMap === false ? [...names(), String(frame.node.entries.length)] : frame?.entry ? [...names(), frame.entry.key] : names();
    for (const each of stack) each.node.end = at;
    return { end: at, isOpen: true, typing: isOver || !frame ? undefined : { path: here, isKey: frame.isMap && !frame.entry, from: tokenAt, typed: text.slice(tokenAt), inFlow: true } };
  };
  while (at < text.length) {
    const character = text[at] as string;
    const frame = stack.at(-1);
    if (character === '{' || character === '[') {
      if (frame?.isMap === false) { node = nodeOf(String(frame.node.entries.length), at, at); frame.node.entries.push(node); } else if (frame?.entry) node = frame.entry;
      node.valueAt = at;
      stack.push({ isMap: character === '{', node, entry: undefined, tokenAt: undefined });
    } else if (character === '}' || character === ']') {
      if (frame) finish(frame, at);
      stack.pop();
      if (frame) frame.node.end = at + 1;
      if (stack.length === 0) return { end: at + 1, isOpen: false, typing: undefined };
      const outer = stack.at(-1) as FlowFrame;
      outer.tokenAt = undefined;
    } else if (character === ',' && frame) finish(frame, at);
    else if ((character === '"' || character === "'") && frame && frame.tokenAt === undefined) {
      frame.tokenAt = at;
      const end = quoteEnd(text, at);
      if (end >= text.length && !(text.length > at + 1 && text.endsWith(character))) { at = text.length; return { ...open(false), end: at }; }
      at = end;
      continue;
    } else if (character === '#' && /\s/.test(text[at - 1] ?? '')) {
      const end = lineStop(text, at);
      if (end === text.length) { at = end; return open(true); }
      at = end;
      continue;
    } else if (character === ':' && frame?.isMap && !frame.entry && frame.tokenAt !== undefined && /[\s,}\]]|^$/.test(text[at + 1] ?? '')) {
      const key = text.slice(frame.tokenAt, at).trimEnd();
      const entry = nodeOf(unquoted(key), frame.tokenAt, frame.tokenAt + key.length);
      frame.node.entries.push(entry);
      frame.entry = entry;
      frame.tokenAt = undefined;
      let value = at + 1;
      while (text[value] === ' ') value++;
      entry.valueAt = value;
    } else if (character === '\n') {
      const line = text.slice(at + 1, lineStop(text, at + 1));
      const depth = /^ */.exec(line)?.[0].length ?? 0;
      if (depth <= indent && line.trim() !== '' && !/^\s*[}\]#]/.test(line)) {
        if (frame) finish(frame, at);
        at += 1;
        return { ...open(true), end: at };
      }
    } else if (frame && frame.tokenAt === undefined && !/\s/.test(character)) frame.tokenAt = at;
    at++;
  }
  return open(false);
}

function nodeOf(key: string, at: number, keyEnd: number): ScanNode {
  return { key, at, keyEnd, valueAt: keyEnd, end: keyEnd, text: undefined, entries: [] };
}

function close(node: ScanNode): number {
  if (node.entries.length > 0) node.text = undefined;
  for (const entry of node.entries) node.end = Math.max(node.end, close(entry));
  return node.end;
}

function scalarAt(text: string, from: number, stop: number): { readonly text: string; readonly end: number; /** nothing typed at the end would still belong to it */ readonly isOver: boolean } {
  const first = text[from];
  if (first === '"' || first === "'") {
    const end = Math.min(quoteEnd(text, from), stop);
    return { text: unquoted(text.slice(from, end)), end, isOver: text.slice(end, stop).includes('#') };
  }
  const comment = text.slice(from, stop).search(/(?:^|\s)#/);
  const whole = comment === -1 ? text.slice(from, stop) : text.slice(from, from + comment);
  const trimmed = whole.trimEnd();
  return { text: trimmed, end: from + trimmed.length, isOver: comment !== -1 };
}

/** Offset behind the closing quote, or the end of the text. */
function quoteEnd(text: string, from: number): number {
  const quote = text[from] as string;
  let at = from + 1;
  while (at < text.length) {
    if (quote === '"' && text[at] === '\\') at += 2;
    else if (text[at] === quote && quote === "'" && text[at + 1] === "'") at += 2;
    else if (text[at] === quote) return at + 1;
    else at++;
  }
  return text.length;
}

function behindBlockText(text: string, from: number, indent: number): number {
  let at = from;
  while (at <= text.length) {
    const stop = lineStop(text, at);
    const line = text.slice(at, stop);
    if (line.trim() !== '' && (/^ */.exec(line)?.[0].length ?? 0) <= indent) return at;
    at = stop + 1;
  }
  return at;
}

function lineStop(text: string, from: number): number {
  const end = text.indexOf('\n', from);
  return end === -1 ? text.length : end;
}

function unquoted(text: string): string {
  const trimmed = text.trim();
  const [first, last] = [trimmed[0], trimmed.at(-1)];
  if (trimmed.length < 2 || first !== last || (first !== '"' && first !== "'")) return trimmed;
  return first === "'" ? trimmed.slice(1, -1).replaceAll("''", "'") : trimmed.slice(1, -1).replace(/\\(.)/g, '$1');
}
