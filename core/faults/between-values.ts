/**
 * A bad joint has any resistance, the list only some: what lies between two of its values, between sound and the least, and between the most and parted
 * is likely too. Counted when a reading is weighed, by the means of its neighbours; nothing more is solved for it.
 *
 * The voltage behind a growing resistance moves one way; where between the two a reading lies is taken to be the same share for all readings of one joint.
 * Where a relay, a lamp or a mode goes over between the two, everything jumps at a place that nobody knows: then it looks like one of them or the other.
 * Range:   `STEPS` shares between two neighbours
 * Checked: core/faults/questions.test.ts
 */
import { endOf, logLikelihood } from './engine/forecast.ts';
import type { Forecast, Observed } from './engine/forecast.ts';
import type { Hypothesis } from './hypothesis.ts';

/** One unlisted value: so much of the way from one hypothesis to another. */
export interface BetweenValue { readonly from: number; readonly to: number; readonly share: number; /** those of the two that are values of the joint: it counts for the one that explains more */ readonly tells: readonly number[]; /** logarithm of its weight beside the first of these */ readonly logWeight: number }

const STEPS = [0.1, 0.25, 0.5, 0.75, 0.9];
/** Of a cause's weight on the values of the list. */
const LISTED = 0.5;

export interface Joint { /** places of its values, the least first */ readonly members: readonly number[]; readonly open: number | undefined; /** sound, its values, parted */ readonly stops: readonly number[] }

/** Whatever may be a bad joint. @param hypotheses  the first is the car with nothing wrong */
export function jointsIn(hypotheses: readonly Hypothesis[]): Joint[] {
  const opens = new Map<string, number>();
  const families = new Map<string, number[]>();
  hypotheses.forEach(({ cause, changes, silent }, h) => {
    const [only] = changes;
    if (changes.length !== 1 || silent.length > 0 || !only || only.is === 'joined') return;
    if (only.is === 'open') opens.set(only.element, h);
    if (only.is === 'resistive') families.set(cause, [...(families.get(cause) ?? []), h]);
  });
  const resistive = (h: number): Extract<Hypothesis['changes'][number], { is: 'resistive' }> => hypotheses[h]!.changes[0] as Extract<Hypothesis['changes'][number], { is: 'resistive' }>;
  return [...families.values()].map((found) => {
    const members = [...found].sort((a, b) => resistive(a).more - resistive(b).more);
    const open = opens.get(resistive(members[0]!).element);
    return { members, open, stops: [0, ...members, ...(open === undefined ? [] : [open])] };
  });
}

export function betweenValues(hypotheses: readonly Hypothesis[]): readonly BetweenValue[] {
  return jointsIn(hypotheses).flatMap(({ members, open, stops }) => {
    const pieces = stops.slice(1).flatMap((to, index) => STEPS.map((share) => { const from = stops[index]!; return { from, to, share, tells: index === 0 ? [to] : to === open ? [from] : share < 0.5 ? [from, to] : [to, from] }; }));
    const total = members.reduce((sum, h) => sum + hypotheses[h]!.weight, 0);
    return pieces.map((piece): BetweenValue => ({ ...piece, logWeight: Math.log(((1 - LISTED) * total) / pieces.length / (LISTED * hypotheses[piece.tells[0]!]!.weight)) }));
  });
}

export interface Weighed {
  /** by hypothesis, adding up to 1: what lies between two values counts for one of them */
  readonly chances: Float64Array;
  /** by hypothesis, of its likeliest value: logarithm of the likelihood of each observation */
  readonly explains: (hypothesis: number) => readonly number[];
}

/**
 * @param logPriors  by hypothesis
 * @param observed   forecasts over the same hypotheses
 * @param isSmooth   whether nothing goes over between two hypotheses, in the state of an observation
 */
export function weigh(logPriors: Float64Array, observed: readonly Observed[], between: readonly BetweenValue[], isSmooth: (observation: number, from: number, to: number) => boolean): Weighed {
  const listed = observed.map(({ forecast, outcome }) => Float64Array.from(logPriors, (_, h) => logLikelihood(forecast, h, outcome)));
  const sum = (h: number): number => listed.reduce((all, logs) => all + logs[h]!, 0);
  const logs = Float64Array.from(logPriors, (prior, h) => prior + sum(h));
  const members = new Set(between.flatMap(({ tells }) => tells));
  for (const h of members) logs[h]! += Math.log(LISTED);
  const listedLogs = logs.slice();
  const best = new Map<number, { readonly log: number; readonly each: readonly number[] }>();
  if (observed.length > 0) {
    for (const value of between) {
      const each = observed.map(({ forecast, outcome }, index) => (isSmooth(index, value.from, value.to) ? logBetween(forecast, value, outcome) : Math.log((1 - value.share) * Math.exp(listed[index]![value.from]!) + value.share * Math.exp(listed[index]![value.to]!))));
      const log = logPriors[value.tells[0]!]! + Math.log(LISTED) + value.logWeight + each.reduce((all, one) => all + one, 0);
      const counts = value.tells.reduce((one, other) => (listedLogs[other]! > listedLogs[one]! ? other : one));
      if (log > (best.get(counts)?.log ?? listedLogs[counts]!)) best.set(counts, { log, each });
      const top = Math.max(log, logs[counts]!);
      logs[counts] = top + Math.log(Math.exp(log - top) + Math.exp(logs[counts]! - top));
    }
  } else logs.set(logPriors);
  const most = logs.reduce((top, log) => Math.max(top, log), -Infinity);
  if (most === -Infinity) throw new Error('no hypothesis allows what was observed: keep one that does not say');
  let total = 0;
  const chances = logs.map((log) => Math.exp(log - most));
  for (const chance of chances) total += chance;
  return { chances: chances.map((chance) => chance / total), explains: (h) => best.get(h)?.each ?? listed.map((one) => one[h]!) };
}

/** Likelihood of an outcome under what lies between two hypotheses. */
function logBetween(forecast: Forecast, { from, to, share }: BetweenValue, outcome: number | boolean): number {
  const at = (a: number, b: number): number => a + share * (b - a);
  if (forecast.is === 'yes_no') return logLikelihood({ is: 'yes_no', chances: Float64Array.of(at(forecast.chances[from]!, forecast.chances[to]!)) }, 0, outcome);
  const until = Float64Array.of(at(endOf(forecast, from), endOf(forecast, to)));
  return logLikelihood({ ...forecast, means: Float64Array.of(at(forecast.means[from]!, forecast.means[to]!)), until }, 0, outcome);
}
