/**
 * What the screen asks the analysis worker, and what it answers. Everything is plain data. The worker keeps nothing of the
 * build but what makes the next question quicker: each question carries the text that it is about.
 */
import type { Edit } from '../../core/build/edit-build.ts';
import type { Problem } from '../../core/build/problem.ts';
import type { Splice } from '../../core/build/splice.ts';
import type { StateWords } from '../../core/car/read-state.ts';
import type { QuantityName } from '../../core/quantity/quantity-table.ts';
import type { Level } from '../../core/findings/finding.ts';
import type { Place } from '../../core/build/place.ts';
import type { Choices, SheetName } from '../../sheets/sheet.ts';
import type { LevelCounts } from '../../sheets/levels.ts';
import type { UnitChoice } from '../../sheets/unit-choice.ts';
import type { FindingRow } from '../../study/finding-row.ts';
import type { Study, StudyAsked } from '../../study/study.ts';

/** Made by the sampling worker (`sampling.ts`), which also works its draws into the findings: the analysis worker is never held up. */
export interface Chances { readonly draws: number; readonly counts: LevelCounts; readonly open: readonly FindingRow[]; readonly next: Study['next']; readonly worthMeasuring: readonly { readonly path: string; readonly share: number; readonly says: string }[] }

/** One field of a card. A group, list or map has its items beneath it (`fields`). */
export interface CardField {
  readonly path: string; readonly name: string;
  readonly type: 'quantity' | 'choice' | 'flag' | 'count' | 'text' | 'name' | 'position' | 'size' | 'list' | 'map' | 'group';
  readonly need: 'required' | 'optional' | 'handbook';
  readonly meaning: string; readonly example: string | undefined;
  /** as it stands in the file, untouched; '' when the file is silent */
  readonly written: string;
  /** what counts while the file is silent: the handbook's value, or the stock's for a run */
  readonly instead: string | undefined;
  /** for choices, names and flags */
  readonly options: readonly { readonly value: string; readonly says: string }[];
  readonly problems: readonly string[];
  readonly fields: readonly CardField[];
  /** what a new item of a list or map would be; absent on everything else */
  readonly item?: CardField;
}

export interface Card {
  readonly path: string;
  readonly title: string;
  /** what it is, in a sentence */
  readonly meaning: string;
  readonly kind: string | undefined;
  readonly fields: readonly CardField[];
  /** ports and what is on them, for a part; both ends, for a run */
  readonly ends: readonly { readonly point: string; readonly carries: string; readonly meaning: string; readonly runs: readonly { readonly name: string; readonly to: string }[]; readonly free: number }[];
  readonly findings: readonly FindingRow[];
  readonly place: Place | undefined;
}

export interface MeterReading {
  readonly outcome: 'reads' | 'failed' | 'wrong_state';
  /** at the nominal values [V] */
  readonly voltage: number | undefined;
  /** what it reads in each of the draws asked for, those that could be made [V] */
  readonly drawn: readonly number[];
  readonly isFloating: boolean;
  /** a mode whose precharge from empty never finishes: the reading is for capacitors that are full already */
  readonly isStalled: boolean;
  /** what is wrong with the state or the points, or why there is no operating point; sentences */
  readonly problems: readonly string[];
}

/** A finding that an alternative changes. The row is as it would be then, or as it was when it would be gone. */
export interface ChangedFinding { readonly row: FindingRow; readonly before: Level | undefined; readonly after: Level | undefined }

/** Alternatives side by side: what each would change among the findings. */
export interface WhatIfRow {
  readonly ok: boolean; readonly problem: string | undefined;
  readonly counts: LevelCounts | undefined;
  readonly better: readonly ChangedFinding[]; readonly worse: readonly ChangedFinding[];
  /** the numbers of the shown sheet that differ: as before -> as then */
  readonly numbers: readonly { readonly key: string; readonly before: string; readonly after: string }[];
}

/** Which procedure is guided. */
export type Guided = 'assembly' | 'power-up';

