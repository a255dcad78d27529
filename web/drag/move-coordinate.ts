/**
 * Coordinates as written, moved: only the numbers change. Unit and tolerance stay as the builder wrote them, and so does a number that
 * takes its unit from the last one. A place that was measured is a plan once it is moved: it says `estimate` from then on.
 */
import { decimal } from '../../core/quantity/print-value.ts';
import { readNumber } from '../../core/quantity/read-number.ts';
import { readUnit, skipSpaces } from '../../core/quantity/unit-spelling.ts';

/** So fine that no drag and no step is finer [m]. */
const FINEST = 1e-5;

/**
 * @param written  three numbers as they stand in the file: `1040`, `-130`, `262 mm ±10 measured`
 * @param by       how far along x, y and z [m]
 * @returns the new text of each number that changes, undefined for one that stays; undefined when one that must move cannot be read
 * Checked: move-coordinate.test.ts
 */
export function moveCoordinates(written: readonly string[], by: readonly [number, number, number]): readonly (string | undefined)[] | undefined {
  if (written.length !== 3) return undefined;
  const shared = unitFactor(written[2] as string);
  const moved: (string | undefined)[] = [];
  for (const [axis, text] of written.entries()) {
    const distance = by[axis] ?? 0;
    if (Math.abs(distance) < FINEST / 2) { moved.push(undefined); continue; }
    const next = moveCoordinate(text, distance, unitFactor(text) ?? shared);
    if (next === undefined) return undefined;
    moved.push(asPlanned(next));
  }
  // numbers without a word of their own take that of the last one
  const last = written[2] as string;
  if (moved[2] === undefined && moved.some((text) => text !== undefined) && asPlanned(last) !== last) moved[2] = asPlanned(last);
  return moved;
}

const asPlanned = (text: string): string => text.replace(/\b(?:measured|label|datasheet)\b/, 'estimate');

/** Metres that one of the unit behind the number is; undefined where none stands. */
function unitFactor(text: string): number | undefined {
  const number = leading(text);
  if (!number) return undefined;
  let at = skipSpaces(text, number.end);
  const range = rangeEnd(text, at);
  if (range !== undefined) at = skipSpaces(text, range);
  // the unit may stand behind the tolerance: 262 ±10 mm
  const tolerance = /^(?:±|\+\/-)\s*[\d.]+\s*/.exec(text.slice(at));
  const unit = readUnit(text, tolerance ? at + tolerance[0].length : at, 'coordinate');
  return unit.outcome === 'found' ? unit.unit.factor : undefined;
}

function moveCoordinate(text: string, distance: number, factor: number | undefined): string | undefined {
  const number = leading(text);
  if (!number || factor === undefined) return undefined;
  const places = Math.max(0, Math.ceil(-Math.log10(FINEST / factor)));
  const moved = (value: number): string => decimal(value + distance / factor, places);
  const behind = text.slice(number.end);
  const inches = /^(\s*(?:ft|'|′|’|feet|foot)\s*)([\d./ ]+?)\s*(?:inches|inch|in|"|″|”)(?=\s|$|±|\+)/.exec(behind);
  if (inches) {
    // 5 ft 3 in becomes a decimal number of feet
    const read = readNumber((inches[2] as string).trim(), 0);
    if (!read.ok) return undefined;
    return text.slice(0, number.at) + moved(number.value + (Math.sign(number.value || 1) * read.value) / 12) + (inches[1] as string).trimEnd() + behind.slice(inches[0].length);
  }
  const gap = skipSpaces(text, number.end);
  const end = rangeEnd(text, gap);
  if (end !== undefined) {
    const from = skipSpaces(text, gap + (text[gap] === '…' ? 1 : 2));
    const upper = readNumber(text, from);
    return upper.ok ? text.slice(0, number.at) + moved(number.value) + text.slice(number.end, from) + moved(upper.value) + text.slice(end) : undefined;
  }
  return text.slice(0, number.at) + moved(number.value) + behind;
}

function leading(text: string): { readonly at: number; readonly end: number; readonly value: number } | undefined {
  const about = /^\s*[~≈]/.exec(text);
  const at = skipSpaces(text, about ? about[0].length : 0);
  const read = readNumber(text, at);
  return read.ok ? { at, end: read.end, value: read.value } : undefined;
}

/** Where the second number of `a..b` ends. */
function rangeEnd(text: string, at: number): number | undefined {
  const length = text.startsWith('..', at) ? 2 : text[at] === '…' ? 1 : 0;
  if (length === 0) return undefined;
  const second = readNumber(text, skipSpaces(text, at + length));
  return second.ok ? second.end : undefined;
}
