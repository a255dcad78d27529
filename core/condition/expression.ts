/**
 * A condition as a tree. The language is a part of the Common Expression Language (CEL): what is accepted here means there the same.
 *
 *     V('K_pos.out', 'J_neg.stud_1') > 0.9 * V('M7.pos', 'M1.neg') && BRAKE.closed
 *
 * In: `true` `false`, whole and decimal numbers, text in quotes, names, `Part.setting`, calls, `!` `-` `*` `/` `+` `-`
 * `<` `<=` `>` `>=` `==` `!=` `in` `&&` `||` and brackets. Out: lists, maps, indexing, macros, `? :`, `%`, unsigned numbers, bytes.
 * Quantities are a type each, made from text as CEL makes a duration: `voltage('60 V')`, `time('0.5 s')`.
 */
import type { QuantityName } from '../quantity/quantity-table.ts';

/** `list` is a list of words, which only `in` takes. A ratio is a plain `double`: 95 % is 0.95. */
export type ConditionType = 'bool' | 'int' | 'double' | 'string' | 'list' | Exclude<QuantityName, 'ratio' | 'number'>;

/** From `at` up to and without `end`, characters of the text. */
interface Stretch { readonly at: number; readonly end: number }

export type BinaryOperator = '||' | '&&' | '<' | '<=' | '>' | '>=' | '==' | '!=' | 'in' | '+' | '-' | '*' | '/';

export type Expression = Stretch & (
  | { readonly form: 'literal'; readonly type: 'bool' | 'int' | 'double' | 'string'; readonly value: boolean | number | string }
  | { readonly form: 'name'; readonly name: string }
  /** `of.name`; `nameAt` is where the name after the dot starts */
  | { readonly form: 'field'; readonly of: Expression; readonly name: string; readonly nameAt: number }
  | { readonly form: 'call'; readonly name: string; readonly arguments: readonly Expression[] }
  | { readonly form: 'unary'; readonly operator: '!' | '-'; readonly of: Expression }
  | { readonly form: 'binary'; readonly operator: BinaryOperator; readonly left: Expression; readonly right: Expression }
);

/** Something in the text of a condition that cannot be used; `found` and `expected` are phrases for one sentence. */
export interface ConditionProblem {
  readonly at: number; readonly length: number;
  readonly found: string; readonly expected: string;
  readonly nearest?: string | undefined;
}

/** Every part of an expression, itself first. */
export function* partsOf(expression: Expression): Generator<Expression> {
  yield expression;
  switch (expression.form) {
    case 'field':
    case 'unary': yield* partsOf(expression.of); break;
    case 'call': for (const one of expression.arguments) yield* partsOf(one); break;
    case 'binary': yield* partsOf(expression.left); yield* partsOf(expression.right); break;
    case 'literal':
    case 'name': break;
  }
}
