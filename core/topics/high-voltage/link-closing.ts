/**
 * The moment a main contactor closes onto DC links: what was not precharged at all, and the rush through contacts and fuses.
 */
import type { Network } from '../../car/ask.ts';
import type { Car } from '../../car/car.ts';
import type { Check } from '../../findings/finding.ts';
import { needsOf, numbers } from './check-numbers.ts';
import { CARRIES_SHARE } from './fault-currents.ts';
import { carriesHighVoltage, protectionOf } from './fuse-in-fault.ts';
import type { LinkInrush } from './inrush-loop.ts';
import { linkInrush, linkLoop } from './inrush-loop.ts';
import type { Closing, Filling, PrechargePath } from './link-transitions.ts';
import { metalPaths } from './metal-paths.ts';
import { fullPackAt } from './precharge-circuit.ts';

/** An empty link with more energy than this must not be put onto the pack by a contactor [J]; project's judgement, no source. */
export const DIRECT_CLOSING_ENERGY = 2;

export interface ClosingResult {
  readonly from: string | undefined; readonly to: string;
  readonly links: readonly string[];
  readonly notPrecharged: readonly string[];
  /** that the links which nothing filled would take [J] */
  readonly directEnergy: number;
  /** full pack less links when the contactor closes [V] */
  readonly difference: number | undefined;
  readonly inrush: LinkInrush | undefined;
}

/**
 * One closing: what its contacts and fuses take.
 *
 * @param residualOf  full pack less links when the filling mode's time is over [V]; undefined: not known
 */
export function studyClosing(car: Car, ask: Network, closing: Closing, residualOf: (filling: Filling) => number | undefined): { readonly results: ClosingResult; readonly checks: readonly Check[] } {
  const checks: Check[] = [];
  const { from, to, links, empty } = closing;
  const variant = `${from ?? 'everything off'} to ${to}`;
  const pack = fullPackAt(car, ask, to, links[0]!);
  const emptyCapacitance = empty.reduce((sum, { role }) => sum + role.capacitance, 0);
  const directEnergy = pack === undefined ? 0 : (emptyCapacitance * pack ** 2) / 2;
  const none: ClosingResult = { from, to, links: links.map(({ part }) => part), notPrecharged: empty.map(({ part }) => part), directEnergy, difference: undefined, inrush: undefined };
  if (pack === undefined) return { results: none, checks };
  checks.push({
    code: 'high-voltage.precharge-present', about: (empty.length > 0 ? empty : links).map(({ part }) => part), variant, value: directEnergy, limit: DIRECT_CLOSING_ENERGY, sense: 'at_most', quantity: 'energy',
    details: { voltage: { value: pack, quantity: 'voltage' }, capacitance: { value: emptyCapacitance, quantity: 'capacitance' }, from: from ?? 'everything off', to, names: empty.map(({ part }) => part).join(', ') },
  });

  // the links side by side, at what each group has when the contact closes: one loop with the sum of C dV² and the largest dV
  const groups = closing.filled.map(({ filling, links: own }) => {
    const residual = residualOf(filling);
    return { links: own, difference: residual, needs: residual === undefined ? [`modes.${filling.mode}.lasts`] : [] };
  });
  if (empty.length > 0) groups.push({ links: empty, difference: pack, needs: [] });
  const needs = groups.flatMap((group) => group.needs);
  const capacitance = links.reduce((sum, { role }) => sum + role.capacitance, 0);
  const squares = groups.reduce((sum, { links: own, difference = 0 }) => sum + difference ** 2 * own.reduce((total, { role }) => total + role.capacitance, 0), 0);
  // equal energy: the voltage at which all links together would take what the groups take
  const difference = Math.sqrt(squares / capacitance);
  const largest = links.reduce((best, link) => (link.role.capacitance > best.role.capacitance ? link : best));
  const loop = linkLoop(car, ask, metalPaths(car, ask).likeMode(to), largest, pack);
  if (!loop) return { results: none, checks };
  const rush = needs.length > 0 ? undefined : linkInrush(loop, capacitance, difference);
  const needsFor = (part: string, field: string, limit: number | undefined): string[] => [...needs, ...(limit === undefined ? [`parts.${part}.${field}`] : [])];
  for (const { part, element, makingCurrent } of closingContacts(car, ask, closing)) {
    checks.push({
      code: 'high-voltage.inrush-current', about: [part], variant, sense: 'at_most', quantity: 'current',
      ...numbers(rush && rush.peak * Math.min(1, loop.shareOf(`${part}.${element}`)), makingCurrent), ...needsOf(needsFor(part, 'making_current', makingCurrent)),
      details: { difference: { value: difference, quantity: 'voltage' }, loop: { value: loop.resistance, quantity: 'resistance' }, to },
    });
  }
  for (const { id, part, role, opensByHeat } of protectionOf(car)) {
    const share = loop.shareOf(id);
    if (!opensByHeat || share < CARRIES_SHARE) continue;
    checks.push({
      code: 'high-voltage.inrush-fuse', about: [part], variant, sense: 'at_most', quantity: 'heating_integral',
      ...numbers(rush && rush.heating * share ** 2, role.meltingEnergy === undefined ? undefined : PULSE_SHARE * role.meltingEnergy), ...needsOf(needsFor(part, 'melting_energy', role.meltingEnergy)),
      details: { difference: { value: difference, quantity: 'voltage' }, to },
    });
  }
  return { results: { ...none, difference: needs.length > 0 ? undefined : difference, inrush: rush }, checks };
}

/** A fuse that sees a pulse again and again ages: common practice keeps the pulse below this share of its melting I²t [1]; common practice of fuse makers. */
const PULSE_SHARE = 0.3;

/** Contactors that are open before and closed after, and bridge the precharge path if any does: it is they that close last onto the links. */
function closingContacts(car: Car, ask: Network, { from, to, filled }: Closing): readonly { part: string; element: string; makingCurrent: number | undefined }[] {
  const paths = metalPaths(car, ask);
  const [before, after] = [paths.pictureOf(from), paths.pictureOf(to)];
  if (!before || !after) return [];
  const found: { part: string; element: string; a: string; b: string; makingCurrent: number | undefined }[] = [];
  for (const part of car.parts.values()) {
    if (part.roles.prechargeResistor) continue;
    for (const { element, a, b, by, makingCurrent } of part.roles.switching ?? []) {
      if (by !== 'coil' || !carriesHighVoltage(part, a) || !carriesHighVoltage(part, b)) continue;
      const id = `${part.name}.${element}`;
      if (before.solved.stateOf(id) === 'closed' || after.solved.stateOf(id) !== 'closed') continue;
      found.push({ part: part.name, element, a: `${part.name}.${a}`, b: `${part.name}.${b}`, makingCurrent });
    }
  }
  const bridges = (path: PrechargePath) => (contact: (typeof found)[number]): boolean =>
    path.by === 'resistor' && ((before.live.same(contact.a, path.a) && before.live.same(contact.b, path.b)) || (before.live.same(contact.a, path.b) && before.live.same(contact.b, path.a)));
  const last = found.filter((contact) => filled.some(({ filling }) => bridges(filling.path)(contact)));
  return last.length > 0 ? last : found;
}
