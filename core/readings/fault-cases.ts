/**
 * Fault-finding conversations as they stand in the log: one line for each thing said, by the name of the conversation in the column `step`.
 *
 *     procedure  step     state               points              quantity     reading
 *     fault      drive-1  drive               symptom no_click    observation  yes
 *     fault      drive-1  drive, pack parted  F2.a chassis        voltage      13.6 V
 *     fault      drive-1  drive, disconnect out  F2.a chassis     voltage      13.6 V
 *     fault      drive-1  drive               K_pos.closes        observation  no
 *     fault      drive-1                                          observation  withdrawn     (`replaces` names the line that is taken back)
 *     fault      drive-1                      ended               observation  yes           (what came of it in `note`)
 */
import type { Said, Taken } from '../faults/hear.ts';
import { lookWords } from '../faults/fault-words.ts';
import type { OfferedStates } from '../faults/offered-states.ts';
import { ENDED, WITHDRAWN } from './fault-marks.ts';
import type { FaultCells } from './fault-marks.ts';
import { standing } from './log.ts';
import { OBSERVATION } from './reading.ts';
import type { Reading } from './reading.ts';

export interface FaultEntry { readonly id: string; readonly when: string; readonly who: string; readonly said: Said; /** as it was written */ readonly reading: string }

export interface FaultCase {
  readonly name: string;
  /** that was asked for when the car did not do it; undefined: none, or the log does not say */
  readonly mode: string | undefined;
  /** what counts, oldest first */
  readonly entries: readonly FaultEntry[];
  readonly takenBack: readonly FaultEntry[];
  /** of the first and the last line, as the log has them */
  readonly begun: string; readonly last: string;
  readonly end: { readonly when: string; readonly note: string } | undefined;
  /** of the build file at the last line */
  readonly revision: string;
}

const SYMPTOM = 'symptom', PARTED = 'pack parted', OUT = 'disconnect out', OFF = 'everything off', NO_MODE = 'nothing switched on';
const PART_OF_STATE = ', ';

/** All conversations of a log, in the order in which they were begun. Shape: never throws on a log. */
export function faultCases(readings: readonly Reading[]): readonly FaultCase[] {
  const byName = new Map<string, Reading[]>();
  for (const reading of readings) {
    if (reading.procedure !== 'fault') continue;
    const own = byName.get(reading.step);
    if (own) own.push(reading);
    else byName.set(reading.step, [reading]);
  }
  const counting = new Set(standing(readings));
  return [...byName].map(([name, lines]): FaultCase => {
    const [first] = lines, last = lines.at(-1)!;
    const end = lines.findLast((line) => counting.has(line) && line.points[0] === ENDED);
    const said = lines.filter(({ reading, points }) => reading !== WITHDRAWN && points.length > 0 && points[0] !== ENDED);
    const entries = (isCounting: boolean): readonly FaultEntry[] => said.filter((line) => counting.has(line) === isCounting).map((line) => ({ id: line.id, when: line.when, who: line.who, said: saidIn(line), reading: line.reading }));
    return { name, mode: modeIn(first!), entries: entries(true), takenBack: entries(false), begun: first!.when, last: last.when, end: end && { when: end.when, note: end.note }, revision: last.revision };
  });
}

/** The one to go on with: of those that are not ended the one that was spoken of last. */
export function openCase(cases: readonly FaultCase[]): FaultCase | undefined {
  return cases.filter(({ end }) => !end).reduce<FaultCase | undefined>((newest, one) => (newest && Date.parse(newest.last) > Date.parse(one.last) ? newest : one), undefined);
}

/** The name of a new conversation: the mode and a number that no other has. */
export function newCaseName(mode: string | undefined, cases: readonly FaultCase[]): string {
  const stem = mode ?? 'fault';
  const taken = new Set(cases.map(({ name }) => name));
  let number = 1;
  while (taken.has(`${stem}-${number}`)) number++;
  return `${stem}-${number}`;
}

/** What the line of something said holds. @param name  of the conversation @param states  of the finder that heard it */
export function saidCells(name: string, { said, observations: [observation] }: Taken, { asked, packOpen, disconnected, dead }: OfferedStates): FaultCells {
  const mode = asked.mode ?? NO_MODE;
  const common = { procedure: 'fault', step: name, replaces: '', note: '' } as const;
  if (said.is === 'symptom' || !observation) return { ...common, state: mode, points: [SYMPTOM, said.text], quantity: OBSERVATION, reading: 'yes' };
  const { look, state, value } = observation;
  const words = [mode, ...(state === packOpen ? [PARTED] : state === disconnected ? [OUT] : state === dead ? [OFF] : [])].join(PART_OF_STATE);
  if (look.is === 'voltage' || look.is === 'resistance' || look.is === 'current') return { ...common, state: words, points: look.is === 'current' ? [look.of] : [look.a, look.b], quantity: look.is, reading: said.text.slice(said.text.indexOf('=') + 1).split('@')[0]!.trim() };
  return { ...common, state: words, points: [lookWords(look)], quantity: OBSERVATION, reading: value === true ? 'yes' : 'no' };
}

function modeIn({ state }: Reading): string | undefined {
  const [mode = ''] = state.split(PART_OF_STATE);
  return mode === '' || mode === NO_MODE ? undefined : mode;
}

function saidIn({ state, points, quantity, reading }: Reading): Said {
  const [first = '', second = ''] = points;
  if (first === SYMPTOM) return { is: 'symptom', text: second };
  const look = quantity === OBSERVATION ? first : quantity === 'current' ? `I(${first})` : `${first}-${second}`;
  return { is: 'seen', text: `${look}=${reading}${state.split(PART_OF_STATE).includes(PARTED) ? '@pack_open' : state.split(PART_OF_STATE).includes(OUT) ? '@disconnect_out' : ''}` };
}
