/**
 * Fault finding on paper: the path that a conversation of readings.csv has taken, what remains, and the conclusion or the next test. Without a
 * conversation: how to begin on this build. Worked out only when the sheet is asked for.
 */
import type { Analysis } from '../../core/analyse.ts';
import { askedMode, finderOf } from '../../core/faults/finder-of.ts';
import { hear } from '../../core/faults/hear.ts';
import type { Taken } from '../../core/faults/hear.ts';
import { faultCases, openCase } from '../../core/readings/fault-cases.ts';
import type { FaultCase, FaultEntry } from '../../core/readings/fault-cases.ts';
import { readLog } from '../../core/readings/log.ts';
import { emptyFolder } from '../sheet.ts';
import type { Choices, Folder, SheetModel } from '../sheet.ts';
import type { Section } from '../table/flow.tsx';
import { beginning } from './beginning.ts';
import { pathSection } from './path-section.ts';
import { foundSection, nextSections, remainsSection } from './what-remains.ts';
import { whenWords } from './when-words.ts';

export interface FaultFindingModel {
  readonly heading: string;
  /** sentences at the head */
  readonly words: readonly string[];
  readonly sections: readonly Section[];
}

/** What remained is worked out after each of so many lines. */
const MOST_RANKED = 40;

const CAUTION = 'This work can kill and can burn a house down. Qualified help, local codes and inspection decide. A model never proves that a circuit is dead; only a meter does, tried on a known source before and after.';

export const faultFindingModel: SheetModel<FaultFindingModel> = {
  name: 'fault-finding',
  model: (analysis: Analysis, _: Choices, { log, faultCase }: Folder = emptyFolder): FaultFindingModel => {
    const { car, ask } = analysis;
    if (car.parts.size === 0) return { heading: 'Fault finding', words: ['There are no parts in the file yet, so there is nothing to find.'], sections: [] };
    const cases = faultCases(readLog(log).readings);
    const shown = faultCase === undefined ? openCase(cases) ?? cases.at(-1) : cases.find(({ name }) => name === faultCase);
    if (!shown) return { ...beginning(car, ask, CAUTION), ...(cases.length > 0 ? { sections: [othersSection(cases)] } : {}) };
    const mode = askedMode(car, shown.mode, ask, shown.entries.flatMap(({ said }) => (said.is === 'symptom' ? [said.text] : [])));
    const finder = finderOf(car, ask, mode);
    const taken: { readonly entry: FaultEntry; readonly taken: Taken }[] = [];
    const lost: string[] = [];
    for (const entry of shown.entries) {
      const heard = hear(entry.said, car, finder);
      if (heard.ok) taken.push({ entry, taken: heard.taken });
      else lost.push(`Left out: ${heard.problem}`);
    }
    // of a long conversation the newest lines; all of them count
    const from = Math.max(0, taken.length - MOST_RANKED);
    const rankings = taken.map((_entry, index) => (index < from ? undefined : finder.rank(taken.slice(0, index + 1).flatMap(({ taken: { observations } }) => observations))));
    const now = rankings.at(-1) ?? finder.rank([]);
    const verdict = finder.verdict(now);
    const next = verdict.isSettled || shown.end ? undefined : finder.next(now);
    const others = cases.filter((one) => one !== shown);
    return {
      heading: `Why does it do nothing in mode ${mode ?? '(none)'}? Conversation ${shown.name}`,
      words: [
        CAUTION,
        `${finder.hypotheses.length} things that may be wrong were computed from the build file, one at a time, and two at once where one does not explain it; how likely each was at first is common practice. Begun ${whenWords(shown.begun)}, last line ${whenWords(shown.last)} (build file ${shown.revision || 'not noted'}); worked out for the file as it is now.`,
        ...(shown.mode !== undefined && shown.mode !== mode ? [`The log asks for mode ${shown.mode}, which the file does not have any more; ${mode ?? 'none'} is taken.`] : []),
        ...lost,
        ...(shown.takenBack.length > 0 ? [`Taken back: ${shown.takenBack.map(({ said, when }) => `${said.text} (${whenWords(when)})`).join('; ')}.`] : []),
      ],
      sections: [
        pathSection(taken, rankings, finder),
        ...(verdict.isSettled ? [foundSection(verdict)] : []),
        ...(next ? nextSections(next, now, finder) : []),
        ...(!next && !verdict.isSettled && !shown.end ? [{ title: 'Next', table: { columns: [{ head: '', width: 1 }], rows: [{ heading: 'Nothing on offer tells more. Look at what remains, likeliest first; or measure where the file may be wrong.' }] } }] : []),
        remainsSection(now),
        ...(shown.end ? [{ title: 'Ended', table: { columns: [{ head: '', width: 1 }], rows: [{ heading: `Ended ${whenWords(shown.end.when)}${shown.end.note === '' ? '' : `: ${shown.end.note}`}. After mending take the readings of the first power-up again where you have been.` }] } }] : []),
        ...(others.length > 0 ? [othersSection(others)] : []),
      ],
    };
  },
};

function othersSection(cases: readonly FaultCase[]): Section {
  return {
    title: 'Other conversations in readings.csv',
    table: {
      columns: [{ head: 'Conversation', width: 60 }, { head: 'Begun', width: 60 }, { head: 'Mode asked for', width: 60 }, { head: 'Seen', width: 30, align: 'end' }, { head: 'How it stands', width: 150, gap: 6 }],
      rows: [...cases].reverse().map(({ name, begun, mode, entries, end }) => ({ cells: [name, whenWords(begun), mode, String(entries.length), end ? `ended ${whenWords(end.when)}${end.note === '' ? '' : `: ${end.note}`}` : 'open'] })),
    },
  };
}
