/**
 * What a condition may speak of, and whether it makes sense: names that exist, points that exist, like compared with like.
 *
 * Types are those of CEL: of a whole number and a decimal one it can be said which is larger, and nothing else; and one type more for
 * each quantity.
 * Dividing whole numbers drops the remainder in CEL; that surprises, so it is not taken here.
 */
import { quantities } from '../quantity/quantity-table.ts';
import type { QuantityName } from '../quantity/quantity-table.ts';
import { readQuantity } from '../quantity/read-quantity.ts';
import type { BinaryOperator, ConditionProblem, ConditionType, Expression } from './expression.ts';

/** A setting as a condition sees it. */
export interface SettingWords { readonly type: ConditionType; /** words that it can take, when they are known */ readonly words?: readonly string[] | undefined }

/** The names that a condition may use. */
export interface Vocabulary {
  readonly parts: ReadonlySet<string>;
  readonly settingsOf: (part: string) => ReadonlyMap<string, SettingWords>;
  /** points that a probe can touch */
  readonly isPoint: (name: string) => boolean;
  readonly points: () => Iterable<string>;
  readonly runs: ReadonlySet<string>;
  readonly nearest: (word: string, names: readonly string[]) => string | undefined;
}

/** Names that stand for a value of the whole car. */
export const variables: ReadonlyMap<string, { readonly type: ConditionType; readonly meaning: string }> = new Map([
  ['interlock_closed', { type: 'bool', meaning: 'every contact of the interlock loop is closed' }],
  ['state_of_charge', { type: 'double', meaning: 'of the cells, 0.8 for 80 %; write ratio(\'80 %\') to compare' }],
]);

/** Functions: V and I ask the network, the others make a quantity from text. */
export const functions: readonly { readonly name: string; readonly meaning: string }[] = [
  { name: 'V', meaning: "V('a', 'b'): what a meter shows between two points; V('a') against the chassis" },
  { name: 'I', meaning: "I('W1'): current through a run, positive from its `from` to its `to`" },
  { name: 'ratio', meaning: "ratio('95 %'): a share, as a plain number" },
  ...(Object.keys(quantities) as QuantityName[]).filter(isQuantityType).map((name) => ({ name, meaning: `${name}('…'): ${quantities[name].meaning}` })),
];

function isQuantityType(name: QuantityName): name is Exclude<QuantityName, 'ratio' | 'number'> {
  return name !== 'ratio' && name !== 'number';
}

/** Everything wrong with a condition; empty when it can be used. */
export function checkCondition(expression: Expression, vocabulary: Vocabulary): readonly ConditionProblem[] {
  const problems: ConditionProblem[] = [];
  const type = typeOf(expression, vocabulary, problems);
  if (type !== undefined && type !== 'bool') problems.push(problem(expression, inWords(type), 'something that is true or false: compare it, with > or =='));
  return problems;
}

function problem({ at, end }: { readonly at: number; readonly end: number }, found: string, expected: string, nearest?: string): ConditionProblem {
  return { at, length: end - at, found, expected, ...(nearest === undefined ? {} : { nearest }) };
}

/** @returns undefined when there is a problem inside */
function typeOf(expression: Expression, vocabulary: Vocabulary, problems: ConditionProblem[]): ConditionType | undefined {
  switch (expression.form) {
    case 'literal': return expression.type;
    case 'name': return typeOfName(expression, vocabulary, problems);
    case 'field': return settingOf(expression, vocabulary, problems)?.type;
    case 'call': return typeOfCall(expression, vocabulary, problems);
    case 'unary': {
      const type = typeOf(expression.of, vocabulary, problems);
      if (type === undefined) return undefined;
      const fits = expression.operator === '!' ? type === 'bool' : type === 'int' || type === 'double' || isQuantity(type);
      if (fits) return type;
      problems.push(problem(expression.of, inWords(type), expression.operator === '!' ? 'something that is true or false after !' : 'a number after -'));
      return undefined;
    }
    case 'binary': return typeOfBinary(expression, vocabulary, problems);
  }
}

function typeOfName(expression: Expression & { form: 'name' }, vocabulary: Vocabulary, problems: ConditionProblem[]): ConditionType | undefined {
  const known = variables.get(expression.name);
  if (known) return known.type;
  if (vocabulary.parts.has(expression.name)) {
    const names = [...vocabulary.settingsOf(expression.name).keys()];
    problems.push(problem(expression, `the part ${expression.name} alone`, names.length > 0 ? `one of its settings: ${names.map((name) => `${expression.name}.${name}`).join(', ')}` : 'something that can be true or false; this part has no settings'));
    return undefined;
  }
  problems.push(problem(expression, `“${expression.name}”`, `Part.setting, V('point', 'point'), or one of ${[...variables.keys()].join(', ')}`, vocabulary.nearest(expression.name, [...variables.keys(), ...vocabulary.parts])));
  return undefined;
}

