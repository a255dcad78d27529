/**
 * What no wire shows: units that are fed and joined and still say nothing or obey nothing, and papers that are wrong.
 */
import type { Car, CarPart } from '../car/car.ts';
import { busNodes } from './bus.ts';
import type { Disturbed } from './disturbed.ts';
import type { Hypothesis } from './hypothesis.ts';

const RATES = { silent: 0.8, polarity: 0.25, bridged: 0.1 };

/** Units on the bus: wrong firmware, wrong identifiers, another bit rate, a node missing that they wait for. */
export function silentHypotheses(car: Car, disturbedAt: (name: string) => Disturbed): readonly Hypothesis[] {
  return busNodes(car).map(({ name }): Hypothesis => ({
    id: `${name}.silent`, cause: `${name}.silent`, sort: 'silent', about: [name], path: `parts.${name}`, changes: [], silent: [name], weight: RATES.silent * disturbedAt(name).factor, disturbed: disturbedAt(name).words,
    words: `${name}: fed and joined, but its messages are wrong or it waits for one that nobody sends (firmware setting, bit rate, missing node)`,
    confirm: `Log the bus with ${name} awake: are its messages there, and those that its paper says it waits for?`, mend: `Settings of ${name} and of whoever commands it: identifiers, bit rate, the messages of its old car that it still expects.`,
  }));
}

/** Outputs that switch the other side than the file says, and interlock contacts that are bridged inside. */
export function documentationHypotheses(car: Car, disturbedAt: (name: string) => Disturbed): readonly Hypothesis[] {
  return [...car.parts.values()].flatMap((part) => [...wrongSides(part, disturbedAt(part.name)), ...bridgedLoops(part, disturbedAt(part.name))]);
}

function wrongSides(part: CarPart, { factor, words: disturbed }: Disturbed): readonly Hypothesis[] {
  const feed = part.roles.consumers?.[0];
  if (!feed) return [];
  return (part.roles.switching ?? []).filter(({ by }) => by === 'electronics').flatMap(({ element, a, b }): Hypothesis[] => {
    const isHigh = a === feed.positive;
    const port = isHigh ? b : a;
    if (!isHigh && b !== feed.negative) return [];
    const ends = isHigh ? { a: part.names.of(port), b: part.names.of(feed.negative) } : { a: part.names.of(feed.positive), b: part.names.of(port) };
    return [{
      id: `${part.name}.${port}_other_side`, cause: `${part.name}.${port}_other_side`, sort: 'documentation', about: [part.name], path: `parts.${part.name}`, silent: [], disturbed,
      words: `${part.name}: output ${port} switches ${isHigh ? 'to ground' : 'to supply'}, not ${isHigh ? 'to supply' : 'to ground'} as the file says`, changes: [{ is: 'moved', element: part.names.of(element), ...ends }], weight: RATES.polarity * factor,
      confirm: `Take the wire off ${part.names.of(port)} and put a test lamp from there to ground, then to supply, with the output on: where does it light?`, mend: `Correct the file, then wire the load to the side that the output really switches.`,
    }];
  });
}

/** A contact that the paper promises and that is not there: the loop stays closed whatever comes off. */
function bridgedLoops(part: CarPart, { factor, words: disturbed }: Disturbed): readonly Hypothesis[] {
  return (part.roles.interlock ?? []).map(([a, b]): Hypothesis => ({
    id: `${part.name}.interlock_bridged`, cause: `${part.name}.interlock_bridged`, sort: 'documentation', about: [part.name], path: `parts.${part.name}`, silent: [], disturbed,
    words: `${part.name}: there is no interlock contact between ${a} and ${b}, only a bridge`, changes: [{ is: 'joined', id: `${part.name} interlock bridge`, a: part.names.of(a), b: part.names.of(b), resistance: 0.05 }], weight: RATES.bridged * factor,
    confirm: `Pack disconnected: open the plug or lid of ${part.name} and measure ohms from ${a} to ${b}. It must open.`, mend: `Fit a real contact; until then the loop does not guard ${part.name}.`,
  }));
}
