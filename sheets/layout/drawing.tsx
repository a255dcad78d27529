/** Draws the layout: three views to scale, the low-voltage side, details where it is crowded, the parts list. */
import type { ReactElement } from 'react';
import { usePalette } from '../drawing-context.ts';
import { area } from '../frame/page-size.ts';
import { Letters, Paragraph } from '../lettering/letters.tsx';
import { round } from '../lettering/round.ts';
import { NumberText } from '../marks/number-text.tsx';
import type { Page, SheetDrawing } from '../sheet.ts';
import { Schedule } from '../table/schedule.tsx';
import { pageTable, tableText } from '../table/table.ts';
import type { Table, TablePart } from '../table/table.ts';
import { arrange } from './arrangement.ts';
import type { DetailPage, ThreeViews } from './arrangement.ts';
import { AxleMarks, CentreLines, ViewTitles } from './axles.tsx';
import { KeyList } from './key-list.tsx';
import type { KeyEntry } from './key-list.tsx';
import { Legend } from './legend.tsx';
import type { Balloon } from './labels.ts';
import type { LayoutModel } from './model.ts';
import { partsTable } from './parts-list.ts';
import { detailText, generalText, lowVoltageText } from './text.ts';
import { ViewDrawing } from './view-drawing.tsx';
import { toPaper } from './views.ts';

export { moveInView } from './views.ts';
export type { View } from './views.ts';

export const layoutDrawing: SheetDrawing<LayoutModel> = {
  name: 'layout', title: 'Layout', meaning: 'Where every part sits and every run goes, to scale; axle loads and centre of gravity.',
  pages: (model) => {
    const { general, lowVoltage, details } = arrange(model);
    const table = partsTable(model);
    const list = table.rows.length === 0 ? [] : pageTable(table, () => area.height - 2);
    return [
      { ...(lowVoltage || list.length > 0 ? { subtitle: 'plan, side and rear' } : {}), scale: `1:${general.scale}`, body: <General model={model} page={general} />, text: generalText(model, general) },
      ...(lowVoltage ? [{ subtitle: '12 V and signals', scale: `1:${lowVoltage.scale}`, body: <LowVoltage model={model} page={lowVoltage} details={details} />, text: lowVoltageText(model, lowVoltage, details) }] : []),
      ...details.map((page): Page => ({ subtitle: `plan, detail ${page.letter}`, scale: `1:${page.scale}`, body: <Detail model={model} page={page} />, text: detailText(model, page) })),
      ...list.map((part, index): Page => ({ subtitle: list.length === 1 ? 'parts list' : `parts list, ${index + 1} of ${list.length}`, body: <List table={table} part={part} />, text: [tableText('Parts list', table, part)] })),
    ];
  },
};

function List({ table, part }: { readonly table: Table; readonly part: TablePart }): ReactElement {
  return <Schedule table={table} part={part} x={0} y={0} />;
}

function keyOf(model: LayoutModel, balloons: readonly Balloon[]): readonly KeyEntry[] {
  const numbered = new Set(balloons.map(({ name }) => name));
  return model.parts.filter(({ name }) => numbered.has(name));
}

function General({ model, page }: { readonly model: LayoutModel; readonly page: ThreeViews }): ReactElement {
  const { muted } = usePalette();
  const { plan, side, rear, keyBox, left } = page;
  const noPlace = model.parts.filter(({ at, isBeside }) => at === undefined && !isBeside).length;
  const remarks = [
    ...(noPlace > 0 ? [`${noPlace} ${noPlace === 1 ? 'part has' : 'parts have'} no place in the file and ${noPlace === 1 ? 'is' : 'are'} not drawn; see the parts list.`] : []),
    ...(left.length > 0 ? [`${left.length} more parts found no room for a number here; they are numbered on the following pages.`] : []),
    ...(model.parts.some(({ at }) => at !== undefined) ? [] : ['No part has a place yet. Give each part `at` (the middle of its box: x rearward from the front axle line, y to the right, z up) and `size`.']),
    ...(model.vehicle.wheelbase === undefined ? ['The file gives no wheelbase: no rear axle and no loads are drawn.'] : []),
  ];
  return (
    <g>
      <CentreLines page={page} model={model} />
      {[plan, side, rear].map((view) => <ViewDrawing key={view.content.placed.view} content={view.content} balloons={view.balloons} />)}
      <AxleMarks page={page} model={model} />
      <ViewTitles page={page} what="" />
      {keyBox && <Facts model={model} x={keyBox.x} y={keyBox.y} />}
      {keyBox && remarks.length > 0 && <Paragraph x={keyBox.x} y={keyBox.y + 22} width={keyBox.width - 2} size="small" fill={muted} text={remarks.join(' ')} />}
      {keyBox && <KeyList entries={keyOf(model, plan.balloons)} box={{ x: keyBox.x, y: keyBox.y + (remarks.length > 0 ? 34 : 22), width: keyBox.width, height: keyBox.height - (remarks.length > 0 ? 34 : 22) }} />}
      <Legend signs={['high-voltage part', 'low-voltage part', 'mechanical part', 'hidden', 'route', 'high-voltage run', 'wheel', 'before', 'after', 'projection']} x={0} y={area.height - 1.5} />
    </g>
  );
}

