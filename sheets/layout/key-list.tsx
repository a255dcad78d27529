/** The numbers of a page with their names, in columns beside the view; a name too long for its column stands in full in the parts list. */
import type { ReactElement } from 'react';
import type { Level } from '../../core/findings/finding.ts';
import { usePalette } from '../drawing-context.ts';
import { Letters } from '../lettering/letters.tsx';
import { letterSize } from '../lettering/letter-size.ts';
import { shorten, widthOf } from '../lettering/measure.ts';
import { LevelMark } from '../marks/level-mark.tsx';
import { Subject } from '../marks/subject.tsx';
import type { Box } from './views.ts';

export interface KeyEntry { readonly item: number; readonly name: string; readonly kind: string; readonly level: Level | undefined }

const ROW = 4.6;
const COLUMN = 47;
const HEAD = 6;
const NUMBER = 8;

export function KeyList({ entries, box }: { readonly entries: readonly KeyEntry[]; readonly box: Box }): ReactElement {
  const { muted } = usePalette();
  if (entries.length === 0) return <g />;
  const columns = Math.max(1, Math.floor(box.width / COLUMN));
  const rows = Math.max(1, Math.floor((box.height - HEAD) / ROW));
  const shown = entries.slice(0, columns * rows);
  const used = Math.min(rows, Math.max(1, Math.ceil(shown.length / columns)));
  const width = box.width / columns;
  return (
    <g>
      <Letters x={box.x} y={box.y + 3} size="small" fill={muted} text={entries.length > shown.length ? `Numbers on this page; ${entries.length - shown.length} more in the parts list` : 'Numbers on this page'} />
      {shown.map((entry, index) => {
        const x = box.x + Math.floor(index / used) * width;
        const y = box.y + HEAD + 3.2 + (index % used) * ROW;
        const room = width - NUMBER - 5.5;
        const name = shorten(entry.name, room, letterSize.small, 'strong');
        const left = room - widthOf(`${name} `, letterSize.small, 'strong') - 0.6;
        const kind = widthOf(entry.kind, letterSize.small) <= left ? entry.kind : '';
        return (
          <Subject key={entry.name} path={`parts.${entry.name}`} label={`item ${entry.item}, ${entry.name}, ${entry.kind}`}>
            <Letters x={x + NUMBER - 3} y={y} size="small" align="end" text={String(entry.item)} />
            {entry.level !== undefined && entry.level !== 'holds' && <LevelMark level={entry.level} x={x + NUMBER} y={y - 1.05} size={2.4} />}
            <Letters x={x + NUMBER + 3} y={y} size="small" face='strong' text={name} />
            {kind !== '' && <Letters x={x + NUMBER + 3 + widthOf(`${name} `, letterSize.small, 'strong') + 0.6} y={y} size="small" fill={muted} text={kind} />}
          </Subject>
        );
      })}
    </g>
  );
}
