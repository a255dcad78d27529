/** The path taken: each test with where the probes went, what was read, and what remained after it. */
import type { CandidateTest } from '../../core/faults/candidate-tests.ts';
import type { FaultFinder } from '../../core/faults/fault-finder.ts';
import type { RankedCause, Ranking } from '../../core/faults/ranking.ts';
import { askedStateWords, capital, causeWords, leftCount, percentWords } from '../../core/faults/fault-words.ts';
import type { Taken } from '../../core/faults/hear.ts';
import { lookKey } from '../../core/faults/observation.ts';
import type { Observation } from '../../core/faults/observation.ts';
import type { FaultEntry } from '../../core/readings/fault-cases.ts';
import type { Section } from '../table/flow.tsx';
import type { Cell, Row } from '../table/table.ts';
import { whenWords } from './when-words.ts';

/** Causes that stand after each test, besides what is not in the list. */
const LEADING = 3;

/** Rows of a long conversation: the newest. */
const MOST_ROWS = 120;

/** @param rankings  after each of those taken in; undefined: not worked out */
export function pathSection(taken: readonly { readonly entry: FaultEntry; readonly taken: Taken }[], rankings: readonly (Ranking | undefined)[], finder: FaultFinder): Section {
  const offered = new Map(finder.tests.map((test) => [lookKey(test.state, test.look), test]));
  const before: Observation[] = [];
  const rows = taken.map(({ entry, taken: one }, index): Row => {
    const { observations: [observation] } = one;
    const ranking = rankings[index];
    const asked = askedCells(entry, one, offered, finder, before);
    before.push(...one.observations);
    return {
      ...subjectOf(observation),
      cells: [
        { text: String(index + 1), face: 'strong' },
        ...asked,
        { text: answerOf(entry, observation), face: 'strong' },
        ranking && leadingCells(ranking),
        ranking && { text: `about ${leftCount(ranking.entropy)}`, tone: 'muted' },
        [{ text: whenWords(entry.when), tone: 'muted' }, ...(entry.who === '' ? [] : [{ text: entry.who, tone: 'muted' } as const])],
      ],
    };
  });
  return {
    title: 'The path taken', note: `After each line: what was likeliest then. “Left” is how many causes, each as likely, would be as hard to tell apart.${rows.length > MOST_ROWS ? ` ${rows.length - MOST_ROWS} lines before these stand in readings.csv and count as well.` : ''}`,
    table: {
      columns: [{ head: '', width: 9 }, { head: 'What was looked at', width: 88 }, { head: 'State and precautions', width: 84 }, { head: 'Found', width: 34 }, { head: 'What remained after it', width: 112 }, { head: 'Left', width: 18 }, { head: 'When, who', width: 37 }],
      rows: rows.length > 0 ? rows.slice(-MOST_ROWS) : [{ heading: 'Nothing that counts was said yet.' }],
    },
  };
}

const METERED: Readonly<Record<string, string>> = { voltage: 'Volts from ', resistance: 'Ohms from ' };

/** What to do as the test on offer says it, or as it was said; then the state, and what to mind as the car stood then. */
function askedCells({ said }: FaultEntry, { words, observations }: Taken, offered: ReadonlyMap<string, CandidateTest>, finder: FaultFinder, before: readonly Observation[]): readonly [Cell, Cell] {
  const { states } = finder;
  const [observation] = observations;
  // after a symptom: who asks for the mode once more must know what was seen
  if (said.is === 'symptom' || !observation) return [[{ text: 'What happens instead:', tone: 'muted' }, `${capital(words)}.`], [askedStateWords(states.asked, states), ...finder.precautionsIn(states.asked, [...before, ...observations])].map((text): Cell => ({ text, tone: 'muted' }))];
  const known = offered.get(lookKey(observation.state, observation.look));
  const test = known && finder.afterwards(known, before);
  return [test ? capital(test.words) : `${METERED[observation.look.is] ?? ''}${words.replace(/: [^:]*$/, '')}`, [askedStateWords(observation.state, states), ...(test?.precautions ?? finder.precautionsIn(observation.state, before))].map((text): Cell => ({ text, tone: 'muted' }))];
}

function answerOf({ said, reading }: FaultEntry, observation: Observation | undefined): string {
  if (said.is === 'symptom') return 'so';
  return typeof observation?.value === 'boolean' ? (observation.value ? 'yes' : 'no') : reading;
}

function leadingCells({ causes }: Ranking): readonly Cell[] {
  const unlisted = causes.find(({ hypothesis }) => hypothesis.sort === 'unlisted');
  const leading = causes.filter((cause) => cause !== unlisted).slice(0, LEADING);
  const line = (cause: RankedCause): Cell => `${percentWords(cause.chance)}  ${causeWords(cause)}`;
  const rest = 1 - [...leading, ...(unlisted ? [unlisted] : [])].reduce((sum, { chance }) => sum + chance, 0);
  const more = causes.length - leading.length - (unlisted ? 1 : 0);
  return [
    ...leading.map(line), ...(unlisted ? [line(unlisted)] : []),
    ...(more > 0 && rest > 0.005 ? [{ text: `${percentWords(rest)}  one of ${more} others`, tone: 'muted' } as const] : []),
  ];
}

function subjectOf(observation: Observation | undefined): { readonly path?: string; readonly label?: string } {
  const look = observation?.look;
  if (look?.is === 'current') return { path: `runs.${look.of}`, label: `what was found at ${look.of}` };
  const name = look?.is === 'thing' ? look.of : look?.is === 'voltage' || look?.is === 'resistance' ? look.a.split('.')[0] : look?.is === 'blown' ? look.of : undefined;
  return name === undefined || name === 'chassis' ? {} : { path: `parts.${name}`, label: `what was found at ${name}` };
}
