/**
 * Measurement categories: CAT II plugged-in appliances, CAT III the fixed installation; the voltage beside it is at least what stands at the
 * probes. A battery of class B is treated like CAT III.
 *
 * Source:  IEC 61010-031 / IEC 61010-2-033 (from memory); treating a traction battery as CAT III is trade practice, no source
 */
import { describe, expect, it } from 'vitest';
import { category } from '../../core/power-up/instruments.ts';
import { powerUp } from '../../core/power-up/steps.ts';
import { carFromText } from '../fixtures/car-from-text.ts';
import { examples } from '../fixtures/examples.ts';

describe('IEC 61010 measurement categories', () => {
  it.each([[12, 'CAT II 300 V'], [60, 'CAT II 300 V'], [61, 'CAT III 600 V'], [353, 'CAT III 600 V'], [600, 'CAT III 600 V'], [601, 'CAT III 1000 V'], [1500, 'CAT III 1500 V']])('%d V asks for %s', (volts, name) => expect(category(volts)).toBe(name));
  it('knows none above 1500 V', () => expect(category(1501)).toBeUndefined());
  it.each(examples)('is enough for every predicted reading of $name', ({ text }) => {
    const { car, ask } = carFromText(text);
    for (const { instrument, predicted, measure, id } of powerUp(car, ask, undefined).steps) {
      if (measure?.is !== 'voltage' || !predicted) continue;
      expect(Number(/(\d+) V/.exec(instrument!.category!)![1]), id).toBeGreaterThanOrEqual(Math.abs(predicted.high));
    }
  });
});
