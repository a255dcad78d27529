/** The pages of an electrical sheet: the head with the state, the blocks, the same in words. */
import { Paragraph } from '../lettering/letters.tsx';
import type { Page } from '../sheet.ts';
import type { DiagramModel } from './diagram-model.ts';
import { Diagram } from './draw-diagram.tsx';
import { Head } from './head.tsx';
import { wordsAsText } from './model-text.ts';

/** @param empty  what to do when nothing of it is in the file yet */
export function diagramPages({ head, pages, words, isEmpty }: DiagramModel, title: string, empty: string): readonly Page[] {
  const state = `state: ${head.state}`;
  if (isEmpty) return [{ subtitle: state, body: <g><Head values={head} /><Paragraph x={0} y={30} width={200} text={empty} /></g>, text: [{ kind: 'heading', text: title }, { kind: 'paragraph', text: empty }] }];
  return pages.map((page, index): Page => {
    const what = page.title === '' ? [state] : [page.title.toLowerCase(), state];
    return {
      subtitle: what.join(', '), body: <g><Head values={head} /><Diagram page={page} /></g>,
      text: [{ kind: 'heading', text: [title, ...what].join(', ') }, ...head.wrong.map((text) => ({ kind: 'paragraph' as const, text })), { kind: 'paragraph', text: head.legend }, ...wordsAsText(words[index]!)],
    };
  });
}
