/** What the pack's checks found odd: level, sentence, what to do. */
import { area } from '../frame/page-size.ts';
import { fitted } from '../table/table.ts';
import type { Table } from '../table/table.ts';
import type { PackModel } from './model.ts';

export function remarksTable({ remarks }: PackModel): Table {
  return {
    columns: fitted([{ head: 'Level', width: 30 }, { head: 'What is odd', width: 190 }, { head: 'What to do', width: 160 }], area.width),
    rows: remarks.map(({ level, statement, whatToDo, path }) => ({ path, label: statement, cells: [{ level }, statement, whatToDo] })),
  };
}