function settingOf(expression: Expression & { form: 'field' }, vocabulary: Vocabulary, problems: ConditionProblem[]): SettingWords | undefined {
  const { of, name, nameAt, end } = expression;
  if (of.form !== 'name') { problems.push(problem(expression, 'a dot after something that is no part', 'Part.setting')); return undefined; }
  if (!vocabulary.parts.has(of.name)) {
    problems.push(problem(of, `“${of.name}”`, 'a name from the parts section', vocabulary.nearest(of.name, [...vocabulary.parts])));
    return undefined;
  }
  const settings = vocabulary.settingsOf(of.name);
  const setting = settings.get(name);
  if (setting) return setting;
  const names = [...settings.keys()];
  const expected = vocabulary.isPoint(`${of.name}.${name}`) ? `a comparison of its voltage: V('${of.name}.${name}') > voltage('6 V')`
    : names.length > 0 ? `a setting of ${of.name}: ${names.join(', ')}` : `nothing: ${of.name} has no settings`;
  problems.push(problem({ at: nameAt, end }, `“${name}”`, expected, vocabulary.nearest(name, names)));
  return undefined;
}

function typeOfCall(expression: Expression & { form: 'call' }, vocabulary: Vocabulary, problems: ConditionProblem[]): ConditionType | undefined {
  const { name } = expression;
  const texts = expression.arguments.flatMap((one) => (one.form === 'literal' && one.type === 'string' ? [{ ...one, value: one.value as string }] : []));
  const isAllText = texts.length === expression.arguments.length;
  if (name === 'V') {
    if (!isAllText || texts.length < 1 || texts.length > 2) { problems.push(problem(expression, `V with ${expression.arguments.length} values`, "one or two points in quotes, such as V('M1.pos', 'M1.neg')")); return undefined; }
    const lost = texts.filter(({ value }) => !vocabulary.isPoint(value));
    for (const point of lost) problems.push(problem(point, `“${point.value}”`, "a part and its port, such as 'M1.pos', or 'chassis'", vocabulary.nearest(point.value, [...vocabulary.points()])));
    return lost.length > 0 ? undefined : 'voltage';
  }
  if (name === 'I') {
    const [run] = texts;
    if (!isAllText || texts.length !== 1 || !run) { problems.push(problem(expression, `I with ${expression.arguments.length} values`, "the name of a run in quotes, such as I('W1')")); return undefined; }
    if (vocabulary.runs.has(run.value)) return 'current';
    problems.push(problem(run, `“${run.value}”`, 'a name from the runs section', vocabulary.nearest(run.value, [...vocabulary.runs])));
    return undefined;
  }
  if (!functions.some((one) => one.name === name)) {
    const close = vocabulary.nearest(name, functions.map((one) => one.name));
    problems.push(problem({ at: expression.at, end: expression.at + name.length }, `“${name}”`, "V, I, or a quantity such as voltage('60 V')", close));
    return undefined;
  }
  const [text] = texts;
  const quantity = name as QuantityName;
  if (!isAllText || texts.length !== 1 || !text) { problems.push(problem(expression, `${name} with ${expression.arguments.length} values`, `one text with a number and its unit, such as ${name}('${example(quantity)}')`)); return undefined; }
  const read = plainQuantity(text.value, quantity);
  if (read.ok) return quantity === 'ratio' ? 'double' : quantity as ConditionType;
  const { at = 0, length = text.value.length, found, expected, nearest } = read;
  problems.push(problem({ at: text.at + 1 + at, end: text.at + 1 + at + Math.max(1, length) }, found, expected, nearest));
  return undefined;
}

/** A plain value: a condition compares, so a tolerance or a source would have no meaning in it. */
export function plainQuantity(text: string, quantity: QuantityName): { readonly ok: true; readonly value: number } | { readonly ok: false; readonly at?: number; readonly length?: number; readonly found: string; readonly expected: string; readonly nearest?: string } {
  const read = readQuantity(text, quantity, 'condition');
  if (!read.ok) { const { at, length, found, expected, nearest } = read.problem; return { ok: false, at, length, found, expected, ...(nearest === undefined ? {} : { nearest }) }; }
  if (read.value.toleranceIsStated) return { ok: false, found: `“${text}”`, expected: 'a plain value without a tolerance' };
  return { ok: true, value: read.value.nominal };
}

