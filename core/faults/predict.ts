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
import { clampable } from './clamp.ts';
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
  /** see `StateSights`; of the state that was asked for */
  readonly band: (a: string, b: string) => number | undefined;
  readonly counts: () => { readonly lowRank: number; readonly inFull: number };
}

export interface Predictor { readonly predictionsIn: (asked: AskedState) => Predictions }

/**
 * Keeps what it has worked out: states, and each hypothesis in each of them.
 * @param energised  the state in which the car was switched on first: what blew there is open in every other
 */
export function predictor(car: Car, ask: Network, energised?: AskedState): Predictor {
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
    const blownBefore = (hypothesis: Hypothesis): readonly string[] => (energised === undefined || JSON.stringify(energised) === JSON.stringify(asked) || !mayBlow(hypothesis) ? NOTHING_BLOWN : predictionsIn(energised).of(hypothesis).blown);
    const walk = (hypothesis: Hypothesis): Prediction => {
      const blown = new Set<string>(blownBefore(hypothesis));
      for (const [index, { sights, judge, isAlwaysMet }] of steps().entries()) {
        if (isAlwaysMet) continue;
        const sight = after(sights(), hypothesis, blown);
        if (!sight || !judge(sight, hypothesis.changes)) return { sight, reached: index, fellBack: false, blown: [...blown] };
      }
      const sight = after(end, hypothesis, blown);
      const last = way.steps.at(-1);
      if (sight && last && !judgeEnd(sight, hypothesis.changes)) {
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
    let stepsMade: readonly JudgedStep[] | undefined;
    const steps = (): readonly JudgedStep[] => (stepsMade ??= way.steps.map(({ state, needs }): JudgedStep => {
      let made: StateSights | undefined;
      const sights = (): StateSights => (made ??= sightsOf(state));
      return { sights, judge: judgeOf(needs, state, sights), isAlwaysMet: needs.every((need) => !asksNetwork(need)) && needs.every((need) => settingsHold(need, state)) };
    }));
    /** Where nothing that the conditions ask for has moved, they are judged as on the car with nothing wrong. */
    const judgeOf = (needs: readonly Condition[], state: StateSights['state'], sights: () => StateSights): JudgedStep['judge'] => {
      if (needs.length === 0) return () => true;
      const asked = needs.flatMap(pointsIn).map((point) => placeOf.get(point)).filter((place) => place !== undefined);
      const askedRuns = needs.flatMap(runsIn).map((run) => watched.runs.indexOf(run)).filter((place) => place >= 0);
      let whole: boolean | undefined;
      return (sight, changes) => {
        const { base } = sights();
        const isMoved = base === undefined || asked.some((place) => !(Math.abs(sight.volts[place]! - base.volts[place]!) < MOVED)) || askedRuns.some((run) => !(Math.abs(sight.amps[run]! - base.amps[run]!) < MOVED));
        if (isMoved || changes.some((change) => change.is !== 'joined' && loopElements(car).has(change.element))) return allTrue(needs, state, sight, changes);
        return (whole ??= allTrue(needs, state, base, []));
      };
    };
    const judgeEnd = judgeOf(way.asserts, way.end, () => end);
    const settingsHold = (need: Condition, state: StateSights['state']): boolean => {
      if (!conditions.has(need)) conditions.set(need, isTrue(need.expression, situationIn(car, ask, state)));
      return conditions.get(need) !== false;
    };
    const allTrue = (needs: readonly Condition[], state: StateSights['state'], sight: Sight, changes: readonly FaultChange[]): boolean =>
      needs.every(({ expression }) => isTrue(expression, faultySituation(car, variablesIn(state), state, sight, watched, placeOf, changes)) !== false);
    return { asked, way, watched, placeOf, isHigh: end.isHigh, of, sourceResistance: end.sourceResistance, band: end.band, counts: () => [...states.values()].reduce((sum, { counts }) => ({ lowRank: sum.lowRank + counts.lowRank, inFull: sum.inFull + counts.inFull }), { lowRank: 0, inFull: 0 }) };
  };
  const predictionsIn = (asked: AskedState): Predictions => {
    const key = JSON.stringify(asked);
    let predictions = found.get(key);
    if (!predictions) found.set(key, (predictions = make(asked)));
    return predictions;
  };
  return { predictionsIn };
}

const NOTHING_BLOWN: readonly string[] = [];
/** A fault that may take a fuse with it. */
export const mayBlow = ({ changes }: Hypothesis): boolean => changes.some(({ is }) => is === 'joined' || is === 'shorted' || is === 'stuck_closed' || is === 'moved');

/** Runs whose current a condition asks for. */
const runsIn = ({ expression }: Condition): readonly string[] => [...partsOf(expression)].flatMap((one) => (one.form === 'call' && one.name === 'I' ? one.arguments.map((argument) => (argument.form === 'literal' ? String(argument.value) : '')) : []));

function watchedIn(car: Car, ask: Network): Watched {
  const conditions = [...car.build.modes.values()].flatMap(({ needs, asserts }) => [...needs, ...asserts]);
  const asked = conditions.flatMap(runsIn);
  const batteryRuns = [...car.parts.values()].flatMap(({ names, roles }) => {
    const post = roles.lowVoltageBattery && names.of(roles.lowVoltageBattery.positive);
    return post === undefined ? [] : [...car.runs.values()].filter(({ from, to }) => from === post || to === post).map(({ name }) => name);
  });
  const points = ask.points;
  const known = new Set(points);
  return {
    points: [...points, ...new Set(conditions.flatMap(pointsIn).filter((point) => !known.has(point) && car.parts.has(point.split('.')[0]!)))],
    things: thingsOf(car, ask),
    // what the battery gives first
    runs: [...new Set([...batteryRuns, ...asked, ...clampable(car)])].filter((run) => car.runs.has(run)),
  };
}

/** A step of the way: the car just before it, and whether its needs are met. */
interface JudgedStep { readonly sights: () => StateSights; readonly judge: (sight: Sight, changes: readonly FaultChange[]) => boolean; readonly isAlwaysMet: boolean }

/** [V] */
export const NO_VOLTAGE = 1e-3;
/** What moves by less decides no condition [V] [A]. */
const MOVED = 1e-3;

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
      // what only ties and leaks hold is no voltage to a controller
      return one === undefined || other === undefined ? undefined : Math.abs(one - other) < NO_VOLTAGE ? 0 : one - other;
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
