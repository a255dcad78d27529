/** What capacitors across the high voltage hold in a state. */
import type { Car } from '../car/car.ts';
import type { RestResult } from '../solve/rest-result.ts';

/** Less than this counts as nothing [J]; UN R100 and ISO 6469-3 take 0.2 J as the least that matters. */
const LEAST = 0.01;

export interface Stored { readonly part: string; /** [V] */ readonly voltage: number; /** [J] */ readonly energy: number }

/** Capacitors of the car that hold a hundredth of a joule or more at rest; none where the state has no answer. */
export function storedIn(car: Car, solved: RestResult): Stored[] {
  if (solved.outcome !== 'solved') return [];
  return [...car.parts.values()].flatMap(({ name, names, roles }) => {
    const link = roles.dcLink;
    if (!link) return [];
    const [positive, negative] = [names.of(link.positive), names.of(link.negative)];
    if (solved.islandOf(positive) !== solved.islandOf(negative)) return [];
    const voltage = solved.voltageOf(positive) - solved.voltageOf(negative);
    const energy = (link.capacitance * voltage ** 2) / 2;
    return energy >= LEAST ? [{ part: name, voltage, energy }] : [];
  });
}
