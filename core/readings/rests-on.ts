/**
 * A fingerprint of what a step rests on, besides numbers: where the probes are, the state, and of the parts and runs it is about their kind,
 * ends, stock, names, choices and counts. When it differs from the one in the log, the step was done on another car and must be repeated. Measured
 * numbers are left out: whether they matter is told by judging the reading again.
 */
import type { Build, FieldValue } from '../build/build.ts';
import { isQuantity } from '../build/plain-values.ts';
import type { PowerUpStep } from '../power-up/step.ts';

/** @returns eight hexadecimal digits */
export function restsOn({ measure, state, about }: PowerUpStep, build: Build): string {
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
