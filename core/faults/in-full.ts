/** A fault that is no neighbour of the solved state: the whole network solved with it, relays and fuses followed. */
import type { Network } from '../solve/element.ts';
import { REFERENCE_NODE } from '../solve/element.ts';
import type { RestSolved } from '../solve/rest-result.ts';
import { BLOWS, fusesAtRisk } from './blown-fuses.ts';
import { contactSweeps } from './contact-sweeps.ts';
import { faultyNetwork } from './fault-change.ts';
import type { FaultChange } from './fault-change.ts';
import { tieId } from './tied-network.ts';

export interface InFull { readonly result: RestSolved; readonly blown: readonly string[] }

const MOST_FUSES = 6;

/** @param fuses  ratings [A] @returns undefined: nothing comes to rest */
export function solverInFull(network: Network, fuses: ReadonlyMap<string, number>): (changes: readonly FaultChange[]) => InFull | undefined {
  let solve: ReturnType<typeof contactSweeps> | undefined;
  const atRisk = fusesAtRisk(network);
  return (changes) => {
    solve ??= contactSweeps(network);
    const blown: string[] = [];
    const mayOpen = atRisk(changes);
    for (;;) {
      const all = [...changes, ...blown.map((element): FaultChange => ({ is: 'open', element }))];
      const result = solve((standing) => keepingShape(standing, all));
      if (!result) return undefined;
      if (!mayOpen) return { result, blown };
      const worst = network.elements.map(({ id }) => ({ id, load: fuses.has(id) && !blown.includes(id) && mayOpen(id) ? Math.abs(result.currentOf(id)) / fuses.get(id)! : 0 })).reduce((one, other) => (other.load > one.load ? other : one), { id: '', load: 0 });
      if (worst.load < BLOWS || blown.length >= MOST_FUSES) return { result, blown };
      blown.push(worst.id);
    }
  };
}

/** As good as open, for a resistor that keeps its place [ohm]. */
const PARTED = 1e12;

/** The faulty network in the shape of the whole one where that can be: it then shares its compiled form. */
function keepingShape(network: Network, changes: readonly FaultChange[]): Network {
  const index = new Map(network.elements.map(({ id }, n) => [id, n]));
  const elements = [...network.elements];
  const rest: FaultChange[] = [];
  for (const change of changes) {
    if (change.is === 'joined') {
      const node = change.b === REFERENCE_NODE ? change.a : change.a === REFERENCE_NODE ? change.b : undefined;
      const n = node === undefined ? undefined : index.get(tieId(node));
      const tie = n === undefined ? undefined : elements[n];
      if (n !== undefined && tie?.type === 'resistor' && tie.b === REFERENCE_NODE) elements[n] = { ...tie, resistance: 1 / (1 / tie.resistance + 1 / change.resistance) };
      else rest.push(change);
      continue;
    }
    const n = index.get(change.element);
    const element = n === undefined ? undefined : elements[n];
    if (n === undefined || element === undefined) continue;
    const opens = change.is === 'open' || change.is === 'stuck_open';
    if (opens && (element.type === 'resistor' || element.type === 'source' || element.type === 'diode')) elements[n] = { ...element, resistance: PARTED };
    else if (opens && element.type === 'switch') elements[n] = { ...element, closed: false };
    else if (opens && element.type === 'power') elements[n] = { ...element, power: 0 };
    else if (opens && element.type === 'draw') elements[n] = { ...element, current: 0 };
    else if (change.is === 'stuck_closed' && element.type === 'switch') elements[n] = { ...element, closed: true };
    else if (change.is === 'resistive' && 'resistance' in element) elements[n] = { ...element, resistance: element.resistance + change.more };
    else rest.push(change);
  }
  return faultyNetwork({ nodes: network.nodes, elements }, rest);
}
