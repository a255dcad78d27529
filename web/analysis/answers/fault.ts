/** Why does it do nothing: what it may be after all that was said in a conversation, and what to look at next. Takes seconds at first; asked aside. */
import type { Network } from '../../../core/car/ask.ts';
import type { Car } from '../../../core/car/car.ts';
import type { FaultFinder, NextTest } from '../../../core/faults/fault-finder.ts';
import type { Ranking } from '../../../core/faults/ranking.ts';
import { askedMode, finderOf } from '../../../core/faults/finder-of.ts';
import { askedStateWords, capital, causeWords, dangerWords, gainWords, leftWords, lookWords, nextWords, outcomeWords, percentWords, remainWords, stateWords, whereWords } from '../../../core/faults/fault-words.ts';
import { hear } from '../../../core/faults/hear.ts';
import type { Observation } from '../../../core/faults/observation.ts';
import { offeredSymptoms, whyNot } from '../../../core/faults/symptom-modes.ts';
import { symptoms } from '../../../core/faults/symptoms.ts';
import { cellsOf } from '../../../core/readings/reading.ts';
import type { FaultCase } from '../../../core/readings/fault-cases.ts';
import { faultCases, newCaseName, openCase, saidCells } from '../../../core/readings/fault-cases.ts';
import { readLog } from '../../../core/readings/log.ts';
import type { KeptAnalysis } from '../../../study/kept-analysis.ts';
import type { Questions } from '../protocol.ts';

const SHOWN = 8;
const OUTCOMES = 5;

export function answerFault({ text, log, name, mode: wanted, upTo }: Questions['fault']['asks'], kept: Pick<KeptAnalysis, 'of'>): Questions['fault']['answer'] {
  const { car, ask } = kept.of(text);
  const cases = faultCases(readLog(log).readings);
  const shown = name === undefined ? openCase(cases) : cases.find((one) => one.name === name);
  const mode = askedMode(car, shown ? shown.mode : wanted);
  const path: HeardAs[] = [];
  const common = {
    modes: [...car.modes.keys()], mode, symptoms: Object.entries(symptoms).map(([key, meaning]) => ({ name: key, meaning, instead: undefined })),
    cases: [...cases].sort((a, b) => Date.parse(b.last) - Date.parse(a.last)).map((one) => ({ name: one.name, says: `${one.begun.slice(0, 10)}, ${one.entries.length} seen, ${one.end ? 'ended' : 'open'}`, isEnded: one.end !== undefined })),
    name: shown?.name ?? '', newName: newCaseName(mode, cases), end: shown?.end?.note,
    takenBack: shown?.takenBack.map(({ said }) => said.text) ?? [],
  };
  const nothing = { ...common, count: 0, problems: [], path, causes: [], withPairs: false, next: undefined, verdict: undefined };
  if (car.parts.size === 0) return { ...nothing, problems: ['The build has no parts yet, so there is nothing to find.'] };
  const finder = finderOf(car, ask, mode);
  const { observations, heardAs, leftOut } = heardIn(shown, car, finder);
  path.push(...heardAs);
  const problems = shown && shown.mode !== undefined && shown.mode !== mode ? [`The log asks for mode ${shown.mode}, which the file does not have any more; ${mode ?? 'none'} is taken.`] : [];
  problems.push(...leftOut);
  if (upTo === 'said') return { ...nothing, count: finder.hypotheses.length, problems };
  if (observations.length === 0) return { ...nothing, symptoms: inTheirModes(car, ask, mode), count: finder.hypotheses.length, problems };
  const ranking = finder.rank(observations);
  const ranked = {
    ...common, count: finder.hypotheses.length, problems, path, withPairs: ranking.withPairs,
    causes: ranking.causes.slice(0, SHOWN).map((cause) => ({ says: causeWords(cause), chance: percentWords(cause.chance), share: cause.chance, path: cause.hypothesis.path })),
  };
  if (upTo === 'causes') return { ...ranked, next: undefined, verdict: undefined };
  const verdict = finder.verdict(ranking);
  const next = verdict.isSettled ? undefined : finder.next(ranking);
  return {
    ...ranked,
    next: next && nextOf(next, ranking, finder),
    verdict: verdict.isSettled ? { chance: percentWords(verdict.chance), causes: verdict.group.slice(0, SHOWN).map(({ hypothesis: { words, confirm, mend, path: at } }) => ({ says: words, confirm, mend, path: at })) } : undefined,
  };
}

