/**
 * Precharge: whether the DC links are full enough when the main contactor closes, and what resistor, relay, converter,
 * contactor and fuses go through on the way.
 *
 * Everything is computed with a full pack (highest energy and current); whether a precharge gets past its loads is also
 * asked of an empty one.
 */
import type { Network } from '../../car/ask.ts';
import type { Car, CarPart } from '../../car/car.ts';
import type { Check } from '../../findings/finding.ts';
import type { PrechargeCircuit } from '../../physics/precharge-curve.ts';
import { prechargeCurrent, prechargeEndVoltage, prechargeEnergy, prechargeTime, prechargeVoltage, repeatedPrechargePower } from '../../physics/precharge-curve.ts';
import { needsOf, numbers } from './check-numbers.ts';
import type { ClosingResult } from './link-closing.ts';
import { studyClosing } from './link-closing.ts';
import type { ConverterPath, Filling, Link, LinkTransitions, ResistorPath } from './link-transitions.ts';
import { linkTransitions } from './link-transitions.ts';
import { metalPaths } from './metal-paths.ts';
import type { LoadsWhileFilling } from './precharge-circuit.ts';
import { emptyPackAt, fullPackAt, loadsWhileFilling, prechargeCircuit } from './precharge-circuit.ts';
import { converterFilling } from './precharge-converter.ts';

/** Share of the pack's voltage that counts as full [1]: 5 % left; common practice, no source. */
export const FULL_SHARE = 0.95;
/** Repeated starts when the file does not say how often: three in ten seconds [1/s], [resistor-maker-note]. */
export const STARTS_PER_SECOND = 3 / 10;
export interface PrechargePoint { /** [s] */ readonly time: number; /** [V] */ readonly voltage: number; /** into the links [A] */ readonly current: number }

export interface PrechargeResult {
  readonly mode: string;
  /** the part that precharges */
  readonly by: string;
  readonly kind: 'resistor' | 'converter';
  readonly links: readonly string[];
  /** of those links together [F] */
  readonly capacitance: number;
  /** full pack [V] */
  readonly packVoltage: number;
  /** resistor, pack and wiring [ohm]; undefined for a converter */
  readonly resistance: number | undefined;
  readonly loads: LoadsWhileFilling;
  /** where the links come to rest [V] */
  readonly endVoltage: number;
  /** time to `FULL_SHARE` of the pack's voltage [s]; undefined: never */
  readonly timeToFull: number | undefined;
  /** how long the mode waits [s] */
  readonly lasts: number | undefined;
  /** of the links when the mode's time is over [V] */
  readonly voltageReached: number | undefined;
  /** full pack less links then [V] */
  readonly residual: number | undefined;
  /** in the resistor, one start [J] */
  readonly resistorEnergy: number | undefined;
  /** at the start [A] */
  readonly peakCurrent: number;
  /** how long the resistor bears the whole pack voltage (links shorted) before its pulse energy is spent [s] */
  readonly bearsShortFor: number | undefined;
  /** from the 12 V side, one start, a converter only [J] */
  readonly supplyEnergy: number | undefined;
  /** at the converter's supply terminals at full output [V] */
  readonly supplyVoltage: number | undefined;
  /** [A] */
  readonly supplyCurrent: number | undefined;
  readonly curve: readonly PrechargePoint[];
}

export interface PrechargeResults { readonly precharges: readonly PrechargeResult[]; readonly closings: readonly ClosingResult[]; /** links that no mode puts on the pack */ readonly neverLive: readonly string[] }

/** Precharge of every DC link, in every mode that fills one, and every closing of a main contactor onto one. */
export function studyPrecharge(car: Car, ask: Network): { readonly results: PrechargeResults; readonly checks: readonly Check[] } {
  const checks: Check[] = [];
  const paths = metalPaths(car, ask);
  const transitions = linkTransitions(car, ask);
  if (paths.cellTerminals.length === 0 && paths.packs.missing.length === 0) return { results: { precharges: [], closings: [], neverLive: [] }, checks };

  const neverLive: string[] = [];
  for (const link of transitions.links) {
    const modes = transitions.liveModes(link);
    const isReached = modes.length > 0;
    if (!isReached) neverLive.push(link.part);
    const unsolved = [...car.modes.keys()].filter((mode) => !paths.pictureOf(mode)).map((mode) => `modes.${mode}`);
    checks.push({
      code: 'high-voltage.link-reached', about: [link.part], value: isReached ? 1 : 0, limit: 1, sense: 'is_true',
      ...needsOf(isReached ? [] : [...paths.packs.missing, ...unsolved]), details: { modes: modes.join(', ') },
    });
    if (isReached) checks.push(polarityCheck(car, ask, link, modes[0]!));
  }

  const filled = transitions.fillings.map((filling) => fillingOf(car, ask, filling, transitions));
  const known = filled.filter((entry): entry is Filled => entry !== undefined);
  for (const entry of known) checks.push(...entry.checks);
  const closings = transitions.closings.map((closing) => {
    const { results, checks: found } = studyClosing(car, ask, closing, (filling) => known.find(({ result }) => result.mode === filling.mode && result.by === filling.path.part)?.result.residual);
    checks.push(...found);
    return results;
  });
  return { results: { precharges: known.map(({ result }) => result), closings, neverLive }, checks };
}

