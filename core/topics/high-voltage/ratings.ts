/**
 * Ratings that no finding of its own judges: bars, shunts, disconnects, monitors, drives. What the file declares is held against the
 * pack's voltage and the modes; what it does not declare is not judged, but for a disconnect above 60 V.
 */
import type { Car, CarPart } from '../../car/car.ts';
import type { Check } from '../../findings/finding.ts';
import type { RatedRole } from '../../part/role.ts';
import { needsOf, numbers } from './check-numbers.ts';
import { TOUCHABLE } from './discharge.ts';
import type { Known } from './fault-currents.ts';
import type { ModeAnswer } from './mode-currents.ts';
import { continuousCurrent, shortCurrents } from './mode-currents.ts';

export function checkRatings(car: Car, known: Known): readonly Check[] {
  return [...car.parts.values()].flatMap((part) => (part.roles.rated ?? []).flatMap((rated) => [
    ...voltageCheck(part, rated, known), ...lastingCheck(part, rated, known), ...shortChecks(part, rated, known), ...powerChecks(part, rated, known.modes),
  ]));
}

function voltageCheck(part: CarPart, { voltage }: RatedRole, { packs }: Known): readonly Check[] {
  const pack = packs.packs[0];
  const isAsked = part.roles.disconnect !== undefined && pack !== undefined && pack.maximumVoltage > TOUCHABLE;
  if (!pack || (voltage === undefined && !isAsked)) return [];
  return [{
    code: 'high-voltage.part-voltage-rating', about: [part.name], sense: 'at_least', quantity: 'voltage', ...numbers(voltage, pack.maximumVoltage),
    ...needsOf([...packs.missing, ...(voltage === undefined ? [`parts.${part.name}.voltage_rating`] : [])]),
  }];
}

function lastingCheck(part: CarPart, { elements, continuousCurrent: limit }: RatedRole, { modes }: Known): readonly Check[] {
  if (limit === undefined) return [];
  const steady = largest(elements.map((element) => continuousCurrent(modes, part.names.of(element))), ({ current }) => current);
  if (!steady) return [];
  return [{ code: 'high-voltage.part-current-rating', about: [part.name], value: steady.current, limit, sense: 'at_most', quantity: 'current', details: { mode: steady.mode, rating: 'for good' } }];
}

/** A short-time mode against the peak where one is declared, else its rms over a period against what may last. */
function shortChecks(part: CarPart, { elements, continuousCurrent: lasting, peakCurrent }: RatedRole, { modes }: Known): readonly Check[] {
  const byMode = new Map<string, { current: number; rms: number | undefined }>();
  for (const element of elements) {
    for (const { mode, current, rms } of shortCurrents(modes, part.names.of(element))) {
      const before = byMode.get(mode);
      if (!before || current > before.current) byMode.set(mode, { current, rms });
    }
  }
  return [...byMode].flatMap(([mode, { current, rms }]): Check[] => {
    const common = { code: 'high-voltage.part-current-rating', about: [part.name], variant: mode, sense: 'at_most', quantity: 'current' } as const;
    if (peakCurrent !== undefined) return [{ ...common, value: current, limit: peakCurrent, details: { mode, rating: 'at the most' } }];
    return lasting === undefined || rms === undefined ? [] : [{ ...common, value: rms, limit: lasting, details: { mode, rating: 'rms over the mode and its pause' } }];
  });
}

function powerChecks(part: CarPart, { elements, positive, negative, continuousPower, peakPower }: RatedRole, modes: readonly ModeAnswer[]): readonly Check[] {
  if (positive === undefined || negative === undefined) return [];
  const powers = modes.flatMap(({ mode, lasts, solved }) => {
    if (!solved) return [];
    const voltage = Math.abs(solved.voltageOf(part.names.of(positive)) - solved.voltageOf(part.names.of(negative)));
    return [{ mode, lasts, power: Math.max(0, ...elements.map((element) => Math.abs(solved.currentOf(part.names.of(element))))) * voltage }];
  });
  const check = (power: (typeof powers)[number] | undefined, limit: number | undefined, variant: string, rating: string): Check[] => (power === undefined || limit === undefined ? [] : [{
    code: 'high-voltage.part-power-rating', about: [part.name], variant, value: power.power, limit, sense: 'at_most', quantity: 'power', details: { mode: power.mode, rating },
  }]);
  const power = (one: (typeof powers)[number]): number => one.power;
  return [...check(largest(powers.filter(({ lasts }) => lasts === undefined), power), continuousPower, 'continuous', 'for good'), ...check(largest(powers, power), peakPower, 'peak', 'at the most')];
}

function largest<T>(list: readonly (T | undefined)[], by: (one: T) => number): T | undefined {
  return list.reduce((most, one) => (one !== undefined && (most === undefined || by(one) > by(most)) ? one : most), undefined);
}
