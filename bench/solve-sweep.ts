/**
 * A sweep of 1,000 single changes to an invented car of 400 nodes: ours against a SPICE engine (ngspice in WebAssembly) in the same run.
 *
 * The engine is asked in the fastest way that it has: one netlist, read once, with a `.control` loop that alters one resistor,
 * finds the operating point, prints one voltage and puts the resistor back. (The engine's wrapper hands back only the last plot, but what the loop
 * prints comes through.) It is timed on `SPICE_CHANGES` changes of resistance out of the same sweep, less a loop of one change for
 * reading and starting, and scaled to 1,000. Its guess for the first point is our solution: without it, written with plain resistors
 * only, it does not find this car's operating point at all. That both find the same voltages is checked while timing.
 * Our time is a whole sweep: compiling, solving the car and making every changed result.
 */
import { Simulation } from 'eecircuit-engine';
import { changedNetwork } from '../core/solve/change.ts';
import type { Change } from '../core/solve/change.ts';
import { prepareSweep } from '../core/solve/changes.ts';
import type { Network } from '../core/solve/element.ts';
import { seededRandom } from '../core/solve/random.ts';
import { solveAtRest } from '../core/solve/solve-at-rest.ts';
import { spiceNetlist } from '../core/solve/spice-netlist.ts';
import { generateCarNetwork } from './generate-car-network.ts';
import type { Measured } from './measured.ts';

const CHANGES = 1000;
const SPICE_CHANGES = 40;
const WANTED = 20;

type ResistanceChange = Extract<Change, { kind: 'resistance' }>;

export async function run(): Promise<Measured[]> {
  const network = generateCarNetwork({ nodes: 400, seed: 3 });
  const random = seededRandom(77);
  const changes = Array.from({ length: CHANGES }, (): Change => {
    const element = network.elements[Math.floor(random() * network.elements.length)]!;
    if (random() < 0.25) {
      const a = Math.floor(random() * network.nodes.length);
      return { kind: 'join', a: network.nodes[a]!, b: network.nodes[(a + 1 + Math.floor(random() * (network.nodes.length - 1))) % network.nodes.length]!, resistance: 10 ** (6 * random()) };
    }
    if ('resistance' in element && random() < 0.7) return { kind: 'resistance', element: element.id, resistance: element.resistance * (0.5 + random()) };
    return { kind: 'open', element: element.id };
  });
  const sweepOnce = (): number => {
    const start = performance.now();
    const sweep = prepareSweep(network);
    if (sweep.outcome !== 'ready') throw new Error('the invented car has no solution');
    let sum = 0;
    for (const change of changes) { const result = sweep.withChange(change); if (result.outcome === 'solved') sum += result.voltageOf('bus'); }
    if (!Number.isFinite(sum)) throw new Error('a sweep gave no numbers');
    return performance.now() - start;
  };
  sweepOnce();
  const ours = Math.min(sweepOnce(), sweepOnce(), sweepOnce());
  const reference = CHANGES * (await engineTimePerChange(network, changes));
  return [{ name: `sweep of ${CHANGES} changes, 400 nodes`, ours, reference, referenceName: `a SPICE engine's own loop (timed on ${SPICE_CHANGES}, scaled)`, wanted: `${WANTED} times faster at least`, isMet: reference / ours >= WANTED }];
}

/** [ms] */
async function engineTimePerChange(network: Network, changes: readonly Change[]): Promise<number> {
  const base = solveAtRest(network);
  if (base.outcome !== 'solved') throw new Error('the invented car has no solution');
  const { text, nodeNames, elementNames } = spiceNetlist(network, { kind: 'op' }, { near: base.voltageOf });
  const lines = text.split('\n');
  const valueOf = new Map(lines.filter((line) => /^R\S+ \S+ \S+ \S+$/.test(line)).map((line) => { const [device, , , value] = line.split(' '); return [device!, value!]; }));
  const altered = changes.filter((change): change is ResistanceChange => change.kind === 'resistance' && valueOf.has(elementNames.get(change.element)?.device ?? '')).slice(0, SPICE_CHANGES);
  const bus = nodeNames.get('bus')!;
  const loopOf = (count: number): string => {
    const loop = altered.slice(0, count).flatMap(({ element, resistance }) => { const { device } = elementNames.get(element)!; return [`alter ${device} = ${resistance}`, 'op', `print v(${bus})`, `alter ${device} = ${valueOf.get(device)!}`, 'destroy all']; });
    const end = lines.findIndex((line) => line.startsWith('.end'));
    return [...lines.slice(0, end), '.control', ...loop, '.endc', ...lines.slice(end)].join('\n');
  };
  const engine = new Simulation();
  await engine.start();
  const timed = async (count: number): Promise<number> => {
    engine.setNetList(loopOf(count));
    const start = performance.now();
    await engine.runSim();
    const taken = performance.now() - start;
    const printed = [...engine.getInfo().matchAll(/^v\(\S+\) = (\S+)/gm)].map(([, value]) => Number(value));
    if (printed.length < count) throw new Error(`the engine answered ${printed.length} of ${count} changes: ${engine.getError().join(' | ')}`);
    printed.slice(-count).forEach((value, n) => {
      const own = solveAtRest(changedNetwork(network, altered[n]!), { start: base });
      if (own.outcome !== 'solved' || Math.abs(own.voltageOf('bus') - value) > 1e-3 * Math.abs(value)) throw new Error(`the engine and ours differ after change ${n}`);
    });
    return taken;
  };
  await timed(1);
  const one = Math.min(await timed(1), await timed(1)), all = Math.min(await timed(altered.length), await timed(altered.length));
  return (all - one) / (altered.length - 1);
}
