/** Draws each precharge on a page of its own; closing and emptying follow the last. */
import type { ReactElement } from 'react';
import { usePalette } from '../drawing-context.ts';
import { area } from '../frame/page-size.ts';
import { Letters, Paragraph } from '../lettering/letters.tsx';
import { heightOf, letterSize } from '../lettering/letter-size.ts';
import { widthOf } from '../lettering/measure.ts';
import { Subject } from '../marks/subject.tsx';
import { TimePlot } from '../plot/time-plot.tsx';
import type { Plot } from '../plot/time-plot.tsx';
import type { Page, SheetDrawing } from '../sheet.ts';
import { FlowPage, flowTables, flowText } from '../table/flow.tsx';
import { Schedule } from '../table/schedule.tsx';
import { fitted, tableHeight, tableText } from '../table/table.ts';
import type { Table } from '../table/table.ts';
import type { TextBlock } from '../text-block.ts';
import { factColumns } from './facts.ts';
import type { PrechargeModel, PrechargeSheet } from './model.ts';

const PLOTS = 222;
const FACTS = area.width - PLOTS - 8;
const TITLE = 7;
const VOLTAGE = 94;
const CURRENT = 48;

export const prechargeDrawing: SheetDrawing<PrechargeModel> = {
  name: 'precharge', title: 'Precharge', meaning: 'How the capacitors fill before the main contactor closes, and how they empty afterwards.',
  pages: (model) => {
    const tail = [model.closing, model.discharge];
    if (model.precharges.length === 0) return nonePages(model);
    const perSheet = model.precharges.map((sheet, index) => pagesOf(sheet, index === model.precharges.length - 1 ? [sheet.checks, ...tail] : [sheet.checks]));
    return perSheet.flat();
  },
};

function pagesOf(sheet: PrechargeSheet, sections: readonly PrechargeModel['closing'][]): readonly Page[] {
  const facts: Table = { columns: fitted(factColumns, FACTS), rows: sheet.facts };
  const top = TITLE + Math.max(tableHeight(facts), VOLTAGE + CURRENT + 2) + 6;
  return flowTables(sections, area.height, top).map((placed, index): Page => ({
    subtitle: index === 0 ? sheet.title : 'closing and emptying',
    body: <g>{index === 0 && <Head sheet={sheet} facts={facts} />}<FlowPage placed={placed} /></g>,
    text: [...(index === 0 ? headText(sheet, facts) : []), ...flowText(placed)],
  }));
}

function Head({ sheet, facts }: { readonly sheet: PrechargeSheet; readonly facts: Table }): ReactElement {
  const palette = usePalette();
  const title = `Precharge by ${sheet.title}`;
  return (
    <g>
      <Subject path={sheet.path} label={title}><Letters x={0} y={4} face="strong" text={title} /></Subject>
      <Letters x={widthOf(title, letterSize.body, 'strong') + 4} y={4} size="small" fill={palette.muted} text="computed with every cell full" />
      {sheet.plots
        ? <g><TimePlot plot={sheet.plots.voltage} x={0} y={TITLE} width={PLOTS} height={VOLTAGE} /><TimePlot plot={sheet.plots.current} x={0} y={TITLE + VOLTAGE + 2} width={PLOTS} height={CURRENT} /></g>
        : <Paragraph x={0} y={TITLE + 8} width={PLOTS} fill={palette.muted} text="No curve: the voltage of the pack or the circuit could not be worked out." />}
      <Schedule table={facts} x={PLOTS + 8} y={TITLE} />
    </g>
  );
}

function headText({ title, plots }: PrechargeSheet, facts: Table): readonly TextBlock[] {
  return [
    { kind: 'heading', text: `Precharge by ${title}` },
    ...(plots ? [{ kind: 'paragraph', text: `Marks of the voltage curve: ${marksOf(plots.voltage).join('; ')}. Current: ${marksOf(plots.current).join('; ')}.` } as const] : []),
    tableText('Figures', facts),
  ];
}

const marksOf = ({ levels, moments, points }: Plot): readonly string[] => [...levels, ...moments, ...points].map(({ text }) => text);

function nonePages(model: PrechargeModel): readonly Page[] {
  const width = 240;
  const height = model.none.reduce((sum, text) => sum + heightOf(text, width) + 2, 0);
  return flowTables([model.closing, model.discharge], area.height, TITLE + 6 + height).map((placed, index): Page => ({
    ...(index === 0 ? {} : { subtitle: 'closing and emptying' }),
    body: <g>{index === 0 && <None none={model.none} width={width} />}<FlowPage placed={placed} /></g>,
    text: [...(index === 0 ? [{ kind: 'heading', text: 'Precharge' } as const, ...model.none.map((text) => ({ kind: 'paragraph', text }) as const)] : []), ...flowText(placed)],
  }));
}

function None({ none, width }: { readonly none: readonly string[]; readonly width: number }): ReactElement {
  let y = TITLE + 4;
  return (
    <g>
      <Letters x={0} y={4} face="strong" text="Precharge" />
      {none.map((text, index) => {
        const at = y;
        y += heightOf(text, width) + 2;
        return <Paragraph key={text} x={0} y={at} width={width} face={index === 0 ? 'strong' : 'sans'} text={text} />;
      })}
    </g>
  );
}
