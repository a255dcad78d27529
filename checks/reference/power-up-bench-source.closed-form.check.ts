/**
 * A capacitor charged by a source that holds its current: the time that the power-up procedure predicts for the bus of the van, against the
 * closed form and against a SPICE engine that runs the whole network of the step in time.
 *
 * Source:    C dV/dt = I, so t = C V/I (definition of capacitance and of current; any textbook); with a resistance beside it
 *            t = -R C ln(1 - V/(I R)), the same equation with I - V/R; ngspice compiled to WebAssembly, run here: another program, a comparison
 * Grade:     closed form
 * Tolerance: closed form 1e-9; the procedure against the engine 0.2 %: the procedure takes the resistance at the clips alone, the engine all there is
 */
import { describe, expect, it } from 'vitest';
import { wireCar } from '../../core/car/wire-car.ts';
import { chargeTime } from '../../core/power-up/charge-time.ts';
import { powerUp } from '../../core/power-up/steps.ts';
import { solveInTime } from '../../core/solve/solve-in-time.ts';
import { spiceNetlist } from '../../core/solve/spice-netlist.ts';
import { carFromText } from '../fixtures/car-from-text.ts';
import { examples } from '../fixtures/examples.ts';
import { runSpice } from './against-spice.ts';

describe('a capacitor at constant current', () => {
  it.each([[0.05, 1e-3, 350], [0.5, 880e-6, 50], [2e-3, 22e-6, 400]])('%d A into %d F takes C V/I to %d V', (current, capacitance, voltage) => {
    expect(chargeTime(current, capacitance, Infinity, voltage)).toBeCloseTo((capacitance * voltage) / current, 9);
    // a resistance that takes a millionth of the current makes it longer by half of that
    expect(chargeTime(current, capacitance, (1e6 * voltage) / current, voltage)! / ((capacitance * voltage) / current) - 1).toBeCloseTo(0.5e-6, 8);
  });
  it('with a resistance beside it obeys C dV/dt = I - V/R, step by step', () => {
    const [current, capacitance, resistance, voltage] = [0.05, 1e-3, 15e3, 332];
    let [volts, time] = [0, 0];
    const step = 1e-5;
    for (; volts < voltage; time += step) { const middle = volts + ((current - volts / resistance) / capacitance) * (step / 2); volts += ((current - middle / resistance) / capacitance) * step; }
    expect(chargeTime(current, capacitance, resistance, voltage)! / time).toBeCloseTo(1, 4);
  });
  it('never comes where the resistance takes it all', () => expect(chargeTime(0.01, 1e-3, 10e3, 100)).toBeUndefined());
});

describe('the bus of the van filled from its bench source', () => {
  const { car, ask } = carFromText(examples.find(({ name }) => name === 'bakery-van')!.text);
  const steps = powerUp(car, ask, undefined).steps.filter(({ id }) => id.startsWith('limited-source.BENCH.rise.'));
  it('is predicted for both stages', () => expect(steps.length).toBe(2));
  it.each(steps.map((step) => [step.title, step] as const))('%s', async (title, { state = {}, measure, predicted }) => {
    if (measure?.is !== 'time') throw new Error('not a time');
    const wired = wireCar(car, state).network;
    const network = { ...wired, elements: wired.elements.map((element) => (element.type === 'capacitor' ? { ...element, initial: 0 } : element)) };
    const [positive, negative] = measure.voltageAt;
    const supply = network.elements.find(({ id }) => id === 'BENCH.supply');
    if (supply?.type !== 'supply') throw new Error('no supply');
    const level = 0.95 * supply.voltage;
    const duration = 1.2 * predicted!.nominal;
    const ours = solveInTime(network, { duration, every: duration / 200, probes: { nodes: [positive, negative], elements: [] } });
    if (ours.outcome !== 'solved') throw new Error(JSON.stringify(ours));
    const ourTime = crossing([...ours.times], [...ours.times].map((_, n) => ours.voltages[positive]![n]! - ours.voltages[negative]![n]!), level);
    const { text, nodeNames } = spiceNetlist(network, { kind: 'tran', step: duration / 200, stop: duration, events: [], longestStep: duration / 300 });
    const theirs = await runSpice(text);
    const [plus, minus] = [positive, negative].map((node) => theirs.get(`v(${nodeNames.get(node)!})`)!);
    const theirTime = crossing(theirs.get('time')!, plus!.map((volts, n) => volts - minus![n]!), level);
    console.log(`${title}: procedure ${predicted!.nominal.toFixed(4)} s, network in time ${ourTime.toFixed(4)} s, SPICE engine ${theirTime.toFixed(4)} s`);
    expect(Math.abs(predicted!.nominal / theirTime - 1)).toBeLessThan(0.002);
    expect(Math.abs(ourTime / theirTime - 1)).toBeLessThan(0.002);
  });
});

function crossing(times: readonly number[], values: readonly number[], level: number): number {
  const n = values.findIndex((value) => value >= level);
  if (n < 1) throw new Error('never reached');
  return times[n - 1]! + ((level - values[n - 1]!) / (values[n]! - values[n - 1]!)) * (times[n]! - times[n - 1]!);
}
