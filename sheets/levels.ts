/** Which findings stand at what: the worst level of each part, run, mode or other subject. */
import { levelOrder } from '../core/findings/finding.ts';
import type { Finding, Level } from '../core/findings/finding.ts';

export { levelOrder };

/** undefined when there is none. */
export function worstLevel(levels: readonly (Level | undefined)[]): Level | undefined {
  return levelOrder.find((level) => levels.includes(level));
}

/** The worst of several that is open; undefined when all hold. */
export function openLevel(levels: readonly (Level | undefined)[]): Exclude<Level, 'holds'> | undefined {
  const worst = worstLevel(levels);
  return worst === 'holds' ? undefined : worst;
}

/** Worst level of each subject by name. */
export function levelsBySubject(findings: readonly Finding[]): ReadonlyMap<string, Level> {
  const worst = new Map<string, Level>();
  for (const { about, level } of findings) {
    for (const name of about) {
      const known = worst.get(name);
      if (known === undefined || levelOrder.indexOf(level) < levelOrder.indexOf(known)) worst.set(name, level);
    }
  }
  return worst;
}

export type LevelCounts = Readonly<Record<Level, number>>;

export function countLevels(findings: readonly Finding[]): LevelCounts {
  const counts = { stop: 0, fix: 0, unknown: 0, watch: 0, holds: 0 };
  for (const { level } of findings) counts[level]++;
  return counts;
}

/** What a level asks of the builder, in a word or two. */
export const levelWords: Readonly<Record<Level, string>> = { stop: 'stop', fix: 'put right', unknown: 'data missing', watch: 'watch', holds: 'holds' };
