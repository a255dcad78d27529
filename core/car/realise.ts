/**
 * Build with spreads -> car with plain numbers, for one draw.
 *
 * What does not depend on the draw (kinds, ports, what is missing) is worked out once by `prepareCar`;
 * `realise` then only copies numbers, because sampling does it a thousand times.
 */
import type { Build, BuildMode, BuildPart, BuildRun, FieldValues } from '../build/build.ts';
import { nominal, plainValues } from '../build/plain-values.ts';
import { sameShape } from '../build/same-shape.ts';
import type { Plain, ValueOf } from '../build/plain-values.ts';
import type { Words } from '../build/read-build.ts';
import type { Field, Fields, Position } from '../part/field.ts';
import type { CellNow, Conditions, Kind, PartNow, Port } from '../part/kind.ts';
import type { Conductor, RunKind } from '../part/run-kind.ts';
import { cellNeeds, cellNow } from './cell-now.ts';
import type { Car, CarCell, CarPart, CarRun } from './car.ts';
import { partNames } from './part-names.ts';
import type { PartNames } from './part-names.ts';
import { isFixed, planOf } from './plain-plan.ts';
import type { PlainPlan } from './plain-plan.ts';
import { routeLength } from './route-length.ts';
import { giveShape } from './shape.ts';

interface PreparedPart { readonly name: string; readonly kind: Kind; readonly plan: PlainPlan; readonly names: PartNames; readonly ports: readonly Port[]; readonly missing: readonly string[]; readonly cell: string | undefined }
interface PreparedRun { readonly run: BuildRun; /** `Part.port` */ readonly from: string; readonly to: string; readonly plan: PlainPlan; /** its stock, when it takes every field of its kind from it: one conductor for all such runs */ readonly stock: string | undefined; readonly kind: RunKind; readonly missing: readonly string[]; readonly carries: Port['carries'] }

export interface PreparedCar {
  readonly build: Build; readonly words: Words; readonly parts: readonly PreparedPart[]; readonly runs: readonly PreparedRun[];
  readonly cells: readonly { readonly name: string; readonly plan: PlainPlan; readonly missing: readonly string[] }[];
  readonly removed: readonly { readonly name: string; readonly plan: PlainPlan }[];
  readonly modes: readonly { readonly mode: BuildMode; readonly set: readonly { readonly part: string; readonly plan: PlainPlan }[] }[];
  readonly conditions: PlainPlan;
  readonly vehicle: PlainPlan;
  /** by the names of the parts that lack something, see `shape.ts`; grows with the draws */
  readonly shapes: Map<string, object>;
}

/**
 * Works out what no draw changes. Parts of unknown kind and runs to unknown ports are left out (the file has a problem for each).
 * @param before  of the same file before an edit: what an edit of numbers leaves as it was is kept
 */
export function prepareCar(build: Build, words: Words, before?: PreparedCar): PreparedCar {
  const last = before?.words === words ? before : undefined;
  const hasSameParts = last?.build.parts === build.parts;
  const parts = hasSameParts ? last!.parts : prepareParts(build, words);
  return {
    build, words, parts, runs: hasSameParts && last!.build.runs === build.runs && last!.build.stock === build.stock ? last!.runs : prepareRuns(build, words, parts),
    shapes: last && sameShape(last.build, build) ? last.shapes : new Map(), conditions: planOf(build.conditions), vehicle: planOf(build.vehicle),
    // a field of a draw is missing when the file has none
    cells: [...build.cells.values()].map(({ name, fields }) => ({ name, plan: planOf(fields), missing: cellNeeds.filter((field) => fields[field] === undefined).map((field) => `cells.${name}.${field}`) })),
    removed: [...build.removed.values()].map(({ name, fields }) => ({ name, plan: planOf(fields) })),
    modes: last?.build.modes === build.modes ? last.modes : modePlans(build),
  };
}

function prepareParts(build: Build, words: Words): readonly PreparedPart[] {
  return [...build.parts.values()].flatMap((part) => { const kind = words.kinds.get(part.kind); return kind ? [preparePart(part, kind)] : []; });
}

