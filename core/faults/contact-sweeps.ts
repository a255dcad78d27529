/**
 * One network, solved once for every way in which its relays have come to stand: a fault is then a low-rank neighbour of the network with its
 * relays where the fault leaves them, found by following them until they stay.
 *
 * A relay is picked up when its coil has its pick-up voltage in the end: the fault was there before the car was switched on. Relays that hold
 * themselves through their own contact are followed from the car with nothing wrong, so they stay up if they can.
 */
import type { Change } from '../solve/change.ts';
import { sweepMaker } from '../solve/changes.ts';
import type { Sweep, SweepMaker } from '../solve/changes.ts';
import type { Element, Network, Relay } from '../solve/element.ts';
import type { RestResult, RestSolved } from '../solve/rest-result.ts';
import { prepareRest, solveAtRest } from '../solve/solve-at-rest.ts';
import type { PreparedRest } from '../solve/solve-at-rest.ts';

/** Moves of relays that are followed before they count as buzzing. */
const MOST_ROUNDS = 8;

export interface ContactSweeps {
  /** with nothing wrong; undefined: no operating point */
  readonly base: RestSolved | undefined;
  /** the network whose relays stand as they do with nothing wrong, ready for changes */
  readonly sweep: Sweep | undefined;
  /** @returns undefined when nothing comes to rest */
  readonly withChange: (change: Change) => RestSolved | undefined;
  /** @param changed  the network with its faults; given one whose relays are switches of fixed position */
  readonly withNetwork: (changed: (standing: Network) => Network) => RestSolved | undefined;
  readonly counts: { lowRank: number; inFull: number };
}

interface Standing { readonly network: Network; readonly maker: SweepMaker; readonly sweep: Sweep | undefined; prepared: PreparedRest | undefined }

export function contactSweeps(network: Network): ContactSweeps {
  const relays = network.elements.flatMap((element, place) => (element.type === 'relay' ? [{ element, place }] : []));
  const counts = { lowRank: 0, inFull: 0 };
  const standings = new Map<string, Standing>();
  let first: SweepMaker | undefined;
  const standingOf = (picked: readonly boolean[]): Standing => {
    const key = picked.map(Number).join('');
    let known = standings.get(key);
    if (!known) {
      const elements: Element[] = [...network.elements];
      relays.forEach(({ element, place }, index) => { elements[place] = asSwitch(element, picked[index]!); });
      const held: Network = { nodes: network.nodes, elements };
      const maker = sweepMaker(held, {}, first);
      first ??= maker;
      const made = maker.at(held);
      standings.set(key, (known = { network: held, maker, sweep: made.outcome === 'ready' ? made : undefined, prepared: undefined }));
    }
    return known;
  };
  const pickedIn = (result: RestSolved): readonly boolean[] => relays.map(({ element: { coil, polarised, pickUp } }) => { const volts = result.voltageOf(coil[0]) - result.voltageOf(coil[1]); return (polarised === true ? volts : Math.abs(volts)) >= pickUp; });
  const start = solveAtRest(network);
  if (start.outcome !== 'solved') return { base: undefined, sweep: undefined, withChange: () => undefined, withNetwork: () => undefined, counts };
  const healthy = relays.map(({ element }) => (start.stateOf(element.id) === 'closed') === (element.contact === 'makes'));
  const follow = (ask: (standing: Standing) => RestResult | undefined): RestSolved | undefined => {
    let picked: readonly boolean[] = healthy;
    for (let round = 0; round < MOST_ROUNDS; round++) {
      const result = ask(standingOf(picked));
      if (result?.outcome !== 'solved') return undefined;
      const next = pickedIn(result);
      if (next.every((one, index) => one === picked[index])) return result;
      picked = next;
    }
    return undefined;
  };
  return {
    base: start, counts,
    get sweep() { return standingOf(healthy).sweep; },
    withChange: (change) => follow(({ sweep }) => {
      if (!sweep) return undefined;
      const before = sweep.fullSolves;
      const result = sweep.withChange(change);
      if (sweep.fullSolves > before) counts.inFull++;
      else counts.lowRank++;
      return result;
    }),
    withNetwork: (changed) => follow((standing) => {
      counts.inFull++;
      standing.prepared ??= prepareRest(standing.network);
      return standing.prepared.solve(changed(standing.network));
    }),
  };
}

function asSwitch({ id, a, b, contact, resistance }: Relay, isPicked: boolean): Element {
  return { type: 'switch', id, a, b, resistance, closed: isPicked === (contact === 'makes') };
}
