/**
 * What a step rests on, as it is written beside its reading: a fingerprint, and behind a stroke the reading that was predicted.
 *
 * - The fingerprint holds where the probes are, the state, and of the parts and runs that the step is about their kind, ends, stock, names,
 *   choices and counts. When it is another one, the step was done on another car.
 * - Numbers of the file count by what they do to the prediction: when it has moved by more than the meter may be out by, and away from the
 *   reading, the step rests on numbers that are no more. A number that the reading itself has put right moves the prediction towards it.
 */
import type { Build, FieldValue } from '../build/build.ts';
import { isQuantity } from '../build/plain-values.ts';
import type { PowerUpStep } from '../power-up/step.ts';
import type { Entered } from './entered.ts';
import type { ReadStep } from './read-step.ts';

const PREDICTED = '/';
/** Of the prediction; more than any meter shows. */
const DIGITS = 7;

/** @returns eight hexadecimal digits, and the predicted reading [SI] where there is one: `1a2b3c4d/47.92` */
export function restsOn(step: ReadStep, build: Build): string {
  const { predicted } = step;
  return predicted ? `${structureOf(step, build)}${PREDICTED}${Number(predicted.nominal.toPrecision(DIGITS))}` : structureOf(step, build);
}

/**
 * Whether a step must be done again because the build has changed in what it rests on.
 * @param then  as it stands beside the reading; '' or without a prediction: that much is not compared
 * @param read  the reading; undefined: it cannot be read
 */
export function restsOnOther(then: string, step: ReadStep, build: Build, read: Entered | undefined): boolean {
  const [structure = '', text = ''] = then.split(PREDICTED);
  if (structure === '') return false;
  if (structure !== structureOf(step, build)) return true;
  const { predicted, instrument } = step;
  const before = text === '' ? NaN : Number(text);
  if (!predicted || !instrument || !Number.isFinite(before) || read?.is !== 'value') return false;
  const { nominal } = predicted;
  const away = (from: number): number => Math.max(0, read.low - from, from - read.high);
  const meter = instrument.share * Math.max(Math.abs(nominal), Math.abs(before)) + instrument.fixed;
  return Math.abs(nominal - before) > meter && away(nominal) > away(before);
}

function structureOf(step: ReadStep, build: Build): string {
  const { measure, about } = step;
  const state = step.restsOnState ?? step.state;
  const names = new Set([...about, ...pointsOfStep(measure).map((point) => point.split('.')[0]!)]);
  const things = [...names].sort().flatMap((name): unknown[] => {
    const part = build.parts.get(name);
    const run = build.runs.get(name);
    const fields = (part ?? run)?.fields ?? {};
    const words = Object.entries(fields).flatMap(([field, value]) => (field === 'note' ? [] : [[field, withoutNumbers(value)]])).filter(([, value]) => value !== undefined);
    return part || run ? [[name, part?.kind, run?.kind, run?.from, run?.to, run?.stock, words]] : [];
  });
  return fingerprint(JSON.stringify([measure, state, things], (_, value: unknown) => (typeof value === 'number' ? Number(value.toPrecision(2)) : value)));
}

/** What the probes or the clamp touch, positive first, as a log names it. */
export function pointsOfStep(measure: PowerUpStep['measure']): readonly string[] {
  switch (measure?.is) {
    case undefined: return [];
    case 'voltage':
    case 'resistance': return [measure.a, measure.b];
    case 'difference': return [...measure.first, ...measure.second];
    case 'insulation': return [...measure.poles, measure.b];
    case 'isolation': return [measure.positive, measure.negative];
    case 'current': return [measure.element];
    case 'time': return measure.voltageAt;
  }
}

function withoutNumbers(value: FieldValue): unknown {
  if (isQuantity(value)) return undefined;
  if (typeof value !== 'object') return value;
  if (Array.isArray(value)) return value.map((item: FieldValue) => withoutNumbers(item));
  return Object.fromEntries(Object.entries(value).map(([key, item]) => [key, withoutNumbers(item as FieldValue)]));
}

/** FNV-1a, 32 bit, over UTF-16 units; public domain, offset and prime from memory, nothing depends on them but this file. */
function fingerprint(text: string): string {
  let hash = 0x811c9dc5;
  for (let at = 0; at < text.length; at++) hash = Math.imul(hash ^ text.charCodeAt(at), 0x01000193);
  return (hash >>> 0).toString(16).padStart(8, '0');
}
