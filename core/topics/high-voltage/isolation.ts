/**
 * Insulation between the high-voltage side and the chassis: resistance per volt, what the monitor would say, and the energy
 * in the filter capacitors.
 *
 * The resistance is what the three-reading method of [un-r100] annex 4B would give. With the open voltages V1 (chassis above the
 * negative pole) and V2 (positive pole above the chassis), V1 + V2 = Vb, and the resistance Rth that the network shows between a
 * pole and the chassis, the two leaks are R+ = Rth Vb/V1 and R- = Rth Vb/V2; the smaller of the two counts.
 */
import type { Network } from '../../car/ask.ts';
import type { Car } from '../../car/car.ts';
import type { Check } from '../../findings/finding.ts';
import { isolationLimits } from '../../physics/isolation.ts';
import { TOUCH_ENERGY_LIMIT, touchEnergy, touchEnergyAbove60 } from '../../physics/y-capacitor-energy.ts';
import { needsOf, numbers } from './check-numbers.ts';
import { TOUCHABLE } from './discharge.ts';
import type { Picture } from './metal-paths.ts';
import { metalPaths } from './metal-paths.ts';
import type { PackEnds } from './pack-ends.ts';

/** A pole with less than this share of the least isolation that a rule allows is tied to the chassis, not leaking [1]; project's judgement. */
export const TIED_SHARE = 0.1;
/** Charging inlet against the chassis [ohm], [un-r100] 5.1.3.4, from memory. */
export const INLET_LIMIT = 1e6;

export interface IsolationResult {
  /** modes that join the same parts to the pack; the first is the one solved */
  readonly modes: readonly string[];
  /** parts whose insulation counts */
  readonly parts: readonly string[];
  /** full pack [V] */
  readonly workingVoltage: number;
  /** of the positive pole, of the negative pole, and the smaller [ohm]; undefined: no path to the chassis at all */
  readonly positive: number | undefined;
  readonly negative: number | undefined;
  readonly resistance: number | undefined;
  /** [ohm/V] */ readonly perVolt: number | undefined;
  /** [ohm/V] */ readonly limitPerVolt: number;
  /** filter capacitors between both poles and the chassis [F] */
  readonly capacitance: number;
  /** [J] */ readonly touchEnergy: number;
  /** of it above what 60 V would hold [J] */
  readonly touchEnergyAbove60: number;
  /** [ohm]; undefined: no monitor, or it does not say */
  readonly warnsBelow: number | undefined;
}

/** Isolation in every mode that joins other parts to the pack than the modes before it. */
export function studyIsolation(car: Car, ask: Network): { readonly results: readonly IsolationResult[]; readonly checks: readonly Check[] } {
  const checks: Check[] = [...inletChecks(car, ask)];
  const results: IsolationResult[] = [];
  const { packs: [pack], missing } = metalPaths(car, ask).packs;
  if (!pack && missing.length > 0) checks.push({ code: 'high-voltage.isolation-resistance', about: [], sense: 'at_least', needs: missing, details: { where: 'in any mode' } });
  if (!pack || pack.maximumVoltage <= TOUCHABLE) return { results, checks };

  let monitors = 0;
  for (const { modes, here, insulated } of distinctModes(car, ask, pack.positive)) {
    const result = isolationOf(ask, modes, here, insulated, pack);
    results.push(result);
    checks.push(...checksOf(modes[0]!, insulated, result));
    monitors += insulated.filter(({ monitors: watches }) => watches).length;
  }
  if (results.length > 0) {
    checks.push({ code: 'high-voltage.isolation-monitored', about: [...car.parts.values()].filter(({ roles }) => roles.isolationMonitor).map(({ name }) => name), value: monitors, limit: 1, sense: 'at_least', quantity: 'number' });
  }
  return { results, checks };
}

interface Insulated { readonly part: string; readonly node: string; readonly resistance: number | undefined; readonly capacitance: number | undefined; readonly acSide: boolean; readonly hasLink: boolean; readonly monitors: boolean; readonly warnsBelow: number | undefined }
interface DistinctMode { readonly modes: string[]; readonly here: Picture; readonly insulated: readonly Insulated[] }