/** A step of a guided procedure, in words, and how far it is by the log. */
export interface GuideStep {
  readonly id: string; readonly phase: string; readonly title: string; readonly action: string;
  readonly hazard: 'none' | 'class_a' | 'class_b' | 'moving';
  readonly isHoldPoint: boolean; readonly isMeasured: boolean;
  readonly people: string; readonly cautions: readonly string[]; readonly unknown: readonly string[]; readonly expect: string; /** what it means when that is not what comes */ readonly instead: string; readonly willFail: boolean;
  readonly state: string; readonly instrument: string;
  readonly points: readonly string[];
  readonly probes: readonly { readonly lead: 'red' | 'black' | 'either' | 'tester' | 'earth' | 'clamp'; readonly on: string }[];
  readonly quantity: QuantityName | undefined;
  /** units that the reading may be written in, and the likely one */
  readonly units: readonly string[]; readonly unit: string;
  readonly shouldRead: string | undefined; readonly band: string | undefined; readonly limit: string | undefined; readonly notPredicted: string | undefined;
  readonly restsOn: string;
  readonly status: 'open' | 'passed' | 'outside' | 'untold' | 'repeat';
  /** place of the hold point before it that is not passed */
  readonly heldBy: number | undefined;
  /** those that count, oldest first */
  readonly readings: readonly { readonly id: string; readonly when: string; readonly who: string; readonly isObservation: boolean; readonly reading: string; readonly verdict: string; readonly note: string }[];
  /** isolation from the readings before it */
  readonly worked: { readonly value: string | undefined; readonly says: string } | undefined;
}

export type Judged =
  | { readonly ok: true; readonly word: 'agrees' | 'outside' | 'cannot be told'; readonly says: string; readonly next: string; readonly meanings: readonly { readonly part: string | undefined; readonly says: string; readonly reads: string | undefined; readonly fits: boolean }[] }
  | { readonly ok: false; readonly problem: string };

export interface FaultAnswer {
  readonly modes: readonly string[];
  /** that was asked for */
  readonly mode: string | undefined;
  /** `instead`: the mode to ask for, where the symptom is none in this one */
  readonly symptoms: readonly { readonly name: string; readonly meaning: string; readonly instead: string | undefined }[];
  /** how many things may be wrong */
  readonly count: number;
  /** conversations of the log, the one spoken of last first */
  readonly cases: readonly { readonly name: string; readonly says: string; readonly isEnded: boolean }[];
  /** of the conversation; '' while nothing of it is kept */
  readonly name: string;
  /** name that a new one gets */
  readonly newName: string;
  /** what came of it, once it is ended */
  readonly end: string | undefined;
  /** of the log, what the build cannot be asked for any more; sentences */
  readonly problems: readonly string[];
  /** what counts, oldest first; `id` of its line; `symptom` by its name where it is one */
  readonly path: readonly { readonly id: string; readonly says: string; readonly when: string; readonly symptom: string | undefined }[];
  readonly takenBack: readonly string[];
  /** likeliest first; share 0..1 */
  readonly causes: readonly { readonly says: string; readonly chance: string; readonly share: number; readonly path: string }[];
  readonly withPairs: boolean;
  readonly next: {
    readonly says: string; readonly state: string; readonly precautions: readonly string[]; readonly danger: 'none' | 'near' | 'high'; /** why it is high, as a sentence */ readonly warning: string; readonly minutes: number;
    /** how much it tells, and what is left to find out, in words */ readonly gain: string; readonly left: string;
    readonly answers: 'voltage' | 'resistance' | 'current' | 'yes_no'; readonly points: readonly string[]; readonly look: string; readonly where: string;
    /** paths of what it is looked at, without a meter */ readonly subjects: readonly string[];
    /** state to ask the meter about the car with nothing wrong; undefined without points */ readonly asMeant: StateWords | undefined;
    readonly outcomes: readonly { readonly says: string; readonly chance: string; readonly remain: string }[];
  } | undefined;
  /** found */
  readonly verdict: { readonly chance: string; readonly causes: readonly { readonly says: string; readonly confirm: string; readonly mend: string; readonly path: string }[] } | undefined;
}

/** Cells of a line of readings.csv. */
export type LineAnswer = { readonly ok: true; readonly cells: Readonly<Record<string, string>> } | { readonly ok: false; readonly problem: string };

/** Which single failures are wanted; absent: all. */
export interface FailureWish { readonly severity?: string; readonly mode?: string; readonly told?: boolean; readonly about?: string; readonly words?: string }
export interface FailuresAnswer {
  readonly modes: readonly string[];
  /** names of parts and runs that failures are about, sorted */
  readonly names: readonly string[];
  readonly severities: readonly { readonly name: string; readonly says: string; /** of those wanted, whatever their severity */ readonly count: number }[];
  readonly total: number; readonly count: number;
  /** worst first, those that do the same in one; `path` where it is about one alone */
  readonly rows: readonly { readonly severity: string; readonly failures: readonly string[]; readonly count: number; readonly path: string | undefined; readonly happens: readonly string[]; readonly tells: readonly string[]; readonly seenAt: readonly string[]; readonly second: string }[];
}

