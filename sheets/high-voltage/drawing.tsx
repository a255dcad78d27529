/** Draws the high-voltage diagram. */
import type { ReactElement } from 'react';
import { Diagram } from '../diagram/draw-diagram.tsx';
import { Head } from '../diagram/head.tsx';
import { wordsAsText } from '../diagram/model-text.ts';
import type { DiagramPage } from '../diagram/pages.ts';
import { Paragraph } from '../lettering/letters.tsx';
import type { Page, SheetDrawing } from '../sheet.ts';
import type { HighVoltageModel } from './model.ts';

const EMPTY = 'Nothing of the high-voltage side is in the file yet. Add battery modules, a main fuse, two contactors and a drive unit, then the runs between them.';

export const highVoltageDrawing: SheetDrawing<HighVoltageModel> = {
  name: 'high-voltage', title: 'High voltage', meaning: 'Both poles from the battery to everything that takes from it, with ratings, currents and prospective fault currents.',
  pages: (model) => {
    if (model.isEmpty) return [{ subtitle: `state: ${model.head.state}`, body: <g><Head values={model.head} /><Paragraph x={0} y={30} width={200} text={EMPTY} /></g>, text: [{ kind: 'heading', text: 'High voltage' }, { kind: 'paragraph', text: EMPTY }] }];
    return model.pages.map((page, index): Page => ({
      subtitle: `state: ${model.head.state}`, body: <Body model={model} page={page} />,
      text: [
        { kind: 'heading', text: `High voltage, state: ${model.head.state}` }, ...model.head.wrong.map((text) => ({ kind: 'paragraph' as const, text })), { kind: 'paragraph', text: model.head.legend },
        ...wordsAsText(model.words[index] ?? { parts: [], runs: [] }),
      ],
    }));
  },
};

function Body({ model, page }: { readonly model: HighVoltageModel; readonly page: DiagramPage }): ReactElement {
  return <g><Head values={model.head} /><Diagram page={page} /></g>;
}
