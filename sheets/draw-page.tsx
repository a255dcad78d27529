/** One page of a sheet in its frame: what the screen, the book and the SVG file all show. */
import { useMemo } from 'react';
import type { ReactElement, ReactNode } from 'react';
import { DrawingProvider } from './drawing-context.ts';
import type { DrawingContext, Live } from './drawing-context.ts';
import { FramedPage } from './frame/framed-page.tsx';
import type { Palette } from './palette.ts';
import type { Page, SheetDrawing } from './sheet.ts';
import { sheetNames } from './sheet.ts';

/** What the frame says besides the sheet itself. */
export interface FrameValues {
  readonly build: string;
  readonly revision: string;
  readonly date: string | undefined;
  /** the next thing to do */
  readonly note: string | undefined;
  readonly palette: Palette;
  readonly live?: Live;
}

/** @param index  which of `pages`, from 0 */
export function drawPage(sheet: SheetDrawing<unknown>, pages: readonly Page[], index: number, frame: FrameValues): ReactElement {
  const page = pages[index];
  if (!page) throw new RangeError(`sheet ${sheet.name} has ${pages.length} pages, not ${index + 1}`);
  return (
    <Drawn palette={frame.palette} live={frame.live}>
      <FramedPage note={frame.note} atFoot={page.foot} title={{
        build: frame.build, title: sheet.title, subtitle: page.subtitle, scale: page.scale, revision: frame.revision, date: frame.date,
        sheet: sheetNames.indexOf(sheet.name) + 1, sheets: sheetNames.length, page: index + 1, pages: pages.length,
      }}>{page.body}</FramedPage>
    </Drawn>
  );
}

/** On the screen another revision in the frame does not draw anew what stands in it. */
function Drawn({ palette, live, children }: DrawingContext & { readonly children: ReactNode }): ReactElement {
  return <DrawingProvider value={useMemo(() => ({ palette, live }), [palette, live])}>{children}</DrawingProvider>;
}