export interface Questions {
  study: { readonly asks: StudyAsked; readonly answer: Study };
  /** has a text analysed, so that what is asked about it next is answered at once */
  begin: { readonly asks: { readonly text: string }; readonly answer: undefined };
  /** findings that hold, or all of one subject */
  findings: { readonly asks: { readonly text: string; readonly about?: string; readonly level?: Level }; readonly answer: readonly FindingRow[] };
  /** whether a state can be used as it is written; problems are sentences */
  state: { readonly asks: { readonly text: string; readonly state: StateWords }; readonly answer: { readonly problems: readonly string[] } };
  edit: { readonly asks: { readonly text: string; readonly edits: readonly Edit[] }; readonly answer: { readonly ok: true; readonly text: string; readonly splices: readonly Splice[] } | { readonly ok: false; readonly problem: Problem } };
  card: { readonly asks: { readonly text: string; readonly path: string; readonly units: UnitChoice }; readonly answer: Card | undefined };
  meter: { readonly asks: { readonly text: string; readonly state: StateWords; readonly a: string; readonly b: string; /** a few draws at a time, each time another seed, so that nothing else waits */ readonly draws: number; readonly seed: number }; readonly answer: MeterReading };
  /** a procedure, step by step, with the text of readings.csv */
  guide: { readonly asks: { readonly text: string; readonly log: string; readonly procedure: Guided }; readonly answer: { readonly procedure: Guided; /** instead of steps */ readonly why: string | undefined; readonly steps: readonly GuideStep[]; /** place of the step to go on with */ readonly goOn: number; readonly passed: number; readonly problems: readonly string[] } };
  /** better numbers for the file from the readings that agree; each is an edit by path */
  proposals: { readonly asks: { readonly text: string; readonly log: string }; readonly answer: readonly { readonly path: string; readonly text: string; readonly instead: string | undefined; readonly why: string; readonly reading: string }[] };
  /** a reading of a step, with what was read before it */
  judge: { readonly asks: { readonly text: string; readonly log: string; readonly procedure: Guided; readonly step: string; readonly reading: string; readonly isObservation: boolean; /** what a wrong one means takes longer */ readonly hasMeanings: boolean }; readonly answer: Judged };
  /** why it does nothing: a conversation of the log; '' for a new one in a mode, undefined for the open one that was spoken of last */
  fault: { readonly asks: { readonly text: string; readonly log: string; readonly name: string | undefined; readonly mode: string | undefined; /** what it means takes seconds at first: only what was `said`, or the `causes` without the next test and the verdict */ readonly upTo?: 'said' | 'causes' }; readonly answer: FaultAnswer };
  /** works ahead a little of what the first `fault` would have to work out; asked again and again while nobody asks anything else */
  fault_ahead: { readonly asks: { readonly text: string; readonly mode: string | undefined }; readonly answer: { /** something is left to work out */ readonly isMore: boolean } };
  /** the line that says something in a conversation: a symptom by its name, or what was seen as `halfshaft fault --observe` takes it */
  fault_line: { readonly asks: { readonly text: string; /** of readings.csv, before the line */ readonly log: string; readonly name: string; readonly mode: string | undefined; readonly said: { readonly is: 'symptom' | 'seen'; readonly text: string } }; readonly answer: LineAnswer };
  /** has what `fault` will say once that line is in the log worked out meanwhile */
  fault_expected: { readonly asks: Questions['fault_line']['asks']; readonly answer: undefined };
  /** single failures, chosen from */
  failures: { readonly asks: { readonly text: string; readonly units: UnitChoice; readonly wish: FailureWish }; readonly answer: FailuresAnswer };
  what_if: { readonly asks: { readonly text: string; readonly alternatives: readonly { readonly edits: readonly Edit[] }[]; readonly sheet: SheetName; readonly choices: Choices }; readonly answer: readonly WhatIfRow[] };
  /** kinds that can be added, with the fields that they require; the text gives the names that those may take */
  kinds: { readonly asks: { readonly text?: string }; readonly answer: readonly { readonly kind: string; readonly title: string; readonly family: string; readonly meaning: string; readonly required: readonly CardField[] }[] };
  /** completion in the text drawer at an offset */
  complete: { readonly asks: { readonly text: string; readonly offset: number }; readonly answer: { readonly from: number; readonly to: number; readonly items: readonly { readonly label: string; readonly detail: string; readonly insert: string }[] } | undefined };
}
export type QuestionName = keyof Questions;
export type ToWorker = { [Q in QuestionName]: { readonly id: number; readonly question: Q } & { readonly asks: Questions[Q]['asks'] } }[QuestionName];
export type FromWorker = { readonly id: number; readonly answer: unknown } | { readonly id: number; readonly error: string };
