/**
 * A check in words: the row's sentence with its numbers put in.
 */
import { printValue } from '../quantity/print-quantity.ts';
import type { QuantityName } from '../quantity/quantity-table.ts';
import type { CodeRow } from './code-row.ts';
import type { Check, Level } from './finding.ts';

/** The placeholders that every check fills; others must be details of the check. */
export const commonPlaceholders = ['value', 'limit', 'margin', 'about', 'others', 'variant'] as const;

/**
 * @param margin  as `marginOf` gives it; undefined for an unknown
 * Errors: throws when the sentence asks for a detail that the check does not carry
 */
export function word(check: Check, row: CodeRow, level: Level, margin: number | undefined, units: 'metric' | 'imperial'): string {
  const template = margin === undefined ? row.wording.unknown : margin < 0 ? row.wording.broken : row.wording.holds;
  const sentence = fill(template, check, row, margin, units);
  return level === 'unknown' && check.needs && check.needs.length > 0 && !template.includes('{message}') ? `${sentence} Needs ${listed(check.needs)}.` : sentence;
}

/** Up to three by name; what to do names all. */
function listed(needs: readonly string[]): string {
  return needs.length <= MOST_NAMED ? needs.join(', ') : `${needs[0]} and ${needs.length - 1} more`;
}

const MOST_NAMED = 3;

/** What to do about it, with the check's numbers where the row names them. */
export function adviceOf(check: Check, row: CodeRow, level: Level, margin: number | undefined, units: 'metric' | 'imperial'): string {
  if (level === 'holds') return '';
  if (level === 'unknown') return `Give ${(check.needs ?? []).join(', ')}.`;
  return `${level === 'watch' ? whyWatched(check, row, margin) : ''}${fill(row.whatToDo, check, row, margin, units)}`;
}

/** A sentence that says that all is well, with advice behind it, must say why. */
function whyWatched(check: Check, row: CodeRow, margin: number | undefined): string {
  if (margin === undefined || margin < 0) return '';
  if (check.sense === 'is_true' || margin >= row.nearMargin) return 'It holds with the numbers as they stand; their tolerances may tip it. ';
  return check.limit === 0 ? 'It holds with little to spare. ' : `It holds with ${margin < 0.01 ? 'less than 1 %' : `${Math.floor(margin * 100)} %`} to spare. `;
}

function fill(template: string, check: Check, row: CodeRow, margin: number | undefined, units: 'metric' | 'imperial'): string {
  const words = template.replace(/\{([a-z_]+)\}/g, (_, name: string) => filled(name, check, row, margin, units));
  // words of the file are set in code where the pages of the codes are printed; a sentence quotes them
  return words.replace(/`([^`]+)`/g, '“$1”');
}

function filled(name: string, check: Check, row: CodeRow, margin: number | undefined, units: 'metric' | 'imperial'): string {
  switch (name) {
    case 'value': return valueAndLimit(check, units)[0];
    case 'limit': return valueAndLimit(check, units)[1];
    case 'margin': return margin === undefined ? '?' : `${Math.floor(Math.abs(margin) * 100)} %`;
    case 'about': return check.about[0] ?? 'the build';
    case 'others': return check.about.slice(1).join(', ');
    case 'variant': return check.variant ?? '';
    default: {
      const detail = check.details?.[name];
      if (detail === undefined) {
        if (margin === undefined) return '?';
        throw new Error(`the wording of ${row.code} asks for {${name}}, which the check does not carry`);
      }
      return typeof detail === 'string' ? detail : number(detail.value, detail.quantity, units);
    }
  }
}

function number(value: number, quantity: QuantityName | undefined, units: 'metric' | 'imperial'): string {
  return printValue(value, quantity ?? 'number', { system: units });
}

/** Value and limit as printed; with more digits when they differ but would print alike. */
function valueAndLimit(check: Check, units: 'metric' | 'imperial'): readonly [string, string] {
  if (check.value === undefined || check.limit === undefined) return [check.value === undefined ? '?' : number(check.value, check.quantity, units), check.limit === undefined ? '?' : number(check.limit, check.quantity, units)];
  for (const digits of [3, 4, 5, 7]) {
    const printed = [check.value, check.limit].map((value) => printValue(value, check.quantity ?? 'number', { system: units, digits })) as [string, string];
    if (printed[0] !== printed[1] || check.value === check.limit) return printed;
  }
  return [number(check.value, check.quantity, units), number(check.limit, check.quantity, units)];
}
