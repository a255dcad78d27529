/** Draws the table of single failures: sentences, findings, then a table a severity, over as many pages as they take. */
import { area } from '../frame/page-size.ts';
import { heightOf } from '../lettering/letter-size.ts';
import { Letters, Paragraph } from '../lettering/letters.tsx';
import type { Page, SheetDrawing } from '../sheet.ts';
import { FlowPage, flowTables, flowText } from '../table/flow.tsx';
import type { TextBlock } from '../text-block.ts';
import type { SingleFailuresModel } from './model.ts';

const TITLE = 7;
const HEAD = 'Single failures';

export const singleFailuresDrawing: SheetDrawing<SingleFailuresModel> = {
  name: 'single-failures', title: 'Single failures', meaning: 'What every single failure does in every mode, what tells the driver of it, and whether one more would be dangerous.',
  pages: ({ none, words, sections }) => {
    const sentences = none === undefined ? words : [none];
    let y = TITLE;
    const placed = sentences.map((text) => { const at = y; y += heightOf(text, area.width, 'small') + 1; return { text, at }; });
    const pages = flowTables(sections, area.height, y + 5);
    return pages.map((tables, index): Page => ({
      ...(pages.length > 1 ? { subtitle: tables[0]?.section.title.toLowerCase() ?? '' } : {}),
      body: (
        <g>
          {index === 0 && <g><Letters x={0} y={4} face="strong" text={HEAD} />{placed.map(({ text, at }) => <Paragraph key={at} x={0} y={at + 3} width={area.width} size="small" text={text} />)}</g>}
          <FlowPage placed={tables} />
        </g>
      ),
      text: [...(index === 0 ? [{ kind: 'heading', text: HEAD } as const, ...sentences.map((text): TextBlock => ({ kind: 'paragraph', text }))] : []), ...flowText(tables)],
    }));
  },
};
