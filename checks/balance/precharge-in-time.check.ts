/**
 * The precharge curve of the high-voltage subject (closed form and quadrature on the circuit seen from the link) against the whole
 * network of the van stepped through time, relays and all. Both are ours, by different ways: a consistency check, no reference.
 */
import { describe, expect, it } from 'vitest';
import { wireCar } from '../../core/car/wire-car.ts';
import { solveInTime } from '../../core/solve/solve-in-time.ts';
import { highVoltage } from '../../core/topics/high-voltage/study.ts';
import { carFromText } from '../fixtures/car-from-text.ts';
import { examples } from '../fixtures/examples.ts';

/** Time at which a rising curve passes a level, by straight lines. */
function passes(times: readonly number[], values: readonly number[], level: number): number {
  const next = values.findIndex((value) => value >= level);
  if (next <= 0) throw new Error(`the curve does not pass ${level}`);
  const [a, b] = [values[next - 1] as number, values[next] as number];
  const [from, to] = [times[next - 1] as number, times[next] as number];
  return from + ((to - from) * (level - a)) / (b - a);
}

describe('the precharge of the bakery van', () => {
  const { car, ask } = carFromText(examples.find(({ name }) => name === 'bakery-van')?.text as string);
  const result = highVoltage.study(car, ask).results.precharge.precharges.find(({ mode }) => mode === 'precharge');
  it('is found', () => expect(result?.kind).toBe('resistor'));
  it('takes the same time in the whole network', () => {
    if (!result) throw new Error('no precharge');
    // the subject judges a full pack; so does the network here
    const wired = wireCar(car, { mode: 'precharge', stateOfCharge: 1 }).network;
    const network = { nodes: wired.nodes, elements: wired.elements.map((element) => (element.type === 'capacitor' ? { ...element, initial: 0 } : element)) };
    const solved = solveInTime(network, { duration: 3, every: 0.002, probes: { nodes: ['DU.pos', 'DU.neg'], elements: [] } });
    expect(solved.outcome).toBe('solved');
    if (solved.outcome !== 'solved') return;
    const link = [...solved.times].map((_, index) => (solved.voltages['DU.pos']?.[index] as number) - (solved.voltages['DU.neg']?.[index] as number));
    const end = link.at(-1) as number;
    // the subject takes cells at their highest voltage in service, the network takes them from the curve of the chemistry
    expect(Math.abs(end / result.endVoltage - 1)).toBeLessThan(0.01);
    const curve = { times: result.curve.map(({ time }) => time), values: result.curve.map(({ voltage }) => voltage) };
    for (const share of [0.5, 0.8, 0.9, 0.95]) {
      const ours = passes(curve.times, curve.values, share * result.endVoltage) - passes(curve.times, curve.values, 0.1 * result.endVoltage);
      const stepped = passes([...solved.times], link, share * end) - passes([...solved.times], link, 0.1 * end);
      expect(Math.abs(ours / stepped - 1), `from 10 % to ${share * 100} %`).toBeLessThan(0.02);
    }
  });
});
