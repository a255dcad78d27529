/**
 * Checks -> findings: level, margin, wording and place are decided here and nowhere else.
 */
import type { Place } from '../build/place.ts';
import { codeTable } from './code-table.ts';
import type { CodeRow } from './code-row.ts';
import { levelOrder } from './finding.ts';
import type { Check, Finding, Level, SettledBy } from './finding.ts';
import { adviceOf, word } from './word.ts';

/** What sampling adds to a check, by `checkKey`. */
export interface Doubt { readonly chance: number; readonly settledBy: readonly SettledBy[] }

export interface JudgeOptions {
  readonly places: ReadonlyMap<string, Place>;
  readonly units: 'metric' | 'imperial';
  readonly doubts?: ReadonlyMap<string, Doubt>;
}

/** A check that holds with a smaller chance than this is at `watch`: 95 %, and 99 % where being wrong is at `stop`. */
export const sureEnough = (row: Pick<CodeRow, 'whenBroken'>): number => (row.whenBroken === 'stop' ? 0.99 : 0.95);

/** The name of a check that stays the same from draw to draw. */
export function checkKey(check: Check): string {
  return `${check.code} ${check.about.join('+')}${check.variant === undefined ? '' : ` ${check.variant}`}`;
}

/**
 * Signed distance to the limit as a share of the limit [1]; positive holds, 0 is just held. For a limit of 0, the distance itself.
 * @returns undefined when the check could not be made
 * Errors: throws when a check carries a number that is not finite
 */
export function marginOf(check: Check): number | undefined {
  if (check.value === undefined || check.limit === undefined || (check.needs?.length ?? 0) > 0) return undefined;
  if (!Number.isFinite(check.value) || !Number.isFinite(check.limit)) throw new Error(`check ${checkKey(check)} carries a number that is not finite`);
  const distance = check.sense === 'at_most' ? check.limit - check.value : check.value - check.limit;
  return check.limit === 0 ? distance : distance / Math.abs(check.limit);
}

/** Findings in the order: stop, fix, unknown, watch, holds; within a level in the order of the checks. */
export function judge(checks: readonly Check[], options: JudgeOptions): Finding[] {
  const places = placeFinder(options.places);
  const byLevel = levelOrder.map((): Finding[] => []);
  for (const check of checks) {
    const finding = findingOf(check, options, places);
    byLevel[levelOrder.indexOf(finding.level)]!.push(finding);
  }
  return byLevel.flat();
}

function findingOf(check: Check, options: JudgeOptions, places: PlaceFinder): Finding {
  const row = codeTable.get(check.code);
  if (!row) throw new Error(`check uses code ${check.code}, which the code table does not have`);
  const margin = marginOf(check);
  const doubt = options.doubts && options.doubts.get(checkKey(check));
  const level = levelOf(check, row, margin, doubt?.chance);
  const path = check.path ?? places.pathOf(check.about[0]);
  // most findings hold and are never read: they are put into words when somebody asks
  let statement: string | undefined;
  let whatToDo: string | undefined;
  return {
    code: check.code, topic: row.topic, about: check.about, variant: check.variant, level,
    get statement() { return (statement ??= word(check, row, level, margin, options.units)); },
    get whatToDo() { return (whatToDo ??= adviceOf(check, row, level, margin, options.units)); },
    value: margin === undefined ? undefined : check.value, limit: margin === undefined ? undefined : check.limit,
    sense: check.sense, quantity: check.quantity, margin, chance: doubt?.chance, settledBy: doubt?.settledBy ?? [],
    needs: check.needs ?? [], sources: row.sources, path, place: check.place ?? places.placeOf(path),
  };
}

function levelOf(check: Check, row: CodeRow, margin: number | undefined, chance: number | undefined): Level {
  if (margin === undefined) return 'unknown';
  if (margin < 0) return check.levelWhenBroken ?? row.whenBroken;
  if (check.sense !== 'is_true' && margin < row.nearMargin) return 'watch';
  if (chance !== undefined && chance < sureEnough(row)) return 'watch';
  return 'holds';
}

interface PlaceFinder { readonly pathOf: (name: string | undefined) => string; readonly placeOf: (path: string) => Place | undefined }

/** Many checks are about the same few things: each is looked up once. */
function placeFinder(places: ReadonlyMap<string, Place>): PlaceFinder {
  const paths = new Map<string | undefined, string>();
  const found = new Map<string, Place | undefined>();
  return {
    pathOf: (name) => {
      let path = paths.get(name);
      if (path === undefined) paths.set(name, (path = pathOf(name, places)));
      return path;
    },
    placeOf: (path) => {
      if (!found.has(path)) found.set(path, placeOf(path, places));
      return found.get(path);
    },
  };
}

/** A bare name is looked for in the sections of the file. */
function pathOf(name: string | undefined, places: ReadonlyMap<string, Place>): string {
  if (name === undefined) return '';
  for (const section of ['parts', 'runs', 'modes', 'cells', 'stock', 'removed']) if (places.has(`${section}.${name}`)) return `${section}.${name}`;
  return name;
}

/** The place of a path, or of the nearest thing above it that the file has. */
function placeOf(path: string, places: ReadonlyMap<string, Place>): Place | undefined {
  for (let at = path; at !== ''; at = at.slice(0, Math.max(0, at.lastIndexOf('.')))) {
    const place = places.get(at);
    if (place) return place;
  }
  return undefined;
}
