/** A finding as the screen lists it: plain data, sentences made. */
import type { Place } from '../core/build/place.ts';
import type { Finding, Level, SettledBy, TopicName } from '../core/findings/finding.ts';

export interface FindingRow {
  /** identity from one analysis to the next: code, subjects, variant */
  readonly key: string;
  readonly code: string; readonly topic: TopicName; readonly level: Level;
  readonly about: readonly string[];
  readonly statement: string; readonly whatToDo: string;
  readonly margin: number | undefined; readonly chance: number | undefined;
  readonly settledBy: readonly SettledBy[];
  readonly needs: readonly string[]; readonly sources: readonly string[];
  readonly path: string; readonly place: Place | undefined;
}

/** Identity from one analysis to the next; two of one kind about one subject are told apart by their variant. */
export const findingKey = ({ code, about, variant }: Pick<Finding, 'code' | 'about' | 'variant'>): string => `${code} ${about.join('+')}${variant === undefined ? '' : ` ${variant}`}`;

export function findingRow(finding: Finding): FindingRow {
  const { code, topic, level, about, statement, whatToDo, margin, chance, settledBy, needs, sources, path, place } = finding;
  return { key: findingKey(finding), code, topic, level, about, statement, whatToDo, margin, chance, settledBy, needs, sources, path, place };
}
