/**
 * What a sheet of the drawing set is. Two halves, so that the heavy one can live in a worker:
 * the model (plain data, made from the analysis) and the drawing (React components that render the model to plain SVG,
 * the same on the screen, on paper and from the command line). One folder a sheet: `model.ts`, `drawing.tsx`.
 */
import type { ReactNode } from 'react';
import type { Analysis } from '../core/analyse.ts';
import type { StateWords } from '../core/car/read-state.ts';
import type { TextBlock } from './text-block.ts';
import type { UnitChoice } from './unit-choice.ts';

/** In the order of the set. */
export const sheetNames = ['cover', 'layout', 'pack', 'high-voltage', 'low-voltage', 'precharge', 'cables', 'mass', 'assembly', 'power-up', 'single-failures', 'fault-finding'] as const;
export type SheetName = (typeof sheetNames)[number];

/** Sheets whose models solve the car in hundreds of states: seconds, so a screen lets them be made aside. */
export const slowSheets: ReadonlySet<SheetName> = new Set(['assembly', 'power-up', 'single-failures', 'fault-finding']);

/** Diagrams: a part or run more has them laid out anew, which takes up to seconds. */
export const laidOutSheets: ReadonlySet<SheetName> = new Set(['high-voltage', 'low-voltage']);

/** Sheets that print readings.csv as well: made again when it grows. */
export const sheetsOfLog: ReadonlySet<SheetName> = new Set(['fault-finding']);

/** What the reader of the sheets has chosen. Plain data. */
export interface Choices {
  readonly units: UnitChoice;
  /** the state that electrical sheets show; {} is everything at rest */
  readonly state: StateWords;
}

/** What lies in the build folder beside the file, for the sheets that print it. Plain data. */
export interface Folder {
  /** text of readings.csv; '' while there is none */
  readonly log: string;
  /** name of the fault-finding conversation to print; absent: the open one that was spoken of last, or the last one */
  readonly faultCase?: string;
}
export const emptyFolder: Folder = { log: '' };

export interface SheetModel<M> {
  readonly name: SheetName;
  /**
   * What the sheet shows, as plain data that survives a structured clone. Never throws on a build, however incomplete:
   * what cannot be shown is said in the model.
   * @param folder  absent: nothing lies there
   */
  readonly model: (analysis: Analysis, choices: Choices, folder?: Folder) => M | Promise<M>;
}

export interface Page {
  /** what tells this page from the others of its sheet; absent on a sheet of one page */
  readonly subtitle?: string;
  /** as on a title block: `1:20`; absent: not to scale */
  readonly scale?: string;
  /** drawn in millimetres of A3, from the top left corner of the drawing area (`frame/page-size.ts`) */
  readonly body: ReactNode;
  /** beside the title block (`foot` of `frame/page-size.ts`), instead of the next thing to do */
  readonly foot?: ReactNode;
  /** the same in words, for those who listen or search */
  readonly text: readonly TextBlock[];
}

export interface SheetDrawing<M> {
  readonly name: SheetName;
  readonly title: string;
  /** one line: what the sheet is for */
  readonly meaning: string;
  /** at least one page */
  readonly pages: (model: M) => readonly Page[];
}

/** Keeps the type of a model for the two halves of its sheet, and hides it from the lists of all sheets. */
export const defineModel = <M>(sheet: SheetModel<M>): SheetModel<unknown> => sheet;
export const defineDrawing = <M>(sheet: SheetDrawing<M>): SheetDrawing<unknown> => sheet as SheetDrawing<unknown>;
