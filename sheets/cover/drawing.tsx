/** Draws the cover, and behind it the list of everything that stands open. */
import type { ReactElement } from 'react';
import { area } from '../frame/page-size.ts';
import { Letters } from '../lettering/letters.tsx';
import { levelOrder, levelWords } from '../levels.ts';
import type { Page, SheetDrawing } from '../sheet.ts';
import { sheetNames } from '../sheet.ts';
import { fewNames } from '../table/few-names.ts';
import { Schedule } from '../table/schedule.tsx';
import { fitted, pageTable, tableText } from '../table/table.ts';
import type { Table, TablePart } from '../table/table.ts';
import type { TextBlock } from '../text-block.ts';
import { ELSEWHERE, FirstPage, packTable, placesOf, SetList, vehicleTable } from './first-page.tsx';
import type { CoverModel } from './model.ts';
import { setList } from './set-list.ts';

const TITLE = 7;

export const coverDrawing: SheetDrawing<CoverModel> = {
  name: 'cover', title: 'Cover', meaning: 'The car, what stands at which level, and the next thing to do.',
  pages: (model) => {
    const table = openTable(model);
    const parts = model.open.length === 0 ? [] : pageTable(table, () => area.height - TITLE);
    const places = placesOf(model);
    const scale = places.picture?.scale;
    return [
      { ...(scale === undefined ? {} : { scale: `1:${scale}` }), body: <FirstPage model={model} places={places} lastPage={1 + parts.length} />, foot: <SetList />, text: firstText(model) },
      ...parts.map((part): Page => ({ subtitle: 'what stands open', body: <OpenPage table={table} part={part} />, text: [{ kind: 'heading', text: 'What stands open, worst first' }, tableText('Findings', table, part)] })),
    ];
  },
};

function openTable(model: CoverModel): Table {
  return {
    columns: fitted([{ head: 'Stands at', width: 27 }, { head: 'About', width: 42 }, { head: 'What was found', width: 148 }, { head: 'What to do', width: 130 }, { head: 'Margin', width: 20, align: 'end' }, { head: 'Line', width: 15, align: 'end' }], area.width),
    rows: model.open.map(({ level, about, statement, whatToDo, path, line, margin }) => ({
      path, label: `${levelWords[level]}: ${statement}`,
      cells: [{ level }, about.length === 0 ? 'the file' : fewNames(about, 12), statement, whatToDo, margin ?? '', line === undefined ? '' : String(line)],
    })),
  };
}

function OpenPage({ table, part }: { readonly table: Table; readonly part: TablePart }): ReactElement {
  return <g><Letters x={0} y={4} face="strong" text="What stands open, worst first" /><Schedule table={table} part={part} x={0} y={TITLE} /></g>;
}

function firstText(model: CoverModel): readonly TextBlock[] {
  return [
    { kind: 'heading', text: model.build },
    ...(model.scenario === undefined ? [] : [{ kind: 'paragraph', text: model.scenario } as const]),
    { kind: 'heading', text: 'Cautions' }, { kind: 'list', items: model.cautions.map(({ title, text }) => `${title} ${text}`) },
    { kind: 'heading', text: 'Next' }, { kind: 'paragraph', text: model.next.do },
    { kind: 'heading', text: 'What stands at which level' }, { kind: 'list', items: levelOrder.map((level) => `${model.counts[level]} ${levelWords[level]}`) },
    ...(model.hasParts ? [{ kind: 'paragraph', text: ELSEWHERE } as const] : []),
    tableText('Pack', packTable(model)), tableText('Vehicle', vehicleTable(model)),
    { kind: 'table', caption: 'Sheets of this set', head: ['Sheet', 'Title', 'What it answers'], rows: sheetNames.map((name, index) => [String(index + 1), setList[name].title, setList[name].answers]) },
  ];
}