function example(quantity: QuantityName): string {
  return quantity === 'ratio' ? '95 %' : `1 ${quantities[quantity].metric[0]}`;
}

function typeOfBinary(expression: Expression & { form: 'binary' }, vocabulary: Vocabulary, problems: ConditionProblem[]): ConditionType | undefined {
  const { operator } = expression;
  const [left, right] = [typeOf(expression.left, vocabulary, problems), typeOf(expression.right, vocabulary, problems)];
  if (left === undefined || right === undefined) return undefined;
  const result = resultOf(operator, left, right);
  if (result !== undefined) {
    if (operator === '==' || operator === '!=' || operator === 'in') checkWords(expression, vocabulary, problems);
    return result;
  }
  problems.push(problem(expression, `${inWords(left)} ${operator} ${inWords(right)}`, fitting(operator, left, right)));
  return undefined;
}

function resultOf(operator: BinaryOperator, left: ConditionType, right: ConditionType): ConditionType | undefined {
  const [leftNumber, rightNumber] = [isNumber(left), isNumber(right)];
  switch (operator) {
    case '||':
    case '&&': return left === 'bool' && right === 'bool' ? 'bool' : undefined;
    case '==':
    case '!=': return left !== 'list' && left === right ? 'bool' : undefined;
    case '<':
    case '<=':
    case '>':
    case '>=': return (left === right && left !== 'list' && left !== 'bool') || (leftNumber && rightNumber) ? 'bool' : undefined;
    case 'in': return left === 'string' && right === 'list' ? 'bool' : undefined;
    case '+': return left === right && (leftNumber || left === 'string' || isAdditive(left)) ? left : undefined;
    case '-': return left === right && (leftNumber || isAdditive(left)) ? left : undefined;
    case '*':
      if (left === right && leftNumber) return left;
      if (leftNumber && isAdditive(right)) return right;
      return isAdditive(left) && rightNumber ? left : undefined;
    case '/':
      if (left === 'double' && right === 'double') return 'double';
      if (isAdditive(left) && rightNumber) return left;
      return isAdditive(left) && left === right ? 'double' : undefined;
  }
}

/** A comparison of a setting with a word that it never takes is always the same. */
function checkWords(expression: Expression & { form: 'binary' }, vocabulary: Vocabulary, problems: ConditionProblem[]): void {
  for (const [one, other] of [[expression.left, expression.right], [expression.right, expression.left]] as const) {
    if (one.form !== 'field' || one.of.form !== 'name' || other.form !== 'literal' || typeof other.value !== 'string') continue;
    const words = vocabulary.settingsOf(one.of.name).get(one.name)?.words;
    if (words && !words.includes(other.value)) problems.push(problem(other, `“${other.value}”`, words.length > 0 ? `one of ${words.map((word) => `'${word}'`).join(', ')}` : `nothing: ${one.of.name} names none`, vocabulary.nearest(other.value, words)));
  }
}

const isNumber = (type: ConditionType): boolean => type === 'int' || type === 'double';
const isQuantity = (type: ConditionType): boolean => !['bool', 'int', 'double', 'string', 'list'].includes(type);
/** Temperatures have no zero to add from. */
const isAdditive = (type: ConditionType): boolean => isQuantity(type) && type !== 'temperature';

function inWords(type: ConditionType): string {
  switch (type) {
    case 'bool': return 'true or false';
    case 'int': return 'a whole number';
    case 'double': return 'a decimal number';
    case 'string': return 'a text';
    case 'list': return 'a list of words';
    default: return `${/^[aeiou]/.test(type) ? 'an' : 'a'} ${type.replaceAll('_', ' ')}`;
  }
}

function fitting(operator: BinaryOperator, left: ConditionType, right: ConditionType): string {
  if (operator === '&&' || operator === '||') return 'true or false on both sides';
  if (operator === 'in') return "a word in quotes before `in`, and a list such as VCU.on after it";
  if (operator === '/' && left === 'int' && right === 'int') return 'decimal numbers, such as 1.0 / 2.0: whole ones would lose the remainder';
  const quantity = isQuantity(left) ? left : isQuantity(right) ? right : undefined;
  if (quantity !== undefined && (operator === '*' || operator === '/')) return 'a quantity times or over a plain number';
  if (quantity !== undefined) return `${inWords(quantity)} on both sides, such as ${quantity}('${example(quantity as QuantityName)}')`;
  if (isNumber(left) && isNumber(right)) return 'two decimal numbers or two whole ones: write 2.0 instead of 2';
  return 'the same kind of thing on both sides';
}
