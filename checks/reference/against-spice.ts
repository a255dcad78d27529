/**
 * Holds our networks against a SPICE engine (ngspice compiled to WebAssembly, a test dependency): another program, not a
 * published value, so this is a comparison. It shares no code with ours; only the netlist writer stands between.
 *
 * The engine gets our node voltages as a starting guess (`.nodeset`), because a constant-power load has two voltages and
 * SPICE may find either; the guess decides which one it looks for, not what it finds.
 */
import { Simulation } from 'eecircuit-engine';
import type { Network } from '../../core/solve/element.ts';
import { solveAtRest } from '../../core/solve/solve-at-rest.ts';
import { solveInTime } from '../../core/solve/solve-in-time.ts';
import { spiceNetlist } from '../../core/solve/spice-netlist.ts';
import type { TimeRequest, TimeSolved } from '../../core/solve/time-result.ts';

export interface Comparison {
  /** largest difference of a node voltage as a share of the largest voltage in the network, and that node */
  readonly worst: number; readonly node: string;
  /** the same for currents that the engine reports, as a share of the largest of them */
  readonly worstCurrent: number; readonly element: string;
  readonly nodes: number;
  /** time at which the worst node differs most; 0 at rest */
  readonly time: number;
}

let engine: Promise<Simulation> | undefined;

/** Runs one netlist; throws with the engine's own words if it objects to anything. */
export async function runSpice(text: string): Promise<Map<string, readonly number[]>> {
  engine ??= (async () => { const made = new Simulation(); await made.start(); return made; })();
  const simulation = await engine;
  simulation.setNetList(text);
  const result = await answerOf(simulation);
  const complaints = simulation.getError().filter((line) => /error|fail|singular|no convergence|abort|unknown|ignored|not a valid/i.test(line));
  if (complaints.length > 0 || result.numPoints === 0) throw new Error(`the SPICE engine objects: ${simulation.getError().join(' | ').slice(0, 2000)}`);
  if (result.dataType !== 'real') throw new Error('the SPICE engine returned complex numbers');
  return new Map(result.data.map(({ name, values }) => [name.toLowerCase(), values]));
}

/** After an aborted run the engine never answers at all: watch what it says meanwhile, and start a new one after that. */
async function answerOf(simulation: Simulation): ReturnType<Simulation['runSim']> {
  let watch: ReturnType<typeof setInterval> | undefined;
  try {
    return await Promise.race([simulation.runSim(), new Promise<never>((_, reject) => {
      watch = setInterval(() => {
        const said = simulation.getError();
        if (said.some((line) => /aborted|no writable vector/i.test(line))) { engine = undefined; reject(new Error(`the SPICE engine objects: ${said.join(' | ').slice(0, 2000)}`)); }
      }, 20);
    })]);
  } finally { clearInterval(watch); }
}

/** Every node voltage, and every current the engine reports, of the network at rest. */
export async function compareAtRest(network: Network): Promise<Comparison> {
  const ours = solveAtRest(network);
  if (ours.outcome !== 'solved') throw new Error(`not solved: ${JSON.stringify(ours)}`);
  const { text, nodeNames, elementNames } = spiceNetlist(network, { kind: 'op' }, { near: ours.voltageOf });
  const theirs = await runSpice(text);
  let largest = 1e-9, worst = 0, node = '', largestCurrent = 1e-9, worstCurrent = 0, element = '', nodes = 0;
  for (const name of network.nodes) largest = Math.max(largest, Math.abs(ours.voltageOf(name)));
  for (const [name, short] of nodeNames) {
    if (short === '0') continue;
    const values = theirs.get(`v(${short})`);
    // a node with nothing on it does not exist in SPICE
    if (values === undefined) continue;
    nodes++;
    // a loose island has no voltage against the chassis: it is compared with its own pinned node
    const island = ours.floating[ours.islandOf(name)];
    const pinned = island === undefined ? undefined : theirs.get(`v(${nodeNames.get(island.pinned) ?? ''})`);
    const off = Math.abs(values[values.length - 1]! - (pinned?.[pinned.length - 1] ?? 0) - ours.voltageOf(name)) / largest;
    if (!(off <= worst)) { worst = off; node = name; }
  }
  for (const { id } of network.elements) largestCurrent = Math.max(largestCurrent, Math.abs(ours.currentOf(id)));
  for (const [id, { current }] of elementNames) {
    const values = current === undefined ? undefined : theirs.get(current.vector);
    if (values === undefined) continue;
    const off = Math.abs(current!.sign * values[values.length - 1]! - ours.currentOf(id)) / largestCurrent;
    if (!(off <= worstCurrent)) { worstCurrent = off; element = id; }
  }
  return { worst, node, worstCurrent, element, nodes, time: 0 };
}

/**
 * Probed node voltages at every sample, as a share of the largest source voltage.
 * Contacts that relays moved in our run are moved at the same moments in the engine's.
 */
export async function compareInTime(network: Network, request: TimeRequest & { readonly every: number }, longestStep = request.every / 10): Promise<Comparison & { readonly ours: TimeSolved }> {
  const ours = solveInTime(network, request);
  if (ours.outcome !== 'solved') throw new Error(`not solved: ${JSON.stringify(ours)}`);
  const events = ours.events.filter(({ cause }) => cause !== 'law').map(({ time, element, to }) => ({ at: time, element, closed: to === 'closed' }));
  const { text, nodeNames } = spiceNetlist(network, { kind: 'tran', step: request.every, stop: request.duration, events, longestStep });
  const theirs = await runSpice(text);
  const times = theirs.get('time');
  if (times === undefined) throw new Error('the SPICE engine returned no time');
  const largest = Math.max(1e-9, ...network.elements.map((one) => ('voltage' in one ? Math.abs(one.voltage) : one.type === 'capacitor' ? Math.abs(one.initial ?? 0) : 0)));
  let worst = 0, node = '', time = 0;
  const jumps = events.map(({ at }) => at);
  for (const name of request.probes.nodes) {
    const values = theirs.get(`v(${nodeNames.get(name)!})`);
    if (values === undefined) throw new Error(`the SPICE engine has no node ${name}`);
    ours.times.forEach((t, n) => {
      // at the very moment of a jump both sides of it are right
      if (t === 0 || jumps.some((at) => t >= at - 1e-6 * request.duration && t <= at + 2e-5 * request.duration)) return;
      const off = Math.abs(valueAt(times, values, t) - ours.voltages[name]![n]!) / largest;
      if (!(off <= worst)) { worst = off; node = name; time = t; }
    });
  }
  return { worst, node, worstCurrent: 0, element: '', nodes: request.probes.nodes.length, time, ours };
}

function valueAt(times: readonly number[], values: readonly number[], t: number): number {
  let low = 0, high = times.length - 1;
  while (high - low > 1) { const middle = (low + high) >> 1; if (times[middle]! <= t) low = middle; else high = middle; }
  const span = times[high]! - times[low]!;
  const share = span > 0 ? Math.min(1, Math.max(0, (t - times[low]!) / span)) : 0;
  return values[low]! * (1 - share) + values[high]! * share;
}
