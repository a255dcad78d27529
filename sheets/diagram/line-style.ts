/** How lines of each kind are drawn: colour says it, width and pattern say it again. */
import type { Palette } from '../palette.ts';
import type { Voltage } from './mark.ts';

export interface LineStyle { readonly stroke: string; readonly width: number; readonly dash?: string; readonly word: string }

export function lineStyle(voltage: Voltage, palette: Palette): LineStyle {
  switch (voltage) {
    case 'high': return { stroke: palette.highVoltage, width: 0.7, word: 'high voltage' };
    case 'low': return { stroke: palette.lowVoltage, width: 0.4, word: 'low voltage' };
    case 'signal': return { stroke: palette.signal, width: 0.3, dash: '2.2 0.7', word: 'signal' };
  }
}
