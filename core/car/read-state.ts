/**
 * A state as a person writes it, word by word, read by the same descriptors as the build file:
 * a mode, settings `INV.draw=20 kW`, runs left out, failures `K1.welded`, charge and temperature of the cells.
 */
import { readField } from '../build/read-field.ts';
import type { FieldValue } from '../build/build.ts';
import { collectProblems } from '../build/report-problem.ts';
import type { Report } from '../build/report-problem.ts';
import type { Place } from '../build/place.ts';
import type { Reading } from '../build/reading.ts';
import type { SourceNode } from '../build/source-tree.ts';
import { failuresOf } from '../part/kind.ts';
import { knownWords } from '../build/read-modes.ts';
import { nearestName } from '../build/nearest-name.ts';
import { readQuantity } from '../quantity/read-quantity.ts';
import type { Car, CarPart } from './car.ts';
import { nominal, plainValues } from '../build/plain-values.ts';
import type { State } from './state.ts';

export interface StateWords {
  readonly mode?: string;
  /** `Part.setting=value` */
  readonly set?: readonly string[];
  readonly without?: readonly string[];
  /** `Part.failure` */
  readonly failed?: readonly string[];
  readonly charge?: string;
  readonly cells?: string;
}

export type StateReading = { readonly ok: true; readonly state: State } | { readonly ok: false; readonly problems: readonly string[] };

/** Reads a state for a car. All problems at once, each a sentence with the nearest right spelling. */
export function readState(words: StateWords, car: Car): StateReading {
  const problems: string[] = [];
  const known = (what: string, name: string, names: Iterable<string>): boolean => {
    const list = [...names];
    if (list.includes(name)) return true;
    const close = nearestName(name, list);
    problems.push(`There is no ${what} ${name}${close === undefined ? (list.length > 0 && list.length < 12 ? `; there are ${list.join(', ')}.` : '.') : `; did you mean ${close}?`}`);
    return false;
  };

  if (words.mode !== undefined) known('mode', words.mode, car.modes.keys());
  const set: Record<string, Record<string, unknown>> = {};
  for (const text of words.set ?? []) {
    const match = /^([^.=]+)\.([^=]+)=(.*)$/.exec(text);
    const [part, setting, value] = match ? [match[1] as string, (match[2] as string).trim(), (match[3] as string).trim()] : [];
    if (part === undefined || setting === undefined || value === undefined) { problems.push(`${text}: expected Part.setting=value, such as INV.draw=20 kW.`); continue; }
    if (!known('part', part, car.parts.keys())) continue;
    const settings = car.parts.get(part)?.kind.settings ?? {};
    if (!known(`setting of ${part}`, setting, Object.keys(settings))) continue;
    const found = collectProblems();
    const field = settings[setting];
    const reading = loneReading(found.report, car);
    const raw = field && readField(field, scalarOrList(field.type === 'list', value), `set.${part}.${setting}`, reading, () => undefined);
    const [known_, kind] = [car.build.parts.get(part), car.parts.get(part)?.kind];
    const read = raw === undefined || !known_ || !kind ? undefined : knownWords({ [setting]: raw }, `set.${part}`, known_, kind, reading)[setting];
    if (read === undefined || found.all().length > 0) problems.push(...(found.all().length > 0 ? found.all().map(({ message }) => `${text}: ${message}`) : [`${text}: the value cannot be used.`]));
    else (set[part] ??= {})[setting] = plainValues({ value: read as FieldValue }, nominal)['value'];
  }
  for (const run of words.without ?? []) known('run', run, car.runs.keys());
  const failures: { part: string; failure: string }[] = [];
  for (const text of words.failed ?? []) {
    const dot = text.indexOf('.');
    const [part, failure] = [text.slice(0, dot), text.slice(dot + 1)];
    if (dot < 0) problems.push(`${text}: expected Part.failure, such as K1.welded.`);
    else if (car.runs.has(part)) problems.push(`${part} is a run. To see the car without it, leave it out: without ${part}.`);
    else if (known('part', part, car.parts.keys()) && known(`failure of ${part}`, failure, failureCodes(car.parts.get(part)))) failures.push({ part, failure });
  }
  const number = (text: string | undefined, quantity: 'ratio' | 'temperature', what: string): number | undefined => {
    if (text === undefined) return undefined;
    const read = readQuantity(text, quantity, what);
    if (read.ok) return read.value.nominal;
    problems.push(`${what} ${text}: expected ${read.problem.expected}.`);
    return undefined;
  };
  const stateOfCharge = number(words.charge, 'ratio', 'charge');
  const cellTemperature = number(words.cells, 'temperature', 'cells');
  if (stateOfCharge !== undefined && (stateOfCharge < 0 || stateOfCharge > 1)) problems.push('charge: expected 0 % to 100 %.');
  if (problems.length > 0) return { ok: false, problems };
  return {
    ok: true,
    state: {
      ...(words.mode === undefined ? {} : { mode: words.mode }),
      ...(Object.keys(set).length > 0 ? { set } : {}),
      ...(words.without && words.without.length > 0 ? { without: words.without } : {}),
      ...(failures.length > 0 ? { failures } : {}),
      ...(stateOfCharge === undefined ? {} : { stateOfCharge }),
      ...(cellTemperature === undefined ? {} : { cellTemperature }),
    },
  };
}

function failureCodes(part: CarPart | undefined): string[] {
  return part === undefined || part.missing.length > 0 ? [] : failuresOf(part.kind, part.now({})).map(({ code }) => code);
}

const nowhere: Place = { line: 1, column: 1, offset: 0, end: 0 };

function scalarOrList(isList: boolean, value: string): SourceNode {
  const scalar = (text: string): SourceNode => ({ form: 'scalar', text, isQuoted: false, place: nowhere });
  if (!isList) return scalar(value);
  const items = value.replace(/^\[|\]$/g, '').split(/[,\s]+/).filter((item) => item !== '').map(scalar);
  return { form: 'list', items, itemPlaces: items.map(() => nowhere), place: nowhere };
}

function loneReading(report: Report, car: Car): Reading {
  const names = { cells: new Set(car.cells.keys()), stock: new Set(car.build.stock.keys()), parts: new Set(car.parts.keys()), runs: new Set(car.runs.keys()), modes: new Set(car.modes.keys()) };
  return { report, catalogue: car.catalogue, places: new Map(), quantities: new Map(), names, nearest: nearestName, portReferences: [] };
}