/** Total mass and the centre of gravity in numbers. */
function Facts({ model, x, y }: { readonly model: LayoutModel; readonly x: number; readonly y: number }): ReactElement {
  const { muted } = usePalette();
  const { centre, loads } = model;
  const row = (label: string, line: number, one: LayoutModel['centre']['after'], mass: LayoutModel['loads']['total']['after']): ReactElement => (
    <g>
      <Letters x={x} y={y + line} size="small" text={label} />
      <NumberText shown={mass} x={x + 32} y={y + line} size="small" align="end" />
      {one && one.shown.map((shown, axis) => <NumberText key={shown.key} shown={shown} before={`${'xyz'[axis]} `} x={x + 37 + axis * 26} y={y + line} size="small" />)}
      {!one && <Letters x={x + 37} y={y + line} size="small" fill={muted} text="centre of gravity not known" />}
    </g>
  );
  return (
    <g>
      <Letters x={x} y={y + 3} face="strong" text="Mass and centre of gravity" />
      {row('before', 8.5, centre.before, loads.total.before)}
      {row('after', 13, centre.after, loads.total.after)}
    </g>
  );
}

function LowVoltage({ model, page, details }: { readonly model: LayoutModel; readonly page: ThreeViews; readonly details: readonly DetailPage[] }): ReactElement {
  const { ink, sheet } = usePalette();
  const { plan, side, rear, keyBox, left } = page;
  const placed = plan.content.placed;
  const remarks = [details.length > 0 ? 'Parts inside a frame with a letter are numbered on the page of that detail.' : '', left.length > 0 ? `${left.length} more parts found no room for a number; the parts list has them.` : '', 'Wires run from the middle of one part to the middle of the other; where the harness really lies, only a route in the file can say.'].filter((text) => text !== '').join(' ');
  return (
    <g>
      <CentreLines page={page} model={model} />
      {[plan, side, rear].map((view) => <ViewDrawing key={view.content.placed.view} content={view.content} balloons={view.balloons} faint={['high_voltage', 'mechanical']} />)}
      {details.map(({ window, letter }) => {
        const [a, b] = [toPaper(placed, [window.front, window.right, 0]), toPaper(placed, [window.rear, window.left, 0])];
        return (
          <g key={letter}>
            <rect x={round(a.x)} y={round(a.y)} width={round(b.x - a.x)} height={round(b.y - a.y)} fill="none" stroke={ink} strokeWidth={0.35} strokeDasharray="4 1" />
            <circle cx={round(b.x)} cy={round(a.y)} r={3} fill={sheet} stroke={ink} strokeWidth={0.35} /><Letters x={b.x} y={a.y + 1.25} align="middle" face="strong" text={letter} />
          </g>
        );
      })}
      <ViewTitles page={page} what=": 12 V and signals" />
      {keyBox && <Paragraph x={keyBox.x} y={keyBox.y + 5} width={keyBox.width - 2} size="small" text={remarks} />}
      {keyBox && <KeyList entries={keyOf(model, plan.balloons)} box={{ x: keyBox.x, y: keyBox.y + 24, width: keyBox.width, height: keyBox.height - 24 }} />}
      <Legend signs={['low-voltage part', 'low-voltage run', 'signal run', 'hidden', 'projection']} x={0} y={area.height - 1.5} />
    </g>
  );
}

function Detail({ model, page }: { readonly model: LayoutModel; readonly page: DetailPage }): ReactElement {
  const { ink } = usePalette();
  const { plan, keyBox, letter } = page;
  const { box } = plan;
  return (
    <g>
      <Letters x={keyBox.x} y={keyBox.y - 4} face="strong" text={`Detail ${letter}: plan, from above`} />
      <ViewDrawing content={plan.content} window={box} balloons={plan.balloons} />
      <rect x={round(box.x)} y={round(box.y)} width={round(box.width)} height={round(box.height)} fill="none" stroke={ink} strokeWidth={0.35} strokeDasharray="4 1" />
      <KeyList entries={keyOf(model, plan.balloons)} box={keyBox} />
      <Legend signs={['high-voltage part', 'low-voltage part', 'mechanical part', 'hidden', 'high-voltage run', 'low-voltage run', 'signal run']} x={0} y={area.height - 1.5} />
    </g>
  );
}
