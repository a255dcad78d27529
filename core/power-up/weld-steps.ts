/**
 * A single welded contact with the pack joined: 0 V between the poles of the bus does not find it, because the other pole is open. Read from
 * its far side to the other pole of the string, where it puts the string's voltage.
 */
import type { State } from '../car/state.ts';
import { coilContacts } from '../topics/modes/mode-graph.ts';
import { voltmeter } from './instruments.ts';
import { wireNets } from './loop-ends.ts';
import { isApart } from './bands.ts';
import type { Plan } from './plan.ts';
import { readMeasure } from './read-measure.ts';
import type { Measure, Phase, StepDraft, Suspect } from './step.ts';

/** A welded contact [ohm]. */
const WELDED = 1e-3;
/** A weld that moves the reading by less of the pack's voltage hides in leaks and drift; our choice. */
const TELLING = 0.25;
/** Pairs of contacts that are tried for both poles welded. */
const MOST_PAIRS = 15;

/** @param off  everything off, the pack joined */
export function weldSteps({ car, ask, strings, packVoltage }: Plan, off: State, phase: Phase, key: string): StepDraft[] {
  const nets = wireNets(car);
  return [...new Set(coilContacts(car).map(({ part }) => part))].flatMap((name): StepDraft[] => {
    const { names, roles } = car.parts.get(name)!;
    const contact = roles.switching!.find(({ by }) => by === 'coil')!;
    const [a, b] = [names.of(contact.a), names.of(contact.b)];
    for (const string of strings) {
      for (const [pole, other] of [[string.positive, string.negative], [string.negative, string.positive]] as const) {
        const near = [a, b].find((end) => nets(end) === nets(pole));
        if (near === undefined) continue;
        const far = near === a ? b : a;
        const measure: Measure = { is: 'voltage', a: far, b: other };
        const instrument = voltmeter(packVoltage);
        const noEffect = readMeasure(car, ask, { ...off, bridges: [{ a, b, resistance: WELDED }] }, measure);
        const nominal = readMeasure(car, ask, off, measure);
        // where something else puts the same voltage there the reading would prove nothing
        if (noEffect === undefined || nominal === undefined || !isApart(nominal, noEffect, instrument) || Math.abs(nominal - noEffect) < TELLING * packVoltage) continue;
        return [{
          id: `${key}.weld.${name}`, phase, title: `${name} is open`, about: [name, string.name], hazard: 'class_b', isHoldPoint: true, state: off,
          action: `Still off. Read ${far}, the far side of ${name}, against ${other}, the other pole of the string.`, measure, instrument, noEffect,
          expect: 'What the leaks let through, and no more.', instead: `The string’s voltage: ${name} is welded, or a way round it is closed. Split the pack, and change it before it closes again.`,
        }];
      }
    }
    return [];
  });
}

/** What a voltage between the poles of the bus means, and where a weld of one contact is found. @param found  of `weldSteps` */
export function weldWords({ car }: Plan, found: readonly StepDraft[]): string {
  const untold = [...new Set(coilContacts(car).map(({ part }) => part))].filter((name) => !found.some(({ about }) => about[0] === name));
  return `contacts on both poles are closed or welded. One welded contact alone does not show here${found.length > 0 ? '; the readings that follow find it' : ''}${untold.length === 0 ? '.' : `, but that of ${untold.join(', ')} hides in what leaks: look at it with the pack split, by ohms across it.`}`;
}

/** Contacts on both poles of a string welded together: the only weld that a reading between the poles of the bus shows. */
export function weldSuspects({ car, strings }: Plan): readonly Suspect[] {
  const nets = wireNets(car);
  const contacts = coilContacts(car).map(({ part, element }) => { const { names, roles } = car.parts.get(part)!; return { part, element, ends: roles.switching!.filter(({ by }) => by === 'coil').flatMap(({ a, b }) => [nets(names.of(a)), nets(names.of(b))]) }; });
  const at = (pole: string) => contacts.filter(({ ends }) => ends.includes(nets(pole)));
  return strings.flatMap(({ positive, negative }) => at(positive).flatMap((one) => at(negative).filter(({ part }) => part !== one.part).map((other): Suspect => ({
    part: `${one.part} and ${other.part}`, failure: 'both_welded', meaning: 'both welded, or held closed', likelihood: 2,
    changes: [one, other].map(({ element }) => ({ kind: 'closed', element, closed: true }) as const),
  })))).slice(0, MOST_PAIRS);
}