function insulationOf(car: Car): readonly Insulated[] {
  return [...car.parts.values()].flatMap(({ name, names, roles }) => (roles.insulation ?? []).map((role): Insulated => ({
    part: name, node: names.of(role.port), resistance: role.resistance, capacitance: role.capacitance, acSide: role.acSide,
    hasLink: roles.dcLink !== undefined, monitors: roles.isolationMonitor !== undefined, warnsBelow: roles.isolationMonitor?.warnBelow,
  })));
}

/** One entry for each set of insulated points that a mode joins to the pack; modes in which only the modules hang together are left out when others do more. */
function distinctModes(car: Car, ask: Network, packEnd: string): readonly DistinctMode[] {
  const paths = metalPaths(car, ask);
  const all = insulationOf(car);
  const found = new Map<string, DistinctMode>();
  for (const mode of car.modes.size > 0 ? car.modes.keys() : [undefined]) {
    const here = paths.pictureOf(mode);
    if (!here) continue;
    const insulated = all.filter(({ node }) => here.live.same(node, packEnd));
    const key = insulated.map(({ node }) => node).join();
    const known = found.get(key);
    if (known) known.modes.push(mode ?? EVERYTHING_OFF);
    else found.set(key, { modes: [mode ?? EVERYTHING_OFF], here, insulated });
  }
  const entries = [...found.values()];
  // a set inside another says nothing that the other does not
  return entries.filter((entry) => !entries.some((other) => other !== entry && other.insulated.length > entry.insulated.length && entry.insulated.every((one) => other.insulated.includes(one))));
}

function isolationOf(ask: Network, modes: readonly string[], here: Picture, insulated: readonly Insulated[], pack: PackEnds): IsolationResult {
  const { positive, negative, maximumVoltage: workingVoltage } = pack;
  const [above, below] = [here.solved.voltageOf(positive), -here.solved.voltageOf(negative)];
  const total = above + below;
  const seen = here.solved.islandOf(positive) === -1 ? ask.thevenin(here.mode === undefined ? {} : { mode: here.mode }, positive, 'chassis') : { outcome: 'unconnected' as const };
  const both = seen.outcome === 'solved' && total > 0 ? seen.resistance : undefined;
  // a chassis outside the two poles (something else drives it) leaves only the two leaks together
  const leak = (opposite: number): number | undefined => (both === undefined ? undefined : opposite > 1e-6 * total ? Math.min(MAXIMUM, (both * total) / opposite) : opposite < -1e-6 * total ? both : MAXIMUM);
  const [ofPositive, ofNegative] = [leak(below), leak(above)];
  const resistance = ofPositive === undefined || ofNegative === undefined ? undefined : Math.min(ofPositive, ofNegative);
  const capacitance = insulated.reduce((sum, one) => sum + (one.capacitance ?? 0), 0);
  return {
    modes, parts: [...new Set(insulated.map(({ part }) => part))], workingVoltage,
    positive: ofPositive, negative: ofNegative, resistance, perVolt: resistance === undefined ? undefined : resistance / workingVoltage,
    limitPerVolt: insulated.some(({ acSide }) => acSide) ? isolationLimits.alternating : isolationLimits.direct,
    capacitance, touchEnergy: touchEnergy(capacitance, workingVoltage), touchEnergyAbove60: touchEnergyAbove60(capacitance, workingVoltage),
    warnsBelow: insulated.find(({ monitors }) => monitors)?.warnsBelow,
  };
}

/** Stands for a mode where the car has none. */
const EVERYTHING_OFF = 'everything off';
/** Stands for a leak too small to tell [ohm]. */
const MAXIMUM = 1e15;

