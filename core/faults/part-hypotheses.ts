/**
 * What may be wrong with parts: every failure that their kinds declare, and a 12 V battery that is flat.
 */
import type { Car, CarPart } from '../car/car.ts';
import { failuresOf } from '../part/kind.ts';
import { changesOfPart } from './fault-change.ts';
import type { FaultChange } from './fault-change.ts';
import type { Disturbed } from './disturbed.ts';
import type { Hypothesis } from './hypothesis.ts';

/** Rate of a whole part beside that of a wire that parts (1), before what its kind says of its failures; common practice, no source. */
const PART_RATE = 1;
/** A rested lead-acid battery at this share of its open voltage is as good as empty. */
const FLAT = 0.88;

export function partHypotheses(car: Car, disturbedAt: (name: string) => Disturbed): readonly Hypothesis[] {
  return [...car.parts.values()].flatMap((part) => (part.missing.length > 0 ? [] : [...declared(part, disturbedAt(part.name)), ...flat(part, disturbedAt(part.name))]));
}

function declared(part: CarPart, { factor, words: disturbed }: Disturbed): readonly Hypothesis[] {
  const now = part.now({});
  const failures = failuresOf(part.kind, now);
  const sum = failures.reduce((total, { likelihood }) => total + likelihood, 0);
  // a part with many pins fails oftener than one with two, but not in proportion
  const rate = PART_RATE * Math.sqrt(failures.length);
  return failures.map(({ code, meaning, likelihood, changes }): Hypothesis => {
    const applied = changesOfPart(part.name, changes(now));
    return {
      id: `${part.name}.${code}`, sort: 'part', cause: `${part.name}.${code}`, about: [part.name], path: `parts.${part.name}`, words: `${part.name}: ${meaning}`,
      changes: applied, silent: [], weight: (rate * likelihood * factor) / sum, disturbed,
      ...wordsFor(part, applied),
    };
  });
}

function flat(part: CarPart, { factor, words: disturbed }: Disturbed): readonly Hypothesis[] {
  const battery = part.roles.lowVoltageBattery;
  if (!battery) return [];
  const collected = voltageOf(part, battery.element);
  if (collected === undefined) return [];
  return [{
    id: `${part.name}.flat`, sort: 'flat', cause: `${part.name}.flat`, about: [part.name], path: `parts.${part.name}`, words: `${part.name}: it is flat`,
    changes: [{ is: 'weak', element: part.names.of(battery.element), voltage: FLAT * collected }], silent: [], weight: 1.5 * factor, disturbed,
    confirm: `Volts between the posts of ${part.name} after an hour with everything off.`, mend: `Charge ${part.name} with a charger; then find out what emptied it.`,
  }];
}

/** Open voltage of a battery's element: what the wiring of the part says. */
function voltageOf(part: CarPart, element: string): number | undefined {
  let found: number | undefined;
  const ignore = (): void => undefined;
  part.kind.wire(part.now({}), {
    port: (name) => name, inside: (name) => name, chassis: 'chassis', resistor: ignore, currentSource: ignore, capacitor: ignore, inductor: ignore, switch: ignore, relay: ignore, diode: ignore,
    powerLoad: ignore, currentLoad: ignore, supply: ignore, converter: ignore,
    source: (name, _a, _b, voltage) => { if (name === element) found = voltage; },
  });
  return found;
}

function wordsFor(part: CarPart, changes: readonly FaultChange[]): Pick<Hypothesis, 'confirm' | 'mend'> {
  const { name, kind, roles } = part;
  const seen = kind.observables.filter(({ sense }) => sense !== 'read').map(({ name: what, meaning }) => `${what} (${meaning})`);
  const look = seen.length > 0 ? ` What shows it: ${seen.slice(0, 2).join('; ')}.` : '';
  const fuse = roles.protection?.[0];
  if (fuse && changes.every(({ is }) => is === 'open')) return { confirm: `With the circuit dead, take ${name} out and measure through it with the ohmmeter.`, mend: `Find what it blew on before you put a new one in: never a bigger one.` };
  const isJoin = changes.every(({ is }) => is === 'joined' || is === 'shorted');
  if (isJoin) return { confirm: `Unplug ${name} with the circuit dead: the short must go with it.${look}`, mend: `Mend or replace ${name}; then see which fuse it took with it.` };
  if (changes.every(({ is }) => is === 'resistive')) return { confirm: `Volts across ${name} under load: more than some tens of millivolts is it.${look}`, mend: `Clean and tighten it, or replace ${name}; a joint that was hot is replaced.` };
  return { confirm: `Volts where it is fed, with it asked to work: right there, and it still does not do it.${look}`, mend: `Replace ${name}, or mend what its kind allows; a spare in its place for a minute proves it.` };
}
