/**
 * The moment a main contactor closes onto DC links: what was not precharged at all, and the rush through contacts and fuses.
 */
import type { Network } from '../../car/ask.ts';
import type { Car } from '../../car/car.ts';
import type { Check } from '../../findings/finding.ts';
import { needsOf, numbers } from './check-numbers.ts';
import { CARRIES_SHARE } from './fault-currents.ts';
import { carriesHighVoltage, protectionOf } from './fuse-in-fault.ts';
import type { LinkInrush, LinkLoop } from './inrush-loop.ts';
import { linkInrush, linkLoop } from './inrush-loop.ts';
import type { Closing, Filling, Link, PrechargePath } from './link-transitions.ts';
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

  // each link at what it has when the contact closes
  const closingLinks = [
    ...closing.filled.flatMap(({ filling, links: own }) => { const left = residualOf(filling); return own.map((link) => ({ link, left, needs: left === undefined ? [`modes.${filling.mode}.lasts`] : [] })); }),
    ...empty.map((link) => ({ link, left: pack, needs: [] })),
  ];
  const like = metalPaths(car, ask).likeMode(to);
  const rushes = closingLinks.flatMap((one): Rush[] => { const loop = linkLoop(car, ask, like, one.link, pack); return loop ? [{ ...one, loop }] : []; });
  if (rushes.length === 0) return { results: none, checks };
  const whole = together(rushes);
  const needsFor = (needs: readonly string[], part: string, field: string, limit: number | undefined): string[] => [...needs, ...(limit === undefined ? [`parts.${part}.${field}`] : [])];
  for (const { part, element, makingCurrent } of closingContacts(car, ask, closing)) {
    const through = rushThrough(rushes, whole, `${part}.${element}`);
    // contacts side by side never close in the same millisecond: the first takes what its own string drives
    const share = Math.min(1, Math.max(through.loop.shareOf(`${part}.${element}`), CARRIES_SHARE));
    const own = { ...through.loop, resistance: through.loop.resistance / share, inductance: through.loop.inductance / share };
    const rush = through.difference === undefined ? undefined : linkInrush(own, through.capacitance, through.difference);
    checks.push({
      code: 'high-voltage.inrush-current', about: [part], variant, sense: 'at_most', quantity: 'current',
      ...numbers(rush?.peak, makingCurrent), ...needsOf(needsFor(through.needs, part, 'making_current', makingCurrent)),
      details: { difference: { value: through.difference ?? 0, quantity: 'voltage' }, loop: { value: own.resistance, quantity: 'resistance' }, to },
    });
  }
  for (const { id, part, role, opensByHeat } of protectionOf(car)) {
    if (!opensByHeat || rushes.every(({ loop }) => loop.shareOf(id) < CARRIES_SHARE)) continue;
    const { loop, capacitance, difference, needs } = rushThrough(rushes, whole, id);
    const rush = difference === undefined ? undefined : linkInrush(loop, capacitance, difference);
    checks.push({
      code: 'high-voltage.inrush-fuse', about: [part], variant, sense: 'at_most', quantity: 'heating_integral',
      ...numbers(rush && rush.heating * loop.shareOf(id) ** 2, role.meltingEnergy === undefined ? undefined : PULSE_SHARE * role.meltingEnergy), ...needsOf(needsFor(needs, part, 'melting_energy', role.meltingEnergy)),
      details: { difference: { value: difference ?? 0, quantity: 'voltage' }, to },
    });
  }
  return { results: { ...none, difference: whole.difference, inrush: whole.difference === undefined ? undefined : linkInrush(whole.loop, whole.capacitance, whole.difference) }, checks };
}

/** A link, what is left between it and the pack [V], and the loop of its current. */
interface Rush { readonly link: Link; readonly left: number | undefined; readonly needs: readonly string[]; readonly loop: LinkLoop }
interface Together { readonly loop: LinkLoop; /** [F] */ readonly capacitance: number; /** [V] */ readonly difference: number | undefined; readonly needs: readonly string[] }

/**
 * Links that fill through one conductor: one loop, that of the largest of them, with their capacitance together, at the voltage at which
 * that would take what they take (equal energy).
 */
function together(rushes: readonly Rush[]): Together {
  const needs = [...new Set(rushes.flatMap((rush) => rush.needs))];
  const capacitance = rushes.reduce((sum, { link }) => sum + link.role.capacitance, 0);
  const squares = rushes.reduce((sum, { left = 0, link }) => sum + left ** 2 * link.role.capacitance, 0);
  const largest = rushes.reduce((best, rush) => (rush.link.role.capacitance > best.link.role.capacitance ? rush : best));
  return { loop: largest.loop, capacitance, difference: needs.length > 0 ? undefined : Math.sqrt(squares / capacitance), needs };
}

/** The rush of those links only whose current passes an element: behind a branch fuse one link, in the trunk all of them. */
function rushThrough(rushes: readonly Rush[], whole: Together, id: string): Together {
  const own = rushes.filter(({ loop }) => loop.shareOf(id) >= CARRIES_SHARE);
  return own.length === 0 || own.length === rushes.length ? whole : together(own);
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
      const id = part.names.of(element);
      if (before.solved.stateOf(id) === 'closed' || after.solved.stateOf(id) !== 'closed') continue;
      found.push({ part: part.name, element, a: part.names.of(a), b: part.names.of(b), makingCurrent });
    }
  }
  const bridges = (path: PrechargePath) => (contact: (typeof found)[number]): boolean =>
    path.by === 'resistor' && ((before.live.same(contact.a, path.a) && before.live.same(contact.b, path.b)) || (before.live.same(contact.a, path.b) && before.live.same(contact.b, path.a)));
  const last = found.filter((contact) => filled.some(({ filling }) => bridges(filling.path)(contact)));
  return last.length > 0 ? last : found;
}
