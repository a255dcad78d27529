import { quantities, type QuantityName } from './quantity-table.ts';
import { units, type UnitRow } from './unit-table.ts';

export type UnitReading =
  | { readonly outcome: 'found'; readonly unit: UnitRow; readonly end: number }
  /** nothing there that could be a unit */
  | { readonly outcome: 'missing' }
  /** a unit, but of another quantity */
  | { readonly outcome: 'elsewhere'; readonly unit: UnitRow; readonly end: number }
  | { readonly outcome: 'unknown'; readonly end: number };

/**
 * Reads the unit of a quantity that starts at `at`; takes the longest spelling of up to three words (`US gal/min`, `lbf ft`).
 * Constant work for any text: words longer than the longest spelling are not looked at.
 */
export function readUnit(text: string, at: number, quantity: QuantityName): UnitReading {
  const end = endOfWord(text, at);
  if (end === at) return { outcome: 'missing' };
  const here = find(spellingsOf.get(quantity)!, text, at, end);
  const elsewhere = here === undefined || opensPhrase.has(text.slice(at, Math.min(end, at + longestWord))) ? find(everySpelling, text, at, end) : undefined;
  // `bar abs` where gauge is wanted, `ft lb` where a length is: the longer unit is what was meant
  if (here !== undefined && (elsewhere === undefined || elsewhere.end <= here.end)) return { outcome: 'found', ...here };
  if (elsewhere !== undefined) return { outcome: 'elsewhere', ...elsewhere };
  return { outcome: 'unknown', end };
}

/** Spellings that a builder may be shown for a quantity, by the printed form they lead to; for suggestions. */
export function spellingsFor(quantity: QuantityName): ReadonlyMap<string, UnitRow> {
  return spellingsOf.get(quantity)!;
}

/** Offset after the word that starts at `at`: up to a space, a bracket, a tolerance sign or a range sign. */
export function endOfWord(text: string, at: number): number {
  const first = text.charCodeAt(at);
  if (first === 0x27 && text.charCodeAt(at + 1) === 0x27) return at + 2;
  if (isInchOrFootMark(first)) return at + 1;
  let p = at;
  for (; p < text.length; p++) {
    const code = text.charCodeAt(p);
    if (endsWord(code) || (code === 0x2e && text.charCodeAt(p + 1) === 0x2e)) break;
  }
  return p;
}

/** Offset of the next character that is not a space. */
export function skipSpaces(text: string, at: number): number {
  let p = at;
  while (p < text.length && isSpace(text.charCodeAt(p))) p++;
  return p;
}

interface Spellings extends ReadonlyMap<string, UnitRow> {}

function find(spellings: Spellings, text: string, at: number, end: number): { unit: UnitRow; end: number } | undefined {
  if (end - at > longestWord) return undefined;
  const word = text.slice(at, end);
  if (opensPhrase.has(word)) {
    const second = nextWord(text, end);
    const third = second === undefined ? undefined : nextWord(text, second);
    for (const stop of [third, second]) {
      if (stop === undefined || stop - at > longestWord) continue;
      const unit = spellings.get(canonical(text.slice(at, stop)));
      if (unit !== undefined) return { unit, end: stop };
    }
  }
  const unit = spellings.get(word) ?? spellings.get(canonical(word));
  return unit === undefined ? undefined : { unit, end };
}

/** end of the word after the spaces at `at`; undefined when no word follows */
function nextWord(text: string, at: number): number | undefined {
  const start = skipSpaces(text, at);
  if (start === at) return undefined;
  const end = endOfWord(text, start);
  return end === start ? undefined : end;
}

/** One form for the many ways of writing powers, products, degree signs, micro and ohm. */
function canonical(spelling: string): string {
  return spelling
    .replace(/[\u00ba\u02da]/g, '°').replace(/\u03bc/g, 'µ').replace(/\u2126/g, 'Ω').replace(/\u2032/g, "'").replace(/\u2033/g, '"')
    .replace(/²/g, '2').replace(/³/g, '3').replace(/\^/g, '')
    .replace(/[\s·⋅•∙*.\-]+/g, '·').replace(/·$/, '');
}

/** canonical forms of a spelling, with u for µ and ohm for Ω */
function formsOf(spelling: string): string[] {
  let forms = [spelling];
  if (spelling.includes('µ')) forms = forms.flatMap((form) => [form, form.replace('µ', 'u')]);
  if (spelling.includes('Ω')) forms = forms.flatMap((form) => [form, ...['ohm', 'Ohm', 'OHM', 'ohms', 'Ohms'].map((ohm) => form.replace('Ω', ohm))]);
  return forms;
}

function isInchOrFootMark(code: number): boolean {
  return code === 0x22 || code === 0x27 || code === 0x2032 || code === 0x2033 || code === 0x2019 || code === 0x201d;
}

function isSpace(code: number): boolean {
  return code === 0x20 || (code >= 0x09 && code <= 0x0d) || code === 0xa0 || code === 0x202f || code === 0x2009 || code === 0x3000 || code === 0xfeff;
}

/** space ± + ( ) ~ ; … */
function endsWord(code: number): boolean {
  return isSpace(code) || code === 0xb1 || code === 0x2b || code === 0x28 || code === 0x29 || code === 0x7e || code === 0x3b || code === 0x2026;
}

const longestWord = 40;

const spellingsOf: ReadonlyMap<QuantityName, Spellings> = new Map((Object.keys(quantities) as QuantityName[]).map((quantity) => [quantity, collect(quantity)]));

/** every spelling of every quantity; the first row wins, it only says what a misplaced unit is */
const everySpelling: Spellings = collect(undefined);

/** first words of spellings that are, or may be written as, several words */
const opensPhrase: ReadonlySet<string> = new Set([...units.values()].flatMap((row) => [row.key, row.printed, ...row.spellings].flatMap(formsOf))
  .filter((form) => /[ ·]/.test(form)).flatMap((form) => { const first = form.split(/[ ·]/)[0]!; return [first, canonical(first)]; }));

function collect(quantity: QuantityName | undefined): Spellings {
  const found = new Map<string, UnitRow>();
  for (const row of units.values()) {
    if (quantity !== undefined && !row.serves.includes(quantity)) continue;
    for (const spelling of [row.key, row.printed, ...row.spellings]) {
      for (const form of formsOf(spelling)) {
        if (form === '' || form === '1') continue;
        put(found, form, row, quantity);
        put(found, canonical(form), row, quantity);
      }
    }
  }
  return found;
}

function put(found: Map<string, UnitRow>, form: string, row: UnitRow, quantity: QuantityName | undefined): void {
  const other = found.get(form);
  if (other === undefined) found.set(form, row);
  else if (other !== row && quantity !== undefined) throw new Error(`the spelling '${form}' of ${quantity} means both ${other.key} and ${row.key}`);
}
