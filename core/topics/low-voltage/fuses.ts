/**
 * Each low-voltage fuse against its load, its voltage and the fault current where it sits.
 */
import type { Car } from '../../car/car.ts';
import type { Check } from '../../findings/finding.ts';
import { REFERENCE_NODE } from '../../solve/element.ts';
import { cautiousFuseThermal, fuseContinuousCurrent } from '../../physics/fuse-derating.ts';
import { carriesFor } from './blade-gates.ts';
import { known, overModes } from './check-over-modes.ts';
import { isCoil } from './consumers.ts';
import { currentThrough } from './current-through.ts';
import type { LowVoltageFuse, Metal } from './metal.ts';
import type { ModePoints } from './mode-points.ts';
import type { ShortSource } from './short-of-source.ts';

/** Share of its rating that a fuse carries for good without ageing [1]: 0.75 .. 0.8 is usual (fuse maker rule, from memory). */
const LOAD_FACTOR = 0.8;
/** A blade fuse has its rating at 20 °C (a maker's sheet of a 40 A fuse) [K]. */
const RATED_AT = 293.15;

export interface FuseResult {
  readonly part: string;
  /** [A] */
  readonly rating: number;
  /** largest current of any mode that may last [A], and the mode */
  readonly steady: number | undefined; readonly steadyMode: string | undefined;
  /** what it may carry for good where it sits [A] */
  readonly allowed: number;
  /** highest current of a dead short right behind it [A]; undefined when it is not known */
  readonly prospective: number | undefined;
}

export function studyFuses(car: Car, modes: ModePoints, metal: Metal, shorts: ReadonlyMap<string, ShortSource>): { results: readonly FuseResult[]; checks: readonly Check[] } {
  const results: FuseResult[] = [];
  const checks: Check[] = [];
  const highestBus = modes.points.reduce((most, { bus }) => Math.max(most, bus), 0);
  const starters = startingConsumers(car, metal);
  for (const fuse of metal.fuses) {
    const { part, id, role } = fuse;
    const about = [part];
    const ambient = role.ambient ?? car.conditions.ambient;
    const seat = fuseContinuousCurrent({ rating: role.rating, ambient, loadFactor: LOAD_FACTOR }, { limit: cautiousFuseThermal.limit, reference: RATED_AT });
    const allowed = seat.outcome === 'current' ? seat.current : 0;
    let steady: { current: number; mode: string } | undefined;
    for (const { mode, lasts, solved } of modes.points) {
      const current = currentThrough(solved, id);
      if (lasts === undefined && (!steady || current > steady.current)) steady = { current, mode };
    }
    checks.push(overModes({
      code: 'low-voltage.fuse-steady-current', about, sense: 'at_most', quantity: 'current', ...known(steady?.current, allowed, steady ? [] : ['modes']),
      details: { mode: steady?.mode ?? '-', rating: { value: role.rating, quantity: 'current' }, ambient: { value: ambient, quantity: 'temperature' } },
    }, modes));
    for (const { mode, lasts, solved } of modes.points) {
      if (lasts === undefined || !role.form) continue;
      checks.push({
        code: 'low-voltage.fuse-short-time', about, variant: mode, sense: 'at_most', quantity: 'current', value: currentThrough(solved, id), limit: carriesFor(role.form, role.rating, lasts),
        details: { lasts: { value: lasts, quantity: 'time' } },
      });
    }
    checks.push(...startChecks(fuse, starters.filter(({ fuses }) => fuses.includes(id)), modes));
    const needsVoltage = role.voltageRating === undefined ? [`parts.${part}.voltage_rating`] : [];
    checks.push(overModes({ code: 'low-voltage.fuse-voltage', about, sense: 'at_least', quantity: 'voltage', ...known(role.voltageRating, highestBus, needsVoltage) }, modes));
    const fault = prospectiveAt(fuse, metal, shorts);
    if (fault.fed) {
      checks.push({
        code: 'low-voltage.fuse-breaking-capacity', about, sense: 'at_least', quantity: 'current',
        ...(fault.backedUp ? { levelWhenBroken: 'watch' as const } : {}), ...known(role.breakingCapacity, fault.current, [...(role.breakingCapacity === undefined ? [`parts.${part}.breaking_capacity`] : []), ...(fault.current === undefined ? [`parts.${fault.battery}.internal_resistance`] : [])]),
      });
    }
    results.push({ part, rating: role.rating, steady: steady?.current, steadyMode: steady?.mode, allowed, prospective: fault.current });
  }
  return { results, checks };
}

