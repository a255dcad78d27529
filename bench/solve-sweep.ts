/**
 * A sweep of 1,000 single changes to an invented car of 400 nodes: ours against a SPICE engine (ngspice in WebAssembly) in the same run.
 *
 * The engine is timed on `SPICE_CHANGES` of the same changes, each as a fresh operating point of a netlist that is already
 * written as text (our time includes making the result; its time does not include writing the netlist), with
 * our solution as its starting guess (written with plain resistors only, it does not find this car's operating point at all); the time per change is then scaled to 1,000. A loop inside the engine
 * (`.control` with `alter`) cannot be used: the WebAssembly build returns only the last plot.
 */
import { changedNetwork } from '../core/solve/change.ts';
import type { Change } from '../core/solve/change.ts';
import { prepareSweep } from '../core/solve/changes.ts';
import { seededRandom } from '../core/solve/random.ts';
import { spiceNetlist } from '../core/solve/spice-netlist.ts';
import { runSpice } from '../checks/reference/against-spice.ts';
import { generateCarNetwork } from './generate-car-network.ts';

const CHANGES = 1000;
const SPICE_CHANGES = 20;

export interface BenchRow { readonly name: string; readonly ours_ms: number; readonly reference_ms: number; readonly ratio: number; readonly wanted: number }

export async function run(): Promise<BenchRow[]> {
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

  const base = prepareSweep(network);
  if (base.outcome !== 'ready') throw new Error('the invented car has no solution');
  const texts = changes.filter((_, n) => n % (CHANGES / SPICE_CHANGES) === 0).map((change) => spiceNetlist(changedNetwork(network, change), { kind: 'op' }, { near: base.result.voltageOf }).text);
  await runSpice(texts[0]!);
  const start = performance.now();
  let done = 0;
  for (const text of texts) { try { await runSpice(text); } catch { /* an engine that gives up on a change has still spent its time */ } done++; }
  const reference = ((performance.now() - start) / done) * CHANGES;
  return [{ name: `sweep of ${CHANGES} changes, 400 nodes (engine timed on ${done}, scaled)`, ours_ms: ours, reference_ms: reference, ratio: reference / ours, wanted: 20 }];
}
