/**
 * Contacts of the high-voltage side: what they carry, what they may have to break, and whether a fuse ends a fault before
 * they open into it. What a person pulls is judged with the parts a car must have, not here.
 */
import type { Network } from '../../car/ask.ts';
import type { Car, CarPart } from '../../car/car.ts';
import type { Check } from '../../findings/finding.ts';
import type { SwitchingRole } from '../../part/role.ts';
import { knownOf, type Known } from './fault-currents.ts';
import { CARRIES_SHARE, carriesHighVoltage, fusesInSeries } from './fuse-in-fault.ts';
import type { ModeAnswer, SteadyCurrent } from './mode-currents.ts';
import { continuousCurrent, largestCurrent, shortCurrents } from './mode-currents.ts';

export interface ContactResult {
  readonly part: string; readonly element: string;
  /** [A] */ readonly rating: number | undefined;
  readonly continuousCurrent: number | undefined; readonly mode: string | undefined;
  /** largest load current of any mode: what it may have to break [A] */ readonly largestCurrent: number | undefined;
  /** [A] */ readonly breakingCurrent: number | undefined;
  /** highest prospective fault current through it [A] */ readonly faultCurrent: number | undefined;
}

/** Less than this does no work on a contact [A]; an unrated contact that carries no more is not asked for its rating. Our choice. */
const HARMLESS = 0.1;

/** A sheet states the longest release time; the fastest is what matters against a fuse. Share of it [1]: the low end of the handbook’s range, 5 ms of 12 ms. */
const FASTEST_RELEASE = 5 / 12;

export function studyContactors(car: Car, ask: Network, known: Known = knownOf(car, ask)): { readonly results: readonly ContactResult[]; readonly checks: readonly Check[] } {
  const results: ContactResult[] = [];
  const checks: Check[] = [];
  for (const part of car.parts.values()) {
    if (part.roles.disconnect) continue;
    for (const contact of part.roles.switching ?? []) {
      if (!carriesHighVoltage(part, contact.a) || !carriesHighVoltage(part, contact.b)) continue;
      const id = part.names.of(contact.element);
      const steady = continuousCurrent(known.modes, id);
      const largest = largestCurrent(known.modes, id);
      checks.push(...loadChecks(part, contact, id, known), ...faultCheck(part, contact, id, known));
      results.push({
        part: part.name, element: contact.element, rating: contact.rating, continuousCurrent: steady?.current, mode: steady?.mode,
        largestCurrent: largest?.current, breakingCurrent: contact.breakingCurrent, faultCurrent: highestFault(id, known),
      });
    }
  }
  return { results, checks };
}

function loadChecks(part: CarPart, contact: SwitchingRole, id: string, { modes, packs }: Known): readonly Check[] {
  const about = [part.name];
  const variant = { variant: contact.element };
  const at = (field: string): string => `parts.${part.name}.${field}`;
  const checks: Check[] = [];
  const pack = packs.packs[0];
  if (pack) {
    const needs = [...packs.missing, ...(contact.voltageRating === undefined ? [at('voltage_rating')] : [])];
    checks.push({ code: 'high-voltage.contactor-voltage-rating', about, ...variant, sense: 'at_least', quantity: 'voltage', limit: pack.maximumVoltage, ...(contact.voltageRating === undefined ? {} : { value: contact.voltageRating }), ...(needs.length > 0 ? { needs } : {}) });
  }
  const steady = continuousCurrent(modes, id);
  if (!steady) return [...checks, { code: 'high-voltage.contactor-continuous-current', about, ...variant, sense: 'at_most', quantity: 'current', needs: ['modes'] }];
  if (contact.rating !== undefined) {
    checks.push({ code: 'high-voltage.contactor-continuous-current', about, ...variant, value: steady.current, limit: contact.rating, sense: 'at_most', quantity: 'current', details: { mode: steady.mode } });
    for (const short of shortCurrents(modes, id)) {
      if (short.rms === undefined) continue;
      checks.push({ code: 'high-voltage.contactor-duty-current', about, variant: `${contact.element} ${short.mode}`, value: short.rms, limit: contact.rating, sense: 'at_most', quantity: 'current', details: { mode: short.mode, pulse: { value: short.current, quantity: 'current' }, lasts: { value: short.lasts, quantity: 'time' } } });
    }
  } else if (steady.current > HARMLESS) {
    checks.push({ code: 'high-voltage.contactor-continuous-current', about, ...variant, sense: 'at_most', quantity: 'current', needs: [at('rating')] });
  }
  const largest = breakingLoad(part, contact, id, modes, pack?.maximumVoltage)!;
  if (contact.breakingCurrent !== undefined) {
    checks.push({ code: 'high-voltage.contactor-breaks-load', about, ...variant, value: largest.current, limit: contact.breakingCurrent, sense: 'at_most', quantity: 'current', details: { mode: largest.mode } });
  } else if (largest.current > HARMLESS) {
    checks.push({ code: 'high-voltage.contactor-breaks-load', about, ...variant, sense: 'at_most', quantity: 'current', needs: [at('breaking_current')], details: { mode: largest.mode } });
  }
  return checks;
}

