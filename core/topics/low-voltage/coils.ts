/**
 * Coils of contactors and relays: do they pull in where a mode feeds them, and do they hold when the low voltage sags.
 */
import type { Car } from '../../car/car.ts';
import type { Check } from '../../findings/finding.ts';
import type { RestSolved } from '../../solve/rest-result.ts';
import { overModes } from './check-over-modes.ts';
import { currentThrough } from './current-through.ts';
import type { Metal } from './metal.ts';
import type { ModePoints } from './mode-points.ts';
import { voltageAcross } from './mode-points.ts';
import type { ShortSource } from './short-of-source.ts';

/** Lowest voltage the side may sag to, as a share of its battery's rest voltage [1]: 1.5 V of 2.1 V a lead-acid cell, 9 V of 12.6 V. [iso-16750-2] class from 9 V, from memory. */
export const SAG_SHARE = 9 / 12.6;
/** A coil with less than this share of its pull-in voltage counts as not fed. Our choice. */
const OFF_SHARE = 0.25;

export interface CoilResult {
  readonly part: string;
  readonly pickUp: number; readonly dropOut: number;
  /** modes that feed it, with its voltage there, at the moment of closing, and when the side sags [V] */
  readonly modes: readonly { readonly mode: string; readonly voltage: number; readonly closing: number; readonly sagging: number }[];
}

export function studyCoils(car: Car, modes: ModePoints, metal: Metal, shorts: ReadonlyMap<string, ShortSource>): { results: readonly CoilResult[]; checks: readonly Check[] } {
  const results: CoilResult[] = [];
  const checks: Check[] = [];
  const sag = sagVoltage(modes, shorts);
  for (const part of car.parts.values()) {
    const seen = new Set<string>();
    for (const { coil, element } of part.roles.switching ?? []) {
      if (!coil || seen.has(coil.element)) continue;
      seen.add(coil.element);
      const [a, b] = [part.names.of(coil.positive), part.names.of(coil.negative)];
      const contact = part.names.of(element);
      const id = part.names.of(coil.element);
      const startCurrent = part.roles.consumers?.find((role) => role.element === coil.element)?.startCurrent ?? 0;
      const loop = loopResistance(metal, a, b);
      let highest = { mode: '-', voltage: 0 };
      const fed: CoilResult['modes'][number][] = [];
      for (const { mode, solved, bus } of modes.points) {
        const voltage = coilVoltage(solved, a, b, contact, modes.rest?.solved);
        if (voltage > highest.voltage) highest = { mode, voltage };
        if (Math.abs(voltage) < OFF_SHARE * coil.pickUp) continue;
        const closing = voltage - Math.max(0, startCurrent - currentThrough(solved, id)) * loop;
        fed.push({ mode, voltage, closing, sagging: bus > 0 && sag !== undefined ? voltage * Math.min(1, sag / bus) : voltage });
      }
      results.push({ part: part.name, pickUp: coil.pickUp, dropOut: coil.dropOut, modes: fed });
      const about = [part.name];
      checks.push(overModes({ code: 'low-voltage.coil-used', about, sense: 'at_least', quantity: 'voltage', value: highest.voltage, limit: coil.pickUp, details: { mode: highest.mode } }, modes));
      const pulls = least(fed, ({ closing }) => closing);
      if (!pulls) continue;
      checks.push(overModes({ code: 'low-voltage.coil-pulls-in', about, sense: 'at_least', quantity: 'voltage', value: pulls.closing, limit: coil.pickUp, details: { mode: pulls.mode } }, modes));
      const common = { code: 'low-voltage.coil-holds', about, sense: 'at_least', quantity: 'voltage', limit: coil.dropOut } as const;
      const holds = least(fed, ({ sagging }) => sagging)!;
      checks.push(sag === undefined
        ? { ...common, needs: ['modes'], details: { mode: holds.mode } }
        : overModes({ ...common, value: holds.sagging, details: { mode: holds.mode, sag: { value: sag, quantity: 'voltage' } } }, modes));
    }
  }
  return { results, checks };
}

/** From the battery's rest voltage; without a battery from the highest voltage of any mode. */
function sagVoltage({ points }: ModePoints, shorts: ReadonlyMap<string, ShortSource>): number | undefined {
  const whole = Math.max(0, ...(shorts.size > 0 ? [...shorts.values()].map(({ voltage }) => voltage) : points.map(({ bus }) => bus)));
  return whole > 0 ? SAG_SHARE * whole : undefined;
}

/** Positive when it is fed the right way round, or when its contact moves all the same. */
function coilVoltage(solved: RestSolved, a: string, b: string, contact: string, rest: RestSolved | undefined): number {
  const voltage = voltageAcross(solved, a, b) ?? 0;
  if (voltage >= 0) return voltage;
  const moves = rest !== undefined && solved.stateOf(contact) !== rest.stateOf(contact);
  return moves ? -voltage : voltage;
}

/** Metal out and back between the source and the coil [ohm]; 0 where none leads there. */
function loopResistance({ sources }: Metal, a: string, b: string): number {
  for (const { feed, back } of sources) {
    for (const [plus, minus] of [[a, b], [b, a]] as const) {
      const [out, home] = [feed.resistance(plus), back.resistance(minus)];
      if (out !== undefined && home !== undefined) return out + home;
    }
  }
  return 0;
}

function least<T>(list: readonly T[], valueOf: (item: T) => number): T | undefined {
  let found: T | undefined;
  for (const item of list) if (found === undefined || valueOf(item) < valueOf(found)) found = item;
  return found;
}
