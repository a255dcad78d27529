/** A number on a sheet. One of the file can be taken hold of; one that an edit changed is marked until looked at. */
import type { ReactElement } from 'react';
import { useDrawing } from '../drawing-context.ts';
import { Letters } from '../lettering/letters.tsx';
import { letterSize } from '../lettering/letter-size.ts';
import type { LetterProps } from '../lettering/letters.tsx';
import { widthOf } from '../lettering/measure.ts';
import { round } from '../lettering/round.ts';
import type { Shown } from '../shown.ts';
import { Subject } from './subject.tsx';

/** `before` and `after` stand in the same line: `before` 12.4 kg ±0.1 measured `after`. With `sure` the tolerance and basis follow. */
export function NumberText({ shown, before = '', after = '', sure = false, ...letters }: LetterProps & { readonly shown: Shown; readonly before?: string; readonly after?: string; readonly sure?: boolean }): ReactElement {
  const { live, palette } = useDrawing();
  const text = `${before}${shown.text}${sure && shown.sure ? ` ${shown.sure}` : ''}${after}`;
  const isChanged = live?.changed.has(shown.key) === true;
  const width = widthOf(text, letterSize[letters.size ?? 'body'], letters.face);
  const left = letters.align === 'end' ? letters.x - width : letters.align === 'middle' ? letters.x - width / 2 : letters.x;
  const drawn = (
    <g data-key={shown.key} {...(isChanged ? { 'data-changed': '' } : {})}>
      <Letters {...letters} text={text} />
      {isChanged && letters.turn === undefined && <path d={`M${round(left)} ${round(letters.y + 1)} h${round(width)}`} stroke={palette.mark} strokeWidth={0.5} strokeDasharray="1 0.6" fill="none" />}
      {isChanged && letters.turn === undefined && <path d={`M${round(left - 1.8)} ${round(letters.y - 2.2)} l1.3 1.1 l-1.3 1.1 z`} fill={palette.mark} />}
    </g>
  );
  return shown.path === undefined ? drawn : <Subject path={shown.path} label={`${shown.path}: ${shown.text} ${shown.sure ?? ''}`.trim()}>{drawn}</Subject>;
}
