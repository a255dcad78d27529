/** The head of an electrical page: which state it shows, what is wrong with that, how to read it. */
import type { ReactElement } from 'react';
import { area } from '../frame/page-size.ts';
import { Paragraph } from '../lettering/letters.tsx';
import { letterSize } from '../lettering/letter-size.ts';
import { wrap } from '../lettering/measure.ts';
import { LevelMark } from '../marks/level-mark.tsx';
import { usePalette } from '../drawing-context.ts';
import { stateWidth, titleHeight } from './head-size.ts';
import type { HeadValues } from './head-size.ts';
import { NAME_STEP } from './make-mark.ts';

export function Head({ values }: { readonly values: HeadValues }): ReactElement {
  const palette = usePalette();
  const { state, wrong, legend } = values;
  const left = stateWidth(state);
  let y = titleHeight(values) + 4;
  return (
    <g>
      <Paragraph x={0} y={4.6} width={left} size="head" face="strong" text={`State: ${state}`} />
      <Paragraph x={left + 2} y={3.2} width={area.width - left - 2} size="small" fill={palette.muted} text={legend} />
      {wrong.map((text) => {
        const at = y;
        y += wrap(text, area.width - 8, letterSize.body).length * NAME_STEP;
        return <g key={text}><LevelMark level="stop" x={2} y={at - 1.2} /><Paragraph x={6} y={at} width={area.width - 8} fill={palette.red} text={text} /></g>;
      })}
    </g>
  );
}
