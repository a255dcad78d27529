/** Zones of the sheet: numbers along the top, letters down the side, every 50 mm from the middle (ISO 5457). */
import { border, page } from './page-size.ts';

export const zoneLetters = 'ABCDEFGH';

/** Edges of the columns and of the rows, border included [mm]; the strips at the border are wider where less than 12 mm would be left. */
export const zoneColumns: readonly number[] = zoneLines(page.width, border.left, border.right);
export const zoneRows: readonly number[] = zoneLines(page.height, border.top, border.bottom);

function zoneLines(size: number, from: number, to: number): number[] {
  const inner: number[] = [];
  for (let at = size / 2; at > from + 12; at -= 50) inner.unshift(at);
  for (let at = size / 2 + 50; at < to - 12; at += 50) inner.push(at);
  return [from, ...inner, to];
}
