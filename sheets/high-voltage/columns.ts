/**
 * Strings of the battery as columns: modules in series become one symbol where nothing stands between them, and the fuses and disconnects
 * between them stand in the same column. Topology only.
 */
import type { Car, CarPart } from '../../core/car/car.ts';
import { stringsOf } from '../../core/car/strings.ts';
import type { PackString, StringModule } from '../../core/car/strings.ts';

export interface ColumnPlace {
  /** one part, or modules in series */
  readonly parts: readonly CarPart[];
  readonly isCells: boolean;
  /** points towards the positive and towards the negative end */
  readonly top: string; readonly bottom: string;
  /** runs between its modules */
  readonly inside: readonly string[];
  /** runs to the place below */
  readonly below: readonly string[];
}

/** Places from the positive end down. */
export interface ColumnPlan { readonly id: string; readonly places: readonly ColumnPlace[] }

interface Draft { parts: CarPart[]; isCells: boolean; top: string; bottom: string; inside: string[]; below: string[] }

export function columnsOf(car: Car): readonly ColumnPlan[] {
  const claimed = new Set<string>();
  return stringsOf(car).packs.flatMap(({ strings }) => strings.flatMap((string) => plansOf(car, string, claimed)));
}

const lower = ({ isReversed, positive, negative }: StringModule): string => (isReversed ? positive : negative);
const upper = ({ isReversed, positive, negative }: StringModule): string => (isReversed ? negative : positive);

/** From the negative end upwards; a part that another string has already starts a new column. */
function plansOf(car: Car, { modules, between }: PackString, claimed: Set<string>): readonly ColumnPlan[] {
  const plans: Draft[][] = [];
  let column: Draft[] = [];
  modules.forEach((module, index) => {
    const entry: Draft = { parts: [module.part], isCells: true, top: upper(module), bottom: lower(module), inside: [], below: [] };
    const way = between[index - 1]?.through ?? [];
    const parts = way.filter((name) => car.parts.has(name) && car.parts.get(name)?.roles.cells === undefined);
    const runs = way.filter((name) => car.runs.has(name));
    const last = column.at(-1);
    const isFree = index > 0 && last !== undefined && parts.every((name) => !claimed.has(name));
    if (!isFree) {
      if (column.length > 0) plans.push(column);
      column = [entry];
    } else if (parts.length === 0 && last.isCells && isUntapped(car, [last.top, entry.bottom], runs)) {
      last.parts.push(module.part);
      last.inside.push(...runs);
      last.top = entry.top;
    } else {
      const { places, rest } = placesIn(car, way, last.top);
      column.push(...places);
      column.push({ ...entry, below: rest });
      for (const name of parts) claimed.add(name);
    }
  });
  if (column.length > 0) plans.push(column);
  return plans.map((drafts) => ({ id: `string ${drafts[0]!.parts[0]!.name}`, places: [...drafts].reverse() }));
}

function isUntapped(car: Car, points: readonly string[], runs: readonly string[]): boolean {
  return [...car.runs.values()].every(({ name, from, to }) => runs.includes(name) || !(points.includes(from) || points.includes(to)));
}

/** The parts on a way upwards, each with the runs that lead to it from below. */
function placesIn(car: Car, way: readonly string[], start: string): { readonly places: Draft[]; readonly rest: string[] } {
  const places: Draft[] = [];
  let pending: string[] = [];
  let point = start;
  for (const [index, name] of way.entries()) {
    const run = car.runs.get(name);
    if (run) {
      pending.push(name);
      point = run.from === point ? run.to : run.to === point ? run.from : run.to;
      continue;
    }
    const part = car.parts.get(name);
    if (!part || part.roles.cells) continue;
    const next = way.slice(index + 1).map((other) => car.runs.get(other)).find((other) => other !== undefined);
    const top = [next?.from, next?.to].find((end) => end?.startsWith(`${name}.`)) ?? `${name}.${part.ports.find(({ name: port }) => `${name}.${port}` !== point)?.name ?? ''}`;
    places.push({ parts: [part], isCells: false, top, bottom: point.startsWith(`${name}.`) ? point : `${name}.${part.ports[0]?.name ?? ''}`, inside: [], below: pending });
    pending = [];
    point = top;
  }
  return { places, rest: pending };
}
