/**
 * The three-reading procedure as steps: the resistor near (required Ω/V × voltage) ± 20 %, a meter of 10 MΩ, a test voltage of at least half
 * the working voltage; and the result that the steps predict against the leaks of a car that are known exactly.
 *
 * Source:  UN R100 annex 4B, 1.2.2, 1.2.3 and note 1, annex 4A (test voltage), as in the project's reference notes, section 6;
 *          ISO 6469-3 8.2.2 (2014 text): test voltage at least the highest working voltage
 * Grade:   published; the leaks side by side are closed form
 * Tolerance: 1 %: the meter's own 10 MΩ counts as a leak, as 1.2.2 says
 */
import { describe, expect, it } from 'vitest';
import { isolationFromReadings } from '../../core/physics/isolation.ts';
import { knownResistor, testVoltageFor } from '../../core/power-up/instruments.ts';
import { powerUp } from '../../core/power-up/steps.ts';
import { carFromText } from '../fixtures/car-from-text.ts';
import { examples } from '../fixtures/examples.ts';

describe('UN R100 annex 4B note 1: the known resistor', () => {
  it.each([100, 250, 353, 403, 600, 800])('is within 20 %% of 500 Ω/V at %d V', (volts) => expect(Math.abs(knownResistor(500, volts) / (500 * volts) - 1)).toBeLessThan(0.2));
});

describe('test voltage of the insulation tester', () => {
  it.each([[353, 500], [403, 500], [800, 1000], [48, 50]])('for %d V is %d V, the highest working voltage or more', (working, test) => expect(testVoltageFor(working, undefined)).toBe(test));
  it('falls to what a part bears, never below half the working voltage', () => {
    expect(testVoltageFor(353, 420)).toBe(250);
    expect(testVoltageFor(353, 420)! >= 353 / 2).toBe(true);
    expect(testVoltageFor(800, 420)).toBeUndefined();
  });
});

describe('the readings of the steps', () => {
  const { car, ask } = carFromText(examples.find(({ name }) => name === 'two-string-coupe')!.text);
  const steps = powerUp(car, ask, undefined).steps;
  const read = (id: string): number => Math.abs(steps.find((step) => step.id === `isolation.bus.ready.${id}`)!.predicted!.nominal);
  it('put into the formula give the isolation that the step predicts', () => {
    const added = (steps.find(({ id }) => id === 'isolation.bus.ready.with-resistor')!.state!.bridges ?? [])[0]!.resistance;
    const found = isolationFromReadings({ pack: read('pack'), negative: read('negative'), positive: read('positive'), added, withAdded: read('with-resistor') });
    expect(found.outcome === 'resistance' && found.resistance / read('result')).toBeCloseTo(1, 9);
  });
  it('find the wet heater: its leak beside all others, as resistances side by side', () => {
    // the leaks of one pole that the file gives, and the meter
    const seen = ask.thevenin({ mode: 'ready' }, 'INV_L.pos', 'chassis');
    const [v1, v2] = [read('negative'), read('positive')];
    const leak = seen.outcome === 'solved' ? (seen.resistance * (v1 + v2)) / Math.max(v1, v2) : 0;
    expect(Math.abs(read('result') / leak - 1)).toBeLessThan(0.02);
  });
});
