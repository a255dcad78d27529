/** The check that each run and fuse passes by least, or misses by most. */
import type { Finding, Level } from '../../core/findings/finding.ts';
import { levelsBySubject } from '../levels.ts';
import { farMargin, marginDigits } from '../margin-words.ts';
import type { Numbers } from '../shown.ts';
import type { Cell } from '../table/table.ts';

export interface Margin { readonly by: Cell; /** which check it is the margin of */ readonly of: Cell }

export interface Standing {
  /** the smallest; undefined when none could be worked out */
  readonly margin: (subject: string) => Margin | undefined;
  readonly level: (subject: string) => Cell;
}

/** Checks that count something or say yes and no have no margin worth printing. */
const isMeasured = ({ margin, sense, quantity, limit }: Finding): boolean => margin !== undefined && sense !== 'is_true' && quantity !== undefined && quantity !== 'number' && limit !== 0;

/** @param findings  of the whole car */
export function standingOf(findings: readonly Finding[], numbers: Numbers): Standing {
  const least = new Map<string, Finding>();
  for (const finding of findings) {
    if (!isMeasured(finding)) continue;
    // what a finding names besides its first subject is only there to explain
    const name = finding.about[0];
    if (name === undefined) continue;
    const known = least.get(name);
    if (known === undefined || finding.margin! < known.margin!) least.set(name, finding);
  }
  const levels: ReadonlyMap<string, Level> = levelsBySubject(findings);
  return {
    margin: (subject) => {
      const finding = least.get(subject);
      if (!finding) return undefined;
      return { by: marginCell(finding, subject, numbers), of: { text: whatOf(finding.code), tone: 'muted' } };
    },
    level: (subject) => { const level = levels.get(subject); return level === undefined ? undefined : { level }; },
  };
}

/** A temperature is compared in kelvin of distance, everything else as a share of its limit. */
function marginCell({ margin, quantity, value, limit, sense }: Finding, subject: string, numbers: Numbers): Cell {
  const key = `margin.${subject}`;
  if (quantity === 'temperature') return numbers.result(key, sense === 'at_most' ? limit! - value! : value! - limit!, 'temperature_difference', marginDigits);
  return farMargin(margin!) ?? numbers.result(key, margin, 'ratio', marginDigits);
}

/** `high-voltage.run-short-time-temperature` as `short time temperature`. */
const whatOf = (code: string): string => code.slice(code.indexOf('.') + 1).replace(/^(run|fuse)-/, '').replaceAll('-', ' ');