interface Filled { readonly result: PrechargeResult; readonly checks: readonly Check[] }

function fillingOf(car: Car, ask: Network, filling: Filling, transitions: LinkTransitions): Filled | undefined {
  const { mode, path, links } = filling;
  const next = transitions.closings.find(({ filled }) => filled.some((entry) => entry.filling === filling))?.to;
  const pack = fullPackAt(car, ask, next ?? mode, links[0]!);
  const part = car.parts.get(path.part)!;
  if (pack === undefined) return undefined;
  const loads = loadsWhileFilling(car, ask, mode, links, path);
  return path.by === 'resistor'
    ? byResistor(car, ask, { ...filling, path }, part, pack, loads, next)
    : byConverter(car, ask, { ...filling, path }, part, pack, loads);
}

function byResistor(car: Car, ask: Network, filling: Filling & { path: ResistorPath }, part: CarPart, pack: number, loads: LoadsWhileFilling, next: string | undefined): Filled | undefined {
  const { mode, path, links } = filling;
  const circuit = prechargeCircuit(ask, mode, links, path, pack, loads);
  if (!circuit) return undefined;
  const { lasts, every } = car.modes.get(mode)!;
  const endVoltage = prechargeEndVoltage(circuit);
  const full = prechargeTime(circuit, FULL_SHARE * pack);
  const timeToFull = full.outcome === 'reached' ? full.time : undefined;
  const voltageReached = lasts === undefined ? undefined : prechargeVoltage(circuit, lasts);
  // how far an empty pack gets: what draws constant power takes a larger share of it
  const emptyPack = loads.power > 0 || loads.current > 0 ? (next === undefined ? emptyPackAt(ask, mode, links[0]!, path) : emptyPackAt(ask, next, links[0]!)) : undefined;
  const rests = [{ end: endVoltage, pack }, ...(emptyPack === undefined ? [] : [{ end: prechargeEndVoltage({ ...circuit, source: emptyPack }), pack: emptyPack }])];
  const lowest = rests.reduce((worst, one) => (one.end / one.pack < worst.end / worst.pack ? one : worst));

  const wait = lasts ?? timeToFull;
  const share = Math.min(1, path.role.resistance / circuit.resistance);
  const resistorEnergy = wait === undefined ? undefined : share * energyOver(circuit, wait);
  const peakCurrent = prechargeCurrent(circuit, 0);
  const { pulseEnergy, continuousPower } = path.role;
  const bearsShortFor = pulseEnergy === undefined ? undefined : pulseEnergy / (peakCurrent ** 2 * path.role.resistance);
  const contact = part.roles.switching?.find(({ element }) => element === path.role.contactElement);
  const common = { about: [path.part], variant: mode };
  const energyNeeds = resistorEnergy === undefined ? [`modes.${mode}.lasts`] : [];

  const meanPower = resistorEnergy === undefined ? undefined : repeatedPrechargePower(resistorEnergy, every !== undefined && every > 0 ? every : 1 / STARTS_PER_SECOND);
  const checks: Check[] = [
    finishesCheck(common, lowest.end, lowest.pack, loads),
    timeCheck(common, mode, lasts, timeToFull, voltageReached, pack, links),
    {
      code: 'high-voltage.precharge-resistor-pulse', ...common, sense: 'at_most', quantity: 'energy', ...numbers(resistorEnergy, pulseEnergy),
      ...needsOf([...energyNeeds, ...(pulseEnergy === undefined ? [`parts.${path.part}.pulse_energy`] : [])]),
      details: {
        capacitor_energy: { value: (circuit.capacitance * pack ** 2) / 2, quantity: 'energy' },
        short_power: { value: peakCurrent ** 2 * path.role.resistance, quantity: 'power' },
        ...(bearsShortFor === undefined ? {} : { short_time: { value: bearsShortFor, quantity: 'time' } as const }),
      },
    },
    {
      code: 'high-voltage.precharge-resistor-mean-power', ...common, sense: 'at_most', quantity: 'power', ...numbers(meanPower, continuousPower),
      ...needsOf([...energyNeeds, ...(continuousPower === undefined ? [`parts.${path.part}.continuous_power`] : [])]),
      details: { starts: every !== undefined && every > 0 ? 'as often as the mode may be repeated' : 'three times in ten seconds', energy: { value: resistorEnergy ?? 0, quantity: 'energy' } },
    },
    {
      code: 'high-voltage.precharge-resistor-short', ...common, sense: 'at_most', quantity: 'time', ...numbers(lasts, bearsShortFor),
      ...needsOf([...(lasts === undefined ? [`modes.${mode}.lasts`] : []), ...(pulseEnergy === undefined ? [`parts.${path.part}.pulse_energy`] : [])]),
      details: { power: { value: peakCurrent ** 2 * path.role.resistance, quantity: 'power' } },
    },
    relayCheck(common, peakCurrent, contact?.makingCurrent ?? contact?.rating, path.part),
  ];
  return {
    checks,
    result: {
      mode, by: path.part, kind: 'resistor', links: links.map((link) => link.part), capacitance: circuit.capacitance, packVoltage: pack, resistance: circuit.resistance,
      loads, endVoltage, timeToFull, lasts, voltageReached, residual: voltageReached === undefined ? undefined : pack - voltageReached,
      resistorEnergy, peakCurrent, bearsShortFor, supplyEnergy: undefined, supplyVoltage: undefined, supplyCurrent: undefined,
      curve: car.isForMargins ? [] : curveOf(endVoltage, (voltage) => { const at = prechargeTime(circuit, voltage); return at.outcome === 'reached' ? at.time : undefined; }, (voltage) => prechargeCurrent(circuit, voltage)),
    },
  };
}

