/** The body of a request that adds a reading: what the page may say of it, each part checked. */
import { columns, OBSERVATION, onOneLine, procedures, verdictWords, type Reading } from '../core/readings/reading.ts';
import { quantities } from '../core/quantity/quantity-table.ts';
import { Refusal } from './refusal.ts';

/** Longest text of one column [characters], and of the whole body [bytes]. */
const LONGEST = 2_000;
export const LARGEST_READING = 32_000;

/** @param when  the server's own clock. @throws Refusal 400 with all that is wrong */
export function readingAsked(body: string, when: string): Reading {
  let said: unknown;
  try {
    said = JSON.parse(body);
  } catch {
    throw new Refusal(400, 'The reading is not JSON; it was not kept.');
  }
  if (typeof said !== 'object' || said === null || Array.isArray(said)) throw new Refusal(400, 'A reading is an object with a text for each column; it was not kept.');
  const problems: string[] = [];
  const cells = said as Readonly<Record<string, unknown>>;
  for (const name of Object.keys(cells)) if (!(columns as readonly string[]).includes(name) || name === 'when') problems.push(`${name.slice(0, 40)} is no column that can be given`);
  const text = (name: (typeof columns)[number]): string => {
    const value = cells[name] ?? '';
    if (typeof value === 'string' && value.length <= LONGEST) return onOneLine(value);
    problems.push(`${name}: expected a text of at most ${LONGEST} characters`);
    return '';
  };
  const one = <T extends string>(name: (typeof columns)[number], words: readonly T[]): T => {
    const found = words.find((word) => word === text(name));
    if (found === undefined) problems.push(`${name}: expected one of ${words.map((word) => word || 'nothing').join(', ')}`);
    return found ?? (words[0] as T);
  };
  const id = text('id');
  if (!/^[A-Za-z0-9_-]{1,40}$/.test(id)) problems.push('id: expected letters and digits, at most 40');
  if (text('reading') === '') problems.push('reading: expected a value with its unit, or yes or no');
  const reading: Reading = {
    id, when, who: text('who'), procedure: one('procedure', procedures), step: text('step'), state: text('state'), points: text('points').split(' ').filter((point) => point !== ''),
    quantity: one('quantity', [...Object.keys(quantities), OBSERVATION] as Reading['quantity'][]), reading: text('reading'), instrument: text('instrument'), verdict: one('verdict', ['', ...verdictWords]),
    revision: text('revision'), restsOn: text('rests_on'), replaces: text('replaces'), note: text('note'), more: [],
  };
  if (problems.length > 0) throw new Refusal(400, `The reading was not kept. ${[...new Set(problems)].join('; ')}.`);
  return reading;
}
