/**
 * A schedule as plain data: columns, rows, cells; what a sheet's model or drawing fills in. How to use it:
 *
 *     const table: Table = { columns: fitted([{ head: 'Run', width: 24 }, { head: 'Mass', width: 20, align: 'end', sure: true }], area.width), rows: [
 *       { heading: 'High voltage' },
 *       { path: 'runs.W1', label: 'run W1', cells: [{ text: 'W1', face: 'strong' }, numbers.field('parts.M1.mass')] },
 *     ] };
 *     const parts = pageTable(table, (index) => (index === 0 ? 120 : area.height)); // rows of each page, by the height it has
 *     <Schedule table={table} part={parts[0]} x={0} y={30} />                 // sheets/table/schedule.tsx
 *     tableText('Runs', table, parts[0])                                     // the same in words, for `Page.text`
 *
 * Text wraps in its cell; nothing is shortened. The header stands again on every page, and so does the heading of a group that goes on.
 */
import type { Level } from '../../core/findings/finding.ts';
import { levelWords } from '../levels.ts';
import { letterSize, LINE } from '../lettering/letter-size.ts';
import type { LetterSize } from '../lettering/letter-size.ts';
import { wrap } from '../lettering/measure.ts';
import type { Face } from '../lettering/measure.ts';
import type { Palette } from '../palette.ts';
import type { Shown } from '../shown.ts';
import { NOTHING } from '../shown.ts';
import type { TextBlock } from '../text-block.ts';

/** A colour by its meaning. */
export type Tone = Exclude<keyof Palette, 'name' | 'sheet' | 'wash' | 'hairline' | 'mark'>;

export interface Words { readonly text: string; readonly face?: Face; readonly tone?: Tone }
/** the mark of a level with its word; `word: false` where the column is narrow and the words stand elsewhere on the sheet */
export interface LevelCell { readonly level: Level; readonly word?: boolean }
/** undefined prints as —; several stand under one another */
export type Cell = string | Words | Shown | LevelCell | undefined | readonly Cell[];

export interface Column {
  readonly head: string;
  /** [mm of A3] */
  readonly width: number;
  /** numbers: `end` */
  readonly align?: 'start' | 'middle' | 'end';
  /** tolerance and basis of a number of the file stand under it */
  readonly sure?: boolean;
  /** more space before it [mm], for words that follow a column of numbers */
  readonly gap?: number;
}

export interface EntryRow {
  /** what the row is about (`runs.W1`); it can be taken hold of on the screen */
  readonly path?: string;
  /** what a listener hears of it; the first cell when absent */
  readonly label?: string;
  readonly cells: readonly Cell[];
  /** a total, a sum: a heavier line above, strong letters */
  readonly total?: boolean;
}
/** across all columns; the rows up to the next heading belong to it */
export interface HeadingRow { readonly heading: string; readonly tone?: Tone }
export type Row = EntryRow | HeadingRow;

export interface Table {
  readonly columns: readonly Column[];
  readonly rows: readonly Row[];
  /** of the rows; the header is always small. Absent: small */
  readonly size?: LetterSize;
}

/** The rows of one page. */
export interface TablePart {
  /** with a repeated heading where a group goes on */
  readonly rows: readonly Row[];
  /** header included [mm] */
  readonly height: number;
}

/** space between a cell's edge and its letters [mm] */
export const PAD = 1.2;
/** above and below the lines of a row [mm] */
export const ROW_PAD = 1;
const HEADING = 7;

/** Width for letters in a column [mm]. */
export const roomIn = ({ width, gap = 0 }: Column): number => width - 2 * PAD - gap;

/** Columns stretched or narrowed, each in its proportion, to fill `width` [mm]. */
export function fitted(columns: readonly Column[], width: number): readonly Column[] {
  const scale = width / columns.reduce((sum, column) => sum + column.width, 0);
  return columns.map((column) => ({ ...column, width: column.width * scale }));
}

export const tableWidth = (table: Table): number => table.columns.reduce((sum, { width }) => sum + width, 0);
export const isHeading = (row: Row): row is HeadingRow => 'heading' in row;

/** A line of a cell as it will be drawn. */
export interface CellLine {
  readonly text: string;
  readonly face: Face;
  readonly tone: Tone;
  /** the number that the line belongs to */
  readonly shown?: Shown;
  /** the line begins with the mark of a level */
  readonly level?: Level;
}

/** width that a level mark takes before its word [mm] */
export const MARK = 5;

