/**
 * Which single failures the table looks at: of the hypotheses of fault finding those that come to a car in use (what was built wrong is
 * found before), and high-voltage cables chafed through on the body.
 */
import type { Car } from '../../car/car.ts';
import { betweenOf, metalOf } from '../../car/metal-graph.ts';
import { remembered } from '../../car/remembered.ts';
import { REFERENCE_NODE } from '../../solve/element.ts';
import type { FaultSort, Hypothesis } from '../hypothesis.ts';
import { listHypotheses } from '../list-hypotheses.ts';

const IN_USE: ReadonlySet<FaultSort> = new Set(['part', 'run_open', 'run_to_chassis', 'run_to_supply', 'run_to_run', 'pins_touch', 'silent', 'flat']);
/** Bare copper laid on metal [ohm]. */
const CHAFED = 0.02;

/** Remembered for the life of the car. Ids are unique. */
export const failuresLookedAt: (car: Car) => readonly Hypothesis[] = remembered((car: Car): readonly Hypothesis[] => {
  const listed = listHypotheses(car).filter(({ sort }) => IN_USE.has(sort)).map((one) => (one.sort === 'run_to_chassis' ? atFarEnd(car, one) : one));
  return [...listed, ...chafedCables(car), ...chafedLoops(car, listed)];
});

/** A wire may chafe anywhere; at the end away from the battery all of it carries what flows. */
function atFarEnd(car: Car, one: Hypothesis): Hypothesis {
  const run = car.runs.get(one.about[0]!);
  const battery = [...car.parts.values()].find(({ roles }) => roles.lowVoltageBattery);
  if (!run || !battery) return one;
  const post = battery.names.of(battery.roles.lowVoltageBattery!.positive);
  const far = (end: string): number => { const { resistance } = betweenOf(metalOf(car), post, end); return Number.isFinite(resistance) ? resistance : Infinity; };
  const end = far(run.to) > far(run.from) ? run.to : run.from;
  return { ...one, changes: one.changes.map((change) => (change.is === 'joined' ? { ...change, a: end } : change)) };
}

/**
 * Wires of the interlock loop on the body or on a live wire, where fault finding leaves them out: while every contact is closed such a wire lies
 * there anyway, and nothing shows.
 */
function chafedLoops(car: Car, listed: readonly Hypothesis[]): readonly Hypothesis[] {
  const { netOf } = metalOf(car);
  const loop = new Set([...car.parts.values()].flatMap(({ names, roles }) => (roles.interlock ?? []).flat().map((port) => netOf(names.of(port)))));
  const ids = new Set(listed.map(({ id }) => id));
  const battery = [...car.parts.values()].find(({ roles }) => roles.lowVoltageBattery);
  const known = listed.flatMap(({ sort, changes }) => (sort === 'run_to_supply' ? changes : [])).find((change) => change.is === 'joined');
  const supply = known?.is === 'joined' ? known.b : battery?.names.of(battery.roles.lowVoltageBattery!.positive);
  return [...car.runs.values()].filter(({ from, carries }) => carries !== 'high_voltage' && loop.has(netOf(from))).flatMap(({ name, from, to }): Hypothesis[] => {
    const made = (sort: 'run_to_chassis' | 'run_to_supply', b: string | undefined, words: string): Hypothesis[] => {
      const id = `${name}.${sort.slice(4)}`;
      return b === undefined || b === from || ids.has(id) ? [] : [{ id, sort, cause: id, about: [name], path: `runs.${name}`, words: `${name} (${from} to ${to}) ${words}`, changes: [{ is: 'joined', id: `${name} ${sort.slice(4)}`, a: from, b, resistance: CHAFED }], silent: [], weight: 0.1, disturbed: [], confirm: `Open a cover of the loop: the contactors must drop.`, mend: `Find where ${name} rubs; new wire or sleeve there.` }];
    };
    return [...made('run_to_chassis', REFERENCE_NODE, 'is chafed through and touches the body'), ...made('run_to_supply', supply, 'touches a wire that is always live')];
  });
}

function chafedCables(car: Car): readonly Hypothesis[] {
  return [...car.runs.values()].filter(({ carries, conductor }) => carries === 'high_voltage' && conductor?.shape.form !== 'flat').map(({ name, from, to }): Hypothesis => ({
    id: `${name}.to_chassis`, sort: 'run_to_chassis', cause: `${name}.to_chassis`, about: [name], path: `runs.${name}`, words: `${name} (${from} to ${to}) is chafed through and touches the body`,
    changes: [{ is: 'joined', id: `${name} to chassis`, a: from, b: REFERENCE_NODE, resistance: CHAFED }], silent: [], weight: 0.1, disturbed: [],
    confirm: `Pack disconnected and proved dead: insulation tester from ${from} to the body.`, mend: `New cable; a clip and a sleeve that keep it off the edge.`,
  }));
}
