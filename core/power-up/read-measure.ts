/** What a measure reads in a state of one draw of the car. */
import type { Network } from '../car/ask.ts';
import type { Car, CarPart } from '../car/car.ts';
import type { State } from '../car/state.ts';
import { settingsIn } from '../car/wire-car.ts';
import type { BenchSourceRole } from '../part/role.ts';
import { isolationFromReadings } from '../physics/isolation.ts';
import { chargeTime } from './charge-time.ts';
import type { Measure } from './step.ts';

/** Share of the pack's voltage at which a capacitor counts as full, and voltage at which it counts as empty [V]; [un-r100] clause 2 (class A). */
export const FULL = 0.95;
export const EMPTY = 60;
/** Beyond this an insulation tester only says "more" [ohm]; common practice, no source. */
const TESTER_END = 10e9;

/**
 * @param isUnloaded  the meter is known to pull nothing down here: its own resistance is left out, which is quicker
 * @returns the reading [SI]; undefined when it cannot be told: no operating point, or nothing that conducts
 */
export function readMeasure(car: Car, ask: Network, state: State, measure: Measure, isUnloaded = false): number | undefined {
  switch (measure.is) {
    case 'voltage': return isUnloaded ? openVoltage(ask, state, measure.a, measure.b) : metered(ask, state, measure.a, measure.b);
    case 'difference': {
      const [first, second] = [metered(ask, state, ...measure.first), metered(ask, state, ...measure.second)];
      return first === undefined || second === undefined ? undefined : first - second;
    }
    case 'resistance': return resistance(ask, state, measure.a, measure.b);
    case 'insulation': {
      const all = measure.poles.map((pole) => resistance(ask, state, pole, measure.b));
      return all.some((one) => one === undefined) ? undefined : Math.min(TESTER_END, ...all as number[]);
    }
    case 'current': {
      const solved = ask.solve(state);
      return solved.outcome === 'solved' ? solved.currentOf(measure.element) * (measure.isReversed ? -1 : 1) : undefined;
    }
    case 'isolation': return isolation(ask, state, measure);
    case 'time': return time(car, ask, state, measure);
  }
}

/** Voltage with nothing across the points; undefined when nothing ties them together. */
export function openVoltage(ask: Network, state: State, a: string, b: string): number | undefined {
  const solved = ask.solve(state);
  return solved.outcome === 'solved' && solved.islandOf(a) === solved.islandOf(b) ? plain(solved.voltageOf(a) - solved.voltageOf(b)) : undefined;
}

/** With a 10 MΩ meter. A resistor that hangs on the same two points is laid beside it: one change of the network instead of two. */
function metered(ask: Network, state: State, a: string, b: string): number | undefined {
  const bridges = state.bridges ?? [];
  const bridge = bridges.at(-1);
  if (bridge && bridge.a === a && bridge.b === b) {
    const { bridges: _, ...bare } = state;
    const read = ask.meter(bridges.length === 1 ? bare : { ...bare, bridges: bridges.slice(0, -1) }, a, b, (bridge.resistance * METER) / (bridge.resistance + METER));
    return read.outcome === 'reads' ? plain(read.voltage) : undefined;
  }
  const read = ask.meter(state, a, b);
  return read.outcome === 'reads' ? plain(read.voltage) : undefined;
}

/** [ohm]; [un-r100] annex 4B asks for at least as much. */
const METER = 10e6;

/** What no meter shows is noise of the solution. */
const plain = (volts: number): number => (Math.abs(volts) < 1e-5 ? 0 : volts);

function resistance(ask: Network, state: State, a: string, b: string): number | undefined {
  const seen = ask.thevenin(state, a, b);
  return seen.outcome === 'solved' ? seen.resistance : undefined;
}

