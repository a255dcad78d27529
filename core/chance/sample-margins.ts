/**
 * The margin of every check in each of a range of draws. What a worker does; ranges of one seed join without a seam.
 */
import { askNetwork } from '../car/ask-network.ts';
import type { AnswerStore } from '../car/ask-network.ts';
import type { PreparedCar } from '../car/realise.ts';
import { realise } from '../car/realise.ts';
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
  const table = drawTable([...prepared.build.quantities.values()], request.draws, request.seed);
  const count = request.end - request.first;
  const margins = new Map<string, Float64Array>();
  for (let draw = request.first; draw < request.end; draw++) {
    const car = realise(prepared, table.valueOf(draw));
    const ask = askNetwork(car, store);
    for (const topic of topics) {
      for (const check of topic.study(car, ask).checks) {
        const key = checkKey(check);
        let row = margins.get(key);
        if (!row) margins.set(key, (row = new Float64Array(count).fill(Number.NaN)));
        row[draw - request.first] = marginOf(check) ?? Number.NaN;
      }
    }
    progress?.(draw - request.first + 1);
  }
  return margins;
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
