/**
 * Why a text could not be read as a quantity, and where in the text. `found` and `expected` are phrases for one sentence:
 * "found <found>, expected <expected>". Invariant: 0 <= at and at + length <= length of the text.
 */
export interface ReadingProblem {
  readonly reason: 'empty' | 'number' | 'decimal_comma' | 'unit_missing' | 'unit_unknown' | 'wrong_quantity' | 'tolerance' | 'basis' | 'range_order' | 'trailing';
  readonly at: number;
  readonly length: number;
  readonly found: string;
  readonly expected: string;
  /** nearest right spelling of what was found, when there is one close enough */
  readonly nearest: string | undefined;
}

/** Makes a problem of a stretch of the text, kept inside it; `found` is that stretch, shortened, or `said`. */
export function readingProblem(
  reason: ReadingProblem['reason'], text: string, at: number, end: number, expected: string,
  options: { readonly nearest?: string | undefined; readonly said?: string } = {},
): { readonly ok: false; readonly problem: ReadingProblem } {
  const from = Math.min(Math.max(at, 0), text.length);
  const to = Math.min(Math.max(end, from), text.length);
  const stretch = text.slice(from, to).trim();
  const found = options.said ?? (stretch === '' ? 'nothing more' : stretch.length > 40 ? `${stretch.slice(0, 40)}…` : stretch);
  return { ok: false, problem: { reason, at: from, length: to - from, found, expected, nearest: options.nearest } };
}