/** By the readings that a 10 MΩ meter would give, as they are written down: without sign. */
function isolation(ask: Network, state: State, { positive, negative, added }: Measure & { is: 'isolation' }): number | undefined {
  const volts = (a: string, b: string, more: State = state): number | undefined => { const read = ask.meter(more, a, b); return read.outcome === 'reads' ? Math.abs(read.voltage) : undefined; };
  const [pack, fromNegative, fromPositive] = [volts(positive, negative), volts(negative, 'chassis'), volts(positive, 'chassis')];
  if (pack === undefined || fromNegative === undefined || fromPositive === undefined || pack === 0) return undefined;
  const higher = fromNegative >= fromPositive ? negative : positive;
  const loaded = metered(ask, { ...state, bridges: [...(state.bridges ?? []), { a: higher, b: 'chassis', resistance: added }] }, higher, 'chassis');
  if (loaded === undefined) return undefined;
  const withAdded = Math.abs(loaded);
  const found = isolationFromReadings({ pack, negative: fromNegative, positive: fromPositive, added, withAdded });
  return found.outcome === 'resistance' ? found.resistance : undefined;
}

/**
 * Filling through a resistor: R C ln(1/(1 - 0.95)). Charging from a source that holds its current, to the same share of what it is set to:
 * `chargeTime`. Emptying through bleeders to 60 V: R C ln(V/60); by a part's own discharge, which it states from its highest voltage for its
 * own capacitor, in proportion to all the capacitors and to the logarithm of the voltages.
 */
function time(car: Car, ask: Network, state: State, measure: Measure & { is: 'time' }): number | undefined {
  const links = measure.links.flatMap((name) => { const link = car.parts.get(name)?.roles.dcLink; return link ? [link] : []; });
  const by = car.parts.get(measure.through ?? '');
  const source = by?.roles.benchSource;
  const capacitance = links.reduce((sum, link) => sum + link.capacitance, source?.outputCapacitance ?? 0);
  if (capacitance <= 0) return undefined;
  if (measure.of === 'charge') return by && source ? charge(car, ask, state, by, source, capacitance, measure.voltageAt) : undefined;
  if (measure.of === 'fill') {
    const resistor = by?.roles.prechargeResistor;
    return resistor && resistor.resistance * capacitance * Math.log(1 / (1 - FULL));
  }
  const read = ask.meter(state, ...measure.voltageAt);
  const voltage = read.outcome === 'reads' ? Math.abs(read.voltage) : 0;
  if (voltage <= EMPTY) return 0;
  const conductance = links.reduce((sum, { bleeder }) => sum + (bleeder === undefined ? 0 : 1 / bleeder), source === undefined ? 0 : 1 / source.preload);
  const times = links.flatMap(({ activeDischarge, maximumVoltage, capacitance: own }) => {
    if (activeDischarge === undefined) return [];
    const stated = Math.log(maximumVoltage !== undefined && maximumVoltage > EMPTY ? maximumVoltage / EMPTY : voltage / EMPTY);
    return [activeDischarge * (capacitance / own) * (Math.log(voltage / EMPTY) / stated)];
  });
  if (conductance > 0) times.push((capacitance / conductance) * Math.log(voltage / EMPTY));
  return times.length === 0 ? undefined : Math.min(...times);
}

/** The resistance beside the capacitors is what the network shows at the same points while the source gives nothing. */
function charge(car: Car, ask: Network, state: State, by: CarPart, source: BenchSourceRole, capacitance: number, [a, b]: readonly [string, string]): number | undefined {
  const settings = settingsIn(car, state)(by.name);
  const [voltage, current] = [settings[source.voltageSetting] as number | undefined, (settings[source.currentSetting] as number | undefined) ?? source.maximumCurrent];
  if (voltage === undefined) return undefined;
  const { [by.name]: _, ...others } = state.set ?? {};
  const seen = ask.thevenin({ ...state, set: others }, a, b);
  if (seen.outcome === 'failed') return undefined;
  return chargeTime(current, capacitance, seen.outcome === 'solved' ? seen.resistance : Infinity, FULL * voltage);
}
