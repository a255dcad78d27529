/**
 * The predicted readings of the power-up procedure, state by state, against a SPICE engine: the network of the step with the meter laid
 * across, all node voltages compared, and the reading itself from those nodes.
 *
 * Source:    ngspice (open source circuit simulator) compiled to WebAssembly, run here; another program, so a comparison, no published value
 * Tolerance: 0.1 % of the largest voltage of the network; 10 µV between the reading and its network. The observed worst is printed
 */
import { describe, expect, it } from 'vitest';
import { wireCar } from '../../core/car/wire-car.ts';
import { asRead } from '../../core/power-up/as-read.ts';
import { powerUp } from '../../core/power-up/steps.ts';
import { solveAtRest } from '../../core/solve/solve-at-rest.ts';
import { carFromText } from '../fixtures/car-from-text.ts';
import { examples } from '../fixtures/examples.ts';
import { compareAtRest } from './against-spice.ts';

describe.each(examples)('$name', ({ name, text }) => {
  const made = carFromText(text);
  const { car, ask } = asRead(made.car, made.ask);
  const seen = new Set<string>();
  const steps = powerUp(car, ask, undefined).steps.filter(({ measure, state, predicted }) => {
    const key = JSON.stringify(state);
    if (measure?.is !== 'voltage' || !predicted || seen.has(key)) return false;
    seen.add(key);
    return true;
  });
  it('has many states', () => expect(steps.length).toBeGreaterThan(9));
  it.each(steps.map((step) => [step.id, step] as const))('agrees in the state of %s', async (id, { state = {}, measure, predicted }) => {
    if (measure?.is !== 'voltage') throw new Error('not a voltage');
    const { network } = wireCar(car, { ...state, bridges: [...(state.bridges ?? []), { a: measure.a, b: measure.b, resistance: 10e6 }] });
    const ours = solveAtRest(network);
    if (ours.outcome !== 'solved') throw new Error(JSON.stringify(ours));
    expect(Math.abs(ours.voltageOf(measure.a) - ours.voltageOf(measure.b) - predicted!.nominal)).toBeLessThan(2e-5);
    const { worst, node } = await compareAtRest(network);
    console.log(`${name} ${id}: voltages to ${worst.toExponential(1)} (${node})`);
    expect(worst).toBeLessThan(1e-3);
  });
});