function prepareRuns(build: Build, words: Words, parts: readonly PreparedPart[]): readonly PreparedRun[] {
  const carries = new Map<string, Port['carries']>(parts.flatMap(({ name, ports }) => ports.map((port) => [`${name}.${port.name}`, port.carries])));
  return [...build.runs.values()].flatMap((run): PreparedRun[] => {
    const kind = words.runKinds.get(run.kind);
    const [from, to] = [`${run.from.part}.${run.from.port}`, `${run.to.part}.${run.to.port}`];
    const [one, other] = [carries.get(from), carries.get(to)];
    if (!kind || !one || !other) return [];
    const isHighVoltage = one === 'high_voltage' || other === 'high_voltage';
    return [{ run, from, to, plan: planOf(run.fields), stock: stockOf(run, kind, build), kind, missing: missingPaths(kind.fields, run.fields, `runs.${run.name}`), carries: isHighVoltage ? 'high_voltage' : one === 'signal' && other === 'signal' ? 'signal' : 'low_voltage' }];
  });
}

/** A part that no edit has touched is the same object from build to build: it is prepared once. */
const partsPrepared = new WeakMap<BuildPart, PreparedPart>();

function preparePart(part: BuildPart, kind: Kind): PreparedPart {
  const known = partsPrepared.get(part);
  if (known?.kind === kind) return known;
  const plain = plainValues(part.fields, nominal);
  const ports = kind.ports(plain as never);
  const prepared = { name: part.name, kind, plan: planOf(part.fields), names: partNames(part.name, ports), ports, missing: missingPaths(kind.fields, part.fields, `parts.${part.name}`), cell: cellName(kind, plain) };
  partsPrepared.set(part, prepared);
  return prepared;
}

/**
 * The car of one draw.
 * @param valueOf  the number each quantity takes in this draw
 * @param options  `isForMargins`: see `Car`
 */
export function realise(prepared: PreparedCar, valueOf: ValueOf, { isForMargins = false }: { readonly isForMargins?: boolean } = {}): Car {
  const { build, words } = prepared;
  const conditions = prepared.conditions(valueOf);
  const here: Conditions = {
    ambient: condition(conditions, 'ambient'),
    cellTemperature: condition(conditions, 'cell_temperature'),
    stateOfCharge: Math.min(1, Math.max(0, condition(conditions, 'state_of_charge'))),
  };
  const cells = new Map<string, CarCell>();
  for (const { name, plan, missing } of prepared.cells) {
    const fields = plan(valueOf);
    // asked again and again under the same few conditions: the car's own, and the ends of what it must bear
    const asked = new Map<string, CellNow | undefined>();
    const own = missing.length > 0 ? undefined : cellNow(name, fields, here, words.catalogue);
    cells.set(name, {
      name, fields, missing,
      at: (conditions) => {
        if (conditions === here || missing.length > 0) return own;
        const key = `${conditions.stateOfCharge} ${conditions.cellTemperature}`;
        let now = asked.get(key);
        if (now === undefined && !asked.has(key)) asked.set(key, (now = cellNow(name, fields, conditions, words.catalogue)));
        return now;
      },
    });
  }

  const parts = new Map<string, CarPart>();
  let lacking = '';
  for (const prep of prepared.parts) {
    const fields = prep.plan(valueOf);
    const cell = prep.cell === undefined ? undefined : cells.get(prep.cell);
    const missing = cell ? [...prep.missing, ...cell.missing] : prep.missing;
    const now = (settings: Plain, asked: Conditions = here): PartNow<Fields, Fields> =>
      ({ name: prep.name, fields: fields as never, settings: settings as never, cell: cell?.at(asked), conditions: asked });
    const isWhole = missing.length === 0 && (cell === undefined || cell.at(here) !== undefined);
    if (!isWhole) lacking += `${prep.name} `;
    parts.set(prep.name, {
      name: prep.name, kind: prep.kind, names: prep.names, ports: prep.ports, missing, fields,
      mass: fields['mass'] as number | undefined, at: fields['at'] as Position | undefined, size: fields['size'] as Position | undefined,
      cell: cell?.at(here), roles: isWhole ? prep.kind.roles(now({})) : {}, now,
    });
  }

  const runs = new Map<string, CarRun>();
  const conductors = new Map<string, Conductor>();
  const conductorOf = (stock: string | undefined, kind: RunKind, fields: Plain): Conductor => {
    const known = stock === undefined ? undefined : conductors.get(stock);
    const conductor = known ?? kind.conductor(fields as never);
    if (stock !== undefined && !known) conductors.set(stock, conductor);
    return conductor;
  };
  for (const prep of prepared.runs) {
    const { run, from, to, plan, stock, kind, missing, carries } = prep;
    const fields = plan(valueOf);
    const ends = [parts.get(run.from.part)?.at, parts.get(run.to.part)?.at] as const;
    const before = valueOf === nominal ? bestRuns.get(prep) : undefined;
    if (before && before.ends[0] === ends[0] && before.ends[1] === ends[1]) { runs.set(run.name, before.run); continue; }
    const length = routeLength(fields, ...ends);
    const made: CarRun = {
      name: run.name, from, to, kind, carries,
      length: length.metres, lengthIs: length.is,
      conductor: missing.length === 0 ? conductorOf(stock, kind, fields) : undefined, missing,
      jointResistance: numberOr(fields['joint_resistance'], 0) * 2, fields,
    };
    if (valueOf === nominal) bestRuns.set(prep, { ends, run: made });
    runs.set(run.name, made);
  }

  const car: Car = {
    isForMargins, build, catalogue: words.catalogue, conditions: here, parts, runs, cells,
    vehicle: prepared.vehicle(valueOf),
    removed: prepared.removed.map(({ name, plan }) => {
      const fields = plan(valueOf);
      return { name, mass: fields['mass'] as number | undefined, at: fields['at'] as Position | undefined };
    }),
    modes: new Map(prepared.modes.map(({ mode, set }) => [mode.name, {
      name: mode.name,
      lasts: mode.lasts && valueOf(mode.lasts), every: mode.every && valueOf(mode.every), highestCharge: mode.highestCharge?.nominal,
      set: settingsOf(set, valueOf),
    }])),
  };
  let shape = prepared.shapes.get(lacking);
  if (!shape) prepared.shapes.set(lacking, (shape = {}));
  giveShape(car, shape);
  return car;
}

