/** Lettering of a diagram: lines of numbers and words. */
import type { ReactElement } from 'react';
import { usePalette } from '../drawing-context.ts';
import { Letters } from '../lettering/letters.tsx';
import { letterSize } from '../lettering/letter-size.ts';
import { widthOf } from '../lettering/measure.ts';
import { NumberText } from '../marks/number-text.tsx';
import { lineText, pieceText, STEP } from './make-mark.ts';
import type { MarkLine } from './mark.ts';

/** Numbers and words one under the other, then where else the part stands. `y`: top of the first line. */
export function Lines({ lines, references, x, y, isOff = false }: { readonly lines: readonly MarkLine[]; readonly references: readonly string[]; readonly x: number; readonly y: number; readonly isOff?: boolean }): ReactElement {
  const palette = usePalette();
  return (
    <g>
      {lines.map((line, index) => <MarkText key={index} line={line} x={x} y={y + 3.1 + index * STEP} fill={line.isMuted === true || isOff ? palette.muted : palette.ink} />)}
      {references.map((text, index) => <Letters key={text} x={x} y={y + 3.1 + (lines.length + index) * STEP} size="small" fill={palette.mark} text={text} />)}
    </g>
  );
}

/** Pieces of a line one behind the other. */
export function MarkText({ line, x, y, fill, align = 'start' }: { readonly line: MarkLine; readonly x: number; readonly y: number; readonly fill?: string; readonly align?: 'start' | 'middle' }): ReactElement {
  const start = align === 'start' ? x : x - widthOf(lineText(line), letterSize.small) / 2;
  const place = { x: start, y, size: 'small' as const, ...(fill === undefined ? {} : { fill }) };
  const comma = line.next === undefined ? '' : ', ';
  return (
    <>
      {line.shown ? <NumberText {...place} shown={line.shown} before={line.before ?? ''} after={`${line.after ?? ''}${comma}`} /> : <Letters {...place} text={`${pieceText(line)}${comma}`} />}
      {line.next && <MarkText line={line.next} x={start + widthOf(`${pieceText(line)}${comma}`, letterSize.small)} y={y} {...(fill === undefined ? {} : { fill })} />}
    </>
  );
}
