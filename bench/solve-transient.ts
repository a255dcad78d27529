/**
 * Precharge of a link through a resistor against a constant-power load, with an invented car of 60 nodes and more around it:
 * ours against a SPICE engine (ngspice in WebAssembly) in the same run, at equal accuracy.
 *
 * Accuracy is the largest error of the link voltage at 100 samples against our own run at a tolerance of 1e-9. The engine runs
 * twice: at its own default tolerances and longest steps (its fastest way), and sharper; ours runs at the loosest tolerance at
 * which it is at least as accurate. Both are warmed up (the engine is compiled ahead of time) and each has its best of ten runs.
 */
import type { Network } from '../core/solve/element.ts';
import { solveInTime } from '../core/solve/solve-in-time.ts';
import { spiceNetlist } from '../core/solve/spice-netlist.ts';
import type { TimeSolved } from '../core/solve/time-result.ts';
import { runSpice } from '../checks/reference/against-spice.ts';
import { generateCarNetwork } from './generate-car-network.ts';
import type { Measured } from './measured.ts';

const DURATION = 0.4, EVERY = 0.004;
const WANTED = 5;

function prechargeCar(): Network {
  const car = generateCarNetwork({ nodes: 70, seed: 11, driving: false, cornered: false });
  return {
    nodes: [...car.nodes, 'link'],
    elements: [...car.elements,
      { type: 'switch', id: 'pre', a: 'hv_p', b: 'link', closed: false, resistance: 47 }, { type: 'capacitor', id: 'C', a: 'link', b: 'hv_n', capacitance: 1e-3, initial: 0 },
      { type: 'power', id: 'standby', a: 'link', b: 'hv_n', power: 40, knee: 60 }, { type: 'resistor', id: 'bleed', a: 'link', b: 'hv_n', resistance: 1e5 }],
  };
}

export async function run(): Promise<Measured[]> {
  const network = prechargeCar();
  const solve = (tolerance: number): TimeSolved => {
    const result = solveInTime(network, { duration: DURATION, every: EVERY, tolerance, events: [{ at: 0, element: 'pre', closed: true }], probes: { nodes: ['link', 'hv_n'], elements: ['pre'] } });
    if (result.outcome !== 'solved') throw new Error(`not solved: ${result.outcome}`);
    return result;
  };
  const across = (result: TimeSolved): Float64Array => result.voltages['link']!.map((v, n) => v - result.voltages['hv_n']![n]!);
  const exact = across(solve(1e-9));
  const errorOf = (values: ArrayLike<number>): number => { let worst = 0; for (let n = 1; n < exact.length; n++) worst = Math.max(worst, Math.abs(values[n]! - exact[n]!)); return worst; };
  // the contact is closed from the start: no switching in the engine's way
  const closed: Network = { nodes: network.nodes, elements: network.elements.map((element) => (element.id === 'pre' && element.type === 'switch' ? { type: 'resistor', id: 'pre', a: element.a, b: element.b, resistance: element.resistance } : element)) };
  const rows: Measured[] = [];
  for (const [way, options, longestStep] of [['at its defaults', 'gmin=1e-15 pivtol=1e-20', undefined], ['sharper', 'reltol=1e-4 gmin=1e-15 pivtol=1e-20', EVERY]] as const) {
    const { text, nodeNames } = spiceNetlist(closed, { kind: 'tran', step: EVERY, stop: DURATION, events: [], ...(longestStep === undefined ? {} : { longestStep }) }, { options });
    let theirs = await runSpice(text), reference = Infinity;
    for (let n = 0; n < 10; n++) { const start = performance.now(); theirs = await runSpice(text); reference = Math.min(reference, performance.now() - start); }
    const times = theirs.get('time')!, link = theirs.get(`v(${nodeNames.get('link')!})`)!, low = theirs.get(`v(${nodeNames.get('hv_n')!})`)!;
    const theirError = errorOf(exact.map((_, n) => at(times, link, n * EVERY) - at(times, low, n * EVERY)));

    let tolerance = 1e-3, ourError = Infinity;
    for (; tolerance > 1e-9; tolerance /= 2) { ourError = errorOf(across(solve(tolerance))); if (ourError <= theirError) break; }
    for (let n = 0; n < 30; n++) solve(tolerance);
    let ours = Infinity;
    for (let n = 0; n < 10; n++) { const start = performance.now(); solve(tolerance); ours = Math.min(ours, performance.now() - start); }
    rows.push({ name: `precharge, ${network.nodes.length} nodes, engine ${way} (largest error: ours ${ourError.toExponential(1)} V, engine ${theirError.toExponential(1)} V)`, ours, reference, referenceName: 'a SPICE engine at no better accuracy', wanted: `${WANTED} times faster at least`, isMet: reference / ours >= WANTED });
  }
  return rows;
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
