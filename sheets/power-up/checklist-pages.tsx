/**
 * A table that is worked through with a pen: at the end of each row a box for what was read, and one for who read it and when.
 * The boxes stand over the last column, which is left empty.
 */
import type { ReactElement } from 'react';
import { usePalette } from '../drawing-context.ts';
import { area } from '../frame/page-size.ts';
import { Letters } from '../lettering/letters.tsx';
import { round } from '../lettering/round.ts';
import { Schedule } from '../table/schedule.tsx';
import { fitted, headerHeight, isHeading, pageTable, PAD, rowHeight } from '../table/table.ts';
import type { Row, Table, TablePart } from '../table/table.ts';
import { BOX_STEP } from './box-cell.ts';

export interface ChecklistPage { readonly table: Table; readonly part: TablePart; /** of its title [mm] */ readonly y: number; readonly title: string }

/** from the top of a title to its table [mm] */
export const CAPTION = 7;
/** Height of one box [mm]. */
const BOX = 6;

/** @param firstTop  where the first page is filled to already [mm]. At least one page. */
export function checklistPages(title: string, given: Table, firstTop: number): readonly ChecklistPage[] {
  const table: Table = { ...given, columns: fitted(given.columns, area.width) };
  return pageTable(table, (index) => area.height - CAPTION - (index === 0 ? firstTop : 0)).map((part, index) => ({ table, part, y: index === 0 ? firstTop : 0, title: index === 0 ? title : `${title}, continued` }));
}

/** @param labels  in the boxes, from the top; a row with fewer boxes has the last of them */
export function Checklist({ page: { table, part, y, title }, labels, boxesOf }: { readonly page: ChecklistPage; readonly labels: readonly string[]; readonly boxesOf: (row: Row) => number }): ReactElement {
  const palette = usePalette();
  const last = table.columns.at(-1)!;
  const left = area.width - last.width + PAD;
  let at = y + CAPTION + headerHeight(table);
  const boxes: ReactElement[] = [];
  part.rows.forEach((row, index) => {
    const top = at;
    at += rowHeight(table, row);
    if (isHeading(row)) return;
    const count = boxesOf(row);
    for (let n = 0; n < count; n++) {
      const above = top + 1.2 + n * BOX_STEP;
      boxes.push(
        <g key={`${index} ${n}`}>
          <rect x={round(left)} y={round(above)} width={round(last.width - 2 * PAD)} height={BOX} fill={palette.sheet} stroke={palette.ink} strokeWidth={0.25} />
          <Letters x={left + 1} y={above + 4.1} size="small" fill={palette.muted} text={labels[labels.length - count + n] ?? ''} />
        </g>,
      );
    }
  });
  return <g><Letters x={0} y={y + 4} face="strong" text={title} /><Schedule table={table} part={part} x={0} y={y + CAPTION} />{boxes}</g>;
}

/** The rows of a page for those who listen: the boxes are nothing to hear. */
export const spoken = (rows: readonly Row[]): { readonly rows: readonly Row[] } => ({ rows: rows.map((row) => (isHeading(row) ? row : { ...row, cells: [...row.cells.slice(0, -1), ''] })) });
