/** Where a part would stand, over where it stands; in millimetres of the page. */
import type { ReactElement } from 'react';
import type { Palette } from '../../sheets/palette.ts';
import { nameOf } from './taken.ts';
import type { Taken } from './taken.ts';

export function Ghost({ taken, palette, words }: { readonly taken: Taken; readonly palette: Palette; readonly words: string }): ReactElement {
  const { box, moved, view, scale } = taken;
  const across = ((view === 'rear' ? moved[1] : moved[0]) * 1000) / scale;
  const up = ((view === 'plan' ? moved[1] : moved[2]) * 1000) / scale;
  const [x, y] = [box.x + across, box.y - up];
  return (
    <g data-ghost={taken.path}>
      <rect x={box.x} y={box.y} width={box.width} height={box.height} fill="none" stroke={palette.muted} strokeWidth={0.3} strokeDasharray="1.5 1" />
      <path d={`M${box.x + box.width / 2} ${box.y + box.height / 2} L${x + box.width / 2} ${y + box.height / 2}`} stroke={palette.mark} strokeWidth={0.3} strokeDasharray="1 1" fill="none" />
      <rect x={x} y={y} width={box.width} height={box.height} fill={palette.mark} fillOpacity={0.12} stroke={palette.mark} strokeWidth={0.6} />
      <text x={x} y={y > 8 ? y - 2.2 : y + box.height + 4.6} fontSize={3.4} fontFamily="IBM Plex Sans" fill={palette.mark} stroke={palette.sheet} strokeWidth={1.2} paintOrder="stroke">{nameOf(taken.path)}: {words}</text>
    </g>
  );
}
