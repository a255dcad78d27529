/** What every piece of a drawing needs to know: the colours, and on the screen what is selected and what has changed. */
import { createContext, useContext } from 'react';
import { paper } from './palette.ts';
import type { Palette } from './palette.ts';

export interface Live {
  /** keys of the numbers that an edit has changed and that were not looked at yet */
  readonly changed: ReadonlySet<string>;
  /** path of what is selected (`parts.M1`, `runs.W1`) */
  readonly selected: string | undefined;
}

export interface DrawingContext {
  readonly palette: Palette;
  /** on the screen; undefined on paper and in files */
  readonly live: Live | undefined;
}

const Drawing = createContext<DrawingContext>({ palette: paper, live: undefined });
export const DrawingProvider = Drawing.Provider;
export const useDrawing = (): DrawingContext => useContext(Drawing);
export const usePalette = (): Palette => useContext(Drawing).palette;
