/**
 * Which single failures the table looks at: of the hypotheses of fault finding those that come to a car in use (what was built wrong is
 * found before), and high-voltage cables chafed through on the body.
 */
import type { Car } from '../../car/car.ts';
import { REFERENCE_NODE } from '../../solve/element.ts';
import type { FaultSort, Hypothesis } from '../hypothesis.ts';
import { listHypotheses } from '../list-hypotheses.ts';

const IN_USE: ReadonlySet<FaultSort> = new Set(['part', 'run_open', 'run_to_chassis', 'run_to_supply', 'run_to_run', 'pins_touch', 'silent', 'flat']);
/** Bare copper laid on metal [ohm]. */
const CHAFED = 0.02;

export function failuresLookedAt(car: Car): readonly Hypothesis[] {
  return [...listHypotheses(car).filter(({ sort }) => IN_USE.has(sort)), ...chafedCables(car)];
}

function chafedCables(car: Car): readonly Hypothesis[] {
  return [...car.runs.values()].filter(({ carries, conductor }) => carries === 'high_voltage' && conductor?.shape.form !== 'flat').map(({ name, from, to }): Hypothesis => ({
    id: `${name}.to_chassis`, sort: 'run_to_chassis', cause: `${name}.to_chassis`, about: [name], path: `runs.${name}`, words: `${name} (${from} to ${to}) is chafed through and touches the body`,
    changes: [{ is: 'joined', id: `${name} to chassis`, a: from, b: REFERENCE_NODE, resistance: CHAFED }], silent: [], weight: 0.1, disturbed: [],
    confirm: `Pack disconnected and proved dead: insulation tester from ${from} to the body.`, mend: `New cable; a clip and a sleeve that keep it off the edge.`,
  }));
}
