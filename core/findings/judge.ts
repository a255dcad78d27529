/**
 * Checks -> findings: level, margin, wording and place are decided here and nowhere else.
 */
import type { Place } from '../build/place.ts';
import type { QuantityName } from '../quantity/quantity-table.ts';
import { codeTable } from './code-table.ts';
import type { CodeRow } from './code-row.ts';
import { levelOrder } from './finding.ts';
import type { Check, Finding, Level, SettledBy, TopicName } from './finding.ts';
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
  return new Judged(check, row, level, margin, doubt, options.units, places);
}

/** Most findings hold and are never read: they are put into words when somebody asks. One shape for all, for there are a thousand at every edit. */
class Judged implements Finding {
  readonly code: string; readonly topic: TopicName; readonly about: readonly string[]; readonly variant: string | undefined; readonly level: Level;
  readonly value: number | undefined; readonly limit: number | undefined; readonly sense: Check['sense']; readonly quantity: QuantityName | undefined;
  readonly margin: number | undefined; readonly chance: number | undefined; readonly settledBy: readonly SettledBy[];
  readonly needs: readonly string[]; readonly sources: readonly string[]; readonly path: string; readonly place: Place | undefined;
  readonly #check: Check; readonly #row: CodeRow; readonly #units: JudgeOptions['units'];
  #statement: string | undefined; #whatToDo: string | undefined;

  constructor(check: Check, row: CodeRow, level: Level, margin: number | undefined, doubt: Doubt | undefined, units: JudgeOptions['units'], places: PlaceFinder) {
    this.code = check.code;
    this.topic = row.topic;
    this.about = check.about;
    this.variant = check.variant;
    this.level = level;
    this.value = margin === undefined ? undefined : check.value;
    this.limit = margin === undefined ? undefined : check.limit;
    this.sense = check.sense;
    this.quantity = check.quantity;
    this.margin = margin;
    this.chance = doubt?.chance;
    this.settledBy = doubt?.settledBy ?? NOTHING;
    this.needs = check.needs ?? NOTHING;
    this.sources = row.sources;
    this.path = check.path ?? places.pathOf(check.about[0]);
    this.place = check.place ?? places.placeOf(this.path);
    this.#check = check;
    this.#row = row;
    this.#units = units;
    this.#statement = undefined;
    this.#whatToDo = undefined;
  }

  get statement(): string { return (this.#statement ??= word(this.#check, this.#row, this.level, this.margin, this.#units)); }
  get whatToDo(): string { return (this.#whatToDo ??= adviceOf(this.#check, this.#row, this.level, this.margin, this.#units)); }
  /** as JSON writes it, words and all */
  toJSON(): Finding { const { statement, whatToDo } = this; return { ...this, statement, whatToDo }; }
}

const NOTHING: readonly never[] = [];

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
