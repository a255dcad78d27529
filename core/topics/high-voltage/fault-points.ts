/**
 * Where the bolted shorts lie, and which modes feed them: across each pack's ends, across every part that has both poles, between conductors, and at the
 * ends of runs that none of these reaches.
 */
import type { Car, CarPart } from '../../car/car.ts';
import { byShape } from '../../car/shape.ts';
import type { RestSolved } from '../../solve/rest-result.ts';
import { carriesHighVoltage } from './fuse-in-fault.ts';
import type { PackEnds } from './pack-ends.ts';

export interface FaultPoint {
  readonly at: string;
  /** `conductors`: between two cables or buses, see `conductor-points.ts`; `lead`: at the end of a run that ends at a part inside one pole */
  readonly where: 'pack' | 'equipment' | 'conductors' | 'lead';
  readonly positive: string; readonly negative: string;
  /** `conductors`: what `at` meets */
  readonly other?: string;
}

export function faultPoints(car: Car, packs: readonly PackEnds[]): readonly FaultPoint[] {
  return [...packs.map(({ positive, negative }): FaultPoint => ({ at: positive.slice(0, positive.lastIndexOf('.')), where: 'pack', positive, negative })), ...equipmentPoints(car)];
}

const equipmentPoints = byShape((car): readonly FaultPoint[] => [...car.parts.values()].flatMap((part): FaultPoint[] => {
  const [positive, negative] = polesOf(part);
  return positive !== undefined && negative !== undefined ? [{ at: part.name, where: 'equipment', positive: part.names.of(positive), negative: part.names.of(negative) }] : [];
}));

/** The two poles between which a short at a part lies: of its capacitor, else of whatever else has both poles and is not the pack. */
function polesOf(part: CarPart): readonly [string | undefined, string | undefined] {
  const { cells, dcLink } = part.roles;
  if (cells) return [undefined, undefined];
  if (dcLink) return [dcLink.positive, dcLink.negative];
  const port = (pole: 'positive' | 'negative'): string | undefined => part.ports.find((candidate) => candidate.carries === 'high_voltage' && candidate.pole === pole)?.name;
  return [port('positive'), port('negative')];
}

/** At least half of a pack's highest voltage stands between the two points; less is what leaks through insulation. */
export function isLive(answer: RestSolved, { positive, negative }: FaultPoint, pack: number): boolean {
  return answer.islandOf(positive) === answer.islandOf(negative) && answer.voltageOf(positive) - answer.voltageOf(negative) > pack / 2;
}

export interface Contact { readonly id: string; readonly isPrecharge: boolean }
/** A solved mode, and which contacts it closes. */
export interface LiveMode { readonly mode: string | undefined; readonly answer: RestSolved; readonly signature: string; /** a precharge contact is closed */ readonly precharges: boolean; /** number of closed contacts, precharge apart */ readonly closed: number }

export function liveMode(mode: string | undefined, answer: RestSolved, contacts: readonly Contact[]): LiveMode {
  let signature = '';
  let precharges = false;
  let closed = 0;
  for (const { id, isPrecharge } of contacts) {
    const state = answer.stateOf(id);
    signature += `${state},`;
    if (state !== 'closed') continue;
    if (isPrecharge) precharges = true;
    else closed++;
  }
  return { mode, answer, signature, precharges, closed };
}

/** Contacts of the high-voltage side. */
export const contactsOf: (car: Car) => readonly Contact[] = byShape((car) => [...car.parts.values()].flatMap((part) => (part.roles.switching ?? [])
  .filter(({ a, b }) => carriesHighVoltage(part, a) && carriesHighVoltage(part, b))
  .map(({ element }) => ({ id: part.names.of(element), isPrecharge: part.roles.prechargeResistor?.contactElement === element }))));

/** The modes in which a fault is looked at: at equipment one for each set of closed contacts, else the one that joins most of the pack. */
export function feedingModes({ where }: Pick<FaultPoint, 'where'>, live: readonly LiveMode[]): readonly (string | undefined)[] {
  return where === 'equipment' ? distinct(live) : mostClosed(live);
}

/**
 * Modes that close different contacts, one of each kind. A mode that closes a precharge contact is left out when another
 * feeds the point too: the resistor would hide the fault.
 */
function distinct(live: readonly LiveMode[]): readonly (string | undefined)[] {
  const direct = live.filter(({ precharges }) => !precharges);
  const bySignature = new Map<string, string | undefined>();
  for (const { mode, signature } of direct.length > 0 ? direct : live) if (!bySignature.has(signature)) bySignature.set(signature, mode);
  return [...bySignature.values()];
}

/** The mode with most contacts closed: it joins all strings of the pack. */
function mostClosed(live: readonly LiveMode[]): readonly (string | undefined)[] {
  let best: LiveMode | undefined;
  for (const one of live) if (!best || one.closed > best.closed) best = one;
  return best ? [best.mode] : [];
}
