/**
 * Text -> tree, by the grammar of CEL for the part of it that `expression.ts` names.
 *
 * Source:  grammar and precedence of the CEL language definition (from memory): || weakest, then &&, relations, + -, * /, ! -, members
 * Checked: core/condition/against-cel.test.ts (another program's parser and evaluator)
 */
import type { BinaryOperator, ConditionProblem, Expression } from './expression.ts';
import { scan } from './scan.ts';
import type { Token } from './scan.ts';

export type Parsed = { readonly ok: true; readonly expression: Expression } | { readonly ok: false; readonly problem: ConditionProblem };

/** Levels of binary operators, the weakest first. */
const levels: readonly (readonly BinaryOperator[])[] = [['||'], ['&&'], ['<', '<=', '>', '>=', '==', '!=', 'in'], ['+', '-'], ['*', '/']];
/** Deeper than any condition a person writes; keeps a pasted page from filling the stack. */
const DEEPEST = 60;
const LONGEST = 2000;

/** Words that CEL keeps for itself; `in` is an operator. */
const reserved = new Set(['as', 'break', 'const', 'continue', 'else', 'for', 'function', 'if', 'import', 'let', 'loop', 'package', 'namespace', 'return', 'var', 'void', 'while', 'null']);

class Stop extends Error {
  readonly problem: ConditionProblem;
  constructor(problem: ConditionProblem) { super(problem.found); this.problem = problem; }
}

/** Reads one condition. Never throws. */
export function parseCondition(text: string): Parsed {
  if (text.length > LONGEST) return { ok: false, problem: { at: 0, length: text.length, found: `${text.length} characters`, expected: `at most ${LONGEST}` } };
  const scanned = scan(text);
  if (!scanned.ok) return scanned;
  const tokens = new Tokens(scanned.tokens);
  try {
    const expression = binary(tokens, 0, 0);
    if (tokens.next.is !== 'end') throw stop(tokens.next, tokens.next.is === 'name' ? 'an operator such as && or >; words belong under needs_in_words' : 'an operator, or the end');
    return { ok: true, expression };
  } catch (error) {
    if (error instanceof Stop) return { ok: false, problem: error.problem };
    throw error;
  }
}

class Tokens {
  readonly #all: readonly Token[];
  #index = 0;
  constructor(all: readonly Token[]) { this.#all = all; }
  get next(): Token { return this.#all[this.#index] as Token; }
  take(): Token { const token = this.next; if (token.is !== 'end') this.#index++; return token; }
  isSign(text: string): boolean { return this.next.is === 'sign' && this.next.text === text; }
}

function stop(token: Token, expected: string): Stop {
  return new Stop({ at: token.at, length: Math.max(1, token.end - token.at), found: token.is === 'end' ? 'the end of the condition' : `“${token.text}”`, expected });
}

function binary(tokens: Tokens, level: number, depth: number): Expression {
  const operators = levels[level];
  if (!operators) return unary(tokens, depth);
  let left = binary(tokens, level + 1, depth);
  for (let operator = operatorIn(tokens.next, operators); operator; operator = operatorIn(tokens.next, operators)) {
    tokens.take();
    const right = binary(tokens, level + 1, depth);
    left = { form: 'binary', operator, left, right, at: left.at, end: right.end };
  }
  return left;
}

function operatorIn(token: Token, operators: readonly BinaryOperator[]): BinaryOperator | undefined {
  return token.is === 'sign' || (token.is === 'name' && token.text === 'in') ? operators.find((operator) => operator === token.text) : undefined;
}

/** `!!a` and `--a` stand in CEL, `!-a` does not. */
function unary(tokens: Tokens, depth: number): Expression {
  if (depth > DEEPEST) throw stop(tokens.next, `brackets and signs at most ${DEEPEST} deep`);
  const operator = tokens.isSign('!') ? '!' : tokens.isSign('-') ? '-' : undefined;
  if (!operator) return member(tokens, depth);
  const { at } = tokens.take();
  if (tokens.isSign(operator === '!' ? '-' : '!')) throw stop(tokens.next, 'brackets between ! and -');
  const of = unary(tokens, depth + 1);
  return { form: 'unary', operator, of, at, end: of.end };
}

function member(tokens: Tokens, depth: number): Expression {
  let of = primary(tokens, depth);
  while (tokens.isSign('.')) {
    tokens.take();
    const name = tokens.take();
    if (name.is !== 'name' || name.text === 'in' || name.text === 'true' || name.text === 'false') throw stop(name, 'the name of a setting after the dot');
    if (tokens.isSign('(')) throw stop(tokens.next, 'a setting after the dot, no call');
    of = { form: 'field', of, name: name.text, nameAt: name.at, at: of.at, end: name.end };
  }
  return of;
}

function primary(tokens: Tokens, depth: number): Expression {
  const token = tokens.take();
  switch (token.is) {
    case 'int':
    case 'double':
    case 'string': return { form: 'literal', type: token.is, value: token.value, at: token.at, end: token.end };
    case 'name':
      if (token.text === 'true' || token.text === 'false') return { form: 'literal', type: 'bool', value: token.text === 'true', at: token.at, end: token.end };
      if (token.text === 'in' || reserved.has(token.text)) throw stop(token, 'a name, a number, text in quotes or a bracket');
      return tokens.isSign('(') ? call(tokens, token, depth) : { form: 'name', name: token.text, at: token.at, end: token.end };
    case 'sign':
      if (token.text === '(') {
        const inner = binary(tokens, 0, depth + 1);
        if (!tokens.isSign(')')) throw stop(tokens.next, 'a closing bracket )');
        return { ...inner, at: token.at, end: tokens.take().end };
      }
      throw stop(token, 'a name, a number, text in quotes or a bracket');
    case 'end': throw stop(token, 'a name, a number, text in quotes or a bracket');
  }
}

function call(tokens: Tokens, name: Token, depth: number): Expression {
  tokens.take();
  const found: Expression[] = [];
  while (!tokens.isSign(')')) {
    found.push(binary(tokens, 0, depth + 1));
    if (tokens.isSign(',')) {
      tokens.take();
      if (tokens.isSign(')')) throw stop(tokens.next, 'another value after the comma');
    } else if (!tokens.isSign(')')) throw stop(tokens.next, 'a comma or a closing bracket )');
  }
  return { form: 'call', name: name.text, arguments: found, at: name.at, end: tokens.take().end };
}