function byConverter(car: Car, ask: Network, filling: Filling & { path: ConverterPath }, part: CarPart, pack: number, loads: LoadsWhileFilling): Filled | undefined {
  const { mode, path, links } = filling;
  const capacitance = links.reduce((sum, { role }) => sum + role.capacitance, 0);
  const charging = converterFilling(car, ask, filling, capacitance, loads);
  if (!charging) return undefined;
  const { lasts } = car.modes.get(mode)!;
  const { endVoltage, supply, polarity } = charging;
  const timeToFull = charging.timeTo(FULL_SHARE * pack);
  const voltageReached = lasts === undefined ? undefined : polarity * charging.voltageAt(lasts);
  const minimum = part.roles.consumers?.find(({ positive }) => positive === path.role.supplyPositive)?.minimumVoltage;
  const common = { about: [path.part], variant: mode };
  const checks: Check[] = [
    finishesCheck(common, polarity * endVoltage, pack, loads),
    timeCheck(common, mode, lasts, timeToFull, voltageReached, pack, links),
    { code: 'high-voltage.precharge-polarity', ...common, value: polarity * endVoltage, limit: 0, sense: 'at_least', quantity: 'voltage', details: { link: links[0]!.part } },
    {
      code: 'high-voltage.precharge-supply-sag', ...common, sense: 'at_least', quantity: 'voltage', ...numbers(supply.voltage, minimum),
      ...needsOf(minimum === undefined ? [`parts.${path.part}.minimum_supply_voltage`] : []),
      details: { current: { value: supply.current, quantity: 'current' }, open: { value: supply.openVoltage, quantity: 'voltage' }, path: { value: supply.resistance, quantity: 'resistance' } },
    },
  ];
  return {
    checks,
    result: {
      mode, by: path.part, kind: 'converter', links: links.map((link) => link.part), capacitance, packVoltage: pack, resistance: undefined,
      loads, endVoltage, timeToFull, lasts, voltageReached, residual: voltageReached === undefined ? undefined : pack - voltageReached,
      resistorEnergy: undefined, peakCurrent: charging.currentAt(0), bearsShortFor: undefined,
      supplyEnergy: car.isForMargins ? undefined : charging.supplyEnergyTo(Math.min(FULL_SHARE * pack, endVoltage)), supplyVoltage: supply.voltage, supplyCurrent: supply.current,
      curve: car.isForMargins ? [] : curveOf(endVoltage, charging.timeTo, charging.currentAt),
    },
  };
}

