/** The zone of the sheet in which something stands: letter down the side, number along the top, every 50 mm from the middle (ISO 5457). */
import { area, border, page } from '../frame/page-size.ts';

/** @param x, y  in the drawing area [mm] */
export function zoneOf(x: number, y: number): string {
  const column = zoneNumber(x + area.x, page.width, border.left, border.right);
  const row = zoneNumber(y + area.y, page.height, border.top, border.bottom);
  return `${'ABCDEFGH'[row] ?? 'H'}${column + 1}`;
}

/** As the frame draws them: the strips at the border are wider where less than 12 mm would be left. */
function zoneNumber(at: number, size: number, from: number, to: number): number {
  const lines: number[] = [];
  for (let line = size / 2; line > from + 12; line -= 50) lines.push(line);
  for (let line = size / 2 + 50; line < to - 12; line += 50) lines.push(line);
  return lines.filter((line) => line <= at).length;
}
