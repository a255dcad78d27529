/** What the commands that draw sheets have in common: the options, and what they make of them. */
import { dirname } from 'node:path';
import { words } from '../catalogue/words.ts';
import { analyse } from '../core/analyse.ts';
import type { Analysis } from '../core/analyse.ts';
import type { FrameValues } from '../sheets/draw-page.tsx';
import { readReadings } from '../server/readings-on-disk.ts';
import type { Choices, Folder } from '../sheets/sheet.ts';
import { orWrongCall } from './log-line.ts';
import { openBuild } from './open-build.ts';
import { revisionOf } from './revision-of.ts';
import { stateFrom, stateWords } from './state-options.ts';
import type { StateOptions } from './state-options.ts';

export interface SheetOptions extends StateOptions { readonly units?: 'metric' | 'imperial'; readonly date?: string }

export interface OpenSheets {
  readonly analysis: Analysis;
  readonly choices: Choices;
  /** what the frame of every page says */
  readonly frame: Omit<FrameValues, 'palette' | 'live'>;
}

/** @throws WrongCall when the build cannot be read, or the options ask for a state that it has not */
export function openSheets(path: string, options: SheetOptions): OpenSheets {
  const { text } = openBuild(path);
  const analysis = analyse(text, words, options.units ? { units: options.units } : {});
  // the sheets read the state themselves; what they cannot read is refused here
  stateFrom(options, analysis.car);
  return {
    analysis,
    choices: { units: { system: options.units ?? analysis.build.units }, state: stateWords(options) },
    frame: { build: analysis.build.name, revision: revisionOf(text), date: options.date, note: `Next: ${analysis.next.do}` },
  };
}

/** What lies beside the file. @param faultCase  conversation to print. @throws WrongCall when readings.csv cannot be read */
export async function folderOf(path: string, faultCase?: string): Promise<Folder> {
  const { text } = await orWrongCall(readReadings(dirname(openBuild(path).file)));
  return { log: text, ...(faultCase === undefined ? {} : { faultCase }) };
}
