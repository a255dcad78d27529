/**
 * Precharge of a link through a resistor against a constant-power load, with an invented car of 60 nodes and more around it:
 * ours against a SPICE engine (ngspice in WebAssembly) in the same run, at equal accuracy.
 *
 * Accuracy is the largest error of the link voltage at 100 samples against our own run at a tolerance of 1e-9. Ours runs at 1e-5;
 * the engine runs at the coarsest of a few step limits at which it is as accurate, or at the finest if none is.
 */
import type { Network } from '../core/solve/element.ts';
import { solveInTime } from '../core/solve/solve-in-time.ts';
import { spiceNetlist } from '../core/solve/spice-netlist.ts';
import type { TimeSolved } from '../core/solve/time-result.ts';
import { runSpice } from '../checks/reference/against-spice.ts';
import { generateCarNetwork } from './generate-car-network.ts';
import type { BenchRow } from './solve-sweep.ts';

const DURATION = 0.4, EVERY = 0.004;

function prechargeCar(): Network {
  const car = generateCarNetwork({ nodes: 70, seed: 11, driving: false, cornered: false });
  return {
    nodes: [...car.nodes, 'link'],
    elements: [...car.elements,
      { type: 'switch', id: 'pre', a: 'hv_p', b: 'link', closed: false, resistance: 47 }, { type: 'capacitor', id: 'C', a: 'link', b: 'hv_n', capacitance: 1e-3, initial: 0 },
      { type: 'power', id: 'standby', a: 'link', b: 'hv_n', power: 40, knee: 60 }, { type: 'resistor', id: 'bleed', a: 'link', b: 'hv_n', resistance: 1e5 }],
  };
}

export async function run(): Promise<BenchRow[]> {
  const network = prechargeCar();
  const solve = (tolerance: number): TimeSolved => {
    const result = solveInTime(network, { duration: DURATION, every: EVERY, tolerance, events: [{ at: 0, element: 'pre', closed: true }], probes: { nodes: ['link', 'hv_n'], elements: ['pre'] } });
    if (result.outcome !== 'solved') throw new Error(`not solved: ${result.outcome}`);
    return result;
  };
  const across = (result: TimeSolved): Float64Array => result.voltages['link']!.map((v, n) => v - result.voltages['hv_n']![n]!);
  const exact = across(solve(1e-9));
  const errorOf = (values: ArrayLike<number>): number => { let worst = 0; for (let n = 1; n < exact.length; n++) worst = Math.max(worst, Math.abs(values[n]! - exact[n]!)); return worst; };
  const ourError = errorOf(across(solve(1e-5)));
  let ours = Infinity;
  for (let n = 0; n < 5; n++) { const start = performance.now(); solve(1e-5); ours = Math.min(ours, performance.now() - start); }

  let reference = Infinity, theirError = Infinity;
  for (const longestStep of [EVERY * 5, EVERY, EVERY / 4, EVERY / 16]) {
    // the contact is closed from the start: no switching in the engine's way
    const closed: Network = { nodes: network.nodes, elements: network.elements.map((element) => (element.id === 'pre' && element.type === 'switch' ? { type: 'resistor', id: 'pre', a: element.a, b: element.b, resistance: element.resistance } : element)) };
    const { text, nodeNames } = spiceNetlist(closed, { kind: 'tran', step: EVERY, stop: DURATION, events: [], longestStep }, { options: 'reltol=1e-4 gmin=1e-15 pivtol=1e-20' });
    await runSpice(text);
    const start = performance.now();
    const theirs = await runSpice(text);
    reference = performance.now() - start;
    const times = theirs.get('time')!, link = theirs.get(`v(${nodeNames.get('link')!})`)!, low = theirs.get(`v(${nodeNames.get('hv_n')!})`)!;
    theirError = errorOf(exact.map((_, n) => at(times, link, n * EVERY) - at(times, low, n * EVERY)));
    if (theirError <= ourError) break;
  }
  return [{ name: `precharge, ${network.nodes.length} nodes (largest error: ours ${ourError.toExponential(1)} V, engine ${theirError.toExponential(1)} V)`, ours_ms: ours, reference_ms: reference, ratio: reference / ours, wanted: 5 }];
}

/** Value between the engine's steps, by the parabola through three of them (a straight line would add an error of its own). */
function at(times: readonly number[], values: readonly number[], t: number): number {
  let high = times.findIndex((time) => time >= t);
  if (high < 0) high = times.length - 1;
  const first = Math.min(Math.max(0, high - 1), times.length - 3);
  let sum = 0;
  for (let i = first; i < first + 3; i++) {
    let weight = 1;
    for (let j = first; j < first + 3; j++) if (j !== i) weight *= (t - times[j]!) / (times[i]! - times[j]!);
    sum += weight * values[i]!;
  }
  return sum;
}
