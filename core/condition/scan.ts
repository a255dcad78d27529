/** The text of a condition in pieces, as CEL cuts it. */
import type { ConditionProblem } from './expression.ts';

export type Token =
  | { readonly is: 'name'; readonly text: string; readonly at: number; readonly end: number }
  | { readonly is: 'int' | 'double'; readonly text: string; readonly value: number; readonly at: number; readonly end: number }
  | { readonly is: 'string'; readonly text: string; readonly value: string; readonly at: number; readonly end: number }
  | { readonly is: 'sign'; readonly text: string; readonly at: number; readonly end: number }
  | { readonly is: 'end'; readonly text: ''; readonly at: number; readonly end: number };

export type Scan = { readonly ok: true; readonly tokens: readonly Token[] } | { readonly ok: false; readonly problem: ConditionProblem };

const space = /[\t\n\f\r ]+/y;
const name = /[A-Za-z_][A-Za-z0-9_]*/y;
const double = /(?:\d+\.\d+(?:[eE][+-]?\d+)?|\d+[eE][+-]?\d+|\.\d+(?:[eE][+-]?\d+)?)/y;
const int = /\d+/y;
const sign = /&&|\|\||<=|>=|==|!=|[<>+\-*/!().,]/y;
const string = /'((?:[^'\\\n]|\\.)*)'|"((?:[^"\\\n]|\\.)*)"/y;
const escapes: Readonly<Record<string, string>> = { '\\': '\\', "'": "'", '"': '"', '`': '`', '?': '?', n: '\n', t: '\t', r: '\r', a: '\u0007', b: '\b', f: '\f', v: '\u000b' };

/** Cuts the text; the last token is `end`. */
export function scan(text: string): Scan {
  const tokens: Token[] = [];
  let at = 0;
  const take = (rule: RegExp): RegExpExecArray | null => { rule.lastIndex = at; return rule.exec(text); };
  const stop = (length: number, expected: string, found = `“${text.slice(at, at + length)}”`): Scan => ({ ok: false, problem: { at, length, found, expected } });
  for (;;) {
    at += take(space)?.[0].length ?? 0;
    if (at >= text.length) { tokens.push({ is: 'end', text: '', at: text.length, end: text.length }); return { ok: true, tokens }; }
    const word = take(name)?.[0];
    if (word !== undefined) {
      // r'…' and b'…' are raw text and bytes in CEL
      if (/^(?:[rR]|[bB]|[rR][bB]|[bB][rR])$/.test(word) && /['"]/.test(text[at + word.length] ?? '')) return stop(word.length + 1, 'plain text in quotes');
      tokens.push({ is: 'name', text: word, at, end: (at += word.length) });
      continue;
    }
    const number = take(double)?.[0] ?? take(int)?.[0];
    if (number !== undefined) {
      const isInt = /^\d+$/.test(number);
      const value = Number(number);
      if (/[A-Za-z_]/.test(text[at + number.length] ?? '')) return stop(/^[0-9A-Za-z_.]+/.exec(text.slice(at))![0].length, "a plain number; with a unit it stands in quotes behind its quantity, such as voltage('60 V')");
      if (isInt ? !Number.isSafeInteger(value) : !Number.isFinite(value)) return stop(number.length, 'a number of fewer digits');
      tokens.push({ is: isInt ? 'int' : 'double', text: number, value, at, end: (at += number.length) });
      continue;
    }
    const quoted = take(string);
    if (quoted) {
      if (quoted[0].length === 2 && text[at + 2] === text[at]) return stop(3, 'text between single quotes');
      const inner = quoted[1] ?? quoted[2] ?? '';
      const bad = /\\(.)/g;
      for (let escape = bad.exec(inner); escape; escape = bad.exec(inner)) if (escapes[escape[1] as string] === undefined) return { ok: false, problem: { at: at + 1 + escape.index, length: 2, found: `“${escape[0]}”`, expected: 'text without \\, or \\\\ for one' } };
      tokens.push({ is: 'string', text: quoted[0], value: inner.replace(/\\(.)/g, (_, letter: string) => escapes[letter] as string), at, end: (at += quoted[0].length) });
      continue;
    }
    if (text[at] === "'" || text[at] === '"') return stop(text.length - at, `a closing ${text[at]}`, 'text that is not closed');
    const found = take(sign)?.[0];
    if (found === undefined) return stop(1, meant(text, at));
    tokens.push({ is: 'sign', text: found, at, end: (at += found.length) });
  }
}

/** What a sign of another language stands for here. */
function meant(text: string, at: number): string {
  switch (text[at]) {
    case '&': return '&& for “and”';
    case '|': return '|| for “or”';
    case '=': return '== for “equal”';
    case '≥': return '>=';
    case '≤': return '<=';
    case '≠': return '!=';
    case '×': return '*';
    default: return 'a name, a number, text in quotes, or one of ( ) ! - * / + < <= > >= == != && ||';
  }
}
