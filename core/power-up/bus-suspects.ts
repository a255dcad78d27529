/** What a wrong resistance of a CAN bus means, as changes of the network: terminations missing or too many, and wires that touch. */
import type { Car } from '../car/car.ts';
import { elementsOfParts } from '../car/wire-car.ts';
import type { Suspect } from './step.ts';

/** What a unit with a built-in termination adds [ohm]; ISO 11898-2. */
const TERMINATION = 120;
/** A termination has less than this, the inputs of receivers far more [ohm]. */
const HIGHEST_TERMINATION = 1000;
/** Two strands that touch [ohm]; common practice, no source. */
const TOUCH = 0.1;

/** @param parts  that hang on the bus between `high` and `low` */
export function busSuspects(car: Car, parts: readonly string[], high: string, low: string): readonly Suspect[] {
  const ends = parts.flatMap((name) => {
    const part = car.parts.get(name)!;
    const pins = ['can_h', 'can_l'].map((port) => part.names.of(port));
    return elementsOfParts(car, {}, [part]).flatMap((element) => (element.type === 'resistor' && element.resistance < HIGHEST_TERMINATION && pins.includes(element.a) && pins.includes(element.b) ? [{ name, element: element.id }] : []));
  });
  const without = parts.filter((name) => ends.every((end) => end.name !== name));
  const [one, ...others] = without;
  return [
    ...ends.map(({ name, element }): Suspect => ({ part: name, failure: 'termination_missing', meaning: 'its termination is missing, not plugged in or not switched on', likelihood: 4, changes: [{ kind: 'open', element }] })),
    ...(one === undefined ? [] : [{ part: one, failure: 'termination_too_many', meaning: `one termination too many: this unit${others.length > 0 ? ` or another (${others.slice(0, 4).join(', ')})` : ''} has one built in`, likelihood: 3, changes: [{ kind: 'join', a: high, b: low, resistance: TERMINATION, id: 'further termination' }] } satisfies Suspect]),
    { part: parts[0]!, failure: 'bus_wires_touch', meaning: 'CAN high and CAN low touch each other somewhere on the bus', likelihood: 2, changes: [{ kind: 'join', a: high, b: low, resistance: TOUCH, id: 'touching wires' }] },
    ...(ends.length > 1 ? [{ part: ends[0]!.name, failure: 'no_termination', meaning: 'no termination at all is on the bus', likelihood: 1, changes: ends.map(({ element }) => ({ kind: 'open', element }) as const) } satisfies Suspect] : []),
  ];
}
