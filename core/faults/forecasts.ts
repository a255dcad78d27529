/**
 * Predictions of all hypotheses for one look, as the diagnosis engine wants them: means with a spread, or chances of yes.
 *
 * The spread joins what the meter may be out by with what the file may be out by. Shares: common practice, no source.
 */
import type { Network } from '../car/ask.ts';
import type { Car } from '../car/car.ts';
import { stringsOf } from '../car/strings.ts';
import { CLAMP } from './clamp.ts';
import { stateOf } from './asked-state.ts';
import type { AskedState } from './asked-state.ts';
import type { Forecast } from './engine/forecast.ts';
import type { FaultChange } from './fault-change.ts';
import { NOTHING_WRONG } from './hypothesis.ts';
import type { Hypothesis } from './hypothesis.ts';
import { lookKey } from './observation.ts';
import type { Look, Observation } from './observation.ts';
import { mayBlow, predictor } from './predict.ts';
import type { Predictions, Predictor } from './predict.ts';
import { MOST, resistancesIn } from './resistances.ts';
import type { Resistances } from './resistances.ts';

/** Meter: share of the reading and a fixed part [V]. */
const METER = { share: 0.005, fixed: 0.02 };
/** What no tolerance of the file says of a predicted voltage: temperature, contacts, ageing [V]. */
const MODEL = { share: 0.005, fixed: 0.06 };
/** What a supply may be out by beyond this moves all points alike, and is seen at the first of them: share. */
const COMMON = 0.04;
/** Where the tolerances of the file cannot be followed: share. */
const UNKNOWN = 0.025;
/** What a part takes behind a fault is known no better than this: between nothing and all of the whole voltage a divider makes x (1 - x) of it. */
const BEHIND = 0.2;
/** Resistance of the meter [ohm]; ties of the network stand for it on the 12 V side, here it loads what is seen through insulation. */
const METER_RESISTANCE = 10e6;
/** Ohms are compared by their logarithm, above what leads and probes add [ohm]. */
const LEADS = 0.3;
/** Spread of that logarithm: meter, and what the file may be out by; and where much lies in the way, of which the file knows little. */
const OHMS_SPREAD = 0.12;
const OHMS_VAGUE = { from: Math.log(30), to: Math.log(3e5), spread: 0.3 };
/** Electronics in the way, blocking or conducting, that matter less than this are not told of. */
const ELECTRONICS_MATTER = 0.2;
/** Between the poles of the high voltage a reading is nothing, or nearly what it should be; else it is seen through insulation and tells nothing. */
const CLEAR = { none: 0.05, whole: 0.8 };
/** What parts take is known no better than this: share. */
const TAKEN = 0.12;
/** Seen or heard wrongly, or not noticed. */
const MISTAKEN = 0.01;
/** Taken from a parked car's battery beyond what the file says, before anybody notices [A]. */
const DRAIN = 0.05;

export const ohmsScale = (ohms: number): number => Math.log(Math.min(MOST, Math.max(0, ohms)) + LEADS);
export const ohmsFromScale = (place: number): number => Math.max(0, Math.exp(place) - LEADS);

export interface Forecasts {
  readonly predictor: Predictor;
  readonly predictionsIn: (asked: AskedState) => Predictions;
  /** undefined: it cannot be asked of this car */
  readonly forecast: (asked: AskedState, look: Look, hypotheses: readonly Hypothesis[], band?: number) => Forecast | undefined;
  /** the outcome of an observation on the forecast's scale */
  readonly outcomeOf: (observation: Observation) => number | boolean;
  /** highest voltage that two points of the high voltage may have [V] */
  readonly packVoltage: number;
}