function checksOf(mode: string, insulated: readonly Insulated[], result: IsolationResult): readonly Check[] {
  const { resistance, perVolt, limitPerVolt, workingVoltage } = result;
  const undeclared = [...new Set(insulated.filter((one) => one.resistance === undefined).map(({ part }) => `parts.${part}.insulation_resistance`))];
  const silentFilters = [...new Set(insulated.filter(({ hasLink, capacitance }) => hasLink && capacitance === undefined).map(({ part }) => `parts.${part}.y_capacitance`))];
  const volts = { value: workingVoltage, quantity: 'voltage' } as const;
  const missing = resistance === undefined && undeclared.length === 0 ? insulated.length === 0 ? ['parts'] : [...new Set(insulated.map(({ part }) => `parts.${part}.insulation_resistance`))] : undeclared;
  const about = mode === EVERYTHING_OFF ? [] : [mode];
  const where = mode === EVERYTHING_OFF ? 'with everything off' : `in mode ${mode}`;
  const checks: Check[] = [
    {
      code: 'high-voltage.isolation-resistance', about, value: perVolt ?? 0, limit: limitPerVolt, sense: 'at_least', quantity: 'resistance_per_voltage', ...needsOf(missing),
      details: {
        where, voltage: volts, resistance: { value: resistance ?? 0, quantity: 'resistance' }, pole: weakerPole(result), circuit: limitPerVolt === isolationLimits.alternating ? 'an alternating circuit hangs on the direct one without separation' : 'direct current only',
      },
    },
    {
      code: 'high-voltage.pole-not-tied', about, value: resistance ?? 0, limit: TIED_SHARE * isolationLimits.direct * workingVoltage, sense: 'at_least', quantity: 'resistance', ...needsOf(resistance === undefined ? missing : []),
      details: { where, pole: weakerPole(result), voltage: volts },
    },
    {
      code: 'high-voltage.touch-energy', about, value: result.touchEnergy, limit: TOUCH_ENERGY_LIMIT, sense: 'at_most', quantity: 'energy',
      // what is not declared only adds to it
      ...needsOf(result.touchEnergy > TOUCH_ENERGY_LIMIT ? [] : silentFilters),
      details: { where, voltage: volts, held: { value: result.touchEnergy, quantity: 'energy' }, capacitance: { value: result.capacitance, quantity: 'capacitance' }, above_sixty: { value: result.touchEnergyAbove60, quantity: 'energy' } },
    },
  ];
  const monitor = insulated.find(({ monitors }) => monitors);
  if (monitor) {
    const needed = limitPerVolt * workingVoltage;
    const needs = needsOf(monitor.warnsBelow === undefined ? [`parts.${monitor.part}.warn_below`] : []);
    checks.push({ code: 'high-voltage.monitor-threshold', about: [monitor.part], variant: mode, ...numbers(monitor.warnsBelow, needed), sense: 'at_least', quantity: 'resistance', ...needs, details: { voltage: volts } });
    checks.push({
      code: 'high-voltage.monitor-quiet', about: [monitor.part], variant: mode, ...numbers(resistance, monitor.warnsBelow), sense: 'at_least', quantity: 'resistance',
      ...needsOf([...(monitor.warnsBelow === undefined ? [`parts.${monitor.part}.warn_below`] : []), ...(resistance === undefined ? missing : [])]),
    });
  }
  return checks;
}

function weakerPole({ positive, negative }: IsolationResult): string {
  return positive === undefined || negative === undefined ? 'neither pole' : positive < negative ? 'the positive pole' : 'the negative pole';
}

/** Insulated points with an alternating side and no DC link behind them: the pins of a charging inlet. */
function inletChecks(car: Car, ask: Network): readonly Check[] {
  const pins = insulationOf(car).filter(({ acSide, hasLink }) => acSide && !hasLink);
  return [...new Set(pins.map(({ part }) => part))].map((part): Check => {
    const own = pins.filter((pin) => pin.part === part);
    const seen = ask.thevenin({}, own[0]!.node, 'chassis');
    const undeclared = own.some(({ resistance }) => resistance === undefined) || seen.outcome !== 'solved';
    return {
      code: 'high-voltage.inlet-isolation', about: [part], ...numbers(seen.outcome === 'solved' ? seen.resistance : undefined, INLET_LIMIT), sense: 'at_least', quantity: 'resistance',
      ...needsOf(undeclared ? [`parts.${part}.insulation_resistance`] : []),
    };
  });
}