/** The lines of a cell, broken to the column's width. At least one. */
export function cellLines(cell: Cell, column: Column, size: LetterSize, total = false): readonly CellLine[] {
  const face: Face = total ? 'strong' : 'sans';
  const broken = (text: string, of: Face, room = roomIn(column)): string[] => wrap(text, room, letterSize[size], of);
  if (cell === undefined) return [{ text: NOTHING, face: 'sans', tone: 'muted' }];
  if (typeof cell === 'string') return broken(cell, face).map((text) => ({ text, face, tone: 'ink' }));
  if (isCells(cell)) return cell.length === 0 ? cellLines('', column, size) : cell.flatMap((one) => cellLines(one, column, size, total));
  if ('level' in cell) return (cell.word === false ? [''] : broken(levelWords[cell.level], 'sans', roomIn(column) - MARK)).map((text, index) => ({ text, face: 'sans', tone: 'ink', ...(index === 0 ? { level: cell.level } : {}) }));
  if ('key' in cell) return [
    ...broken(cell.text, face).map((text): CellLine => ({ text, face, tone: 'ink', shown: cell })),
    ...(column.sure === true && cell.sure !== undefined && cell.sure !== '' ? broken(cell.sure, 'sans').map((text): CellLine => ({ text, face: 'sans', tone: 'muted', shown: cell })) : []),
  ];
  return broken(cell.text, cell.face ?? face).map((text) => ({ text, face: cell.face ?? face, tone: cell.tone ?? 'ink' }));
}

const isCells = (cell: Exclude<Cell, undefined | string>): cell is readonly Cell[] => Array.isArray(cell);

/** From the top of the table to the first row [mm]. */
export function headerHeight({ columns }: Table): number {
  return Math.max(0, ...columns.map((column) => wrap(column.head, roomIn(column), letterSize.small).length)) * letterSize.small * LINE + 2 * ROW_PAD;
}

export function rowHeight(table: Table, row: Row): number {
  if (isHeading(row)) return HEADING;
  const size = table.size ?? 'small';
  const lines = Math.max(1, ...table.columns.map((column, index) => cellLines(row.cells[index], column, size, row.total).length));
  return lines * letterSize[size] * LINE + 2 * ROW_PAD;
}

/** Header and all rows [mm]. */
export const tableHeight = (table: Table): number => headerHeight(table) + table.rows.reduce((sum, row) => sum + rowHeight(table, row), 0);

/**
 * Shares the rows out over parts (pages, or columns of a page); `roomOf` gives the room of each from 0 on [mm].
 * Shape:  at least one part; every row once and in order; a heading never stands last on a page, a total never first. A row that is higher than a page gets
 *         a page to itself.
 */
export function pageTable(table: Table, roomOf: (index: number) => number): readonly TablePart[] {
  const header = headerHeight(table);
  const parts: TablePart[] = [];
  let rows: Row[] = [];
  let used = header;
  let group: HeadingRow | undefined;
  const close = (): void => {
    parts.push({ rows, height: used });
    rows = [];
    used = header;
  };
  table.rows.forEach((row, index) => {
    const height = rowHeight(table, row);
    const needed = heightTogether(table, index);
    if (used + needed > roomOf(parts.length) && (rows.length > 0 || parts.length === 0)) {
      close();
      if (group !== undefined && !isHeading(row)) { rows.push({ ...group, heading: `${group.heading}, continued` }); used += HEADING; }
    }
    if (isHeading(row)) group = row;
    rows.push(row);
    used += height;
  });
  close();
  return parts;
}

/** Height of a row with what has to stay on its page [mm]: a heading goes with the row under it, a row with the total under it. */
function heightTogether({ columns, rows }: Table, from: number): number {
  let height = 0;
  for (let index = from; index < rows.length; index++) {
    const row = rows[index]!;
    const next = rows[index + 1];
    height += rowHeight({ columns, rows }, row);
    if (!isHeading(row) && (next === undefined || isHeading(next) || next.total !== true)) break;
  }
  return height;
}

/** A cell as words; the tolerance and basis of a number belong to it. */
export function cellText(cell: Cell): string {
  if (cell === undefined) return NOTHING;
  if (typeof cell === 'string') return cell;
  if (isCells(cell)) return cell.map(cellText).join('; ');
  if ('level' in cell) return levelWords[cell.level];
  if ('key' in cell) return cell.sure === undefined || cell.sure === '' ? cell.text : `${cell.text} ${cell.sure}`;
  return cell.text;
}

/** The table, or one page of it, in words. A heading is a row of its own with its first cell filled. */
export function tableText(caption: string, table: Table, part: Pick<TablePart, 'rows'> = table): TextBlock {
  const cells = (row: Row): string[] => table.columns.map((_, index) => (isHeading(row) ? (index === 0 ? row.heading : '') : cellText(row.cells[index])));
  return { kind: 'table', caption, head: table.columns.map(({ head }) => head), rows: part.rows.map(cells) };
}
