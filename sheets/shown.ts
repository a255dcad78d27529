/**
 * A number on a sheet: printed, with how sure it is, and where in the file it can be changed.
 * `key` is its identity from one analysis to the next, so that the screen can mark what an edit has changed.
 */
import type { Build, FieldValue, FieldValues } from '../core/build/build.ts';
import { isQuantity } from '../core/build/plain-values.ts';
import { printQuantity, printValue } from '../core/quantity/print-quantity.ts';
import type { PrintOptions } from '../core/quantity/print-quantity.ts';
import type { QuantityName } from '../core/quantity/quantity-table.ts';
import { printAs } from './unit-choice.ts';
import type { UnitChoice } from './unit-choice.ts';

export interface Shown {
  readonly key: string;
  /** number with its unit; `—` when there is none */
  readonly text: string;
  /** tolerance and basis of a number of the file: `±0.1 measured` */
  readonly sure?: string;
  /** where in the file it stands; absent: computed */
  readonly path?: string;
}

export interface Numbers {
  /** a computed number [SI]; undefined or not finite prints as — */
  readonly result: (key: string, si: number | undefined, quantity: QuantityName, options?: Pick<PrintOptions, 'digits' | 'rounding'>) => Shown;
  /** a value of the file by path (`parts.M1.mass`, `parts.M1.at.0`), undefined when the file has none */
  readonly field: (path: string) => Shown | undefined;
  /** a number with its unit, for a sentence */
  readonly say: (si: number | undefined, quantity: QuantityName, options?: Pick<PrintOptions, 'digits' | 'rounding'>) => string;
}

export const NOTHING = '—';

/** Rounding of a computed number beside a limit: to the side that leaves less room. */
export const up = { rounding: 'up' } as const;
export const down = { rounding: 'down' } as const;

/** A number whose tolerance stands elsewhere. */
export const bare = ({ key, text, path }: Shown): Shown => ({ key, text, ...(path === undefined ? {} : { path }) });

/** Printing for one reader and one build. */
export function numbersOf(build: Build, units: UnitChoice): Numbers {
  const say: Numbers['say'] = (si, quantity, options) => (si === undefined || !Number.isFinite(si) ? NOTHING : printValue(si, quantity, { ...printAs(units, quantity), digits: options?.digits, rounding: options?.rounding }));
  return {
    say,
    result: (key, si, quantity, options) => ({ key: `result:${key}`, text: say(si, quantity, options) }),
    field: (path) => {
      const value = valueAt(build, path);
      return value === undefined ? undefined : shownField(path, value, units);
    },
  };
}

function shownField(path: string, value: FieldValue, units: UnitChoice): Shown {
  if (isQuantity(value)) {
    const whole = printQuantity(value, { ...printAs(units, value.quantity), tolerance: 'stated' });
    const bare = printQuantity(value, { ...printAs(units, value.quantity), tolerance: 'never', basis: false });
    const sure = whole.startsWith(bare) ? whole.slice(bare.length).trim() : whole;
    return { key: path, path, text: bare, sure };
  }
  const text = Array.isArray(value) ? value.map((item) => shownField(path, item as FieldValue, units).text).join(', ') : value === true ? 'yes' : value === false ? 'no' : typeof value === 'object' ? Object.keys(value).join(', ') : String(value);
  return { key: path, path, text };
}

/** The value that the reader of the file kept at a path; handbook values included. */
export function valueAt(build: Build, path: string): FieldValue | undefined {
  const [section = '', name = '', ...rest] = path.split('.');
  if (section === 'vehicle' || section === 'conditions') return within(build[section], [name, ...rest]);
  const sections: Readonly<Record<string, ReadonlyMap<string, { readonly fields: FieldValues }>>> = { parts: build.parts, runs: build.runs, cells: build.cells, stock: build.stock, removed: build.removed };
  const entry = sections[section]?.get(name);
  return entry && within(entry.fields, rest);
}

function within(from: FieldValue | FieldValues, keys: readonly string[]): FieldValue | undefined {
  let at: unknown = from;
  for (const key of keys) {
    if (at === null || typeof at !== 'object') return undefined;
    at = (at as Readonly<Record<string, unknown>>)[key];
  }
  return at as FieldValue | undefined;
}
