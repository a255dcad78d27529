/** A whole page: paper, border, zones, the drawing, the caution and the title block. */
import type { ReactElement, ReactNode } from 'react';
import { useDrawing } from '../drawing-context.ts';
import { Letters, Paragraph } from '../lettering/letters.tsx';
import { letterSize } from '../lettering/letter-size.ts';
import { shorten, widthOf, wrap } from '../lettering/measure.ts';
import { area, border, FOOT, foot, page } from './page-size.ts';
import { TitleBlock } from './title-block.tsx';
import type { TitleBlockValues } from './title-block.tsx';
import { zoneColumns as columns, zoneLetters, zoneRows as rows } from './zones.ts';

const CAUTION = 'Computed from the build file; it proves nothing about the vehicle. Batteries and high voltage kill and burn: work with qualified help, gloves rated for the voltage and a second person. Only a meter, proved on a known source before and after, shows that a circuit is dead. Local codes and inspection decide.';

export function FramedPage({ title, note, atFoot, children }: { readonly title: TitleBlockValues; /** the next thing to do */ readonly note: string | undefined; /** instead of the note */ readonly atFoot: ReactNode; readonly children: ReactNode }): ReactElement {
  const { palette, live } = useDrawing();
  const name = `${title.build}: ${title.subtitle === undefined ? title.title : `${title.title}, ${title.subtitle}`}`;
  return (
    <svg xmlns="http://www.w3.org/2000/svg" viewBox={`0 0 ${page.width} ${page.height}`} {...(live ? {} : { width: `${page.width}mm`, height: `${page.height}mm` })} role={live ? 'group' : 'img'} aria-label={name}>
      <rect width={page.width} height={page.height} fill={palette.sheet} />
      <Zones />
      <rect x={border.left} y={border.top} width={border.right - border.left} height={border.bottom - border.top} fill="none" stroke={palette.ink} strokeWidth={0.7} />
      <g transform={`translate(${area.x} ${area.y})`}>{children}</g>
      <line x1={border.left} y1={border.bottom - FOOT} x2={border.right} y2={border.bottom - FOOT} stroke={palette.ink} strokeWidth={0.5} />
      {atFoot ?? (note !== undefined && <Note text={note} />)}
      <Paragraph x={foot.x} y={foot.y + foot.height + 2.5} width={foot.width} size="small" fill={palette.muted} text={CAUTION} />
      <TitleBlock {...title} />
    </svg>
  );
}

/** Three lines, or four of the smaller letters; what is longer stands in full on the cover. */
function Note({ text }: { readonly text: string }): ReactElement {
  const { x, width } = foot;
  const y = foot.y + 5.5;
  const isShort = wrap(text, width, letterSize.body).length <= 3;
  if (isShort) return <Paragraph x={x} y={y} width={width} text={text} />;
  const lines = wrap(text, width, letterSize.small);
  const more = ' … in full on the cover';
  const shown = lines.length <= 4 ? text : `${lines.slice(0, 3).join(' ')} ${shorten(lines.slice(3).join(' '), width - widthOf(more, letterSize.small), letterSize.small).replace(/…$/, '')}${more}`;
  return <Paragraph x={x} y={y} width={width} size="small" text={shown} />;
}

/** Marks at the edges of the zones, and their numbers and letters. */
function Zones(): ReactElement {
  const { palette } = useDrawing();
  const marks: ReactElement[] = [];
  for (const x of columns.slice(1, -1)) for (const [y1, y2] of [[border.top - 5, border.top], [border.bottom, border.bottom + 5]] as const) marks.push(<line key={`c${x} ${y1}`} x1={x} y1={y1} x2={x} y2={y2} stroke={palette.ink} strokeWidth={0.35} />);
  for (const y of rows.slice(1, -1)) for (const [x1, x2] of [[border.left - 5, border.left], [border.right, border.right + 5]] as const) marks.push(<line key={`r${y} ${x1}`} x1={x1} y1={y} x2={x2} y2={y} stroke={palette.ink} strokeWidth={0.35} />);
  columns.slice(0, -1).forEach((x, index) => { const middle = (x + (columns[index + 1] as number)) / 2; for (const y of [border.top - 1.5, border.bottom + 4.2]) marks.push(<Letters key={`n${index} ${y}`} x={middle} y={y} size="small" align="middle" fill={palette.muted} text={String(index + 1)} />); });
  rows.slice(0, -1).forEach((y, index) => { const middle = (y + (rows[index + 1] as number)) / 2 + 1; for (const x of [border.left - 3, border.right + 3]) marks.push(<Letters key={`l${index} ${x}`} x={x} y={middle} size="small" align="middle" fill={palette.muted} text={zoneLetters[index] as string} />); });
  return <g>{marks}</g>;
}
