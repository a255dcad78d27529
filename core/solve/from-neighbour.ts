/**
 * Networks that differ from a solved one in a few elements, solved in full from where that one stands.
 */
import type { Change } from './change.ts';
import { Law, withSwitchInstead } from './compile-network.ts';
import type { Compiled } from './compile-network.ts';
import type { Network } from './element.ts';
import { NetworkSystem } from './network-system.ts';
import type { RestResult, RestSolved } from './rest-result.ts';
import { restSolved } from './rest-solved.ts';
import { settleRounds } from './settle.ts';
import { budgetOf, solveSystem, startingCoils } from './solve-at-rest.ts';
import type { RestOptions } from './solve-at-rest.ts';

/** steps from a neighbour's solution before all is begun from nothing: what needs more has much to move */
const FROM_HERE = 16;

/** The compiled form of a network that differs in some elements, where it need not be compiled anew. */
export function compiledWith({ compiled }: NetworkSystem, changes: readonly Change[], other: Network): Compiled | undefined {
  let found: Compiled | undefined = compiled;
  for (const change of changes) {
    if (change.kind === 'join') return undefined;
    const element = compiled.elementIndexOf.get(change.element)!;
    if (found.elementTypes[element] === other.elements[element]!.type) continue;
    found = change.kind === 'open' ? withSwitchInstead(found, element) : undefined;
    if (found === undefined) return undefined;
  }
  return found;
}

export interface Standing { readonly system: NetworkSystem; readonly base: { readonly x: Float64Array; readonly positions: Uint8Array } }

/**
 * A network that differs in a few elements, from where its neighbour stands: what comes out is used when no relay has moved; else, because
 * positions left over from before must not decide, it is solved from nothing with the relays as they were.
 */
export function solveFrom(system: NetworkSystem, from: Standing, coils: Uint8Array, options: RestOptions): RestResult {
  if (takeOver(system, from)) {
    const effort = { ...budgetOf(system, options), most: FROM_HERE };
    const warm = coils.slice();
    system.setContacts(warm);
    const settled = settleRounds(system, warm, effort, effort.tolerance, true);
    if (settled.outcome === 'settled' && !settled.coilsMoved) return restSolved(system, effort.iterations);
    system.forget();
  }
  return solveSystem(system, coils.slice(), options);
}

/** Unknowns and positions of the same elements. @returns false when the nodes are not the same */
function takeOver(system: NetworkSystem, { system: before, base }: Standing): boolean {
  const { compiled: to } = system, { compiled: from } = before;
  if (to.nodeCount !== from.nodeCount) return false;
  system.setStartPositions(new Uint8Array(to.coils.length));
  system.x.fill(0);
  system.x.set(base.x.subarray(0, from.nodeCount));
  for (let e = 0; e < from.elementBranch.length; e++) {
    const [old, now] = [from.elementBranch[e]!, to.elementBranch[e]!];
    if (old < 0 || now < 0) continue;
    for (let n = 0; n < (to.elementTypes[e] === 'converter' ? 2 : 1); n++) {
      system.x[to.nodeCount + now + n] = base.x[from.nodeCount + old + n]!;
      // a diode that nothing drives any more must be found blocking, not conducting nothing
      if (to.law[now + n] === from.law[old + n] && to.law[now + n] !== Law.diode) system.positions[now + n] = base.positions[old + n]!;
    }
  }
  return true;
}

/** Full solves with a further resistor, by where it lies: the same place is asked for in every draw. */
export type JoinedSolvers = Map<string, NetworkSystem>;

export function solveJoined(joined: JoinedSolvers, { a, b }: Extract<Change, { kind: 'join' }>, network: Network, start: RestSolved, options: RestOptions, from: Standing): RestResult {
  const place = `${a} ${b}`;
  let system = joined.get(place);
  if (!system?.read(network)) joined.set(place, (system = new NetworkSystem(network)));
  system.forget();
  return solveFrom(system, from, startingCoils(system, start), options);
}
