/**
 * The mains side of charging: the protective conductor from the inlet to the bodywork and to the charger, mains kept away from
 * everything else, and the current through the inlet and the cable in it.
 *
 * Whether housings are bonded to the bodywork is not in the file; the wording says so.
 */
import type { Network } from '../../car/ask.ts';
import type { Car, CarPart } from '../../car/car.ts';
import { mainsSide } from '../../car/mains-runs.ts';
import type { MetalLink, MetalPath } from '../../car/metal-graph.ts';
import { leastResistance, metalOf, ownerOf } from '../../car/metal-graph.ts';
import { rolesIn } from '../../car/roles-in.ts';
import type { Check } from '../../findings/finding.ts';
import { REFERENCE_NODE } from '../../solve/element.ts';
import { needsOf } from './check-numbers.ts';

/** Highest resistance of a bond (UN R100 5.1.2.2) [ohm]. */
export const BOND = 0.1;

export interface InletCurrent { readonly inlet: string; readonly mode: string; /** rms, the line with the most [A] */ readonly current: number; readonly rating: number | undefined; readonly cableRating: number }

export interface MainsResults {
  /** highest rms voltage of the mains side [V]; 0: the car has none */
  readonly voltage: number;
  /** resistance of the protective conductor from the inlet to each of the points it must reach [ohm]; undefined: no way */
  readonly earths: readonly { readonly inlet: string; readonly to: string; readonly resistance: number | undefined }[];
  readonly currents: readonly InletCurrent[];
}

export function studyMains(car: Car, ask: Network): { readonly results: MainsResults; readonly checks: readonly Check[] } {
  const parts = [...car.parts.values()].filter(({ roles }) => roles.mains !== undefined);
  const inlets = parts.filter(({ roles }) => roles.mains?.inlet !== undefined);
  const users = parts.filter(({ roles }) => roles.mains?.inlet === undefined);
  if (parts.length === 0) return { results: { voltage: 0, earths: [], currents: [] }, checks: [] };
  const side = mainsSide(car);
  const earth = earthWays(car);
  const earths: MainsResults['earths'][number][] = [];
  const currents: InletCurrent[] = [];
  const checks: Check[] = [apartCheck(car, side.nodes, parts)];
  for (const inlet of inlets) {
    for (const { name, to } of [{ name: 'the bodywork', to: REFERENCE_NODE }, ...users.map((user) => ({ name: user.name, to: user.names.of(user.roles.mains!.earth) }))]) {
      const way = earth(inlet.names.of(inlet.roles.mains!.earth), to);
      earths.push({ inlet: inlet.name, to: name, resistance: way?.resistance });
      checks.push(...earthChecks(car, inlet, name, way));
    }
    for (const mode of car.modes.keys()) {
      const current = inletCurrent(car, ask, inlet, mode);
      if (!current) continue;
      currents.push(current);
      checks.push(...currentChecks(current));
    }
  }
  return { results: { voltage: side.voltage, earths, currents }, checks };
}

/** Ways that no contact and no fuse can open, and that do not lead through an inlet or a charger (inside, neutral and earth meet at the station). */
function earthWays(car: Car): (from: string, to: string) => MetalPath | undefined {
  const { linksAt } = metalOf(car);
  const opens = new Set<string>();
  const owners = new Set<string>();
  for (const { name, names, roles } of car.parts.values()) {
    for (const { element } of [...(roles.switching ?? []), ...(roles.protection ?? [])]) opens.add(names.of(element));
    if (roles.mains) owners.add(name);
  }
  const stays = ({ id }: MetalLink): boolean => !opens.has(id) && !owners.has(ownerOf(id));
  return (from, to) => leastResistance((node) => linksAt(node).filter(stays), from, to);
}

function earthChecks(car: Car, inlet: CarPart, to: string, way: MetalPath | undefined): readonly Check[] {
  const common = { about: [inlet.name], variant: to, path: `parts.${inlet.name}` } as const;
  const present: Check = { code: 'high-voltage.mains-earth', ...common, value: way ? 1 : 0, limit: 1, sense: 'is_true', details: { through: throughOf(way) } };
  if (!way) return [present];
  const runs = way.links.flatMap(({ id }) => { const run = car.runs.get(id); return run ? [run] : []; });
  const needs = runs.flatMap((run) => (run.length === undefined ? [`runs.${run.name}.length`] : run.conductor === undefined ? run.missing : []));
  return [present, { code: 'high-voltage.mains-earth-resistance', ...common, value: way.resistance, limit: BOND, sense: 'at_most', quantity: 'resistance', ...needsOf([...new Set(needs)]), details: { through: throughOf(way) } }];
}

function throughOf(way: MetalPath | undefined): string {
  const names = (way?.links ?? []).map(({ id }) => ownerOf(id));
  return [...new Set(names)].join(', ') || 'nothing';
}

/** No metal leads from a mains pin to the bodywork, to the battery's circuit or to the 12 V side. */
function apartCheck(car: Car, nodes: ReadonlySet<string>, parts: readonly CarPart[]): Check {
  const pins = new Set(parts.flatMap(({ names, roles }) => [...roles.mains!.lines, roles.mains!.neutral].map((pin) => names.of(pin))));
  const strangers: string[] = nodes.has(REFERENCE_NODE) ? ['the bodywork'] : [];
  for (const { names, ports } of car.parts.values()) {
    for (const port of ports) {
      const node = names.of(port.name);
      if (nodes.has(node) && !pins.has(node) && (port.pole !== undefined || port.carries !== 'high_voltage')) strangers.push(node);
    }
  }
  return { code: 'high-voltage.mains-apart', about: parts.map(({ name }) => name), value: strangers.length, limit: 0, sense: 'at_most', quantity: 'number', details: { strangers: strangers.join(', ') } };
}

/** Undefined when no cable is in, or the mode has no operating point (which has a check of its own). */
function inletCurrent(car: Car, ask: Network, part: CarPart, mode: string): InletCurrent | undefined {
  const inlet = rolesIn(car, part, mode).mains?.inlet;
  if (!inlet?.isPlugged) return undefined;
  const solved = ask.solve({ mode });
  if (solved.outcome !== 'solved') return undefined;
  const current = Math.max(0, ...inlet.pins.map((pin) => Math.abs(solved.currentOf(part.names.of(pin)))));
  return { inlet: part.name, mode, current: current < NOTHING ? 0 : current, rating: inlet.rating, cableRating: inlet.cableRating };
}

/** Less is the solver's rounding and the charger's discharge resistors [A]. */
const NOTHING = 1e-3;

function currentChecks({ inlet, mode, current, rating, cableRating }: InletCurrent): readonly Check[] {
  const common = { about: [inlet], variant: mode, sense: 'at_most', quantity: 'current', value: current } as const;
  return [
    { code: 'high-voltage.mains-inlet-current', ...common, path: `parts.${inlet}.rating`, ...(rating === undefined ? { needs: [`parts.${inlet}.rating`] } : { limit: rating }) },
    { code: 'high-voltage.mains-cable-current', ...common, path: `modes.${mode}.set.${inlet}`, limit: cableRating },
  ];
}
