/** The zone of the sheet in which something stands: `C4`. */
import { area } from '../frame/page-size.ts';
import { zoneColumns, zoneLetters, zoneRows } from '../frame/zones.ts';

/** @param x, y  in the drawing area [mm] */
export function zoneOf(x: number, y: number): string {
  return `${zoneLetters[indexIn(zoneRows, y + area.y)] ?? 'H'}${indexIn(zoneColumns, x + area.x) + 1}`;
}

const indexIn = (lines: readonly number[], at: number): number => lines.slice(1, -1).filter((line) => line <= at).length;
