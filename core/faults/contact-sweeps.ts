/**
 * One network, compiled once for every way in which its relays have come to stand: a fault that is no neighbour of the solved state is then followed
 * through whole solves until its relays stay.
 *
 * A relay is picked up when its coil has its pick-up voltage in the end: the fault was there before the car was switched on. Relays that hold
 * themselves through their own contact are followed from the car with nothing wrong, so they stay up if they can.
 */
import type { Element, Network, Relay } from '../solve/element.ts';
import type { RestSolved } from '../solve/rest-result.ts';
import { prepareRest, solveAtRest } from '../solve/solve-at-rest.ts';
import type { PreparedRest } from '../solve/solve-at-rest.ts';

/** Moves of relays that are followed before they count as buzzing. */
const MOST_ROUNDS = 8;

/** @returns solves the changed network; it is given one whose relays are switches of fixed position. undefined: nothing comes to rest */
export function contactSweeps(network: Network): (changed: (standing: Network) => Network) => RestSolved | undefined {
  const relays = network.elements.flatMap((element, place) => (element.type === 'relay' ? [{ element, place }] : []));
  const standings = new Map<string, { readonly network: Network; readonly prepared: PreparedRest }>();
  const standingOf = (picked: readonly boolean[]): { readonly network: Network; readonly prepared: PreparedRest } => {
    const key = picked.map(Number).join('');
    let known = standings.get(key);
    if (!known) {
      const elements: Element[] = [...network.elements];
      relays.forEach(({ element, place }, index) => { elements[place] = asSwitch(element, picked[index]!); });
      const held: Network = { nodes: network.nodes, elements };
      standings.set(key, (known = { network: held, prepared: prepareRest(held) }));
    }
    return known;
  };
  const pickedIn = (result: RestSolved): readonly boolean[] => relays.map(({ element: { coil, polarised, pickUp } }) => { const volts = result.voltageOf(coil[0]) - result.voltageOf(coil[1]); return (polarised === true ? volts : Math.abs(volts)) >= pickUp; });
  const start = solveAtRest(network);
  if (start.outcome !== 'solved') return () => undefined;
  const healthy = relays.map(({ element }) => (start.stateOf(element.id) === 'closed') === (element.contact === 'makes'));
  return (changed) => {
    let picked: readonly boolean[] = healthy;
    for (let round = 0; round < MOST_ROUNDS; round++) {
      const { network: standing, prepared } = standingOf(picked);
      const result = prepared.solve(changed(standing));
      if (result.outcome !== 'solved') return undefined;
      const next = pickedIn(result);
      if (next.every((one, index) => one === picked[index])) return result;
      picked = next;
    }
    return undefined;
  };
}

function asSwitch({ id, a, b, contact, resistance }: Relay, isPicked: boolean): Element {
  return { type: 'switch', id, a, b, resistance, closed: isPicked === (contact === 'makes') };
}
