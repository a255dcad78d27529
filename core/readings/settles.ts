/**
 * Which number of the file a reading settles: the one that the reading is in proportion to, all others near it mattering little. No part's
 * kind is asked for: each number of the parts and runs that the step is about is moved, and the network says what the meter would then show.
 *
 * A voltage across a module settles its own reading, which the network does not know of.
 * Range:   voltages, resistances, currents and times that are predicted; open readings (`> 550 MΩ`) settle nothing
 * Checked: proposals.test.ts (a planted value is found again)
 */
import type { Build, FieldValues } from '../build/build.ts';
import { isQuantity, nominal } from '../build/plain-values.ts';
import { answerStore, askNetwork } from '../car/ask-network.ts';
import type { AnswerStore } from '../car/ask-network.ts';
import { remembered } from '../car/remembered.ts';
import { prepareCar, realise } from '../car/realise.ts';
import type { PreparedCar } from '../car/realise.ts';
import { readMeasure } from '../power-up/read-measure.ts';
import { quantityOf } from '../power-up/step.ts';
import type { Quantity } from '../quantity/quantity.ts';
import type { QuantityName } from '../quantity/quantity-table.ts';
import type { ReadStep } from './read-step.ts';
import { pointsOfStep } from './rests-on.ts';

export interface Settled {
  /** of the field in the file, whether it stands there or not */
  readonly path: string;
  readonly quantity: QuantityName;
  /** what the field holds now, by the file or a handbook; undefined: nothing */
  readonly holds: Quantity | undefined;
  /** value of the field that makes the meter show this [SI]; undefined: none does */
  readonly valueFor: (reading: number) => number | undefined;
  /** rise of the reading by rise of the field, at what the file holds */
  readonly slope: number;
  /** half width that the other numbers near it leave in the reading [SI of the reading] */
  readonly others: number;
}

/** A reading is in proportion to a number when its share changes by this much of the number's share; our choice. */
const PROPORTIONAL = { least: 0.9, most: 1.1 } as const;
/** How far a number is moved to see [share]. */
const MOVED = 0.02;
/** The others together may leave at the most this share of the spread that the number itself gives. */
const OTHERS = 0.5;
/** What a reading can be in proportion to while all else stays: nothing else is tried. */
const MAY_SETTLE: Readonly<Partial<Record<QuantityName, readonly QuantityName[]>>> = { voltage: ['voltage'], resistance: ['resistance'], current: ['current', 'power', 'resistance'], time: ['time', 'capacitance', 'resistance'] };
const FIELD_OF_MODULE = 'measured_voltage';

/** @returns undefined when the reading of a step settles no single number. Time: some solves; keep the answer with the build. */
export function settledBy(prepared: PreparedCar, step: ReadStep): Settled | undefined {
  const { measure, predicted, state = {} } = step;
  if (!measure || !predicted || predicted.nominal === 0) return undefined;
  const { build } = prepared;
  const ofModule = modulePoles(prepared, step);
  if (ofModule) return ofModule;
  const reader = (of: PreparedCar, store: AnswerStore) => (path?: string, value = 0): number | undefined => { const car = realise(of, (quantity) => (quantity.path === path ? value : quantity.nominal)); return readMeasure(car, askNetwork(car, store), state, measure); };
  const found = candidates(build, step, MAY_SETTLE[step.quantity ?? quantityOf(measure)] ?? []);
  if (found.length === 0) return undefined;
  const readWith = reader(prepared, storeOf(prepared));
  const base = readWith();
  if (base === undefined || base === 0) return undefined;
  const moved = found.flatMap((one) => {
    const { holds } = one;
    const then = readWith(holds.path, holds.nominal * (1 + MOVED));
    if (then === undefined) return [];
    return [{ ...one, share: (then - base) / base / MOVED, width: Math.abs(((then - base) / (holds.nominal * MOVED)) * (holds.high - holds.low)) / 2 }];
  });
  const [best, ...rest] = moved.sort((a, b) => Math.abs(b.share) - Math.abs(a.share));
  if (!best || best.share < PROPORTIONAL.least || best.share > PROPORTIONAL.most || best.width === 0) return undefined;
  const others = Math.hypot(...rest.filter(({ holds }) => holds.path !== best.holds.path).map(({ width }) => width));
  if (others > OTHERS * best.width) return undefined;
  // a row of the handbook has many readers: only this part's own number may be moved
  const readAlone = best.holds.path === best.path ? readWith : reader(ownNumber(prepared, best), answerStore());
  const readOwn = (value: number): number | undefined => readAlone(best.path, value);
  const then = readOwn(best.holds.nominal * (1 + MOVED));
  if (then === undefined || Math.abs((then - base) / base / MOVED / best.share - 1) > OTHERS / 5) return undefined;
  return { path: best.path, quantity: best.holds.quantity, holds: best.holds, slope: (then - base) / (best.holds.nominal * MOVED), others, valueFor: (reading) => solve(readOwn, reading, best.holds.nominal * (reading / base)) };
}