/** A run at its best values, and where its ends then stand: what an edit leaves as it was is the same run from analysis to analysis. */
const bestRuns = new WeakMap<PreparedRun, { readonly ends: readonly [Position | undefined, Position | undefined]; readonly run: CarRun }>();

/** Settings that no draw moves and that several modes give alike are one object: whoever remembers by it then meets the same again. */
function modePlans(build: Build): PreparedCar['modes'] {
  const shared = new Map<string, PlainPlan>();
  const planFor = (part: string, settings: FieldValues): PlainPlan => {
    const plan = planOf(settings);
    if (!isFixed(settings)) return plan;
    const key = `${part} ${JSON.stringify(plan(nominal))}`;
    const known = shared.get(key);
    if (!known) shared.set(key, plan);
    return known ?? plan;
  };
  return [...build.modes.values()].map((mode) => ({ mode, set: Object.entries(mode.set).map(([part, settings]) => ({ part, plan: planFor(part, settings) })) }));
}

function settingsOf(set: PreparedCar['modes'][number]['set'], valueOf: ValueOf): Record<string, Plain> {
  const settings: Record<string, Plain> = {};
  for (const { part, plan } of set) settings[part] = plan(valueOf);
  return settings;
}

function stockOf(run: BuildRun, kind: RunKind, build: Build): string | undefined {
  const stock = run.stock === undefined ? undefined : build.stock.get(run.stock);
  return stock && stock.kind === run.kind && Object.keys(kind.fields).every((name) => run.fields[name] === stock.fields[name]) ? stock.name : undefined;
}

function missingPaths(fields: Fields, values: FieldValues, path: string): string[] {
  return Object.entries(fields).filter(([name, field]: [string, Field]) => field.need !== 'optional' && values[name] === undefined).map(([name]) => `${path}.${name}`);
}

function cellName(kind: Kind, plain: Plain): string | undefined {
  const entry = Object.entries(kind.fields).find(([, field]) => field.type === 'name' && field.of === 'cells');
  const value = entry && plain[entry[0]];
  return typeof value === 'string' ? value : undefined;
}

/** Conditions are handbook fields: the reader always fills them. */
function condition(conditions: Plain, name: string): number {
  const value = conditions[name];
  if (typeof value !== 'number') throw new Error(`the reader must fill conditions.${name} from the handbook`);
  return value;
}

function numberOr(value: unknown, otherwise: number): number {
  return typeof value === 'number' ? value : otherwise;
}
