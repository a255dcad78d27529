/**
 * High-voltage runs under load: temperature for good and after the short-time modes, loss, voltage lost on the way to each
 * part, insulation voltage, bends.
 */
import type { Network } from '../../car/ask.ts';
import type { Car, CarPart, CarRun } from '../../car/car.ts';
import { highVoltageRuns } from '../../car/high-voltage-runs.ts';
import { mainsRuns } from '../../car/mains-runs.ts';
import { runResistance } from '../../car/wire-car.ts';
import type { Check } from '../../findings/finding.ts';
import { dropLimits } from '../../physics/voltage-drop.ts';
import { knownOf, type Known } from './fault-currents.ts';
import { runCapacity, sharedHeating, steadyRunTemperature } from '../../car/heating-memo.ts';
import type { Picture } from './metal-paths.ts';
import { metalPaths } from './metal-paths.ts';
import { continuousCurrent, shortCurrents } from './mode-currents.ts';
import type { Packs } from './pack-ends.ts';
import { runHeating, stockPath } from '../../car/run-heating.ts';

export interface RunLoad {
  readonly run: string;
  /** [m] */ readonly length: number | undefined;
  /** largest current that may last, and its mode [A] */
  readonly current: number | undefined; readonly mode: string | undefined;
  /** air around it [K] */ readonly ambient: number | undefined;
  /** conductor temperature at that current [K] */ readonly steadyTemperature: number | undefined;
  /** highest conductor temperature over the short-time modes [K] */ readonly peakTemperature: number | undefined;
  /** highest conductor temperature it may have [K] */ readonly temperatureRating: number | undefined;
  /** steady current that brings it to its rating where it lies [A] */ readonly capacity: number | undefined;
  /** of metal and joints at the steady temperature [ohm] */ readonly resistance: number | undefined;
  /** heat it makes at its continuous current, joints included [W] */ readonly loss: number | undefined;
}

export interface EquipmentDrop {
  readonly part: string;
  /** heaviest mode */ readonly mode: string;
  /** lost between the battery's ends and the part [V] */ readonly drop: number;
  /** as a share of the battery's voltage [1] */ readonly share: number;
}

export interface ConductorResults { readonly runs: readonly RunLoad[]; readonly drops: readonly EquipmentDrop[]; /** heat in all runs together [W] */ readonly loss: number }

export function studyConductors(car: Car, ask: Network, known: Known = knownOf(car, ask)): { readonly results: ConductorResults; readonly checks: readonly Check[] } {
  const checks: Check[] = [];
  const runs: RunLoad[] = [];
  for (const run of highVoltageRuns(car)) {
    runs.push(loadOf(car, run, known, checks));
    checks.push(...mechanicalAndVoltage(car, run, known));
  }
  const drops: EquipmentDrop[] = [];
  const paths = metalPaths(car, ask);
  const pictures = known.modes.flatMap(({ mode }) => { const here = paths.pictureOf(mode); return here ? [{ mode, here }] : []; });
  for (const part of car.parts.values()) {
    const drop = dropTo(part, known.packs, pictures);
    if (!drop) continue;
    drops.push(drop);
    checks.push({
      code: 'high-voltage.voltage-drop', about: [part.name], value: drop.share, limit: dropLimits.critical, sense: 'at_most', quantity: 'ratio',
      details: { lost: { value: drop.drop, quantity: 'voltage' }, mode: drop.mode },
    });
  }
  return { results: { runs, drops, loss: runs.reduce((sum, { loss }) => sum + (loss ?? 0), 0) }, checks };
}

