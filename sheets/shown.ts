/**
 * A number on a sheet: printed, with how sure it is, and where in the file it can be changed.
 * `key` is its identity from one analysis to the next, so that the screen can mark what an edit has changed.
 */
import type { Build, FieldValue, FieldValues } from '../core/build/build.ts';
import { isQuantity } from '../core/build/plain-values.ts';
import { printQuantity, printValue } from '../core/quantity/print-quantity.ts';
import type { PrintOptions } from '../core/quantity/print-quantity.ts';
import type { Quantity } from '../core/quantity/quantity.ts';
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
  /** two with the same word print alike */
  readonly reader: string;
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

/** Printing for one reader and one build. Most numbers of a build are those of the edit before: what was printed then is printed again. */
export function numbersOf(build: Build, units: UnitChoice): Numbers {
  const reader = JSON.stringify(units);
  const own = printsFor(reader);
  const say: Numbers['say'] = (si, quantity, options) => {
    if (si === undefined || !Number.isFinite(si)) return NOTHING;
    const how = options === undefined ? quantity : `${quantity} ${options.digits ?? ''} ${options.rounding ?? ''}`;
    let known = own.values.get(how);
    if (!known || known.size >= MOST_KEPT) own.values.set(how, (known = new Map()));
    let text = known.get(si);
    // a map takes 0 and -0 for one number
    if (text === undefined || si === 0) known.set(si, (text = printValue(si, quantity, { ...printAs(units, quantity), digits: options?.digits, rounding: options?.rounding })));
    return text;
  };
  return {
    reader, say,
    result: (key, si, quantity, options) => ({ key: `result:${key}`, text: say(si, quantity, options) }),
    field: (path) => {
      const value = valueAt(build, path);
      return value === undefined ? undefined : shownField(path, value, units, own);
    },
  };
}

/** Different numbers of one quantity that are kept printed. */
const MOST_KEPT = 5000;
/** Choices of units of which prints are kept. */
const MOST_READERS = 4;

interface Prints {
  /** by quantity and way of printing, by number [SI] */
  readonly values: Map<string, Map<number, string>>;
  /** a quantity lives as long as the entry of the file that it stands in */
  readonly fields: WeakMap<Quantity, { readonly text: string; readonly sure: string }>;
}

const prints = new Map<string, Prints>();

function printsFor(reader: string): Prints {
  let known = prints.get(reader);
  if (!known) {
    if (prints.size >= MOST_READERS) prints.clear();
    prints.set(reader, (known = { values: new Map(), fields: new WeakMap() }));
  }
  return known;
}

function shownField(path: string, value: FieldValue, units: UnitChoice, own: Prints): Shown {
  if (isQuantity(value)) {
    let printed = own.fields.get(value);
    if (!printed) {
      const whole = printQuantity(value, { ...printAs(units, value.quantity), tolerance: 'stated' });
      const text = printQuantity(value, { ...printAs(units, value.quantity), tolerance: 'never', basis: false });
      own.fields.set(value, (printed = { text, sure: whole.startsWith(text) ? whole.slice(text.length).trim() : whole }));
    }
    return { key: path, path, text: printed.text, sure: printed.sure };
  }
  const text = Array.isArray(value) ? value.map((item) => shownField(path, item as FieldValue, units, own).text).join(', ') : value === true ? 'yes' : value === false ? 'no' : typeof value === 'object' ? Object.keys(value).join(', ') : String(value);
  return { key: path, path, text };
}

/** The value that the reader of the file kept at a path; handbook values included. */
export function valueAt(build: Build, path: string): FieldValue | undefined {
  const [section = '', name = '', ...rest] = path.split('.');
  switch (section) {
    case 'vehicle': case 'conditions': return within(build[section], [name, ...rest]);
    case 'parts': case 'runs': case 'cells': case 'stock': case 'removed': {
      const entry: { readonly fields: FieldValues } | undefined = build[section].get(name);
      return entry && within(entry.fields, rest);
    }
    default: return undefined;
  }
}

function within(from: FieldValue | FieldValues, keys: readonly string[]): FieldValue | undefined {
  let at: unknown = from;
  for (const key of keys) {
    if (at === null || typeof at !== 'object') return undefined;
    at = (at as Readonly<Record<string, unknown>>)[key];
  }
  return at as FieldValue | undefined;
}
