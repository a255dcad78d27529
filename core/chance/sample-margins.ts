/**
 * The margin of every check in each of a range of draws. What a worker does; ranges of one seed join without a seam.
 */
import { askNetwork } from '../car/ask-network.ts';
import type { AnswerStore } from '../car/ask-network.ts';
import type { PreparedCar } from '../car/realise.ts';
import { realise } from '../car/realise.ts';
import type { Check } from '../findings/finding.ts';
import { checkKey, marginOf } from '../findings/judge.ts';
import type { Topic } from '../topics/topic.ts';
import { drawTable } from './draw-table.ts';

export interface SampleRequest {
  /** draws in the whole table */
  readonly draws: number;
  readonly seed: number;
  /** first draw of this range, and the one after the last */
  readonly first: number; readonly end: number;
}

/** By check key: one margin a draw of the range; NaN stands for "could not be made in this draw". Stays inside `core/chance`. */
export type Margins = ReadonlyMap<string, Float64Array>;

/**
 * @param store     keeps factorisations between draws; one for each worker
 * @param progress  called after each draw with the number done
 */
export function sampleMargins(prepared: PreparedCar, topics: readonly Topic[], request: SampleRequest, store: AnswerStore, progress?: (done: number) => void): Margins {
  const table = drawTable([...prepared.build.quantities.values()], request.draws, request.seed, request.first, request.end);
  const rows = marginRows(request.end - request.first);
  for (let draw = request.first; draw < request.end; draw++) {
    const car = realise(prepared, table.valueOf(draw), { isForMargins: true });
    const ask = askNetwork(car, store);
    rows.startDraw();
    for (const topic of topics) for (const check of topic.study(car, ask).checks) rows.rowOf(check)[draw - request.first] = marginOf(check) ?? Number.NaN;
    progress?.(draw - request.first + 1);
  }
  return rows.byKey;
}

/** Finds the row of a check. Draws make the same checks in the same order, so the place of the last draw is tried before the key. */
function marginRows(count: number): { readonly byKey: Map<string, Float64Array>; readonly startDraw: () => void; readonly rowOf: (check: Check) => Float64Array } {
  const byKey = new Map<string, Float64Array>();
  const places: { readonly check: Check; readonly row: Float64Array }[] = [];
  let next = 0;
  return {
    byKey,
    startDraw: () => { next = 0; },
    rowOf: (check) => {
      const place = places[next];
      if (place && isSame(place.check, check)) { next++; return place.row; }
      const key = checkKey(check);
      let row = byKey.get(key);
      if (!row) byKey.set(key, (row = new Float64Array(count).fill(Number.NaN)));
      places[next++] = { check, row };
      return row;
    },
  };
}

function isSame(a: Check, b: Check): boolean {
  if (a.code !== b.code || a.variant !== b.variant || a.about.length !== b.about.length) return false;
  for (let index = 0; index < a.about.length; index++) if (a.about[index] !== b.about[index]) return false;
  return true;
}

/** Joins ranges in the order of their draws. A check that a range never made is absent there. */
export function joinMargins(ranges: readonly { readonly request: SampleRequest; readonly margins: Margins }[]): Margins {
  const total = ranges.reduce((sum, { request }) => sum + request.end - request.first, 0);
  const joined = new Map<string, Float64Array>();
  let offset = 0;
  for (const { request, margins } of [...ranges].sort((a, b) => a.request.first - b.request.first)) {
    for (const [key, row] of margins) {
      let whole = joined.get(key);
      if (!whole) joined.set(key, (whole = new Float64Array(total).fill(Number.NaN)));
      whole.set(row, offset);
    }
    offset += request.end - request.first;
  }
  return joined;
}
