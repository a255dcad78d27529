/**
 * A value as YAML text in the style of the place it goes to, with quotes only when YAML needs them.
 */
import { parseDocument } from 'yaml';

/** What an edit puts in: text as typed, or names with values, or a list. */
export type Entered = string | readonly Entered[] | { readonly [name: string]: Entered };

/** `flow` inside brackets or braces, `block` outside; a line of its own is `key`. */
export type Context = 'flow' | 'block';

/** `[980, -310, 340 mm]` and `{ draw: 25 kW }` typed as they stand in the file. */
export function isTypedCollection(text: string): boolean {
  if (!/^\s*[[{][\s\S]*[\]}]\s*$/.test(text) || text.length > 10_000 || nesting(text) > 20 || /[\r\n]/.test(text)) return false;
  const document = parseDocument(text.trim(), { schema: 'failsafe', prettyErrors: false, logLevel: 'silent' });
  return document.errors.length === 0;
}

/** One text as a scalar. */
export function writeScalar(text: string, context: Context, quote: 'plain' | 'single' | 'double' = 'plain'): string {
  // Control characters and lone surrogates can only be written as escapes.
  const needsEscapes = /[\u0000-\u001f\u007f-\u009f\u2028\u2029\ufeff\ud800-\udfff]/.test(text.replace(/[\ud800-\udbff][\udc00-\udfff]/g, ''));
  if (needsEscapes || quote === 'double') return JSON.stringify(text).replace(/[\u007f-\u009f\u2028\u2029\ufeff]/g, (found) => `\\u${found.charCodeAt(0).toString(16).padStart(4, '0')}`);
  if (quote === 'single' || !canBePlain(text, context)) return /["\\]/.test(text) || quote === 'single' ? `'${text.replaceAll("'", "''")}'` : `"${text}"`;
  return text;
}

/** Any value on one line, collections in brackets and braces. */
export function writeFlow(value: Entered, isText: (path: readonly string[]) => boolean = () => false, path: readonly string[] = []): string {
  if (typeof value === 'string') return !isText(path) && isTypedCollection(value) ? value.trim() : writeScalar(value, 'flow');
  if (isList(value)) return `[${value.map((item, index) => writeFlow(item, isText, [...path, String(index)])).join(', ')}]`;
  const entries = Object.entries(value).map(([name, item]) => `${writeScalar(name, 'flow')}: ${writeFlow(item, isText, [...path, name])}`);
  return entries.length === 0 ? '{}' : `{ ${entries.join(', ')} }`;
}

/** What stands behind `key:` in block style: ` text`, or lines of their own. Lists stay in brackets. */
export function writeBlock(value: Entered, indent: number, step: number, lineEnd: string, isText: (path: readonly string[]) => boolean = () => false, path: readonly string[] = []): string {
  if (typeof value === 'string') return ` ${!isText(path) && isTypedCollection(value) ? value.trim() : writeScalar(value, 'block')}`;
  if (isList(value)) return ` ${writeFlow(value, isText, path)}`;
  const entries = Object.entries(value);
  if (entries.length === 0) return ' {}';
  const inner = indent + step;
  return entries.map(([name, item]) => `${lineEnd}${' '.repeat(inner)}${writeScalar(name, 'block')}:${writeBlock(item, inner, step, lineEnd, isText, [...path, name])}`).join('');
}

function isList(value: Entered): value is readonly Entered[] {
  return Array.isArray(value);
}

function canBePlain(text: string, context: Context): boolean {
  if (text === '' || text === '~' || text === 'null' || text !== text.trim()) return false;
  if (/^[,[\]{}#&*!|>'"%@`]/.test(text) || /^[-?:](?:\s|$)/.test(text) || /^(?:---|\.\.\.)/.test(text)) return false;
  if (/:(?:\s|$)/.test(text) || /\s#/.test(text)) return false;
  return context === 'block' || !(/[,[\]{}]/.test(text) || /^[-?:]$/.test(text) || /:$|^[?:-][,[\]{}]/.test(text));
}

function nesting(text: string): number {
  let depth = 0;
  let deepest = 0;
  for (const character of text) {
    if (character === '[' || character === '{') deepest = Math.max(deepest, ++depth);
    else if (character === ']' || character === '}') depth--;
  }
  return deepest;
}
