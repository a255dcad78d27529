/** Which points of a network belong to one side: the high voltage, the 12 V side, the mains. */
import { unionFind } from '../car/metal-graph.ts';
import { REFERENCE_NODE } from '../solve/element.ts';
import type { Network } from '../solve/element.ts';

/** Insulation and monitors lie above this and join no side to another; interlock pulls and inputs as well [ohm]. */
const JOINS = 20e3;

/** @returns a name for the side of a node: what conductors, loads and contacts join, made or not, and not by way of the chassis */
export function sidesOf({ elements }: Network): (node: string) => string {
  const sets = unionFind();
  for (const element of elements) {
    if (element.type === 'converter') { sets.join(...element.input); sets.join(...element.output); continue; }
    if (element.a === REFERENCE_NODE || element.b === REFERENCE_NODE) continue;
    if (element.type === 'resistor' && element.resistance > JOINS) continue;
    sets.join(element.a, element.b);
  }
  return (node) => sets.find(node);
}
