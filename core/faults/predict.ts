/**
 * What every hypothesis looks like when a mode is asked for: how far the car gets on the way to it, and what is seen where it stays.
 *
 * A mode is entered only when its needs are met in the faulty network; else the car stays where it was, hands as they stand. Where what a mode
 * asserts is not so, the car falls back to the mode before: that controllers do so is an assumption, and so is that they read their inputs
 * as the file draws them. Needs in words, times and what firmware does besides are not modelled.
 */
import type { Network } from '../car/ask.ts';
import type { Car } from '../car/car.ts';
import { asksNetwork, pointsIn } from '../condition/condition.ts';
import type { Condition } from '../condition/condition.ts';
import { partsOf } from '../condition/expression.ts';
import { isTrue } from '../condition/evaluate.ts';
import type { Situation } from '../condition/evaluate.ts';
import { settingIn, situationIn } from '../topics/modes/situation.ts';
import type { AskedState, Way } from './asked-state.ts';
import { wayTo } from './asked-state.ts';
import type { FaultChange } from './fault-change.ts';
import type { Hypothesis } from './hypothesis.ts';
import { sightsIn } from './predict-state.ts';
import type { Sight, StateSights, Watched } from './predict-state.ts';
import { remembered } from '../car/remembered.ts';
import { wireCar } from '../car/wire-car.ts';
import { thingsOf } from './things.ts';

export interface Prediction {
  /** undefined: the network has no answer */
  readonly sight: Sight | undefined;
  /** steps of the way that were gone: the length of the way when the mode is reached */
  readonly reached: number;
  /** the mode was entered and left again because something that it asserts is not so */
  readonly fellBack: boolean;
  /** by mode of the way, fuses that opened at any step */
  readonly blown: readonly string[];
}

export interface Predictions {
  readonly asked: AskedState;
  readonly way: Way;
  readonly watched: Watched;
  readonly placeOf: ReadonlyMap<string, number>;
  readonly isHigh: (node: string) => boolean;
  readonly of: (hypothesis: Hypothesis) => Prediction;
  readonly sourceResistance: (a: string, b: string) => number | undefined;
  readonly counts: () => { readonly lowRank: number; readonly inFull: number };
}

export interface Predictor { readonly predictionsIn: (asked: AskedState) => Predictions }

/** Keeps what it has worked out: states, and each hypothesis in each of them. */
export function predictor(car: Car, ask: Network): Predictor {
  const watched = watchedIn(car, ask);
  const placeOf = new Map(watched.points.map((point, index) => [point, index]));
  const states = new Map<string, StateSights>();
  const found = new Map<string, Predictions>();
  const sightsOf = (state: StateSights['state']): StateSights => {
    const key = JSON.stringify(state);
    let sights = states.get(key);
    if (!sights) states.set(key, (sights = sightsIn(car, state, watched)));
    return sights;
  };
  const make = (asked: AskedState): Predictions => {
    const way = wayTo(car, ask, asked);
    const known = new Map<string, Prediction>();
    const conditions = new Map<Condition, boolean | undefined>();
    const end = sightsOf(way.end);
    const variables = new Map<string, boolean | number | undefined>();
    /** of the car with nothing wrong; asked once a state */
    const variablesIn = (state: StateSights['state']): Situation['variable'] => (name) => {
      const key = `${way.steps.findIndex((step) => step.state === state)} ${name}`;
      if (!variables.has(key)) variables.set(key, situationIn(car, ask, state).variable(name));
      return variables.get(key);
    };
    const of = (hypothesis: Hypothesis): Prediction => {
      let prediction = known.get(hypothesis.id);
      if (!prediction) known.set(hypothesis.id, (prediction = walk(hypothesis)));
      return prediction;
    };
    const walk = (hypothesis: Hypothesis): Prediction => {
      const blown = new Set<string>();
      for (const [index, { state, needs }] of way.steps.entries()) {
        if (needs.every((need) => !asksNetwork(need)) && needs.every((need) => settingsHold(need, state))) continue;
        const sight = after(sightsOf(state), hypothesis, blown);
        if (!sight || !allTrue(needs, state, sight, hypothesis.changes)) return { sight, reached: index, fellBack: false, blown: [...blown] };
      }
      const sight = after(end, hypothesis, blown);
      const last = way.steps.at(-1);
      if (sight && last && !allTrue(way.asserts, way.end, sight, hypothesis.changes)) {
        return { sight: after(sightsOf(last.state), hypothesis, blown), reached: way.steps.length - 1, fellBack: true, blown: [...blown] };
      }
      return { sight, reached: way.steps.length, fellBack: false, blown: [...blown] };
    };
    /** A fuse that blew in an earlier state stays open in this one. */
    const after = (sights: StateSights, hypothesis: Hypothesis, blown: Set<string>): Sight | undefined => {
      const open = [...blown].map((element): FaultChange => ({ is: 'open', element }));
      const sight = sights.of(hypothesis);
      const isSame = sight === undefined || open.length === 0 || [...blown].every((fuse) => sight.blown.includes(fuse));
      const seen = isSame ? sight : sights.of({ ...hypothesis, changes: [...hypothesis.changes, ...open] });
      seen?.blown.forEach((fuse) => blown.add(fuse));
      return seen;
    };
    const settingsHold = (need: Condition, state: StateSights['state']): boolean => {
      if (!conditions.has(need)) conditions.set(need, isTrue(need.expression, situationIn(car, ask, state)));
      return conditions.get(need) !== false;
    };
    const allTrue = (needs: readonly Condition[], state: StateSights['state'], sight: Sight, changes: readonly FaultChange[]): boolean =>
      needs.every(({ expression }) => isTrue(expression, faultySituation(car, variablesIn(state), state, sight, watched, placeOf, changes)) !== false);
    return { asked, way, watched, placeOf, isHigh: end.isHigh, of, sourceResistance: end.sourceResistance, counts: () => [...states.values()].reduce((sum, { counts }) => ({ lowRank: sum.lowRank + counts.lowRank, inFull: sum.inFull + counts.inFull }), { lowRank: 0, inFull: 0 }) };
  };
  return {
    predictionsIn: (asked) => {
      const key = JSON.stringify(asked);
      let predictions = found.get(key);
      if (!predictions) found.set(key, (predictions = make(asked)));
      return predictions;
    },
  };
}

