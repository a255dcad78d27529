/** Why does it do nothing: what it may be after all that was seen, and what to look at next. Takes seconds at first; asked aside. */
import type { Analysis } from '../../../core/analyse.ts';
import { remembered } from '../../../core/car/remembered.ts';
import { faultFinder } from '../../../core/faults/fault-finder.ts';
import type { FaultFinder, NextTest, Ranking } from '../../../core/faults/fault-finder.ts';
import { askedStateWords, causeWords, lookWords, nextWords, observationWords, outcomeWords, percentWords, remainWords } from '../../../core/faults/fault-words.ts';
import type { Observation } from '../../../core/faults/observation.ts';
import { readObservation } from '../../../core/faults/read-observation.ts';
import { observationsOf, symptoms } from '../../../core/faults/symptoms.ts';
import type { Symptom } from '../../../core/faults/symptoms.ts';
import { driveModes } from '../../../core/topics/modes/mode-graph.ts';
import type { KeptAnalysis } from '../kept-analysis.ts';
import type { Questions } from '../protocol.ts';

const SHOWN = 8;
const OUTCOMES = 5;

const findersOf = remembered(function faultFinders(_: Analysis): Map<string, FaultFinder> { return new Map(); });

export function answerFault({ text, mode: wanted, symptoms: said, seen }: Questions['fault']['asks'], kept: Pick<KeptAnalysis, 'of'>): Questions['fault']['answer'] {
  const analysis = kept.of(text);
  const { car, ask } = analysis;
  const modes = [...car.modes.keys()];
  const mode = wanted !== undefined && car.modes.has(wanted) ? wanted : driveModes(car)[0] ?? modes.at(-1);
  const common = { modes, mode, symptoms: Object.entries(symptoms).map(([name, meaning]) => ({ name, meaning })) };
  const nothing = { ...common, count: 0, problems: [], path: [], causes: [], withPairs: false, next: undefined, verdict: undefined };
  if (car.parts.size === 0) return { ...nothing, problems: [{ of: '', says: 'The build has no parts yet, so there is nothing to find.' }] };
  const finders = findersOf(analysis);
  const key = mode ?? '';
  const finder = finders.get(key) ?? faultFinder(car, ask, mode);
  finders.set(key, finder);
  const problems: { readonly of: string; readonly says: string }[] = [];
  const observations: Observation[] = [];
  const path: { readonly of: string; readonly says: string }[] = [];
  for (const name of said) {
    const given = observationsOf(car, name as Symptom, finder.forecasts.predictionsIn(finder.states.asked));
    if (!given.observations) { problems.push({ of: name, says: given.why }); continue; }
    observations.push(...given.observations);
    path.push({ of: name, says: symptoms[name as Symptom] });
  }
  for (const one of seen) {
    const read = readObservation(one, car, finder.states, finder.forecasts.predictionsIn);
    if (!read.ok) { problems.push({ of: one, says: read.problem }); continue; }
    observations.push(read.observation);
    path.push({ of: one, says: observationWords(read.observation) });
  }
  if (observations.length === 0) return { ...nothing, count: finder.hypotheses.length, problems };
  const ranking = finder.rank(observations);
  const verdict = finder.verdict(ranking);
  const next = verdict.isSettled ? undefined : finder.next(ranking);
  return {
    ...common, count: finder.hypotheses.length, problems, path, withPairs: ranking.withPairs,
    causes: ranking.causes.slice(0, SHOWN).map((cause) => ({ says: causeWords(cause), chance: percentWords(cause.chance), share: cause.chance, path: cause.hypothesis.path })),
    next: next && nextOf(next, ranking, finder),
    verdict: verdict.isSettled ? { chance: percentWords(verdict.chance), causes: verdict.group.slice(0, SHOWN).map(({ hypothesis: { words, confirm, mend, path: at } }) => ({ says: words, confirm, mend, path: at })) } : undefined,
  };
}

function nextOf(next: NextTest, ranking: Ranking, finder: FaultFinder): NonNullable<Questions['fault']['answer']['next']> {
  const { test, outcomes, gain } = next;
  const { look, state } = test;
  return {
    says: nextWords(next), state: askedStateWords(state, finder.states), precautions: test.precautions, danger: test.danger, minutes: test.cost, gain, left: ranking.entropy,
    answers: look.is === 'voltage' || look.is === 'resistance' ? look.is : 'yes_no',
    points: look.is === 'voltage' || look.is === 'resistance' ? [look.a, look.b] : [],
    look: lookWords(look), where: state === finder.states.packOpen ? '@pack_open' : '',
    outcomes: outcomes.slice(0, OUTCOMES).map((outcome) => ({ says: outcomeWords(look, outcome), chance: percentWords(outcome.chance), remain: remainWords(outcome, ranking) })),
  };
}