/** @param energised  the state in which the car was switched on: what blew there is still open when everything is off */
export function forecasts(car: Car, ask: Network, energised: AskedState): Forecasts {
  const predicted = predictor(car, ask, energised);
  const { packs } = stringsOf(car);
  const packVoltage = packs.flatMap(({ strings }) => strings).reduce((most, { modules }) => Math.max(most, modules.reduce((sum, { part }) => sum + (part.roles.cells?.series ?? 0) * (part.cell?.maximumVoltage ?? 0), 0)), 0);
  const kept = new Map<string, { readonly hypotheses: readonly Hypothesis[]; readonly forecast: Forecast | undefined }>();
  const ohms = new Map<string, readonly [Resistances, Resistances]>();
  /** with electronics that conduct, and that do not */
  const resistancesOf = (asked: AskedState): readonly [Resistances, Resistances] => {
    const key = JSON.stringify(asked);
    let known = ohms.get(key);
    if (!known) {
      const state = stateOf({ ...asked, mode: undefined });
      ohms.set(key, (known = [resistancesIn(car, state), resistancesIn(car, state, 'block')]));
    }
    return known;
  };
  const asSwitchedOff = new Map<Hypothesis, readonly FaultChange[]>();
  /** What it took with it when the car was switched on stays open. */
  const withBlown = (hypothesis: Hypothesis): readonly FaultChange[] => {
    let changes = asSwitchedOff.get(hypothesis);
    if (!changes) asSwitchedOff.set(hypothesis, (changes = mayBlow(hypothesis) ? [...hypothesis.changes, ...predicted.predictionsIn(energised).of(hypothesis).blown.map((element): FaultChange => ({ is: 'open', element }))] : hypothesis.changes));
    return changes;
  };
  const make = (asked: AskedState, look: Look, hypotheses: readonly Hypothesis[], band: number | undefined): Forecast | undefined => {
    if (look.is === 'resistance') return resistance(resistancesOf(asked), withBlown, look, hypotheses, band);
    const predictions = predicted.predictionsIn(asked);
    if (look.is === 'voltage') return voltage(predictions, look, hypotheses, packVoltage, band);
    if (look.is === 'current') return current(predictions, look.of, hypotheses, band);
    const says = saysOf(car, predictions, look);
    return says === undefined ? undefined : { is: 'yes_no', chances: Float64Array.from(hypotheses, (hypothesis) => { const yes = hypothesis.sort === 'unlisted' ? undefined : says(hypothesis); return yes === undefined ? NaN : yes ? 1 - MISTAKEN : MISTAKEN; }) };
  };
  return {
    predictor: predicted, predictionsIn: predicted.predictionsIn, packVoltage,
    forecast: (asked, look, hypotheses, band) => {
      if (band !== undefined) return make(asked, look, hypotheses, band);
      const key = lookKey(asked, look);
      const known = kept.get(key);
      if (known && known.hypotheses === hypotheses) return known.forecast;
      const forecast = make(asked, look, hypotheses, undefined);
      kept.set(key, { hypotheses, forecast });
      return forecast;
    },
    outcomeOf: ({ look, value }) => (look.is === 'resistance' ? ohmsScale(value as number) : value),
  };
}

