/** The shape of a level; the colour only repeats what the shape says. */
import type { ReactElement } from 'react';
import type { Level } from '../../core/findings/finding.ts';
import { usePalette } from '../drawing-context.ts';
import { round } from '../lettering/round.ts';
import type { Palette } from '../palette.ts';

export const levelColour = (level: Level, palette: Palette): string => ({ stop: palette.red, fix: palette.amber, unknown: palette.signal, watch: palette.lowVoltage, holds: palette.green })[level];

/** `size` across, centred on x, y [mm]. */
export function LevelMark({ level, x, y, size = 3.4 }: { readonly level: Level; readonly x: number; readonly y: number; readonly size?: number }): ReactElement {
  const palette = usePalette();
  const colour = levelColour(level, palette);
  const half = size / 2;
  const at = (dx: number, dy: number): string => `${round(x + dx * half)} ${round(y + dy * half)}`;
  switch (level) {
    case 'stop': return <rect x={round(x - half)} y={round(y - half)} width={size} height={size} fill={colour} />;
    case 'fix': return <path d={`M${at(0, -1)} L${at(1.08, 0.9)} L${at(-1.08, 0.9)} Z`} fill={colour} />;
    case 'unknown': return <g fill="none" stroke={colour} strokeWidth={round(size * 0.13)}><path d={`M${at(-0.45, -0.45)} A${round(half * 0.48)} ${round(half * 0.48)} 0 1 1 ${at(0.1, 0.05)} L${at(0, 0.35)}`} /><circle cx={round(x)} cy={round(y + half * 0.8)} r={round(size * 0.05)} fill={colour} /></g>;
    case 'watch': return <circle cx={round(x)} cy={round(y)} r={round(half * 0.8)} fill="none" stroke={colour} strokeWidth={round(size * 0.15)} />;
    case 'holds': return <path d={`M${at(-0.8, 0.05)} L${at(-0.2, 0.65)} L${at(0.85, -0.7)}`} fill="none" stroke={colour} strokeWidth={round(size * 0.15)} />;
  }
}
