/**
 * Two faults at once, looked for only when no single one explains what was seen: the singles that explain most of it, two by two.
 */
import { logLikelihood } from './engine/forecast.ts';
import type { Observed } from './engine/forecast.ts';
import type { Hypothesis } from './hypothesis.ts';

/** Likelihood of an observation this much below the best that any hypothesis gives it: not explained [nats]. */
const UNEXPLAINED = 3;
/** Singles that are paired. */
const SINGLES = 40;

/**
 * @param observed  forecasts over `hypotheses`
 * @param most      pairs at the most
 * @returns pairs each of which explains every observation by one of its two, likeliest first
 */
export function pairHypotheses(hypotheses: readonly Hypothesis[], observed: readonly Observed[], most: number): readonly Hypothesis[] {
  const none = hypotheses.findIndex(({ sort }) => sort === 'none');
  const total = hypotheses.reduce((sum, { weight }) => sum + weight, 0);
  const explains = hypotheses.map(() => [] as boolean[]);
  const changed = hypotheses.map(() => [] as boolean[]);
  for (const { forecast, outcome } of observed) {
    const logs = hypotheses.map((_, h) => logLikelihood(forecast, h, outcome));
    const best = logs.reduce((top, log) => Math.max(top, log), -Infinity);
    logs.forEach((log, h) => { explains[h]!.push(log > best - UNEXPLAINED); changed[h]!.push(Math.abs(log - logs[none]!) > 0.1); });
  }
  const wrong = observed.map((_, index) => !explains[none]![index]);
  if (!wrong.some(Boolean)) return [];
  const score = (h: number): number => wrong.filter((isWrong, index) => isWrong && explains[h]![index]).length;
  const singles = [...hypotheses.keys()].filter((h) => hypotheses[h]!.changes.length + hypotheses[h]!.silent.length > 0 && score(h) > 0).sort((a, b) => score(b) - score(a) || hypotheses[b]!.weight - hypotheses[a]!.weight);
  // some of those that explain each observation, so that none is crowded out by the many that explain another
  const chosen = new Set<number>();
  for (let index = 0; index < observed.length; index++) if (wrong[index]) for (const h of singles.filter((single) => explains[single]![index]).slice(0, Math.ceil(SINGLES / wrong.filter(Boolean).length))) chosen.add(h);
  const list = [...chosen];
  const pairs: { readonly one: Hypothesis; readonly other: Hypothesis; readonly weight: number }[] = [];
  for (const [index, i] of list.entries()) {
    for (const j of list.slice(index + 1)) {
      const covers = observed.every((_, n) => explains[i]![n] || explains[j]![n]);
      if (!covers || hypotheses[i]!.about[0] === hypotheses[j]!.about[0]) continue;
      // what one explains the other must not have moved away on its own, as far as can be said before solving both
      const clash = observed.filter((_, n) => wrong[n] === false && ((changed[i]![n] && !explains[i]![n]) || (changed[j]![n] && !explains[j]![n]))).length;
      pairs.push({ one: hypotheses[i]!, other: hypotheses[j]!, weight: ((hypotheses[i]!.weight * hypotheses[j]!.weight) / total) * 0.2 ** clash });
    }
  }
  return pairs.sort((a, b) => b.weight - a.weight).slice(0, most).map(({ one, other, weight }) => pairOf(one, other, weight));
}

export function pairOf(one: Hypothesis, other: Hypothesis, weight: number): Hypothesis {
  return {
    id: `${one.id} + ${other.id}`, sort: 'pair', cause: `${one.cause} + ${other.cause}`, about: [...one.about, ...other.about], path: one.path, words: `${one.words}; and ${other.words}`,
    changes: [...one.changes, ...other.changes], silent: [...one.silent, ...other.silent], weight, disturbed: [...one.disturbed, ...other.disturbed],
    confirm: `${one.confirm} ${other.confirm}`, mend: `${one.mend} Then: ${other.mend}`,
  };
}
