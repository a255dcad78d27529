/** A finding as the screen lists it: plain data, sentences made. */
import type { Finding } from '../../core/findings/finding.ts';
import type { FindingRow } from './protocol.ts';

/** Identity from one analysis to the next; two of one kind about one subject are told apart by their variant. */
export const findingKey = ({ code, about, variant }: Pick<Finding, 'code' | 'about' | 'variant'>): string => `${code} ${about.join('+')}${variant === undefined ? '' : ` ${variant}`}`;

export function findingRow(finding: Finding): FindingRow {
  const { code, topic, level, about, statement, whatToDo, margin, chance, settledBy, needs, sources, path, place } = finding;
  return { key: findingKey(finding), code, topic, level, about, statement, whatToDo, margin, chance, settledBy, needs, sources, path, place };
}