/** Solves the car in every mode, once a build: not while the panel is still to open. */
function inTheirModes(car: Car, ask: Network, mode: string | undefined): Questions['fault']['answer']['symptoms'] {
  return offeredSymptoms(car, ask).map(({ name, meaning, mode: suiting }) => ({ name, meaning, instead: suiting === undefined || suiting === mode || whyNot(car, ask, mode, name) === undefined ? undefined : suiting }));
}

interface HeardAs { readonly id: string; readonly says: string; readonly when: string; readonly symptom: string | undefined }

/** What the lines of a conversation say of this car. */
function heardIn(shown: FaultCase | undefined, car: Car, finder: FaultFinder): { readonly observations: readonly Observation[]; readonly heardAs: readonly HeardAs[]; readonly leftOut: readonly string[] } {
  const observations: Observation[] = [], heardAs: HeardAs[] = [], leftOut: string[] = [];
  for (const { id, when, said } of shown?.entries ?? []) {
    const heard = hear(said, car, finder);
    if (!heard.ok) { leftOut.push(`Left out: ${heard.problem}`); continue; }
    observations.push(...heard.taken.observations);
    heardAs.push({ id, when, says: heard.taken.words, symptom: said.is === 'symptom' ? said.text : undefined });
  }
  return { observations, heardAs, leftOut };
}

/** As long as a piece may be: a question that comes meanwhile waits for it [ms]. */
const PIECE = 20;
const AT_ONCE = 16;

/** @param now  [ms] */
export function answerFaultAhead({ text, mode }: Questions['fault_ahead']['asks'], kept: Pick<KeptAnalysis, 'of'>, now: () => number): Questions['fault_ahead']['answer'] {
  const { car, ask } = kept.of(text);
  if (car.parts.size === 0) return { isMore: false };
  const { prepare } = finderOf(car, ask, askedMode(car, mode));
  let isMore = true;
  for (const until = now() + PIECE; isMore && now() < until;) isMore = prepare(AT_ONCE);
  return { isMore };
}

/** Nothing is kept that the build cannot be asked for. */
export function answerFaultLine({ text, name, mode, said }: Questions['fault_line']['asks'], kept: Pick<KeptAnalysis, 'of'>): Questions['fault_line']['answer'] {
  const { car, ask } = kept.of(text);
  const finder = finderOf(car, ask, askedMode(car, mode));
  const heard = hear(said, car, finder);
  if (!heard.ok) return heard;
  const cells = cellsOf({ ...saidCells(name, heard.taken, finder.states), id: '', when: '', who: '', instrument: '', verdict: '', revision: '', restsOn: '', more: [] });
  return { ok: true, cells: Object.fromEntries(Object.entries(cells).filter(([, words]) => words !== '')) };
}

/** What will be asked once the file has the line: worked out while it is being written; the causes alone where the next test would take long. */
export function answerFaultExpected({ text, log, name, mode, said }: Questions['fault_line']['asks'], kept: Pick<KeptAnalysis, 'of'>): undefined {
  const { car, ask } = kept.of(text);
  const finder = finderOf(car, ask, askedMode(car, mode));
  const heard = hear(said, car, finder);
  if (!heard.ok) return undefined;
  const shown = faultCases(readLog(log).readings).find((one) => one.name === name);
  const ranking = finder.rank([...heardIn(shown, car, finder).observations, ...heard.taken.observations]);
  if (finder.isPrepared && !finder.verdict(ranking).isSettled) finder.next(ranking);
  return undefined;
}

function nextOf(next: NextTest, ranking: Ranking, finder: FaultFinder): NonNullable<Questions['fault']['answer']['next']> {
  const { test, outcomes, gain } = next;
  const { look, state } = test;
  const points = look.is === 'voltage' || look.is === 'resistance' ? [look.a, look.b] : [];
  return {
    says: nextWords(next), state: askedStateWords(state, finder.states), precautions: test.precautions, danger: test.danger, warning: dangerWords(test, finder.states), minutes: test.cost, gain: capital(gainWords(gain)), left: leftWords(ranking.entropy),
    answers: look.is === 'voltage' || look.is === 'resistance' || look.is === 'current' ? look.is : 'yes_no', points,
    look: lookWords(look), where: whereWords(state, finder.states),
    subjects: look.is === 'current' ? [`runs.${look.of}`] : look.is === 'thing' || (look.is === 'blown' && look.of !== undefined) ? [`parts.${look.of!}`] : [],
    asMeant: look.is === 'voltage' ? stateWords(state) : undefined,
    outcomes: outcomes.slice(0, OUTCOMES).map((outcome) => ({ says: outcomeWords(look, outcome), chance: percentWords(outcome.chance), remain: remainWords(outcome, ranking) })),
  };
}
