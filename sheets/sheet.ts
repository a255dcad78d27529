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
export const sheetNames = ['cover', 'layout', 'pack', 'high-voltage', 'low-voltage', 'precharge', 'cables', 'mass', 'assembly', 'power-up', 'single-failures'] as const;
export type SheetName = (typeof sheetNames)[number];

/** Sheets whose models solve the car in hundreds of states: seconds, so a screen lets them be made aside. */
export const slowSheets: ReadonlySet<SheetName> = new Set(['assembly', 'power-up', 'single-failures']);

/** What the reader of the sheets has chosen. Plain data. */
export interface Choices {
  readonly units: UnitChoice;
  /** the state that electrical sheets show; {} is everything at rest */
  readonly state: StateWords;
}

export interface SheetModel<M> {
  readonly name: SheetName;
  /**
   * What the sheet shows, as plain data that survives a structured clone. Never throws on a build, however incomplete:
   * what cannot be shown is said in the model.
   */
  readonly model: (analysis: Analysis, choices: Choices) => M | Promise<M>;
}

export interface Page {
  /** what tells this page from the others of its sheet; absent on a sheet of one page */
  readonly subtitle?: string;
  /** as on a title block: `1:20`; absent: not to scale */
  readonly scale?: string;
  /** drawn in millimetres of A3, from the top left corner of the drawing area (`frame/page-size.ts`) */
  readonly body: ReactNode;
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
