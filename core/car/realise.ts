/**
 * Build with spreads -> car with plain numbers, for one draw.
 *
 * What does not depend on the draw (kinds, ports, what is missing) is worked out once by `prepareCar`;
 * `realise` then only copies numbers, because sampling does it a thousand times.
 */
import type { Build, BuildRun, FieldValue, FieldValues } from '../build/build.ts';
import { isQuantity, nominal, plainValue, plainValues } from '../build/plain-values.ts';
import type { Plain, ValueOf } from '../build/plain-values.ts';
import type { Words } from '../build/read-build.ts';
import type { Field, Fields, Position } from '../part/field.ts';
import type { CellNow, Conditions, Kind, PartNow, Port } from '../part/kind.ts';
import type { Conductor, RunKind } from '../part/run-kind.ts';
import type { Quantity } from '../quantity/quantity.ts';
import { cellNeeds, cellNow } from './cell-now.ts';
import type { Car, CarCell, CarPart, CarRun } from './car.ts';
import { partNames } from './part-names.ts';
import type { PartNames } from './part-names.ts';
import { routeLength } from './route-length.ts';

interface PreparedPart { readonly name: string; readonly kind: Kind; readonly plan: PlainPlan; readonly names: PartNames; readonly ports: readonly Port[]; readonly missing: readonly string[]; readonly cell: string | undefined }
interface PreparedRun { readonly run: BuildRun; readonly plan: PlainPlan; /** its stock, when it takes every field of its kind from it: one conductor for all such runs */ readonly stock: string | undefined; readonly kind: RunKind; readonly missing: readonly string[]; readonly carries: Port['carries'] }

export interface PreparedCar { readonly build: Build; readonly words: Words; readonly parts: readonly PreparedPart[]; readonly runs: readonly PreparedRun[] }

/**
 * Works out what no draw changes. Parts of unknown kind and runs to unknown ports are left out (the file has a problem for each).
 */
export function prepareCar(build: Build, words: Words): PreparedCar {
  const parts: PreparedPart[] = [];
  const carries = new Map<string, Port['carries']>();
  for (const part of build.parts.values()) {
    const kind = words.kinds.get(part.kind);
    if (!kind) continue;
    const plain = plainValues(part.fields, nominal);
    const ports = kind.ports(plain as never);
    for (const port of ports) carries.set(`${part.name}.${port.name}`, port.carries);
    const cell = cellName(kind, plain);
    parts.push({ name: part.name, kind, plan: planOf(part.fields), names: partNames(part.name, ports), ports, missing: missingPaths(kind.fields, part.fields, `parts.${part.name}`), cell });
  }
  const runs: PreparedRun[] = [];
  for (const run of build.runs.values()) {
    const kind = words.runKinds.get(run.kind);
    const from = carries.get(`${run.from.part}.${run.from.port}`);
    const to = carries.get(`${run.to.part}.${run.to.port}`);
    if (!kind || !from || !to) continue;
    const isHighVoltage = from === 'high_voltage' || to === 'high_voltage';
    runs.push({ run, plan: planOf(run.fields), stock: stockOf(run, kind, build), kind, missing: missingPaths(kind.fields, run.fields, `runs.${run.name}`), carries: isHighVoltage ? 'high_voltage' : from === 'signal' && to === 'signal' ? 'signal' : 'low_voltage' });
  }
  return { build, words, parts, runs };
}

/**
 * The car of one draw.
 * @param valueOf  the number each quantity takes in this draw
 */
export function realise(prepared: PreparedCar, valueOf: ValueOf): Car {
  const { build, words } = prepared;
  const conditions = plainValues(build.conditions, valueOf);
  const here: Conditions = {
    ambient: condition(conditions, 'ambient'),
    cellTemperature: condition(conditions, 'cell_temperature'),
    stateOfCharge: Math.min(1, Math.max(0, condition(conditions, 'state_of_charge'))),
  };
  const cells = new Map<string, CarCell>();
  for (const cell of build.cells.values()) {
    const fields = plainValues(cell.fields, valueOf);
    const missing = cellNeeds.filter((name) => fields[name] === undefined).map((name) => `cells.${cell.name}.${name}`);
    let remembered: { conditions: Conditions; now: CellNow | undefined } | undefined;
    cells.set(cell.name, {
      name: cell.name, fields, missing,
      at: (asked) => {
        if (remembered?.conditions !== asked) remembered = { conditions: asked, now: missing.length > 0 ? undefined : cellNow(cell.name, fields, asked, words.catalogue) };
        return remembered.now;
      },
    });
  }

  const parts = new Map<string, CarPart>();
  for (const prep of prepared.parts) {
    const fields = prep.plan(valueOf);
    const cell = prep.cell === undefined ? undefined : cells.get(prep.cell);
    const missing = cell ? [...prep.missing, ...cell.missing] : prep.missing;
    const now = (settings: Plain, asked: Conditions = here): PartNow<Fields, Fields> =>
      ({ name: prep.name, fields: fields as never, settings: settings as never, cell: cell?.at(asked), conditions: asked });
    const isWhole = missing.length === 0 && (cell === undefined || cell.at(here) !== undefined);
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
  for (const { run, plan, stock, kind, missing, carries } of prepared.runs) {
    const fields = plan(valueOf);
    const length = routeLength(fields, parts.get(run.from.part)?.at, parts.get(run.to.part)?.at);
    runs.set(run.name, {
      name: run.name, from: `${run.from.part}.${run.from.port}`, to: `${run.to.part}.${run.to.port}`, kind, carries,
      length: length.metres, lengthIs: length.is,
      conductor: missing.length === 0 ? conductorOf(stock, kind, fields) : undefined, missing,
      jointResistance: numberOr(fields['joint_resistance'], 0) * 2, fields,
    });
  }

  return {
    build, catalogue: words.catalogue, conditions: here, parts, runs, cells,
    vehicle: plainValues(build.vehicle, valueOf),
    removed: [...build.removed.values()].map((mass) => {
      const fields = plainValues(mass.fields, valueOf);
      return { name: mass.name, mass: fields['mass'] as number | undefined, at: fields['at'] as Position | undefined };
    }),
    modes: new Map([...build.modes.values()].map((mode) => [mode.name, {
      name: mode.name,
      lasts: mode.lasts && valueOf(mode.lasts), every: mode.every && valueOf(mode.every), highestCharge: mode.highestCharge?.nominal,
      set: Object.fromEntries(Object.entries(mode.set).map(([part, settings]) => [part, plainValues(settings, valueOf)])),
    }])),
  };
}

/** Plain values of one group of fields, with what no draw changes made once. */
type PlainPlan = (valueOf: ValueOf) => Plain;

function planOf(values: FieldValues): PlainPlan {
  const fixed = plainValues(values, nominal);
  const moving = Object.entries(values).filter(([, value]) => moves(value));
  const direct = moving.flatMap(([name, value]): [string, Quantity][] => (isQuantity(value) ? [[name, value]] : []));
  const nested = moving.filter(([, value]) => !isQuantity(value));
  if (moving.length === 0) return () => fixed;
  return (valueOf) => {
    const plain: Record<string, unknown> = { ...fixed };
    for (const [name, quantity] of direct) plain[name] = valueOf(quantity);
    for (const [name, value] of nested) plain[name] = plainValue(value, valueOf);
    return plain;
  };
}

/** Whether a draw may give it another value. */
function moves(value: FieldValue): boolean {
  if (typeof value !== 'object') return false;
  if (isQuantity(value)) return value.shape !== 'exact';
  return Array.isArray(value) ? value.some((item: FieldValue) => moves(item)) : Object.values(value).some(moves);
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