function voltage(predictions: Predictions, { a, b }: Extract<Look, { is: 'voltage' }>, hypotheses: readonly Hypothesis[], packVoltage: number, band: number | undefined): Forecast | undefined {
  const [one, other] = [placeOf(predictions, a), placeOf(predictions, b)];
  if (one === undefined || other === undefined) return undefined;
  const isHigh = predictions.isHigh(a) || predictions.isHigh(b);
  // a pole against the chassis is seen through insulation: the meter pulls it down, by how much only a solve with the meter tells exactly
  const isMixed = predictions.isHigh(a) !== predictions.isHigh(b);
  const source = isMixed ? predictions.sourceResistance(a, b) : undefined;
  /** what a leak leaves of the source's resistance, the meter pulls down less */
  const loadedBy = ({ changes }: Hypothesis): number => {
    if (source === undefined) return 1;
    const leaks = changes.reduce((sum, change) => sum + (change.is === 'joined' && predictions.isHigh(change.a) !== predictions.isHigh(change.b) ? 1 / Math.max(1, change.resistance) : 0), 0);
    return METER_RESISTANCE / (METER_RESISTANCE + 1 / (1 / Math.max(1, source) + leaks));
  };
  const whole = predictions.of(NOTHING_WRONG).sight?.volts;
  const healthy = whole === undefined ? 0 : whole[one]! - whole[other]!;
  const most = isHigh ? 1.2 * Math.max(packVoltage, 60) : 20;
  const tolerance = predictions.band(a, b);
  /** [V] */
  const model = (mean: number): number => {
    const whole = Math.abs(healthy), size = Math.abs(mean);
    const share = whole === 0 ? 0 : Math.min(1, size / whole);
    const own = tolerance === undefined ? UNKNOWN * size : Math.hypot(share * Math.min(tolerance, COMMON * whole + MODEL.fixed), MODEL.share * size, BEHIND * whole * share * (1 - share), UNKNOWN * Math.max(0, size - whole));
    return isMixed ? Math.hypot(own, 0.06 * mean) : own;
  };
  const meter = isHigh ? { share: METER.share, fixed: 0.3 } : METER;
  return {
    is: 'value', range: [-most, most],
    means: Float64Array.from(hypotheses, (hypothesis) => {
      const volts = hypothesis.sort === 'unlisted' ? undefined : predictions.of(hypothesis).sight?.volts;
      if (volts === undefined) return NaN;
      const read = loadedBy(hypothesis) * (volts[one]! - volts[other]!);
      return !isHigh || isMixed || Math.abs(read) < CLEAR.none * packVoltage || Math.abs(read) > CLEAR.whole * Math.abs(healthy) ? read : NaN;
    }),
    spread: (mean) => Math.hypot(band === undefined ? meter.fixed + meter.share * Math.abs(mean) : band / 2, MODEL.fixed, model(mean)),
  };
}

/** [A], whichever way it flows. */
function current(predictions: Predictions, run: string, hypotheses: readonly Hypothesis[], band: number | undefined): Forecast | undefined {
  const place = predictions.watched.runs.indexOf(run);
  if (place < 0) return undefined;
  const means = Float64Array.from(hypotheses, (hypothesis) => {
    const amps = hypothesis.sort === 'unlisted' ? undefined : predictions.of(hypothesis).sight?.amps[place];
    return amps === undefined ? NaN : Math.abs(amps);
  });
  const most = means.reduce((top, mean) => (mean > top ? mean : top), 10);
  return { is: 'value', range: [0, 1.5 * most], means, spread: (mean) => Math.hypot(band === undefined ? CLAMP.fixed + CLAMP.share * mean : band / 2, TAKEN * mean) };
}

function resistance([conducting, blocking]: readonly [Resistances, Resistances], withBlown: (hypothesis: Hypothesis) => readonly FaultChange[], { a, b }: Extract<Look, { is: 'resistance' }>, hypotheses: readonly Hypothesis[], band: number | undefined): Forecast | undefined {
  if (conducting.between(a, b, []) === undefined) return undefined;
  const means = new Float64Array(hypotheses.length).fill(NaN), until = new Float64Array(hypotheses.length).fill(NaN);
  hypotheses.forEach((hypothesis, h) => {
    if (hypothesis.sort === 'unlisted') return;
    const changes = withBlown(hypothesis);
    const ohms = conducting.between(a, b, changes);
    if (ohms === undefined) return;
    means[h] = until[h] = ohmsScale(ohms);
    const most = ohmsScale(blocking.between(a, b, changes) ?? MOST);
    if (most - means[h]! > ELECTRONICS_MATTER) until[h] = most;
  });
  return {
    is: 'value', range: [ohmsScale(0), ohmsScale(MOST)], means, until,
    spread: (mean) => Math.hypot(mean > OHMS_VAGUE.from && mean < OHMS_VAGUE.to ? OHMS_VAGUE.spread : OHMS_SPREAD, band === undefined ? 0 : band / 2 / Math.exp(mean)),
  };
}

function placeOf({ placeOf: places }: Predictions, point: string): number | undefined {
  return places.get(point);
}

