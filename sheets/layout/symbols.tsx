/** Signs of a technical drawing: projection (ISO 5456-2), axes (ISO 4130), centre of gravity, dimensions (ISO 129-1). */
import type { ReactElement } from 'react';
import { usePalette } from '../drawing-context.ts';
import { Letters } from '../lettering/letters.tsx';
import { letterSize } from '../lettering/letter-size.ts';
import { widthOf } from '../lettering/measure.ts';
import { round } from '../lettering/round.ts';
import { CENTRE_RADIUS } from './centre.ts';
import { NumberText } from '../marks/number-text.tsx';
import type { Shown } from '../shown.ts';

/** Third-angle projection: the circles of the cone's small end stand on the side from which they are seen. 14 wide, 6 high, from its left. */
export function ThirdAngle({ x, y }: { readonly x: number; readonly y: number }): ReactElement {
  const { ink } = usePalette();
  const chain = { stroke: ink, strokeWidth: 0.18, strokeDasharray: '2 0.6 0.4 0.6', fill: 'none' };
  return (
    <g>
      <circle cx={round(x + 3)} cy={round(y)} r={3} fill="none" stroke={ink} strokeWidth={0.35} />
      <circle cx={round(x + 3)} cy={round(y)} r={1.5} fill="none" stroke={ink} strokeWidth={0.35} />
      <path d={`M${round(x + 8)} ${round(y - 1.5)} L${round(x + 14)} ${round(y - 3)} V${round(y + 3)} L${round(x + 8)} ${round(y + 1.5)} Z`} fill="none" stroke={ink} strokeWidth={0.35} />
      <path d={`M${round(x - 1)} ${round(y)} H${round(x + 15)} M${round(x + 3)} ${round(y - 4)} V${round(y + 4)}`} {...chain} />
    </g>
  );
}

/** Two axes with their letters; the corner at x, y; `up` and `across` are the letters. */
export function Axes({ x, y, across, up }: { readonly x: number; readonly y: number; readonly across: string; readonly up: string }): ReactElement {
  const { ink } = usePalette();
  return (
    <g>
      <path d={`M${round(x)} ${round(y - 7)} V${round(y)} H${round(x + 7)}`} fill="none" stroke={ink} strokeWidth={0.35} />
      <path d={`M${round(x - 0.8)} ${round(y - 5.4)} L${round(x)} ${round(y - 8)} L${round(x + 0.8)} ${round(y - 5.4)} Z M${round(x + 5.4)} ${round(y - 0.8)} L${round(x + 8)} ${round(y)} L${round(x + 5.4)} ${round(y + 0.8)} Z`} fill={ink} />
      <Letters x={x - 3} y={y - 6} size="small" text={up} /><Letters x={x + 6} y={y + 4} size="small" text={across} />
    </g>
  );
}

/** A quartered circle; hollow before the work, two quarters filled after it. */
export function CentreMark({ x, y, isAfter }: { readonly x: number; readonly y: number; readonly isAfter: boolean }): ReactElement {
  const { ink, sheet } = usePalette();
  const [cx, cy, r] = [round(x), round(y), CENTRE_RADIUS];
  const quarter = (sx: number, sy: number): string => `M${cx} ${cy} L${round(cx + sx * r)} ${cy} A${r} ${r} 0 0 ${sx * sy > 0 ? 1 : 0} ${cx} ${round(cy + sy * r)} Z`;
  return (
    <g>
      <circle cx={cx} cy={cy} r={r} fill={sheet} stroke={ink} strokeWidth={0.3} />
      {isAfter ? <path d={`${quarter(1, 1)} ${quarter(-1, -1)}`} fill={ink} /> : <path d={`M${round(cx - r)} ${cy} H${round(cx + r)} M${cx} ${round(cy - r)} V${round(cy + r)}`} stroke={ink} strokeWidth={0.25} fill="none" />}
    </g>
  );
}

/** A dimension across the paper from x1 to x2 at y, with its number above the line; `foot` is where its extension lines begin. */
export function Dimension({ x1, x2, y, foot, shown, before }: { readonly x1: number; readonly x2: number; readonly y: number; readonly foot: number; readonly shown: Shown; readonly before: string }): ReactElement {
  const { ink, sheet } = usePalette();
  const text = `${before}${shown.text}`;
  const width = widthOf(text, letterSize.small) + 2;
  const middle = (x1 + x2) / 2;
  const arrow = (x: number, way: number): string => `M${round(x)} ${round(y)} l${2.5 * way} -0.45 v0.9 Z`;
  return (
    <g>
      <path d={`M${round(x1)} ${round(foot)} V${round(y + 1.2)} M${round(x2)} ${round(foot)} V${round(y + 1.2)} M${round(x1)} ${round(y)} H${round(x2)}`} stroke={ink} strokeWidth={0.18} fill="none" />
      <path d={`${arrow(x1, 1)} ${arrow(x2, -1)}`} fill={ink} />
      <rect x={round(middle - width / 2)} y={round(y - 1.8)} width={round(width)} height={3.6} fill={sheet} />
      <NumberText shown={shown} before={before} x={middle} y={y + 1.05} size="small" align="middle" />
    </g>
  );
}
