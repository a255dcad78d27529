/**
 * Contacts and electronic outputs of the low-voltage side against the current through them.
 */
import type { Car } from '../../car/car.ts';
import type { Check } from '../../findings/finding.ts';
import { currentThrough } from './current-through.ts';
import { known, overModes } from './check-over-modes.ts';
import { isCoil } from './consumers.ts';
import type { LowVoltageContact, Metal } from './metal.ts';
import type { ModePoints } from './mode-points.ts';

export interface ContactResult { readonly part: string; readonly element: string; /** largest current of any mode [A] */ readonly current: number | undefined; readonly mode: string | undefined; readonly rating: number | undefined }

export function studyContacts(car: Car, modes: ModePoints, metal: Metal): { results: readonly ContactResult[]; checks: readonly Check[] } {
  const results: ContactResult[] = [];
  const checks: Check[] = [];
  const highestBus = modes.points.reduce((most, { bus }) => Math.max(most, bus), 0);
  const starters = startersBehind(car, metal);
  for (const contact of metal.contacts) {
    const { part, id, role } = contact;
    let worst: { current: number; mode: string } | undefined;
    for (const { mode, solved } of modes.points) {
      const current = currentThrough(solved, id);
      if (!worst || current > worst.current) worst = { current, mode };
    }
    results.push({ part, element: role.element, current: worst?.current, mode: worst?.mode, rating: role.rating });
    const common = { about: [part], variant: role.element };
    const ratingAt = `parts.${part}.${role.ratingAt ?? 'rating'}`;
    checks.push(overModes({
      code: 'low-voltage.contact-current', ...common, sense: 'at_most', quantity: 'current', ...known(worst?.current, role.rating, [...(role.rating === undefined ? [ratingAt] : []), ...(worst ? [] : ['modes'])]),
      details: { mode: worst?.mode ?? '-' },
    }, modes));
    if (role.voltageRating !== undefined) checks.push(overModes({ code: 'low-voltage.contact-voltage', ...common, sense: 'at_least', quantity: 'voltage', value: role.voltageRating, limit: highestBus }, modes));
    if (role.makingCurrent !== undefined) checks.push(...makingChecks(contact, role.makingCurrent, starters.get(id) ?? [], modes));
  }
  checks.push(...pinChecks(car, modes));
  return { results, checks };
}

/** Without a rating, a connector is asked for one as soon as a pin of it carries more than this [A]; our choice. */
const WORTH_ASKING = 1;

/** One check a connector: its pins have one rating, and the one with the largest current speaks for all. */
function pinChecks(car: Car, modes: ModePoints): readonly Check[] {
  return [...car.parts.values()].flatMap(({ name, names, roles }): readonly Check[] => {
    if (!roles.pins) return [];
    let worst = { pin: '-', mode: '-', current: 0 };
    for (const { pin, element } of roles.pins.pins) {
      for (const { mode, solved } of modes.points) {
        const current = currentThrough(solved, names.of(element));
        if (current > worst.current) worst = { pin, mode, current };
      }
    }
    const common = { code: 'low-voltage.pin-current', about: [name], path: `parts.${name}.pin_rating`, sense: 'at_most', quantity: 'current', details: { pin: worst.pin, mode: worst.mode } } as const;
    const { rating } = roles.pins;
    if (rating !== undefined) return [overModes({ ...common, value: worst.current, limit: rating }, modes)];
    return worst.current > WORTH_ASKING ? [{ ...common, value: worst.current, needs: [`parts.${name}.pin_rating`] }] : [];
  });
}

interface Starter { readonly part: string; readonly element: string; readonly startCurrent: number }

/** Consumers that take more while they start, by the contacts on their way out and back. */
function startersBehind(car: Car, { sources }: Metal): ReadonlyMap<string, readonly Starter[]> {
  const behind = new Map<string, Starter[]>();
  for (const part of car.parts.values()) {
    for (const role of part.roles.consumers ?? []) {
      if (role.startCurrent === undefined || isCoil(part, role)) continue;
      const [plus, minus] = [part.names.of(role.positive), part.names.of(role.negative)];
      const source = sources.find(({ feed }) => feed.resistance(plus) !== undefined);
      for (const { contact } of source ? [...source.feed.edges(plus), ...source.back.edges(minus)] : []) {
        if (contact) behind.set(contact.id, [...(behind.get(contact.id) ?? []), { part: part.name, element: part.names.of(role.element), startCurrent: role.startCurrent }]);
      }
    }
  }
  return behind;
}

function makingChecks({ part, role }: LowVoltageContact, limit: number, starters: readonly Starter[], { points }: ModePoints): Check[] {
  return starters.flatMap((starter): Check[] => {
    const runs = points.some(({ solved }) => Math.abs(solved.currentOf(starter.element)) > 0.01 * starter.startCurrent);
    return runs ? [{ code: 'low-voltage.contact-making', about: [part, starter.part], variant: role.element, sense: 'at_most', quantity: 'current', value: starter.startCurrent, limit }] : [];
  });
}
