/** Draws the path of a fault-finding conversation: sentences, then its tables, over as many pages as they take. */
import { area } from '../frame/page-size.ts';
import { heightOf } from '../lettering/letter-size.ts';
import { Letters, Paragraph } from '../lettering/letters.tsx';
import type { Page, SheetDrawing } from '../sheet.ts';
import { FlowPage, flowTables, flowText } from '../table/flow.tsx';
import type { TextBlock } from '../text-block.ts';
import type { FaultFindingModel } from './model.ts';

const TITLE = 7;

export const faultFindingDrawing: SheetDrawing<FaultFindingModel> = {
  name: 'fault-finding', title: 'Fault finding', meaning: 'Why it does nothing: what was looked at, what was found, what remained after it, and what to look at next or how to mend it.',
  pages: ({ heading, words, sections }) => {
    let y = TITLE;
    const placed = words.map((text) => { const at = y; y += heightOf(text, area.width, 'small') + 1; return { text, at }; });
    const pages = flowTables(sections, area.height, y + 5);
    return pages.map((tables, index): Page => ({
      ...(pages.length > 1 ? { subtitle: tables[0]?.section.title.toLowerCase() ?? '' } : {}),
      body: (
        <g>
          {index === 0 && <g><Letters x={0} y={4} face="strong" text={heading} />{placed.map(({ text, at }) => <Paragraph key={at} x={0} y={at + 3} width={area.width} size="small" text={text} />)}</g>}
          <FlowPage placed={tables} />
        </g>
      ),
      text: [...(index === 0 ? [{ kind: 'heading', text: heading } as const, ...words.map((text): TextBlock => ({ kind: 'paragraph', text }))] : []), ...flowText(tables)],
    }));
  },
};
