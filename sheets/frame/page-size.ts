/**
 * The sheet of paper: A3 landscape, borders after ISO 5457 (20 mm at the binding edge, 10 mm elsewhere), zones of 50 mm from the
 * middle. A4 is the same drawing at 1:√2. All lengths [mm of A3].
 */
export const page = { width: 420, height: 297 } as const;
export const border = { left: 20, top: 10, right: 410, bottom: 287 } as const;
/** height of the strip at the foot: notes at the left, title block (180 mm wide, ISO 7200) at the right */
export const FOOT = 36;
export const TITLE_BLOCK = 180;
/** where a sheet draws; its own coordinates start at the corner */
export const area = { x: border.left + 4, y: border.top + 4, width: border.right - border.left - 8, height: border.bottom - border.top - FOOT - 8 } as const;
/** height of the three lines of the caution below the notes */
const CAUTION = 14;
/** beside the title block, above the caution: what belongs to the page but not to the drawing; coordinates of the page */
export const foot = { x: border.left + 4, y: border.bottom - FOOT, width: border.right - border.left - TITLE_BLOCK - 8, height: FOOT - CAUTION } as const;