/** Whether a hypothesis says yes; undefined: the car has no such thing. */
function saysOf(car: Car, predictions: Predictions, look: Exclude<Look, { is: 'voltage' | 'resistance' | 'current' }>): ((hypothesis: Hypothesis) => boolean | undefined) | undefined {
  const { watched, way, asked } = predictions;
  switch (look.is) {
    case 'thing': {
      const index = watched.things.findIndex(({ what, of }) => what === look.what && of === look.of);
      return index < 0 ? undefined : (hypothesis) => { const { sight } = predictions.of(hypothesis); return sight && sight.does[index] === 1; };
    }
    case 'reached': {
      const step = way.steps.findIndex(({ to }) => to === look.mode);
      if (step < 0) return look.mode === asked.mode || way.steps[0]?.from === look.mode ? (): boolean => true : undefined;
      // a mode that was entered and left again was reached
      return (hypothesis) => { const { reached, fellBack } = predictions.of(hypothesis); return reached > step || (fellBack && step === way.steps.length - 1); };
    }
    case 'falls_back': return (hypothesis) => predictions.of(hypothesis).fellBack;
    case 'blown': {
      const elements = look.of === undefined ? undefined : (car.parts.get(look.of)?.roles.protection ?? []).map(({ element }) => `${look.of!}.${element}`);
      return (hypothesis) => {
        const { blown } = predictions.of(hypothesis);
        // that a fuse blows is what a fault does to it; an element that parted by itself is seen in the fuse that is named
        if (elements === undefined) return blown.length > 0;
        return blown.some((element) => elements.includes(element)) || hypothesis.changes.some((change) => change.is === 'open' && elements.includes(change.element));
      };
    }
    case 'isolation_warning': return (hypothesis) => warns(car, predictions, hypothesis);
    case 'drains': {
      const base = hasLowVoltageBattery(car) ? drainOf(predictions, NOTHING_WRONG) : undefined;
      return base === undefined ? undefined : (hypothesis) => { const drain = drainOf(predictions, hypothesis); return drain === undefined ? undefined : drain - base > DRAIN; };
    }
  }
}

/** A leak from the high voltage to the chassis below what the monitor warns at; or the monitor is not fed, so that its warning stands. */
function warns(car: Car, predictions: Predictions, hypothesis: Hypothesis): boolean | undefined {
  const monitors = [...car.parts.values()].filter(({ roles }) => roles.isolationMonitor);
  const limit = Math.max(100e3, ...monitors.map(({ roles }) => roles.isolationMonitor!.warnBelow ?? 0));
  if (hypothesis.changes.some((change) => change.is === 'joined' && change.resistance < limit && [change.a, change.b].some((node) => predictions.isHigh(node)) && [change.a, change.b].some((node) => !predictions.isHigh(node)))) return true;
  const { sight } = predictions.of(hypothesis);
  if (!sight) return undefined;
  // a car whose controllers are all dead warns of nothing
  const controllers = predictions.watched.things.flatMap(({ what, of }, index) => (what === 'runs' && car.parts.get(of)?.roles.switching?.some(({ by }) => by === 'electronics') === true ? [index] : []));
  if (controllers.length > 0 && controllers.every((index) => sight.does[index] === 0)) return false;
  return monitors.some(({ name }) => { const index = predictions.watched.things.findIndex(({ what, of }) => what === 'runs' && of === name); return index >= 0 && sight.does[index] === 0; }) && predictions.of(NOTHING_WRONG).sight !== sight;
}

/** Its first watched run is then the one at the battery's post. */
export function hasLowVoltageBattery(car: Car): boolean {
  return [...car.parts.values()].some(({ names, roles }) => roles.lowVoltageBattery !== undefined && [...car.runs.values()].some(({ from, to }) => [from, to].includes(names.of(roles.lowVoltageBattery!.positive))));
}

/** Current out of the 12 V battery [A]. */
function drainOf(predictions: Predictions, hypothesis: Hypothesis): number | undefined {
  const { sight } = predictions.of(hypothesis);
  return sight && sight.amps.length > 0 ? Math.abs(sight.amps[0]!) : undefined;
}
