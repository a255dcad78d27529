/** The title block: what this is, of what state of the file, which sheet of how many. Fields after ISO 7200. */
import type { ReactElement } from 'react';
import { usePalette } from '../drawing-context.ts';
import { Letters } from '../lettering/letters.tsx';
import { letterSize } from '../lettering/letter-size.ts';
import { shorten } from '../lettering/measure.ts';
import { border, FOOT, TITLE_BLOCK } from './page-size.ts';

export interface TitleBlockValues {
  readonly build: string;
  readonly title: string;
  readonly subtitle: string | undefined;
  readonly scale: string | undefined;
  /** first characters of the hash of the file's text */
  readonly revision: string;
  /** as it is to be read; undefined where the caller hands none in */
  readonly date: string | undefined;
  readonly sheet: number; readonly sheets: number;
  readonly page: number; readonly pages: number;
}

export function TitleBlock(values: TitleBlockValues): ReactElement {
  const palette = usePalette();
  const x = border.right - TITLE_BLOCK;
  const y = border.bottom - FOOT;
  const field = (dx: number, dy: number, width: number, label: string, value: string, strong = false): ReactElement => (
    <g key={label}>
      <Letters x={x + dx + 2} y={y + dy + 4} size="small" fill={palette.muted} text={label} />
      <Letters x={x + dx + 2} y={y + dy + 9.4} size={strong ? 'head' : 'body'} face={strong ? 'strong' : 'sans'} text={shorten(value, width - 4, letterSize[strong ? 'head' : 'body'], strong ? 'strong' : 'sans')} />
    </g>
  );
  const line = (x1: number, y1: number, x2: number, y2: number): ReactElement => <line key={`${x1} ${y1} ${x2} ${y2}`} x1={x + x1} y1={y + y1} x2={x + x2} y2={y + y2} stroke={palette.ink} strokeWidth={0.25} />;
  return (
    <g>
      <rect x={x} y={y} width={TITLE_BLOCK} height={FOOT} fill="none" stroke={palette.ink} strokeWidth={0.5} />
      {[line(0, 12, TITLE_BLOCK, 12), line(0, 24, TITLE_BLOCK, 24), line(45, 24, 45, 36), line(90, 24, 90, 36), line(135, 24, 135, 36), line(135, 0, 135, 12)]}
      {field(0, 0, 135, 'Build', values.build)}
      {field(135, 0, 45, 'Drawn by', 'Halfshaft')}
      {field(0, 12, TITLE_BLOCK, 'Sheet', values.subtitle === undefined ? values.title : `${values.title} – ${values.subtitle}`, true)}
      {field(0, 24, 45, 'Scale at A3', values.scale ?? 'not to scale')}
      {field(45, 24, 45, 'Revision of the file', values.revision)}
      {field(90, 24, 45, 'Date', values.date ?? '—')}
      {field(135, 24, 45, 'Page', values.pages === 1 ? `sheet ${values.sheet} of ${values.sheets}` : `sheet ${values.sheet} of ${values.sheets}, ${values.page} of ${values.pages}`)}
    </g>
  );
}
