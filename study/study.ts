/** Everything that the desk shows of a text: findings, the next thing, the outline, and the model of the sheet that lies on it. */
import type { Build } from '../core/build/build.ts';
import { isUnreadable } from '../core/findings/file-checks.ts';
import type { Problem } from '../core/build/problem.ts';
import { countLevels } from '../sheets/levels.ts';
import type { LevelCounts } from '../sheets/levels.ts';
import { models } from '../sheets/models.ts';
import type { Choices, Folder, SheetName } from '../sheets/sheet.ts';
import { findingRow } from './finding-row.ts';
import type { FindingRow } from './finding-row.ts';
import type { KeptAnalysis } from './kept-analysis.ts';
import { outlineOf } from './outline.ts';
import type { Outline } from './outline.ts';
import { undisturbed } from './undisturbed.ts';

export interface StudyAsked { readonly text: string; readonly sheet: SheetName; readonly choices: Choices; /** for sheets that print what lies in it */ readonly folder?: Folder | undefined }

export interface Study {
  readonly build: string;
  /** units that the file itself asks for */
  readonly units: 'metric' | 'imperial';
  readonly counts: LevelCounts;
  /** all that do not hold, worst first; those that hold come on request */
  readonly open: readonly FindingRow[];
  readonly next: { readonly do: string; readonly path: string | undefined; readonly about: readonly string[] };
  readonly problems: readonly Problem[];
  readonly outline: Outline;
  readonly sheet: { readonly name: SheetName; readonly model: unknown };
  /** a build with nothing in it yet: the guided start helps */
  readonly isEmpty: boolean;
  /** first characters of the hash of the text */
  readonly revision: string;
  /** [ms], in the worker */
  readonly took: number;
}

/** What a study needs of the machine that it is made on. */
export interface Machine {
  /** [ms], of any clock */
  readonly now: () => number;
  /** first characters of the SHA-256 of a text, as `halfshaft sheet` prints them; — where none can be had */
  readonly revisionOf: (text: string) => string | Promise<string>;
}

/** Plain data: it can be sent from a worker, and as text (`study-as-text.ts`). Checked: study/study.test.ts */
export async function studyOf({ text, sheet, choices, folder }: StudyAsked, kept: Pick<KeptAnalysis, 'of' | 'isNewest'>, { now, revisionOf }: Machine): Promise<Study> {
  const start = now();
  const model = models.find(({ name }) => name === sheet) ?? models[0];
  if (!model) throw new Error('the set has no sheets');
  const { analysis, drawn } = await undisturbed(kept, text, async (of) => ({ analysis: of, drawn: await model.model(of, choices, folder) }));
  const { build, findings, next } = analysis;
  return {
    build: build.name, units: build.units, counts: countLevels(findings),
    open: findings.filter(({ level }) => level !== 'holds').map(findingRow),
    next: { do: next.do, path: next.path, about: next.about },
    problems: build.problems, outline: outlineOf(analysis),
    sheet: { name: model.name, model: drawn },
    isEmpty: isEmpty(text, build), revision: await revisionOf(text), took: now() - start,
  };
}

/** Nothing to draw yet: no text at all, or a head without parts, cells or runs. A text that cannot be read is not empty. */
function isEmpty(text: string, build: Build): boolean {
  if (text.replace(/#.*$/gm, '').trim() === '') return true;
  return !isUnreadable(build.problems, build.parts.size) && build.parts.size === 0 && build.runs.size === 0 && build.cells.size === 0;
}
