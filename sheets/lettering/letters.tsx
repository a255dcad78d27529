/** Lettering: one line, or lines that were broken to a width. */
import type { ReactElement } from 'react';
import { useDrawing } from '../drawing-context.ts';
import { round } from './round.ts';
import { LINE, letterSize } from './letter-size.ts';
import type { LetterSize } from './letter-size.ts';
import { wrap } from './measure.ts';
import type { Face } from './measure.ts';

export interface LetterProps {
  readonly x: number;
  /** of the base line */
  readonly y: number;
  readonly size?: LetterSize;
  readonly face?: Face;
  readonly align?: 'start' | 'middle' | 'end';
  /** a colour of the palette; ink when absent */
  readonly fill?: string;
  /** degrees, clockwise */
  readonly turn?: number;
}

export function Letters({ text, x, y, size = 'body', face = 'sans', align = 'start', fill, turn }: LetterProps & { readonly text: string }): ReactElement {
  const { palette } = useDrawing();
  return (
    <text x={round(x)} y={round(y)} fontSize={letterSize[size]} fontFamily={face === 'mono' ? 'IBM Plex Mono' : 'IBM Plex Sans'} fontWeight={face === 'strong' ? 600 : 400} fill={fill ?? palette.ink}
      {...(align === 'start' ? {} : { textAnchor: align })} {...(turn === undefined ? {} : { transform: `rotate(${turn} ${round(x)} ${round(y)})` })}>{text}</text>
  );
}

/** Broken to `width`; the height taken is `heightOf` of the same. */
export function Paragraph({ text, width, ...rest }: LetterProps & { readonly text: string; readonly width: number }): ReactElement {
  const size = letterSize[rest.size ?? 'body'];
  return <>{wrap(text, width, size, rest.face).map((line, index) => <Letters key={index} {...rest} text={line} y={rest.y + index * size * LINE} />)}</>;
}