function polarityCheck(car: Car, ask: Network, link: Link, mode: string): Check {
  const solved = metalPaths(car, ask).pictureOf(mode)!.solved;
  return { code: 'high-voltage.link-polarity', about: [link.part], value: solved.voltageOf(link.positive) - solved.voltageOf(link.negative), limit: 0, sense: 'at_least', quantity: 'voltage', details: { mode } };
}

type About = { readonly about: readonly string[]; readonly variant: string };

function finishesCheck(common: About, end: number, pack: number, loads: LoadsWhileFilling): Check {
  return {
    code: 'high-voltage.precharge-finishes', ...common, value: end / pack, limit: FULL_SHARE, sense: 'at_least', quantity: 'ratio',
    details: { end: { value: end, quantity: 'voltage' }, pack: { value: pack, quantity: 'voltage' }, loads: loadsInWords(loads) },
  };
}

function loadsInWords({ parts }: LoadsWhileFilling): string {
  return parts.length === 0 ? 'Nothing draws more than 10 W from the capacitors meanwhile.' : `${parts.join(', ')} ${parts.length === 1 ? 'draws' : 'draw'} from the capacitors meanwhile.`;
}

function timeCheck(common: About, mode: string, lasts: number | undefined, timeToFull: number | undefined, reached: number | undefined, pack: number, links: readonly Link[]): Check {
  const residual = reached === undefined ? undefined : Math.abs(pack - reached);
  return {
    code: 'high-voltage.precharge-in-time', ...common, sense: 'at_most', quantity: 'voltage', ...numbers(residual, (1 - FULL_SHARE) * pack),
    ...needsOf(lasts === undefined ? [`modes.${mode}.lasts`] : []),
    details: {
      waits: { value: lasts ?? 0, quantity: 'time' }, pack: { value: pack, quantity: 'voltage' }, links: links.map(({ part }) => part).join(', '),
      full_after: timeToFull === undefined ? 'it never gets there' : `it takes ${secondsInWords(timeToFull)}`,
    },
  };
}

/** Two digits, rounded up: the wait must not come out short. */
function secondsInWords(time: number): string {
  if (!(time > 0)) return '0 s';
  const step = 10 ** (Math.floor(Math.log10(time)) - 1);
  return `${Number((Math.ceil(time / step - 1e-9) * step).toPrecision(2))} s`;
}

function relayCheck(common: About, peakCurrent: number, limit: number | undefined, part: string): Check {
  return { code: 'high-voltage.precharge-relay-current', ...common, sense: 'at_most', quantity: 'current', ...numbers(peakCurrent, limit), ...needsOf(limit === undefined ? [`parts.${part}.making_current`] : []) };
}

/**
 * Heat in everything in series over a wait that may go on after the links have come to rest [J].
 *
 * Without a constant power or current it is closed form: with V - v = a + b e^(-t/T), b the end voltage and a what stays across
 * the resistor, the integral of (V - v)²/R is (a² t + 2 a b T (1 - e) + b² T (1 - e²)/2)/R, e = e^(-t/T).
 */
function energyOver(circuit: PrechargeCircuit, wait: number): number {
  const { source, resistance, capacitance } = circuit;
  const end = prechargeEndVoltage(circuit);
  if (circuit.loadCurrent === undefined && circuit.loadPower === undefined) {
    const time = (capacitance * resistance * end) / source;
    const stays = source - end;
    const gone = -Math.expm1(-wait / time);
    return (stays ** 2 * wait + 2 * stays * end * time * gone + (end ** 2 * time * (1 - (1 - gone) ** 2)) / 2) / resistance;
  }
  const reached = prechargeVoltage(circuit, wait);
  // near its resting point the voltage no longer moves: from there on the power is constant
  const target = Math.min(reached, end * (1 - 1e-4));
  const rise = prechargeEnergy(circuit, target);
  if (rise.outcome === 'never') return (source ** 2 / resistance) * wait;
  return rise.inResistor + (Math.max(0, wait - rise.time) * (source - reached) ** 2) / resistance;
}

/** Points closer together where the curve bends; the last is where it comes to rest but for half a percent. */
function curveOf(end: number, timeTo: (voltage: number) => number | undefined, currentAt: (voltage: number) => number): readonly PrechargePoint[] {
  const points: PrechargePoint[] = [];
  const depth = Math.log(200);
  for (let k = 0; k <= CURVE_POINTS; k++) {
    const voltage = end * -Math.expm1((-depth * k) / CURVE_POINTS);
    const time = timeTo(voltage);
    if (time !== undefined) points.push({ time, voltage, current: currentAt(voltage) });
  }
  return points;
}

const CURVE_POINTS = 40;