interface Starter { readonly part: string; readonly element: string; readonly startCurrent: number; readonly startTime: number | undefined; /** element ids on its way from the source */ readonly fuses: readonly string[] }

/** Consumers that take more while they start, with the fuses that feed them. */
function startingConsumers(car: Car, { sources }: Metal): Starter[] {
  return [...car.parts.values()].flatMap((part) => (part.roles.consumers ?? []).flatMap((role): Starter[] => {
    if (role.startCurrent === undefined || isCoil(part, role)) return [];
    const plus = part.names.of(role.positive);
    const feed = sources.find((source) => source.feed.resistance(plus) !== undefined)?.feed;
    if (!feed) return [];
    return [{ part: part.name, element: part.names.of(role.element), startCurrent: role.startCurrent, startTime: role.startTime, fuses: feed.edges(plus).flatMap(({ fuse }) => (fuse ? [fuse.id] : [])) }];
  }));
}

/** The consumer starts while everything else of the mode runs; the worst mode counts. */
function startChecks({ part, id, role }: LowVoltageFuse, starters: readonly Starter[], { points }: ModePoints): Check[] {
  return starters.flatMap((starter): Check[] => {
    if (!role.form) return [];
    let worst: { current: number; mode: string } | undefined;
    for (const { mode, solved } of points) {
      const taking = currentThrough(solved, starter.element);
      if (taking < 0.01 * starter.startCurrent) continue;
      const current = currentThrough(solved, id) - taking + starter.startCurrent;
      if (!worst || current > worst.current) worst = { current, mode };
    }
    if (!worst) return [];
    const common = { code: 'low-voltage.fuse-start-current', about: [part, starter.part], sense: 'at_most' as const, quantity: 'current' as const };
    if (starter.startTime === undefined) return [{ ...common, needs: [`parts.${starter.part}.start_time`] }];
    return [{ ...common, value: worst.current, limit: carriesFor(role.form, role.rating, starter.startTime), details: { mode: worst.mode, lasts: { value: starter.startTime, quantity: 'time' } } }];
  });
}

interface Prospective {
  /** [A]; undefined when a battery's own numbers are not known */
  readonly current: number | undefined;
  readonly fed: boolean;
  readonly battery: string;
  /** a fuse before it, seen from every battery, can break that current */
  readonly backedUp: boolean;
}

/** Cold copper, a dead short to the chassis on the far side of the fuse, DC-DCs at their limit on top. */
function prospectiveAt({ part, role }: LowVoltageFuse, { sources }: Metal, shorts: ReadonlyMap<string, ShortSource>): Prospective {
  let battery = '';
  let fromBatteries = 0;
  let isUnknown = false;
  let fed = false;
  let fromSupplies = 0;
  const before: (readonly LowVoltageFuse[])[] = [];
  for (const { source, feed, back } of sources) {
    const [a, b] = [feed.resistance(`${part}.${role.a}`), feed.resistance(`${part}.${role.b}`)];
    if (a === undefined || b === undefined) continue;
    fed = true;
    if (source.currentLimit !== undefined) {
      fromSupplies += source.currentLimit;
      continue;
    }
    battery = source.part;
    before.push(feed.edges(`${part}.${a <= b ? role.a : role.b}`).flatMap(({ fuse }) => (fuse ? [fuse] : [])));
    const inside = shorts.get(source.positive);
    if (!inside) isUnknown = true;
    else fromBatteries += inside.voltage / (inside.resistance + Math.min(a, b) + (back.resistance(REFERENCE_NODE) ?? 0));
    // a run without its length counts as its joints alone, which errs to the cautious side here
  }
  const current = fromBatteries + fromSupplies;
  const backedUp = before.length > 0 && before.every((fuses) => fuses.some((fuse) => (fuse.role.breakingCapacity ?? 0) >= current));
  return { current: isUnknown ? undefined : current, fed, battery, backedUp };
}
