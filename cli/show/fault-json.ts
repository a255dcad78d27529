/** Fault finding as JSON: docs/method/faults.md says what the keys are. */
import type { CandidateTest } from '../../core/faults/candidate-tests.ts';
import type { FaultFinder } from '../../core/faults/fault-finder.ts';
import type { Ranking } from '../../core/faults/ranking.ts';
import { ohmsFromScale } from '../../core/faults/forecasts.ts';
import { whereWords } from '../../core/faults/fault-words.ts';
import type { Look } from '../../core/faults/observation.ts';

const SHOWN = 25;
const rounded = (value: number): number => Number(value.toPrecision(4));

export function faultJson(build: string, finder: FaultFinder, ranking: Ranking): unknown {
  const verdict = finder.verdict(ranking);
  const next = verdict.isSettled ? undefined : finder.next(ranking);
  const own = ({ words, state, look, cost, danger, precautions }: CandidateTest): object => ({ words, state, where: whereWords(state, finder.states), look, cost: rounded(cost), danger, precautions });
  const scale = (look: Look, value: number): number => rounded(look.is === 'resistance' ? ohmsFromScale(value) : value);
  return {
    build, mode: finder.states.asked.mode ?? null, hypotheses: finder.hypotheses.length, observations: ranking.observations,
    entropy: rounded(ranking.entropy), withPairs: ranking.withPairs,
    causes: ranking.causes.slice(0, SHOWN).map(({ cause, chance, hypothesis: { words, about, path, disturbed } }) => ({ cause, chance: rounded(chance), words, about, path, disturbed })),
    verdict: { settled: verdict.isSettled, chance: rounded(verdict.chance), group: verdict.isSettled ? verdict.group.map(({ cause, chance, hypothesis: { words, confirm, mend } }) => ({ cause, chance: rounded(chance), words, confirm, mend })) : [] },
    next: next === undefined ? null : {
      ...own(next.test), again: next.isAgain, gain: rounded(next.gain),
      outcomes: next.outcomes.slice(0, 8).map(({ outcome, chance, remain }) => ({
        outcome: typeof outcome === 'boolean' ? outcome : outcome.map((value) => scale(next.test.look, value)), chance: rounded(chance),
        remain: remain.slice(0, 8).map(({ hypothesis, chance: then }) => ({ id: ranking.hypotheses[hypothesis]!.id, chance: rounded(then) })),
      })),
      instead: next.instead.map(own),
    },
  };
}
