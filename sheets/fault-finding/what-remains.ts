/** What it may be now, what was found, and what to look at next with what each outcome would leave. */
import type { FaultFinder, NextTest, Verdict } from '../../core/faults/fault-finder.ts';
import type { Ranking } from '../../core/faults/ranking.ts';
import { askedStateWords, capital, causeWords, dangerWords, gainWords, leftWords, nextWords, outcomeWords, percentWords, remainWords } from '../../core/faults/fault-words.ts';
import type { Section } from '../table/flow.tsx';
import type { Cell, EntryRow, Row } from '../table/table.ts';

const REMAINING = 8;
const OUTCOMES = 6;
const FOUND = 8;

export function remainsSection({ causes, withPairs }: Ranking): Section {
  const shown = causes.slice(0, REMAINING);
  const rest = causes.slice(REMAINING).reduce((sum, { chance }) => sum + chance, 0);
  const rows: Row[] = shown.map((cause): EntryRow => {
    const { hypothesis: { path, words, confirm, sort } } = cause;
    return { ...(path === '' ? {} : { path, label: words }), cells: [percentWords(cause.chance), `${capital(causeWords(cause))}.`, sort === 'unlisted' ? 'It predicts nothing, so no reading rules it out: the file may differ from the car.' : confirm] };
  });
  if (rest > 0.005) rows.push({ cells: [{ text: percentWords(rest), tone: 'muted' }, { text: `One of ${causes.length - REMAINING} others.`, tone: 'muted' }, ''] });
  return {
    title: 'What it may be now', ...(withPairs ? { note: 'No single fault explains what was seen: two at once were looked for as well.' } : {}),
    table: { columns: [{ head: 'Chance', width: 22, align: 'end' }, { head: 'What is wrong', width: 180, gap: 4 }, { head: 'To confirm', width: 180 }], rows },
  };
}

export function foundSection({ group, chance }: Verdict): Section {
  return {
    title: group.length === 1 ? `Found: it is this (${percentWords(chance)})` : `Found: it is one of these ${group.length} (${percentWords(chance)})`,
    note: `${group.length === 1 ? '' : 'No reading away from exposed high voltage tells them apart. '}After mending take the readings of the first power-up again where you have been.`,
    table: {
      columns: [{ head: 'Chance', width: 22, align: 'end' }, { head: 'What is wrong', width: 120, gap: 4 }, { head: 'To confirm', width: 120 }, { head: 'To mend', width: 120 }],
      rows: group.slice(0, FOUND).map((cause): Row => {
        const { hypothesis: { path, words, confirm, mend } } = cause;
        return { ...(path === '' ? {} : { path, label: words }), cells: [percentWords(cause.chance), { text: `${capital(causeWords(cause))}.`, face: 'strong' }, confirm, mend] };
      }),
    },
  };
}

export function nextSections(next: NextTest, ranking: Ranking, { states }: FaultFinder): readonly Section[] {
  const { test, outcomes, gain, instead } = next;
  const { look } = test;
  const probes: Cell = look.is === 'voltage' ? [`red lead on ${look.a}`, `black lead on ${look.b === 'chassis' ? 'clean metal of the body' : look.b}`] : look.is === 'resistance' ? [`one lead on ${look.a}`, `the other on ${look.b === 'chassis' ? 'clean metal of the body' : look.b}`] : look.is === 'current' ? `clamp around ${look.of}, either way` : 'no meter';
  return [
    {
      title: 'Look at this next', note: `${capital(gainWords(gain))}. Left to find out: ${leftWords(ranking.entropy)}. ${instead.length > 0 ? `Who cannot do that: ${instead.slice(0, 2).map(({ words }) => words).join('; or ').replace(/(?<!\?)$/, '.')}` : ''}`,
      table: {
        columns: [{ head: 'Test', width: 100 }, { head: 'Probes', width: 80 }, { head: 'State and precautions', width: 202 }],
        rows: [{ cells: [
          [{ text: nextWords(next), face: 'strong' }, ...(test.danger === 'high' ? [{ text: dangerWords(test, states), face: 'strong', tone: 'highVoltage' } as const] : [])],
          probes, [askedStateWords(test.state, states), ...test.precautions],
        ] }],
      },
    },
    {
      title: 'What each outcome would leave',
      table: {
        columns: [{ head: 'Outcome', width: 90 }, { head: 'Chance', width: 24, align: 'end' }, { head: 'What would remain', width: 268, gap: 4 }],
        rows: outcomes.slice(0, OUTCOMES).map((outcome): Row => ({ cells: [capital(outcomeWords(look, outcome)), percentWords(outcome.chance), capital(remainWords(outcome, ranking))] })),
      },
    },
  ];
}
