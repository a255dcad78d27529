/**
 * The value of a condition in a situation. What is not known stays not known, and is carried along as CEL carries an error:
 * `false && unknown` is false, `true || unknown` is true, everything else with it is unknown.
 */
import type { QuantityName } from '../quantity/quantity-table.ts';
import { plainQuantity } from './check-types.ts';
import type { Expression } from './expression.ts';

/** What is the case. Each answer undefined when it is not known. Numbers in SI. */
export interface Situation {
  readonly setting: (part: string, setting: string) => boolean | number | string | readonly string[] | undefined;
  readonly voltage: (a: string, b: string) => number | undefined;
  readonly current: (run: string) => number | undefined;
  readonly variable: (name: string) => boolean | number | undefined;
}

type Value = boolean | number | string | readonly string[];
/** Undefined: not known. */
type Outcome = Value | undefined;

/** @returns undefined when the situation does not tell
 *  Errors: throws for a condition that `checkCondition` objects to */
export function isTrue(expression: Expression, situation: Situation): boolean | undefined {
  const value = valueOf(expression, situation);
  if (value !== undefined && typeof value !== 'boolean') throw new Error('a condition that is neither true nor false was not checked');
  return value;
}

/** The value of any checked expression, for tests of its parts. */
export function valueOf(expression: Expression, situation: Situation): Outcome {
  switch (expression.form) {
    case 'literal': return expression.value;
    case 'name': return situation.variable(expression.name);
    case 'field': return expression.of.form === 'name' ? situation.setting(expression.of.name, expression.name) : undefined;
    case 'call': return called(expression, situation);
    case 'unary': {
      const value = valueOf(expression.of, situation);
      if (value === undefined) return undefined;
      return expression.operator === '!' ? !(value as boolean) : finite(-(value as number));
    }
    case 'binary': return combined(expression, situation);
  }
}

function called(expression: Expression & { form: 'call' }, situation: Situation): Outcome {
  const [first, second] = expression.arguments.map((one) => (one.form === 'literal' ? String(one.value) : ''));
  switch (expression.name) {
    case 'V': return situation.voltage(first ?? '', second ?? 'chassis');
    case 'I': return situation.current(first ?? '');
    default: {
      const read = plainQuantity(first ?? '', expression.name as QuantityName);
      if (!read.ok) throw new Error(`the quantity ${first} was not checked`);
      return read.value;
    }
  }
}

function combined({ operator, left, right }: Expression & { form: 'binary' }, situation: Situation): Outcome {
  if (operator === '&&' || operator === '||') {
    const decides = operator === '||';
    const one = valueOf(left, situation);
    if (one === decides) return decides;
    const other = valueOf(right, situation);
    if (other === decides) return decides;
    return one === undefined || other === undefined ? undefined : !decides;
  }
  const [a, b] = [valueOf(left, situation), valueOf(right, situation)];
  if (a === undefined || b === undefined) return undefined;
  switch (operator) {
    case '==': return a === b;
    case '!=': return a !== b;
    case 'in': return (b as readonly string[]).includes(a as string);
    case '<': return a < b;
    case '<=': return a <= b;
    case '>': return a > b;
    case '>=': return a >= b;
    case '+': return typeof a === 'string' ? a + (b as string) : finite((a as number) + (b as number));
    case '-': return finite((a as number) - (b as number));
    case '*': return finite((a as number) * (b as number));
    case '/': return finite((a as number) / (b as number));
  }
}

/** A number beyond all numbers tells nothing. */
const finite = (value: number): number | undefined => (Number.isFinite(value) ? value + 0 : undefined);
