/** A page of a sheet, drawn again only when something on it is different. */
import { memo, useMemo } from 'react';
import type { ReactElement } from 'react';
import { drawPage } from '../../sheets/draw-page.tsx';
import { drawings } from '../../sheets/drawings.ts';
import type { Live } from '../../sheets/drawing-context.ts';
import type { Palette } from '../../sheets/palette.ts';
import type { Page, SheetDrawing, SheetName } from '../../sheets/sheet.ts';
import type { Study } from '../../study/study.ts';

export const drawingOf = (name: SheetName): SheetDrawing<unknown> => {
  const drawing = drawings.find((one) => one.name === name) ?? drawings[0];
  if (!drawing) throw new Error('the set has no sheets');
  return drawing;
};

export function usePages(sheet: Study['sheet']): readonly Page[] {
  return useMemo(() => drawingOf(sheet.name).pages(sheet.model), [sheet]);
}

/** As on a title block. */
export const today = (): string => new Date().toISOString().slice(0, 10);

interface Drawn { readonly study: Study; readonly pages: readonly Page[]; readonly index: number; readonly next: string; readonly palette: Palette; readonly live?: Live }

export const DrawnPage = memo(function DrawnPage({ study, pages, index, next, palette, live }: Drawn): ReactElement {
  return drawPage(drawingOf(study.sheet.name), pages, index, { build: study.build, revision: study.revision, date: today(), note: `Next: ${next}`, palette, ...(live ? { live } : {}) });
});