function loadOf(car: Car, run: CarRun, { modes, heating: memo }: Known, checks: Check[]): RunLoad {
  const about = [run.name];
  if (run.length === undefined) checks.push({ code: 'high-voltage.run-length-known', about, sense: 'at_least', needs: [`runs.${run.name}.length`] });
  const result = runHeating(car, run);
  const steady = continuousCurrent(modes, run.name);
  const rating = run.conductor?.temperatureRating;
  const empty = { run: run.name, length: run.length, current: steady?.current, mode: steady?.mode, temperatureRating: rating };
  if (result.outcome === 'needs' || !steady || rating === undefined) {
    checks.push({ code: 'high-voltage.run-steady-temperature', about, sense: 'at_most', quantity: 'temperature', needs: result.outcome === 'needs' ? result.needs : ['modes'] });
    return { ...empty, ambient: undefined, steadyTemperature: undefined, peakTemperature: undefined, capacity: undefined, resistance: undefined, loss: undefined };
  }
  const { heating } = result;
  const temperature = steadyRunTemperature(run, heating, steady.current, memo);
  const capacity = runCapacity(run, heating, memo);
  checks.push({
    code: 'high-voltage.run-steady-temperature', about, value: temperature, limit: rating, sense: 'at_most', quantity: 'temperature',
    details: car.isForMargins ? undefined : { reaches: temperature >= heating.modelLimit ? 'goes beyond' : 'reaches', current: { value: steady.current, quantity: 'current' }, mode: steady.mode, ambient: { value: heating.ambient, quantity: 'temperature' }, capacity: { value: capacity, quantity: 'current' } },
  });
  let peakTemperature: number | undefined;
  for (const short of shortCurrents(modes, run.name)) {
    // a mode that asks no more than the lasting one makes the run no warmer; and beyond the model there is no more to say
    if (temperature >= heating.modelLimit || short.current <= steady.current * (1 + 1e-5)) continue;
    const peak = sharedHeating(memo, run, heating, ['peak', steady.current, short.current, short.lasts, short.every ?? 0], () =>
      short.duty ? heating.peak(short.duty) : heating.after(short.current, short.lasts, Math.min(temperature, heating.modelLimit)));
    peakTemperature = Math.max(peakTemperature ?? peak, peak);
    checks.push({
      code: 'high-voltage.run-short-time-temperature', about, variant: short.mode, value: peak, limit: rating, sense: 'at_most', quantity: 'temperature',
      details: car.isForMargins ? undefined : { current: { value: short.current, quantity: 'current' }, lasts: { value: short.lasts, quantity: 'time' }, start: { value: temperature, quantity: 'temperature' } },
    });
  }
  // the linear resistance law ends at 700 K, far above every rating
  const resistance = run.length === undefined ? undefined : runResistance(run, Math.min(temperature, 700));
  return { ...empty, ambient: heating.ambient, steadyTemperature: temperature, peakTemperature, capacity, resistance, loss: resistance === undefined ? undefined : steady.current ** 2 * resistance };
}

function mechanicalAndVoltage(car: Car, run: CarRun, { packs }: Known): readonly Check[] {
  const { conductor } = run;
  if (!conductor) return [];
  const checks: Check[] = [];
  const about = [run.name];
  const radius = run.fields['bend_radius'];
  if (typeof radius === 'number') {
    checks.push(conductor.minimumBendRadius === undefined
      ? { code: 'high-voltage.run-bend-radius', about, sense: 'at_least', quantity: 'length', needs: [stockPath(car, run, 'minimum_bend_radius')] }
      : { code: 'high-voltage.run-bend-radius', about, value: radius, limit: conductor.minimumBendRadius, sense: 'at_least', quantity: 'length' });
  }
  const mains = mainsRuns(car).get(run.name);
  const limit = mains ?? packs.packs[0]?.maximumVoltage;
  // bare metal has no insulation to judge
  if (limit !== undefined && conductor.insulationThermalResistivity !== undefined) {
    const needs = [...(mains === undefined ? packs.missing : []), ...(conductor.voltageRating === undefined ? [stockPath(car, run, 'voltage_rating')] : [])];
    checks.push({
      code: 'high-voltage.run-voltage-rating', about, sense: 'at_least', quantity: 'voltage', limit, details: { source: mains === undefined ? 'the pack' : 'the mains (rms)' },
      ...(conductor.voltageRating === undefined ? {} : { value: conductor.voltageRating }), ...(needs.length > 0 ? { needs } : {}),
    });
  }
  return checks;
}

/**
 * Voltage lost on the way to a part in its heaviest mode, 0 when the part only ever feeds the battery. Undefined when no mode joins
 * both its poles to the battery by metal: precharge, by resistor or converter, does not.
 */
function dropTo(part: CarPart, packs: Packs, modes: readonly { readonly mode: string; readonly here: Picture }[]): EquipmentDrop | undefined {
  const link = part.roles.dcLink;
  if (!link) return undefined;
  const [positive, negative] = [part.names.of(link.positive), part.names.of(link.negative)];
  let worst: EquipmentDrop | undefined;
  for (const { mode, here: { live, metal, solved } } of modes) {
    for (const pack of packs.packs) {
      if (metal.same(positive, negative) || [positive, negative, pack.negative].some((node) => !live.same(node, pack.positive))) continue;
      const battery = solved.voltageOf(pack.positive) - solved.voltageOf(pack.negative);
      const here = solved.voltageOf(positive) - solved.voltageOf(negative);
      if (!(battery > 0) || here < battery / 2) continue;
      const drop = Math.max(0, battery - here);
      if (!worst || drop / battery > worst.share) worst = { part: part.name, mode, drop, share: drop / battery };
    }
  }
  return worst;
}
