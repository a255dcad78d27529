import { describe, expect, it } from 'vitest';
import { carFromText } from '../../checks/fixtures/car-from-text.ts';
import { examples } from '../../checks/fixtures/examples.ts';
import { answerStore, askNetwork } from '../car/ask-network.ts';
import { realise } from '../car/realise.ts';
import { drawTable } from '../chance/draw-table.ts';
import { seededRandom } from '../solve/random.ts';
import { bandOf, spreadFactor, spreadOf } from './bands.ts';
import { readMeasure } from './read-measure.ts';
import { powerUp } from './steps.ts';

describe('the factor on the spread of few draws', () => {
  it('covers 95 % of further readings of a normal distribution', () => {
    const random = seededRandom(5);
    const normal = (): number => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
    for (const count of [5, 12, 20]) {
      let inside = 0;
      const trials = 20_000;
      for (let trial = 0; trial < trials; trial++) {
        const values = Array.from({ length: count }, normal);
        const mean = values.reduce((sum, value) => sum + value, 0) / count;
        if (Math.abs(normal() - mean) <= spreadFactor(count) * spreadOf(values)!.deviation) inside++;
      }
      expect(inside / trials).toBeGreaterThan(0.944);
      expect(inside / trials).toBeLessThan(0.956);
    }
  });
  it('refuses one draw', () => expect(() => spreadFactor(1)).toThrow(RangeError));
});

describe('a band', () => {
  const meter = { name: 'meter', category: undefined, share: 0, fixed: 0 };
  it('of an insulation is a ratio, so that it never reaches 0', () => {
    const band = bandOf(50e6, spreadOf([10e6, 20e6, 50e6, 100e6, 250e6]), meter, true);
    expect(band.low).toBeGreaterThan(0);
    expect(band.high / 50e6).toBeCloseTo(50e6 / band.low, 9);
  });
  it('does not pass what no draw passes by much', () => expect(bandOf(18, spreadOf([18, 18, 18, 18, 4]), meter, false).high).toBe(18));
  it('keeps the sign that all draws have', () => expect(bandOf(-1, spreadOf([-0.1, -1, -6]), meter, false).high).toBe(0));
  it('is the meter’s own where nothing varies', () => expect(bandOf(100, undefined, { ...meter, share: 0.005, fixed: 0.3 }, false)).toEqual({ nominal: 100, low: 99.2, high: 100.8 }));
});

describe('the bands of the orchard hauler', () => {
  it('hold what other draws read', () => {
    const { car, ask, prepared, build } = carFromText(examples.find(({ name }) => name === 'orchard-hauler')!.text);
    const steps = powerUp(car, ask, prepared).steps.filter(({ predicted, measure }) => predicted && measure);
    const table = drawTable([...build.quantities.values()], 60, 77);
    const store = answerStore();
    let [inside, all] = [0, 0];
    for (let draw = 0; draw < 60; draw++) {
      const other = realise(prepared, table.valueOf(draw));
      const network = askNetwork(other, store);
      for (const { state = {}, measure, predicted } of steps) {
        const value = readMeasure(other, network, state, measure!);
        if (value === undefined) continue;
        all++;
        if (value >= predicted!.low && value <= predicted!.high) inside++;
      }
    }
    expect(all).toBeGreaterThan(1000);
    expect(inside / all).toBeGreaterThan(0.95);
  });
});