function watchedIn(car: Car, ask: Network): Watched {
  const conditions = [...car.build.modes.values()].flatMap(({ needs, asserts }) => [...needs, ...asserts]);
  const runs = conditions.flatMap(({ expression }) => [...partsOf(expression)].flatMap((one) => (one.form === 'call' && one.name === 'I' ? one.arguments.map((argument) => (argument.form === 'literal' ? String(argument.value) : '')) : [])));
  const batteryRuns = [...car.parts.values()].flatMap(({ names, roles }) => {
    const post = roles.lowVoltageBattery && names.of(roles.lowVoltageBattery.positive);
    return post === undefined ? [] : [...car.runs.values()].filter(({ from, to }) => from === post || to === post).map(({ name }) => name);
  });
  const points = ask.points;
  const known = new Set(points);
  return {
    points: [...points, ...new Set(conditions.flatMap(pointsIn).filter((point) => !known.has(point) && car.parts.has(point.split('.')[0]!)))],
    things: thingsOf(car, ask),
    runs: [...new Set([...batteryRuns, ...runs])].filter((run) => car.runs.has(run)),
  };
}

/** What the controllers of a faulty car find when they look. */
function faultySituation(car: Car, whole: Situation['variable'], state: StateSights['state'], sight: Sight, watched: Watched, placeOf: ReadonlyMap<string, number>, changes: readonly FaultChange[]): Situation {
  const volts = (point: string): number | undefined => {
    const place = placeOf.get(point);
    return place === undefined ? undefined : sight.volts[place];
  };
  return {
    setting: (part, setting) => settingIn(car, state, part, setting),
    voltage: (a, b) => {
      const [one, other] = [volts(a), volts(b)];
      return one === undefined || other === undefined ? undefined : one - other;
    },
    current: (run) => {
      const place = watched.runs.indexOf(run);
      return place < 0 ? undefined : sight.amps[place];
    },
    variable: (name) => (name === 'interlock_closed' ? whole(name) === true && !breaksLoop(car, changes) : whole(name)),
  };
}

/** A contact of the interlock loop that a fault opens. */
function breaksLoop(car: Car, changes: readonly FaultChange[]): boolean {
  return changes.some((change) => change.is !== 'joined' && (change.is === 'open' || change.is === 'stuck_open' || (change.is === 'resistive' && change.more >= LOOP_CLOSED)) && loopElements(car).has(change.element));
}

/** A closed contact has far less [ohm]; as in `topics/modes/situation.ts`. */
const LOOP_CLOSED = 10;

/** Elements between the two ports of each interlock contact. */
const loopElements = remembered((car: Car): ReadonlySet<string> => {
  const pairs = new Set([...car.parts.values()].flatMap(({ names, roles }) => (roles.interlock ?? []).map(([a, b]) => `${names.of(a)} ${names.of(b)}`)));
  return new Set(wireCar(car, {}).network.elements.flatMap((element) => (element.type !== 'converter' && (pairs.has(`${element.a} ${element.b}`) || pairs.has(`${element.b} ${element.a}`)) ? [element.id] : [])));
});
