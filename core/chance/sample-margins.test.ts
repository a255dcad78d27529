import { describe, expect, it } from 'vitest';
import { carFromText } from '../../checks/fixtures/car-from-text.ts';
import { highVoltageCar } from '../../checks/fixtures/high-voltage-car.ts';
import { lowVoltageCar } from '../../checks/fixtures/low-voltage-car.ts';
import { converterCar, prechargeCar } from '../../checks/fixtures/precharge-car.ts';
import { topics as allTopics } from '../analyse.ts';
import { answerStore, askNetwork } from '../car/ask-network.ts';
import { realise } from '../car/realise.ts';
import { checkKey, marginOf } from '../findings/judge.ts';
import { drawTable } from './draw-table.ts';
import { joinMargins, sampleMargins } from './sample-margins.ts';

const DRAWS = 4;
/** The rules of modes rest on words, which no draw changes, and are left out of draws. */
const topics = allTopics.filter(({ name }) => name !== 'modes');

describe('margins of draws', () => {
  it('are those of the whole checks, each draw on its own', () => {
    for (const text of [highVoltageCar, lowVoltageCar, prechargeCar, converterCar]) {
      const { prepared } = carFromText(text);
      const margins = sampleMargins(prepared, topics, { draws: DRAWS, seed: 5, first: 0, end: DRAWS }, answerStore());
      const table = drawTable([...prepared.build.quantities.values()], DRAWS, 5);
      for (let draw = 0; draw < DRAWS; draw++) {
        const car = realise(prepared, table.valueOf(draw));
        const ask = askNetwork(car, answerStore());
        for (const check of topics.flatMap((topic) => topic.study(car, ask).checks)) {
          const margin = marginOf(check);
          const sampled = margins.get(checkKey(check))?.[draw];
          if (margin === undefined) expect(sampled, checkKey(check)).toBeNaN();
          else expect(Math.abs(sampled! - margin), checkKey(check)).toBeLessThanOrEqual(1e-7 * Math.max(1, Math.abs(margin)));
        }
      }
    }
  });

  it('join without a seam', () => {
    const { prepared } = carFromText(highVoltageCar);
    const range = (first: number, end: number) => { const request = { draws: DRAWS, seed: 2, first, end }; return { request, margins: sampleMargins(prepared, topics, request, answerStore()) }; };
    const joined = joinMargins([range(2, DRAWS), range(0, 2)]);
    for (const [key, row] of range(0, DRAWS).margins) row.forEach((margin, draw) => { if (!Number.isNaN(margin)) expect(Math.abs(joined.get(key)![draw]! - margin), key).toBeLessThanOrEqual(1e-7 * Math.max(1, Math.abs(margin))); });
  });
});
