/**
 * Several tables with their titles, one under the other, over as many pages as they take: for sheets that are schedules.
 *
 *     const pages = flowTables([{ title: 'High-voltage runs', table }], area.height);
 *     <FlowPage placed={pages[0]} />     flowText(pages[0])
 */
import type { ReactElement } from 'react';
import { usePalette } from '../drawing-context.ts';
import { area } from '../frame/page-size.ts';
import { Letters, Paragraph } from '../lettering/letters.tsx';
import { heightOf } from '../lettering/letter-size.ts';
import type { TextBlock } from '../text-block.ts';
import { Schedule } from './schedule.tsx';
import { fitted, headerHeight, isHeading, pageTable, rowHeight, tableText } from './table.ts';
import type { Table, TablePart } from './table.ts';

/** Its columns are stretched to the width of the sheet. A table of one heading and no rows is only that sentence, without columns. */
export interface Section { readonly title: string; /** under the title, once */ readonly note?: string; readonly table: Table }
/** A piece of a section on a page; y of its title [mm]. */
export interface PlacedTable { readonly section: Section; readonly part: TablePart; readonly y: number; readonly isFirst: boolean }

/** from the top of a title to its table [mm] */
const TITLE = 6.5;
const GAP = 7;

/** What is said instead of a table. */
const insteadOf = ({ table: { rows } }: Section): string | undefined => { const [row] = rows; return rows.length === 1 && row !== undefined && isHeading(row) ? row.heading : undefined; };
const noteHeight = (section: Section): number => (section.note === undefined || insteadOf(section) !== undefined ? 0 : heightOf(section.note, area.width, 'small') + 1);

/** @param firstTop  where the first page is already filled to [mm]. Shape: at least one page; every row once and in order */
export function flowTables(sections: readonly Section[], bottom: number, firstTop = 0): readonly (readonly PlacedTable[])[] {
  const pages: PlacedTable[][] = [[]];
  let y = firstTop;
  for (const given of sections) {
    const table: Table = { ...given.table, columns: fitted(given.table.columns, area.width) };
    const section: Section = { ...given, table };
    const lead = TITLE + noteHeight(section);
    const least = lead + headerHeight(table) + table.rows.slice(0, 2).reduce((sum, row) => sum + rowHeight(table, row), 0);
    if (y > 0 && y + least > bottom) { pages.push([]); y = 0; }
    const top = y;
    const instead = insteadOf(section);
    if (instead !== undefined) {
      const height = heightOf(instead, area.width, 'small');
      pages[pages.length - 1]!.push({ section, part: { rows: [], height }, y, isFirst: true });
      y += TITLE + height + GAP;
      continue;
    }
    pageTable(table, (index) => (index === 0 ? bottom - top - lead : bottom - TITLE)).forEach((part, index) => {
      if (index > 0) { pages.push([]); y = 0; }
      pages[pages.length - 1]!.push({ section, part, y, isFirst: index === 0 });
      y += (index === 0 ? lead : TITLE) + part.height + GAP;
    });
  }
  return pages;
}

export function FlowPage({ placed }: { readonly placed: readonly PlacedTable[] }): ReactElement {
  const palette = usePalette();
  return (
    <g>
      {placed.map(({ section, part, y, isFirst }) => (
        <g key={section.title}>
          <Letters x={0} y={y + 4} face="strong" text={isFirst ? section.title : `${section.title}, continued`} />
          {isFirst && section.note !== undefined && insteadOf(section) === undefined && <Paragraph x={0} y={y + TITLE + 2.6} width={area.width} size="small" fill={palette.muted} text={section.note} />}
          {insteadOf(section) === undefined
            ? <Schedule table={section.table} part={part} x={0} y={y + TITLE + (isFirst ? noteHeight(section) : 0)} />
            : <Paragraph x={0} y={y + TITLE + 2.6} width={area.width} size="small" text={insteadOf(section) as string} />}
        </g>
      ))}
    </g>
  );
}

export const flowText = (placed: readonly PlacedTable[]): readonly TextBlock[] => placed.flatMap(({ section, part, isFirst }) => [
  { kind: 'heading', text: isFirst ? section.title : `${section.title}, continued` } as const,
  ...(insteadOf(section) !== undefined ? [{ kind: 'paragraph', text: insteadOf(section) as string } as const] : [
    ...(isFirst && section.note !== undefined ? [{ kind: 'paragraph', text: section.note } as const] : []),
    tableText(section.title, section.table, part),
  ]),
]);
