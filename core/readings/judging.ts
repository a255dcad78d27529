/** All that it takes to judge readings of one build: made once, then each reading is quick. */
import type { Network } from '../car/ask.ts';
import type { Car } from '../car/car.ts';
import type { PreparedCar } from '../car/realise.ts';
import type { State } from '../car/state.ts';
import { asRead, withDrift } from '../power-up/as-read.ts';
import { bandOf, spreads, USUAL_DRAWS } from '../power-up/bands.ts';
import { causeFinder } from '../power-up/causes.ts';
import { ohmmeter, voltmeter } from '../power-up/instruments.ts';
import { planOf } from '../power-up/plan.ts';
import { readMeasure } from '../power-up/read-measure.ts';
import type { Measure } from '../power-up/step.ts';
import type { Entered } from './entered.ts';
import { mistakeMeanings, pointReading, readingsOfBattery } from './mistakes.ts';
import type { ReadStep } from './read-step.ts';
import type { Reading } from './reading.ts';
import { judge } from './verdict.ts';
import type { Verdict } from './verdict.ts';

/** Causes asked for; the few that explain the reading are shown. */
const MOST_CAUSES = 12;

export interface Judging {
  /** @param others  steps and log of the battery so far, asked for only when the reading lies outside: what they say of the way it is put together counts too */
  readonly judge: (step: ReadStep, entered: Entered, others?: () => { readonly steps: readonly ReadStep[]; readonly readings: readonly Reading[] }) => Verdict;
}

export function judging(car: Car, ask: Network): Judging {
  const finder = causeFinder(car, ask);
  return {
    judge: (step, entered, others) => judge(step, entered, {
      // its phase does not matter for what moves a reading
      causes: (one) => finder.causesOf({ suspects: [], ...one, phase: 'join' }, MOST_CAUSES),
      mistakes: (one, value) => {
        const now = pointReading(car, ask, one, value);
        if (!now) return [];
        const { steps, readings } = others?.() ?? { steps: [], readings: [] };
        return mistakeMeanings(car, now, readingsOfBattery(car, ask, steps.filter(({ id }) => id !== one.id), readings));
      },
    }),
  };
}

/**
 * A reading between any two points in a state, as a step of its own: predicted with a band like every other.
 * @param prepared  for the band; undefined leaves it to the meter alone
 * @param quantity  `resistance` is for a dead circuit
 */
export function freeStep(given: Car, network: Network, prepared: PreparedCar | undefined, asked: { readonly a: string; readonly b: string; readonly state: State; readonly quantity: 'voltage' | 'resistance' }): ReadStep {
  const { a, b, state, quantity } = asked;
  // as every step of the procedure is predicted
  const { car, ask } = asRead(given, network);
  const measure: Measure = { is: quantity, a, b };
  const instrument = quantity === 'voltage' ? voltmeter(planOf(car, ask).packVoltage) : ohmmeter;
  const nominal = readMeasure(car, ask, state, measure);
  const [spread] = nominal === undefined || !prepared ? [] : spreads(prepared, [{ state, measure, isUnloaded: false }], USUAL_DRAWS);
  return {
    id: '', title: `${a} to ${b}`, action: '', about: [], hazard: 'none', isHoldPoint: false, state, measure, quantity, instrument, expect: '',
    predicted: nominal === undefined ? undefined : bandOf(nominal, spread, quantity === 'voltage' ? withDrift(instrument, nominal, planOf(car, ask).packVoltage, car !== given) : instrument, quantity === 'resistance'),
    willFail: false, limit: undefined, notPredicted: nominal === undefined ? 'the network has no answer in this state' : undefined, unknown: [], people: '', cautions: [], lost: [],
  };
}
