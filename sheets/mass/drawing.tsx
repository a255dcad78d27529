/** Draws the masses: the balance to scale with the table beside it, then every entry in two columns over as many pages as it takes. */
import type { ReactElement } from 'react';
import { usePalette } from '../drawing-context.ts';
import { area } from '../frame/page-size.ts';
import { Letters, Paragraph } from '../lettering/letters.tsx';
import { heightOf } from '../lettering/letter-size.ts';
import { LevelMark } from '../marks/level-mark.tsx';
import { Subject } from '../marks/subject.tsx';
import type { Page, SheetDrawing } from '../sheet.ts';
import { Schedule } from '../table/schedule.tsx';
import { fitted, headerHeight, pageTable, tableHeight, tableText } from '../table/table.ts';
import type { Table, TablePart } from '../table/table.ts';
import type { TextBlock } from '../text-block.ts';
import { BalanceDrawing, balanceProjection } from './balance-drawing.tsx';
import type { MassModel } from './model.ts';

const GAP = 8;
const HALF = (area.width - GAP) / 2;
const TABLE = 174;
const DRAWING = area.width - TABLE - GAP;
/** from the top of a schedule's title to the schedule [mm] */
const TITLE = 7;

export const massDrawing: SheetDrawing<MassModel> = {
  name: 'mass', title: 'Mass', meaning: 'What was taken out and put in, and what the axles carry before and after.',
  pages: (model) => {
    const balance: Table = { columns: fitted(model.balance.columns, TABLE), rows: model.balance.rows };
    const entries: Table = { columns: fitted(model.entries.columns, HALF), rows: model.entries.rows };
    const top = topHeight(model, balance);
    const room = area.height - top - TITLE;
    // less than a few rows: the entries begin on a page of their own
    const isShared = room > headerHeight(entries) + 30;
    const parts = twoAbreast(entries, isShared ? room : 0);
    const scale = balanceProjection(model, drawingField(top))?.scale;
    const first: Page = {
      ...(parts.length > 1 ? { subtitle: 'axle loads and balance' } : {}), ...(scale === undefined ? {} : { scale: `1:${scale}` }),
      body: <First model={model} balance={balance} entries={entries} part={isShared ? parts[0] ?? [] : []} top={top} />,
      text: firstText(model, balance, entries, isShared ? parts[0] ?? [] : []),
    };
    return [first, ...(isShared ? parts.slice(1) : parts).map((part): Page => ({
      subtitle: 'what was taken out and put in', body: <Entries entries={entries} part={part} y={0} />, text: entriesText(entries, part),
    }))];
  },
};

/** Pages of two columns each. */
function twoAbreast(entries: Table, firstRoom: number): readonly (readonly TablePart[])[] {
  const full = area.height - TITLE;
  const parts = pageTable(entries, (index) => (index < 2 && firstRoom > 0 ? firstRoom : full));
  return parts.flatMap((_, index) => (index % 2 === 0 ? [parts.slice(index, index + 2)] : []));
}

function topHeight(model: MassModel, balance: Table): number {
  const remarks = model.open.reduce((sum, { statement, whatToDo }) => sum + heightOf(`${statement} ${whatToDo}`, TABLE - 7, 'small') + 1.5, 0) + 6;
  return Math.min(area.height, Math.max(TITLE + tableHeight(balance) + remarks, 112)) + 4;
}

const drawingField = (top: number): { x: number; y: number; width: number; height: number } => ({ x: 0, y: TITLE, width: DRAWING, height: Math.min(top - TITLE - 4, 150) });

function First({ model, balance, entries, part, top }: { readonly model: MassModel; readonly balance: Table; readonly entries: Table; readonly part: readonly TablePart[]; readonly top: number }): ReactElement {
  const left = DRAWING + GAP;
  return (
    <g>
      <Letters x={0} y={4} face="strong" text="Balance, from the left side" />
      <BalanceDrawing model={model} field={drawingField(top)} />
      <Letters x={left} y={4} face="strong" text="Axle loads and centre of gravity" />
      <Schedule table={balance} x={left} y={TITLE} />
      <Remarks model={model} x={left} y={TITLE + tableHeight(balance) + 5} bottom={area.height} />
      {part.length > 0 && <Entries entries={entries} part={part} y={top} />}
    </g>
  );
}

/** What does not hold, in words. What finds no room stands on the cover. */
function Remarks({ model, x, y, bottom }: { readonly model: MassModel; readonly x: number; readonly y: number; readonly bottom: number }): ReactElement {
  const palette = usePalette();
  let at = y;
  const drawn: ReactElement[] = [];
  for (const [index, { level, statement, whatToDo, path }] of model.open.entries()) {
    const text = `${statement} ${whatToDo}`.trim();
    const height = heightOf(text, TABLE - 7, 'small');
    if (at + height > bottom - 5 && index < model.open.length - 1) {
      drawn.push(<Letters key="more" x={x} y={at + 2} size="small" fill={palette.muted} text={`${model.open.length - index} more: see the cover.`} />);
      break;
    }
    drawn.push(<g key={index}><LevelMark level={level} x={x + 2} y={at - 0.9} size={3.2} /><Subject path={path} label={text}><Paragraph x={x + 7} y={at} width={TABLE - 7} size="small" text={text} /></Subject></g>);
    at += height + 1.5;
  }
  return <g>{drawn}</g>;
}

function Entries({ entries, part, y }: { readonly entries: Table; readonly part: readonly TablePart[]; readonly y: number }): ReactElement {
  return (
    <g>
      <Letters x={0} y={y + 4} face="strong" text="Taken out and put in" />
      {part.map((one, index) => <Schedule key={index} table={entries} part={one} x={index * (HALF + GAP)} y={y + TITLE} />)}
    </g>
  );
}

function firstText(model: MassModel, balance: Table, entries: Table, part: readonly TablePart[]): readonly TextBlock[] {
  return [
    { kind: 'heading', text: 'Axle loads and centre of gravity' },
    ...(model.missing.length > 0 ? [{ kind: 'paragraph', text: `The balance cannot be drawn; the file lacks ${model.missing.join(', ')}.` } as const] : []),
    tableText('Before and after', balance), { kind: 'paragraph', text: model.counted },
    ...(model.open.length > 0 ? [{ kind: 'list', items: model.open.map(({ statement, whatToDo }) => `${statement} ${whatToDo}`.trim()) } as const] : []),
    ...(part.length > 0 ? entriesText(entries, part) : []),
  ];
}

const entriesText = (entries: Table, part: readonly TablePart[]): readonly TextBlock[] => [{ kind: 'heading', text: 'Taken out and put in' }, ...part.map((one) => tableText('Masses and places', entries, one))];