/** The heaviest load; a precharge contact may be let go while its links are still empty, when all of the pack stands across the resistor. */
function breakingLoad({ roles: { prechargeResistor } }: CarPart, contact: SwitchingRole, id: string, modes: readonly ModeAnswer[], pack: number | undefined): SteadyCurrent | undefined {
  const largest = largestCurrent(modes, id);
  if (!largest || pack === undefined || prechargeResistor?.contactElement !== contact.element || !(prechargeResistor.resistance > 0)) return largest;
  const first = pack / prechargeResistor.resistance;
  const filling = modes.find(({ solved }) => solved?.stateOf(id) === 'closed');
  return filling && first > largest.current ? { current: first, mode: filling.mode } : largest;
}

/**
 * A contact that opens into a fault must be able to break it, or find it already ended by a fuse. The smaller of the two
 * ratios, fault / breaking current and fuse clearing time / release time, counts for each fault; the worst fault decides.
 */
function faultCheck(part: CarPart, contact: SwitchingRole, id: string, { faults }: Known): readonly Check[] {
  const release = contact.coil?.releaseTime === undefined ? undefined : FASTEST_RELEASE * contact.coil.releaseTime;
  let worst: { ratio: number; fault: number; at: string; cleared: number | undefined } | undefined;
  const needs = new Set<string>();
  let carries = false;
  for (const fault of faults.cases) {
    const through = Math.abs(fault.currentOf(id));
    if (through < CARRIES_SHARE * fault.current) continue;
    carries = true;
    const single = fusesInSeries(fault, id);
    const inSeries = single.length > 0 ? single : fault.cut();
    const times = inSeries.map(({ clearingTime }) => clearingTime).filter((time) => time !== undefined);
    // any one in series ends it; of several that end it together the last does
    const cleared = times.length === 0 ? undefined : single.length > 0 ? Math.min(...times) : times.length === inSeries.length ? Math.max(...times) : undefined;
    const ratios = [
      ...(contact.breakingCurrent !== undefined && contact.breakingCurrent > 0 ? [through / contact.breakingCurrent] : []),
      ...(cleared !== undefined && release !== undefined && release > 0 ? [cleared / release] : []),
    ];
    if (ratios.length === 0) {
      if (contact.breakingCurrent === undefined) needs.add(`parts.${part.name}.breaking_current`);
      for (const { fuse } of inSeries) {
        if (fuse.role.meltingEnergy === undefined) needs.add(`parts.${fuse.part}.melting_energy`);
        if (fuse.role.clearingEnergy === undefined) needs.add(`parts.${fuse.part}.clearing_energy`);
      }
      if (needs.size > 0) continue;
      // it may break nothing, and no fuse melts fast enough to count on
      ratios.push(through / Math.max(1, contact.breakingCurrent ?? 1));
    }
    const ratio = Math.min(...ratios);
    if (!worst || ratio > worst.ratio) worst = { ratio, fault: through, at: fault.at, cleared };
  }
  if (!carries) return [];
  const common = { code: 'high-voltage.contactor-opens-after-fuse', about: [part.name], variant: contact.element, limit: 1, sense: 'at_most', quantity: 'ratio' } as const;
  if (!worst || needs.size > 0) return [{ ...common, needs: [...needs] }];
  return [{
    ...common, value: worst.ratio,
    details: {
      fault: { value: worst.fault, quantity: 'current' }, at: worst.at,
      fuse_time: worst.cleared === undefined ? 'no time that could be computed' : { value: worst.cleared, quantity: 'time' },
      breaking: contact.breakingCurrent === undefined ? 'an unknown current' : { value: contact.breakingCurrent, quantity: 'current' },
    },
  }];
}

function highestFault(id: string, { faults }: Known): number | undefined {
  const through = faults.cases.map((fault) => Math.abs(fault.currentOf(id)));
  return through.length > 0 ? Math.max(...through) : undefined;
}
