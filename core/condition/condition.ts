/** A condition of the build file that was read and checked. */
import { partsOf } from './expression.ts';
import type { Expression } from './expression.ts';

export interface Condition {
  readonly text: string;
  readonly expression: Expression;
  /** where it stands: `modes.ready.needs.0` */
  readonly path: string;
}

/** Settings that a condition speaks of, each once. */
export function settingsIn({ expression }: Condition): readonly { readonly part: string; readonly setting: string }[] {
  const found = new Map<string, { part: string; setting: string }>();
  for (const one of partsOf(expression)) if (one.form === 'field' && one.of.form === 'name') found.set(`${one.of.name}.${one.name}`, { part: one.of.name, setting: one.name });
  return [...found.values()];
}

/** Whether its truth takes a solution of the network. */
export function asksNetwork({ expression }: Condition): boolean {
  for (const one of partsOf(expression)) if ((one.form === 'call' && (one.name === 'V' || one.name === 'I')) || (one.form === 'name' && one.name === 'interlock_closed')) return true;
  return false;
}

/** Points whose voltage it compares. */
export function pointsIn({ expression }: Condition): readonly string[] {
  const found = new Set<string>();
  for (const one of partsOf(expression)) if (one.form === 'call' && one.name === 'V') for (const point of one.arguments) if (point.form === 'literal') found.add(String(point.value));
  return [...found];
}
