/** Room for the boxes of a checklist in the last cell of a row. */
import type { Cell } from '../table/table.ts';

/** from box to box [mm] */
export const BOX_STEP = 7.6;

/** An empty cell that keeps a row high enough for so many boxes. */
export const boxCell = (boxes: number): Cell => Array.from({ length: Math.ceil((boxes * BOX_STEP) / 4) }, () => ({ text: ' ' }));
