/** Draws the low-voltage diagram. */
import type { ReactElement } from 'react';
import { Diagram } from '../diagram/draw-diagram.tsx';
import { Head } from '../diagram/head.tsx';
import { wordsAsText } from '../diagram/model-text.ts';
import type { DiagramPage } from '../diagram/pages.ts';
import { Paragraph } from '../lettering/letters.tsx';
import type { Page, SheetDrawing } from '../sheet.ts';
import type { LowVoltageModel } from './model.ts';

const EMPTY = 'Nothing of the low-voltage side is in the file yet. Add its battery and a DC-DC converter, a fuse for each wire that leaves them, the consumers, and the runs between them.';

export const lowVoltageDrawing: SheetDrawing<LowVoltageModel> = {
  name: 'low-voltage', title: 'Low voltage', meaning: 'Sources, fuses, consumers and signals of the 12 V side, with voltages and currents in the chosen state.',
  pages: ({ head, pages, words, isEmpty }) => {
    if (isEmpty) return [{ subtitle: `state: ${head.state}`, body: <g><Head values={head} /><Paragraph x={0} y={30} width={200} text={EMPTY} /></g>, text: [{ kind: 'heading', text: 'Low voltage' }, { kind: 'paragraph', text: EMPTY }] }];
    return pages.map((page, index): Page => ({
      subtitle: [page.title.toLowerCase(), `state: ${head.state}`].filter((text) => text !== '').join(', '), body: <Body head={head} page={page} />,
      text: [
        { kind: 'heading', text: `Low voltage, ${page.title.toLowerCase()}, state: ${head.state}` }, ...head.wrong.map((text) => ({ kind: 'paragraph' as const, text })), { kind: 'paragraph', text: head.legend },
        ...wordsAsText(words[index] ?? { parts: [], runs: [] }),
      ],
    }));
  },
};

function Body({ head, page }: { readonly head: LowVoltageModel['head']; readonly page: DiagramPage }): ReactElement {
  return <g><Head values={head} /><Diagram page={page} /></g>;
}
