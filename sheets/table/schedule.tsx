/** Draws a table, or the rows of it that stand on one page. */
import type { ReactElement } from 'react';
import { usePalette } from '../drawing-context.ts';
import { Letters } from '../lettering/letters.tsx';
import { letterSize, LINE } from '../lettering/letter-size.ts';
import { wrap } from '../lettering/measure.ts';
import { round } from '../lettering/round.ts';
import { LevelMark } from '../marks/level-mark.tsx';
import { NumberText } from '../marks/number-text.tsx';
import { Subject } from '../marks/subject.tsx';
import { cellLines, cellText, headerHeight, isHeading, MARK, PAD, roomIn, ROW_PAD, rowHeight, tableWidth } from './table.ts';
import type { CellLine, Column, EntryRow, HeadingRow, Row, Table, TablePart } from './table.ts';

/** base line of the first line under the top of a row, as a share of the letter size */
const RISE = 0.98;

/** @param part  absent: all rows. x, y: the top left corner [mm] */
export function Schedule({ table, part = table, x, y }: { readonly table: Table; readonly part?: Pick<TablePart, 'rows'>; readonly x: number; readonly y: number }): ReactElement {
  const palette = usePalette();
  const width = tableWidth(table);
  const header = headerHeight(table);
  let at = y + header;
  return (
    <g>
      {columnsOf(table, x).map(({ column, left }, index) => wrap(column.head, roomIn(column), letterSize.small).map((text, line) => (
        <Letters key={`${index} ${line}`} {...anchor(column, left)} y={y + ROW_PAD + letterSize.small * (RISE + line * LINE)} size="small" fill={palette.muted} text={text} />
      )))}
      <line x1={round(x)} y1={round(y + header)} x2={round(x + width)} y2={round(y + header)} stroke={palette.ink} strokeWidth={0.35} />
      {part.rows.map((row, index) => {
        const top = at;
        at += rowHeight(table, row);
        return <Line key={index} table={table} row={row} x={x} y={top} height={at - top} width={width} isFirst={index === 0} />;
      })}
      <line x1={round(x)} y1={round(at)} x2={round(x + width)} y2={round(at)} stroke={palette.ink} strokeWidth={0.25} />
    </g>
  );
}

interface Placed<R> { readonly table: Table; readonly row: R; readonly x: number; readonly y: number; readonly height: number; readonly width: number; readonly isFirst: boolean }

function Line({ row, ...rest }: Placed<Row>): ReactElement {
  return isHeading(row) ? <Heading row={row} {...rest} /> : <Entry row={row} {...rest} />;
}

function Heading({ row, x, y, height, width }: Placed<HeadingRow>): ReactElement {
  const palette = usePalette();
  return (
    <g>
      <rect x={round(x)} y={round(y)} width={round(width)} height={round(height)} fill={palette.wash} />
      <Letters x={x + PAD} y={y + height / 2 + 1.2} face="strong" fill={palette[row.tone ?? 'ink']} text={row.heading} />
    </g>
  );
}

/** Numbers of the file are things to take hold of themselves and stand beside the row's own subject, not within it. */
function Entry({ table, row, x, y, height, width, isFirst }: Placed<EntryRow>): ReactElement {
  const palette = usePalette();
  const size = table.size ?? 'small';
  const own: ReactElement[] = [];
  const numbers: ReactElement[] = [];
  columnsOf(table, x).forEach(({ column, left }, place) => cellLines(row.cells[place], column, size, row.total).forEach((line, index) => {
    const base = y + ROW_PAD + letterSize[size] * (RISE + index * LINE);
    (line.shown?.path === undefined ? own : numbers).push(<DrawnLine key={`${place} ${index}`} line={line} column={column} left={left} y={base} size={size} />);
  }));
  const face = <rect x={round(x)} y={round(y)} width={round(width)} height={round(height)} fill={palette.sheet} />;
  return (
    <g>
      {row.path === undefined ? <g>{own}</g> : <Subject path={row.path} label={row.label ?? cellText(row.cells[0])}>{face}{own}</Subject>}
      {numbers}
      {!isFirst && <line x1={round(x)} y1={round(y)} x2={round(x + width)} y2={round(y)} stroke={row.total === true ? palette.ink : palette.hairline} strokeWidth={row.total === true ? 0.35 : 0.18} />}
    </g>
  );
}

function DrawnLine({ line, column, left, y, size }: { readonly line: CellLine; readonly column: Column; readonly left: number; readonly y: number; readonly size: 'small' | 'body' | 'head' | 'title' }): ReactElement {
  const palette = usePalette();
  const place = { ...anchor(column, left), y, size, face: line.face, fill: palette[line.tone] } as const;
  if (line.shown) return <NumberText shown={{ ...line.shown, text: line.text }} {...place} />;
  if (line.level === undefined) return <Letters {...place} text={line.text} />;
  const mark = letterSize[size] * 1.05;
  const { gap = 0 } = column;
  const across = line.text === '' && column.align === 'middle' ? left + (column.width + gap) / 2 : left + gap + PAD + mark / 2 + 0.3;
  return <g><LevelMark level={line.level} x={across} y={y - letterSize[size] * 0.35} size={mark} /><Letters x={left + gap + PAD + MARK} y={y} size={size} face={line.face} text={line.text} /></g>;
}

function columnsOf(table: Table, x: number): { column: Column; left: number }[] {
  let left = x;
  return table.columns.map((column) => {
    const placed = { column, left };
    left += column.width;
    return placed;
  });
}

function anchor({ align = 'start', width, gap = 0 }: Column, left: number): { x: number; align: 'start' | 'middle' | 'end' } {
  return { align, x: align === 'end' ? left + width - PAD : align === 'middle' ? left + (width + gap) / 2 : left + gap + PAD };
}
