/**
 * The pipeline: text -> build -> car -> answers of the one network -> checks -> findings.
 */
import { handbookUsers } from './build/handbook-users.ts';
import { readBuild } from './build/read-build.ts';
import type { Words } from './build/read-build.ts';
import type { Build } from './build/build.ts';
import { askNetwork, answerStore } from './car/ask-network.ts';
import type { AnswerStore } from './car/ask-network.ts';
import type { Network } from './car/ask.ts';
import type { Car } from './car/car.ts';
import { sameButBulk } from './car/same-but-bulk.ts';
import { nominal } from './build/plain-values.ts';
import { prepareCar, realise } from './car/realise.ts';
import type { PreparedCar } from './car/realise.ts';
import { doubtsOf } from './chance/doubts.ts';
import { drawTable } from './chance/draw-table.ts';
import type { Margins } from './chance/sample-margins.ts';
import { worthMeasuring } from './chance/worth-measuring.ts';
import type { WorthMeasuring } from './chance/worth-measuring.ts';
import type { SourceMemory } from './build/source-memory.ts';
import { fileChecks, isUnreadable } from './findings/file-checks.ts';
import type { Check, Finding, TopicName } from './findings/finding.ts';
import { checkKey, judge, marginOf } from './findings/judge.ts';
import { nextThing } from './findings/next-thing.ts';
import type { NextThing } from './findings/next-thing.ts';
import { highVoltage } from './topics/high-voltage/study.ts';
import { lowVoltage } from './topics/low-voltage/study.ts';
import { mass } from './topics/mass/study.ts';
import { modes } from './topics/modes/study.ts';
import { pack } from './topics/pack/study.ts';
import type { Topic, TopicOutcome } from './topics/topic.ts';

/** Every subject of the car, in the order in which it is read. */
export const topics: readonly Topic[] = [pack, highVoltage, lowVoltage, mass, modes];

export interface Analysis {
  readonly build: Build;
  /** of the sentences */
  readonly units: Build['units'];
  readonly prepared: PreparedCar;
  readonly car: Car;
  readonly ask: Network;
  readonly results: Readonly<Partial<Record<TopicName, unknown>>>;
  /** what each subject said, by its name */
  readonly studied: ReadonlyMap<TopicName, TopicOutcome<unknown>>;
  readonly checks: readonly Check[];
  readonly findings: readonly Finding[];
  readonly next: NextThing;
  /** best first; empty until draws are taken in */
  readonly worthMeasuring: readonly WorthMeasuring[];
}

export interface AnalyseOptions {
  /** subjects to study; absent: all */
  readonly only?: readonly TopicName[];
  /** keeps factorisations between calls; absent: a fresh one */
  readonly store?: AnswerStore;
  /** of the reader of this file (`emptyMemory()`), kept between calls: makes reading again after an edit quicker */
  readonly memory?: SourceMemory;
  /** of the same file before an edit, with the same store: what the edit cannot have changed is taken from it */
  readonly before?: Analysis | undefined;
  /** units of the sentences; absent: those that the file asks for */
  readonly units?: Build['units'];
}

/**
 * Everything that can be said about a build at its nominal values.
 * Shape:  pure; never throws on a text, however bad
 */
export function analyse(text: string, words: Words, options: AnalyseOptions = {}): Analysis {
  const build = readBuild(text, words, options.memory);
  const prepared = prepareCar(build, words, options.before?.prepared);
  const car = realise(prepared, nominal);
  const { before } = options;
  const kept = before && sameButBulk(before.car, car) ? before : undefined;
  const ask = kept?.ask ?? askNetwork(car, options.store ?? answerStore());
  // of a text that could not be read, only that is worth saying
  const worth = isUnreadable(build.problems, build.parts.size) ? [] : topics;
  const studied = new Map(worth.filter(({ name }) => !options.only || options.only.includes(name)).map((topic) => [topic.name, (topic.readsBulk ? undefined : kept?.studied.get(topic.name)) ?? topic.study(car, ask)]));
  const checks = [...fileChecks(build.problems), ...[...studied.values()].flatMap((outcome) => outcome.checks)];
  const units = options.units ?? build.units;
  const findings = judge(checks, { places: build.places, units });
  const results = Object.fromEntries([...studied].map(([name, outcome]) => [name, outcome.results]));
  return { build, units, prepared, car, ask, results, studied, checks, findings, next: nextThing(findings, []), worthMeasuring: [] };
}

/**
 * The same analysis with the chances that many draws give (`core/chance/sample-margins.ts` makes the margins, on workers or not).
 */
export function withChances(analysis: Analysis, margins: Margins, sample: { readonly draws: number; readonly seed: number }): Analysis {
  const { build, checks, units } = analysis;
  const table = drawTable([...build.quantities.values()], sample.draws, sample.seed);
  const nominalMargins = new Map<string, number>();
  for (const check of checks) {
    const margin = marginOf(check);
    if (margin !== undefined) nominalMargins.set(checkKey(check), margin);
  }
  const doubts = doubtsOf(margins, nominalMargins, table, build.quantities);
  const findings = judge(checks, { places: build.places, units, doubts });
  const worth = worthMeasuring(findings, build.quantities);
  return { ...analysis, findings, worthMeasuring: worth, next: nextThing(findings, worth, (path) => handbookUsers(build, path)[0] ?? path) };
}
