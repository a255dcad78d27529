/**
 * Our reading and evaluation against another program's: an implementation of CEL by other hands (a test dependency).
 * Whatever is accepted here must be accepted there and have the same value; whatever is no CEL there must not be accepted here.
 */
import { parse, Environment } from '@marcbachmann/cel-js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkCondition } from './check-types.ts';
import type { Vocabulary } from './check-types.ts';
import { valueOf } from './evaluate.ts';
import { parseCondition } from './parse.ts';

const vocabulary: Vocabulary = {
  parts: new Set(['P']), runs: new Set(), isPoint: () => false, points: () => [], nearest: () => undefined,
  settingsOf: () => new Map([['flag', { type: 'bool' as const }], ['text', { type: 'string' as const }], ['share', { type: 'double' as const }], ['count', { type: 'int' as const }], ['words', { type: 'list' as const }]]),
};
const P = { flag: true, text: 'run', share: 0.25, count: 3, words: ['run', 'go'] };
const environment = new Environment().registerVariable('P', { schema: { flag: 'bool', text: 'string', share: 'double', count: 'int', words: 'list<string>' } });

function ours(text: string): { readonly accepted: boolean; readonly value?: unknown } {
  const read = parseCondition(text);
  if (!read.ok || checkCondition(read.expression, vocabulary).length > 0) return { accepted: false };
  return { accepted: true, value: valueOf(read.expression, { setting: (_, setting) => P[setting as keyof typeof P], voltage: () => undefined, current: () => undefined, variable: () => undefined }) };
}

function theirs(text: string): { readonly accepted: boolean; readonly value?: unknown } {
  if (!environment.check(text).valid) return { accepted: false };
  const value = environment.evaluate(text, { P: { ...P, count: 3n } }) as unknown;
  return { accepted: true, value };
}

const literal = fc.oneof(
  fc.constantFrom('true', 'false', 'P.flag', 'P.text', 'P.share', 'P.count', "'run'", '"go"', "'a\\'b'", '0', '1', '7', '0.5', '2.0', '1e3', '1.5e-2'),
);
const expression = fc.letrec<{ whole: string }>((tie) => ({
  whole: fc.oneof(
    { maxDepth: 4, withCrossShrink: true }, literal,
    fc.tuple(tie('whole'), fc.constantFrom('||', '&&', '<', '<=', '>', '>=', '==', '!=', '+', '-', '*', '/'), tie('whole')).map(([a, operator, b]) => `${a} ${operator} ${b}`),
    tie('whole').map((inner) => `(${inner})`),
    tie('whole').map((inner) => `!${inner}`),
    tie('whole').map((inner) => `-${inner}`),
    tie('whole').map((inner) => `${inner} in P.words`),
  ),
})).whole;

describe('against another implementation of CEL', () => {
  it('means the same wherever it is accepted', () => {
    let compared = 0;
    fc.assert(fc.property(expression, (text) => {
      const here = ours(text);
      if (!here.accepted) return;
      const there = theirs(text);
      expect(there.accepted, text).toBe(true);
      // a number beyond all numbers tells nothing here
      if (here.value === undefined) { expect([Infinity, -Infinity, Number.NaN], text).toContainEqual(there.value); return; }
      compared++;
      expect(here.value, text).toEqual(typeof there.value === 'bigint' ? Number(there.value) : there.value);
    }), { numRuns: 4000, seed: 1 });
    expect(compared).toBeGreaterThan(300);
  });

  it('accepts nothing that is no CEL', () => {
    const pieces = fc.array(fc.constantFrom('true', 'P', '.flag', '.', '(', ')', '!', '-', '&&', '||', '==', '<', '>', '=', '&', "'run'", "'", 'in', 'P.words', '1', '1.5', ',', 'V', ' '), { maxLength: 9 }).map((all) => all.join(' '));
    fc.assert(fc.property(pieces, (text) => {
      let isCel = true;
      try { parse(text); } catch { isCel = false; }
      if (!isCel) expect(parseCondition(text).ok, text).toBe(false);
    }), { numRuns: 5000, seed: 2 });
  });

  // operators and precedence of the CEL language definition and its conformance cases (from memory)
  it.each([
    ['true || false && false', true], ['(true || false) && false', false], ['!true || true', true], ['!(true || true)', false],
    ['1 + 2 * 3 == 7', true], ['(1 + 2) * 3 == 9', true], ['2 - 3 - 4 == -5', true], ['8.0 / 2.0 / 2.0 == 2.0', true], ['--1 == 1', true], ['!!true', true],
    ['1 < 2 == true', true], ['1 < 1.5', true], ["'a' < 'b'", true], ["'a' + 'b' == 'ab'", true], ["'run' in P.words", true], ["!('run' in P.words)", false],
    ['1.0 == 1e0', true], ["'\\n' == \"\\n\"", true],
  ])('%s', (text, value) => {
    expect(ours(text)).toEqual({ accepted: true, value });
    expect(theirs(text)).toEqual({ accepted: true, value });
  });
});