/** The steps of a build share its states. */
const storeOf = remembered(function storeOfReadings(_: PreparedCar): AnswerStore { return answerStore(); });

interface Candidate { readonly path: string; readonly owner: string; readonly field: string; readonly isPart: boolean; readonly holds: Quantity }

/** Uncertain numbers of the parts and runs that a step is about or whose points it touches. */
function candidates(build: Build, { about, measure }: ReadStep, quantities: readonly QuantityName[]): readonly Candidate[] {
  const names = new Set([...about, ...pointsOfStep(measure).map((point) => point.split('.')[0]!)]);
  return [...names].flatMap((owner): Candidate[] => {
    const part = build.parts.get(owner);
    const fields: FieldValues = part?.fields ?? build.runs.get(owner)?.fields ?? {};
    return Object.entries(fields).flatMap(([field, value]): Candidate[] => {
      const path = `${part ? 'parts' : 'runs'}.${owner}.${field}`;
      if (typeof value !== 'object' || !isQuantity(value) || value.nominal === 0 || !quantities.includes(value.quantity)) return [];
      // what a run takes from its stock is shared, and no reading of one run settles it
      return value.path === path || value.path.startsWith('handbook:') ? [{ path, owner, field, isPart: part !== undefined, holds: value }] : [];
    });
  });
}

function ownNumber({ build, words }: PreparedCar, { path, owner, field, isPart, holds }: Candidate): PreparedCar {
  const given = <E extends { readonly fields: FieldValues }>(entries: ReadonlyMap<string, E>): ReadonlyMap<string, E> => {
    const entry = entries.get(owner)!;
    return new Map(entries).set(owner, { ...entry, fields: { ...entry.fields, [field]: { ...holds, path } } });
  };
  return prepareCar({ ...build, ...(isPart ? { parts: given(build.parts) } : { runs: given(build.runs) }) }, words);
}

/** By the secant, from a guess that is near already. */
function solve(read: (value: number) => number | undefined, wanted: number, guess: number): number | undefined {
  let [value, last] = [guess, guess * (1 + MOVED)];
  let lastRead = read(last);
  for (let round = 0; round < 6; round++) {
    const now = read(value);
    if (now === undefined || lastRead === undefined) return undefined;
    if (Math.abs(now - wanted) <= 1e-6 * Math.abs(wanted)) return value;
    if (now === lastRead) return undefined;
    const next = value + ((wanted - now) * (last - value)) / (lastRead - now);
    [last, lastRead, value] = [value, now, next];
    if (!Number.isFinite(value) || value <= 0) return undefined;
  }
  return undefined;
}

/** Both probes on the terminals of one module. */
function modulePoles(prepared: PreparedCar, { measure }: ReadStep): Settled | undefined {
  if (measure?.is !== 'voltage') return undefined;
  const car = realise(prepared, nominal);
  for (const { name, names, roles, kind } of car.parts.values()) {
    if (!roles.cells || kind.fields[FIELD_OF_MODULE] === undefined) continue;
    const [positive, negative] = [names.of(roles.cells.positive), names.of(roles.cells.negative)];
    const sign = measure.a === positive && measure.b === negative ? 1 : measure.a === negative && measure.b === positive ? -1 : 0;
    if (sign === 0) continue;
    const holds = prepared.build.parts.get(name)?.fields[FIELD_OF_MODULE];
    return { path: `parts.${name}.${FIELD_OF_MODULE}`, quantity: 'voltage', holds: holds !== undefined && typeof holds === 'object' && isQuantity(holds) ? holds : undefined, slope: sign, others: 0, valueFor: (reading) => (sign * reading > 0 ? sign * reading : undefined) };
  }
  return undefined;
}
