/** Which findings the list shows. */
import type { FindingRow } from '../../study/finding-row.ts';

export interface Filter {
  /** name of a part or run; absent: of everything */
  readonly about: string | undefined;
  readonly topic: FindingRow['topic'] | undefined;
  /** words that must all stand in it, in any order */
  readonly words: string;
}

export function filterFindings(rows: readonly FindingRow[], { about, topic, words }: Filter): readonly FindingRow[] {
  const wanted = words.toLowerCase().split(/\s+/).filter((word) => word !== '');
  return rows.filter((row) => {
    if (about !== undefined && !row.about.includes(about)) return false;
    if (topic !== undefined && row.topic !== topic) return false;
    if (wanted.length === 0) return true;
    const text = `${row.statement} ${row.whatToDo} ${row.code} ${row.about.join(' ')}`.toLowerCase();
    return wanted.every((word) => text.includes(word));
  });
}
