export type NumberReading =
  | { readonly ok: true; readonly value: number; readonly end: number }
  | { readonly ok: false; readonly reason: 'number' | 'decimal_comma'; readonly at: number; readonly length: number; readonly expected: string };

/**
 * Reads the number that starts at `at`, as people write it: `12`, `-12.4`, `.5`, `1.2e-3`, `3/8`, `1 1/2`, `1-1/2`, `1½`.
 * Takes no comma, neither for the decimals nor for thousands, because it means one thing here and another there.
 * Linear in the length of the number; never throws.
 *
 * @returns value and the offset after it; always finite when ok
 */
export function readNumber(text: string, at: number): NumberReading {
  let p = at;
  let sign = 1;
  const first = text.charCodeAt(p);
  if (first === plus || first === minus || first === unicodeMinus) {
    if (first !== plus) sign = -1;
    p++;
  }
  const digitsStart = p;
  p = skipDigits(text, p);
  const wholeEnd = p;
  if (p > digitsStart) {
    const mixed = readFraction(text, digitsStart, wholeEnd);
    if (mixed !== undefined) return mixed.ok ? finish(text, at, mixed.end, sign * mixed.value) : mixed;
  }
  if (text.charCodeAt(p) === point && isDigit(text.charCodeAt(p + 1))) p = skipDigits(text, p + 1);
  if (p === digitsStart) {
    const vulgar = vulgarFractions.get(text.charAt(p));
    if (vulgar !== undefined) return finish(text, at, p + 1, sign * vulgar);
    return problem(at, Math.max(p - at, Math.min(1, text.length - at)), 'a number');
  }
  const e = text.charCodeAt(p);
  if (e === 0x65 || e === 0x45) {
    const signed = text.charCodeAt(p + 1);
    const exponentStart = signed === plus || signed === minus || signed === unicodeMinus ? p + 2 : p + 1;
    if (isDigit(text.charCodeAt(exponentStart))) p = skipDigits(text, exponentStart);
  }
  return finish(text, at, p, sign * Number(text.slice(digitsStart, p).replace('\u2212', '-')));
}

/** Reads `3/8`, `1 1/2`, `1-1/2` and `1½` where `wholeEnd` ends the first digits; undefined when there is no fraction. */
function readFraction(text: string, start: number, wholeEnd: number): NumberReading | undefined {
  const next = text.charCodeAt(wholeEnd);
  if (next === slash) {
    const end = skipDigits(text, wholeEnd + 1);
    if (end === wholeEnd + 1) return undefined;
    return divide(text, start, wholeEnd, end, 0, start);
  }
  const vulgar = vulgarFractions.get(text.charAt(wholeEnd));
  if (vulgar !== undefined) return { ok: true, value: Number(text.slice(start, wholeEnd)) + vulgar, end: wholeEnd + 1 };
  if (next !== 0x20 && next !== minus) return undefined;
  const numerator = wholeEnd + 1;
  const numeratorEnd = skipDigits(text, numerator);
  if (numeratorEnd > numerator && text.charCodeAt(numeratorEnd) === slash) {
    const end = skipDigits(text, numeratorEnd + 1);
    if (end > numeratorEnd + 1) return divide(text, numerator, numeratorEnd, end, Number(text.slice(start, wholeEnd)), start);
  }
  const after = vulgarFractions.get(text.charAt(numerator));
  return after === undefined ? undefined : { ok: true, value: Number(text.slice(start, wholeEnd)) + after, end: numerator + 1 };
}

function divide(text: string, start: number, slashAt: number, end: number, whole: number, problemAt: number): NumberReading {
  const numerator = Number(text.slice(start, slashAt));
  const denominator = Number(text.slice(slashAt + 1, end));
  if (denominator === 0) return problem(problemAt, end - problemAt, 'a fraction with a denominator above zero');
  if (whole > 0 && numerator >= denominator) return problem(problemAt, end - problemAt, 'a fraction below one after the whole number');
  return { ok: true, value: whole + numerator / denominator, end };
}

/** Last checks: what follows the number must not be more of a number. */
function finish(text: string, at: number, end: number, value: number): NumberReading {
  const next = text.charCodeAt(end);
  const afterNext = text.charCodeAt(end + 1);
  if (next === comma && isDigit(afterNext)) return commaProblem(text, at, end);
  const groups = next === 0x27 || next === 0x2019 || next === 0x5f || isSpace(next);
  if (groups && isDigit(afterNext) && isThousands(text, end) && next !== 0x27 && next !== 0x2019) {
    const stop = skipDigits(text, end + 1);
    return problem(at, stop - at, `digits without a gap: ${text.slice(at, end)}${text.slice(end + 1, stop)}`);
  }
  if ((next === point && isDigit(afterNext)) || next === slash) {
    return problem(at, skipDigits(text, end + 1) - at, 'one number: digits, at most one point, or a fraction such as 3/8');
  }
  if (!Number.isFinite(value)) return problem(at, end - at, 'a finite number');
  return { ok: true, value: value === 0 ? 0 : value, end };
}

function commaProblem(text: string, at: number, commaAt: number): NumberReading {
  const before = text.slice(at, commaAt);
  let end = commaAt;
  let groups = 0;
  while (text.charCodeAt(end) === comma && isDigit(text.charCodeAt(end + 1))) { end = skipDigits(text, end + 1); groups++; }
  const joined = short(text.slice(at, end).replaceAll(',', ''));
  if (groups > 1 || text.charCodeAt(end) === point) {
    if (text.charCodeAt(end) === point) end = skipDigits(text, end + 1);
    return problem(at, end - at, `a number without thousands separators: ${short(text.slice(at, end).replaceAll(',', ''))}`);
  }
  const decimals = text.slice(commaAt + 1, end);
  const withPoint = short(`${before}.${decimals}`);
  const expected = isThousands(text, commaAt)
    ? `a point or nothing in place of the comma, which could mean either: ${withPoint} or ${joined}`
    : `a decimal point: write ${withPoint}, with a point`;
  return { ok: false, reason: 'decimal_comma', at, length: end - at, expected };
}

/** exactly three digits after the separator at `at` */
function isThousands(text: string, at: number): boolean {
  return skipDigits(text, at + 1) === at + 4;
}

function problem(at: number, length: number, expected: string): NumberReading {
  return { ok: false, reason: 'number', at, length, expected };
}

const short = (text: string): string => (text.length > 24 ? `${text.slice(0, 24)}…` : text);

function skipDigits(text: string, at: number): number {
  let p = at;
  while (isDigit(text.charCodeAt(p))) p++;
  return p;
}

const isDigit = (code: number): boolean => code >= 0x30 && code <= 0x39;
const isSpace = (code: number): boolean => code === 0x20 || code === 0xa0 || code === 0x202f || code === 0x2009;

const plus = 0x2b;
const comma = 0x2c;
const minus = 0x2d;
const point = 0x2e;
const slash = 0x2f;
const unicodeMinus = 0x2212;

const vulgarFractions: ReadonlyMap<string, number> = new Map([
  ['½', 1 / 2], ['⅓', 1 / 3], ['⅔', 2 / 3], ['¼', 1 / 4], ['¾', 3 / 4], ['⅛', 1 / 8], ['⅜', 3 / 8], ['⅝', 5 / 8], ['⅞', 7 / 8],
]);
