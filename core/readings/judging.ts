/** All that it takes to judge readings of one build: made once, then each reading is quick. */
import type { Network } from '../car/ask.ts';
import type { Car } from '../car/car.ts';
import type { PreparedCar } from '../car/realise.ts';
import type { State } from '../car/state.ts';
import { bandOf, spreads, USUAL_DRAWS } from '../power-up/bands.ts';
import { causeFinder } from '../power-up/causes.ts';
import { ohmmeter, voltmeter } from '../power-up/instruments.ts';
import { planOf } from '../power-up/plan.ts';
import { readMeasure } from '../power-up/read-measure.ts';
import type { Measure, PowerUpStep } from '../power-up/step.ts';
import type { Entered } from './entered.ts';
import { moduleMeanings } from './reversed-module.ts';
import { judge } from './verdict.ts';
import type { Verdict } from './verdict.ts';

/** Causes asked for; the few that explain the reading are shown. */
const MOST_CAUSES = 12;

export interface Judging { readonly judge: (step: PowerUpStep, entered: Entered) => Verdict }

export function judging(car: Car, ask: Network): Judging {
  const finder = causeFinder(car, ask);
  const suspicions = { causes: (step: PowerUpStep) => finder.causesOf(step, MOST_CAUSES), modules: (step: PowerUpStep) => moduleMeanings(car, ask, step) };
  return { judge: (step, entered) => judge(step, entered, suspicions) };
}

/**
 * A reading between any two points in a state, as a step of its own: predicted with a band like every other.
 * @param quantity  `resistance` is for a dead circuit
 */
export function freeStep(car: Car, ask: Network, prepared: PreparedCar, asked: { readonly a: string; readonly b: string; readonly state: State; readonly quantity: 'voltage' | 'resistance' }): PowerUpStep {
  const { a, b, state, quantity } = asked;
  const measure: Measure = { is: quantity, a, b };
  const instrument = quantity === 'voltage' ? voltmeter(planOf(car, ask).packVoltage) : ohmmeter;
  const nominal = readMeasure(car, ask, state, measure);
  const [spread] = nominal === undefined ? [] : spreads(prepared, [{ state, measure, isUnloaded: false }], USUAL_DRAWS);
  return {
    id: '', phase: 'prepare', title: `${a} to ${b}`, action: '', about: [], hazard: 'none', isHoldPoint: false, state, measure, quantity, instrument, expect: '',
    predicted: nominal === undefined ? undefined : bandOf(nominal, spread, instrument, quantity === 'resistance'),
    willFail: false, limit: undefined, notPredicted: nominal === undefined ? 'the network has no answer in this state' : undefined, unknown: [], people: '', cautions: [], lost: [],
  };
}
