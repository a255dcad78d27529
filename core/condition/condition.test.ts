import { describe, expect, it } from 'vitest';
import { nearest } from '../quantity/nearest-spelling.ts';
import { checkCondition } from './check-types.ts';
import type { Vocabulary } from './check-types.ts';
import { isTrue } from './evaluate.ts';
import type { Situation } from './evaluate.ts';
import { parseCondition } from './parse.ts';

const points = ['M1.pos', 'M1.neg', 'K1.in', 'VCU.brake', 'chassis'];
const vocabulary: Vocabulary = {
  parts: new Set(['BRAKE', 'KEY', 'VCU', 'INV']), runs: new Set(['W1']),
  isPoint: (name) => points.includes(name), points: () => points,
  settingsOf: (part) => new Map(part === 'BRAKE' ? [['closed', { type: 'bool' as const }]]
    : part === 'KEY' ? [['position', { type: 'string' as const, words: ['off', 'run'] }]]
    : part === 'VCU' ? [['on', { type: 'list' as const }]]
    : part === 'INV' ? [['draw', { type: 'power' as const }]] : []),
  nearest: (word, names) => nearest(word, names),
};

function problemsOf(text: string) {
  const read = parseCondition(text);
  return (read.ok ? checkCondition(read.expression, vocabulary) : [read.problem]).map(({ at, length, found, expected, nearest: close }) => ({ stretch: text.slice(at, at + length), found, expected, close }));
}

describe('a condition that cannot be used is blamed at its very characters', () => {
  it.each([
    ['BRAK.closed', 'BRAK', 'BRAKE'],
    ['BRAKE.closd', 'closd', 'closed'],
    ["V('M1.pso') > voltage('6 V')", "'M1.pso'", 'M1.pos'],
    ["KEY.position == 'runn'", "'runn'", 'run'],
    ["I('W2') > current('1 A')", "'W2'", 'W1'],
    ["voltge('60 V') > V('M1.pos')", 'voltge', 'voltage'],
    ["V('M1.pos') > voltage('60 W')", 'W', undefined],
  ])('%s', (text, stretch, close) => {
    const [first, ...more] = problemsOf(text);
    expect(more).toEqual([]);
    expect(first).toMatchObject({ stretch, ...(close === undefined ? {} : { close }) });
  });
  it.each([
    ['BRAKE', 'one of its settings: BRAKE.closed'],
    ['VCU.brake', "a comparison of its voltage: V('VCU.brake') > voltage('6 V')"],
    ["V('M1.pos', 'M1.neg')", 'something that is true or false: compare it, with > or =='],
    ["V('M1.pos') > 60", "a voltage on both sides, such as voltage('1 µV')"],
    ['1 / 2 > 0', 'decimal numbers, such as 1.0 / 2.0: whole ones would lose the remainder'],
    ['2 * 0.5 > 1.0', 'two decimal numbers or two whole ones: write 2.0 instead of 2'],
    ['BRAKE.closed &&', 'a name, a number, text in quotes or a bracket'],
    ['BRAKE.closed & KEY.position', '&& for “and”'],
    ["KEY.position = 'run'", '== for “equal”'],
    ["(KEY.position == 'run'", 'a closing bracket )'],
    ["KEY.position == 'run", "a closing '"],
    ['brake pedal pressed', 'an operator such as && or >; words belong under needs_in_words'],
    ["V('M1.pos') > 60V", "a plain number; with a unit it stands in quotes behind its quantity, such as voltage('60 V')"],
    ["voltage('60 V ±1') > V('M1.pos')", 'a plain value without a tolerance'],
    ["'k_pos' in KEY.position", 'a word in quotes before `in`, and a list such as VCU.on after it'],
    ['!KEY.position', 'something that is true or false after !'],
  ])('%s', (text, expected) => expect(problemsOf(text)[0]?.expected).toBe(expected));
  it('tells both sides of a comparison at once', () => expect(problemsOf("V('a') > V('b')").map(({ stretch }) => stretch)).toEqual(["'a'", "'b'"]));
});

const closed: Situation = {
  setting: (part, setting) => (part === 'BRAKE' && setting === 'closed' ? true : part === 'VCU' ? ['k_pos'] : part === 'KEY' ? 'run' : undefined),
  voltage: (a, b) => (a === 'M1.pos' && b === 'M1.neg' ? 48 : a === 'K1.in' ? 44 : undefined),
  current: () => 2,
  variable: (name) => (name === 'interlock_closed' ? true : name === 'state_of_charge' ? 0.8 : undefined),
};

function truth(text: string): boolean | undefined {
  const read = parseCondition(text);
  if (!read.ok) throw new Error(`${text}: ${read.problem.expected}`);
  expect(checkCondition(read.expression, vocabulary)).toEqual([]);
  return isTrue(read.expression, closed);
}

describe('a condition in a situation', () => {
  it.each([
    ['BRAKE.closed', true],
    ['!BRAKE.closed || interlock_closed', true],
    ["KEY.position == 'run' && 'k_pos' in VCU.on", true],
    ["V('K1.in') > 0.9 * V('M1.pos', 'M1.neg')", true],
    ["V('K1.in') > 95 * V('M1.pos', 'M1.neg') / 100", false],
    ["V('M1.pos', 'M1.neg') - V('K1.in') < voltage('4.1 V')", true],
    ["V('K1.in') / V('M1.pos', 'M1.neg') > ratio('90 %')", true],
    ["state_of_charge < ratio('95 %')", true],
    ["I('W1') <= current('1500 mA')", false],
    ["-V('K1.in') < voltage('0 V')", true],
  ] as const)('%s is %s', (text, value) => expect(truth(text)).toBe(value));
  it.each([
    ["V('VCU.brake') > voltage('6 V')", undefined],
    ["BRAKE.closed || V('VCU.brake') > voltage('6 V')", true],
    ["!BRAKE.closed && V('VCU.brake') > voltage('6 V')", false],
    ["V('VCU.brake') > voltage('6 V') || BRAKE.closed", true],
    ["INV.draw > power('1 kW')", undefined],
  ] as const)('what is not known stays so where it matters: %s is %s', (text, value) => expect(truth(text)).toBe(value));
});
