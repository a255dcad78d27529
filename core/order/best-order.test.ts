import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bestOrder, isBetter, measureOrder, ownOrder } from './best-order.ts';
import type { Order } from './best-order.ts';
import { islandsOf, toucher } from './join-problem.ts';
import type { JoinProblem } from './join-problem.ts';

/** Modules in a row: pieces 2i (negative) and 2i+1 (positive), joints between neighbours; all terminals bare. */
function row(voltages: readonly number[], exposed: 'always' | 'until_joined' = 'always', after: Readonly<Record<number, readonly number[]>> = {}): JoinProblem {
  const count = voltages.length;
  return {
    pieces: 2 * count,
    cells: voltages.map((voltage, index) => ({ negative: 2 * index, positive: 2 * index + 1, voltage })),
    joints: Array.from({ length: count - 1 }, (_, index) => ({ a: 2 * index + 1, b: 2 * index + 2, after: after[index] ?? [] })),
    terminals: Array.from({ length: 2 * count }, (_, piece) => ({ piece, exposed, joints: piece % 2 === 1 ? (piece < 2 * count - 1 ? [(piece - 1) / 2] : []) : piece > 0 ? [piece / 2 - 1] : [] })),
  };
}

function found(problem: JoinProblem): Order {
  const best = bestOrder(problem);
  if (best.outcome !== 'found') throw new Error('impossible');
  return best.order;
}

function permutations(items: readonly number[]): number[][] {
  return items.length === 0 ? [[]] : items.flatMap((item) => permutations(items.filter((other) => other !== item)).map((rest) => [item, ...rest]));
}

/** The smallest sum and class B steps over all orders that keep the precedence. */
function byBruteForce(problem: JoinProblem): { sum: number; stepsInClassB: number } {
  let best = { sum: Infinity, stepsInClassB: Infinity };
  for (const order of permutations(problem.joints.map((_, index) => index))) {
    if (order.some((joint, at) => problem.joints[joint]!.after.some((before) => order.indexOf(before) > at))) continue;
    const { sum, stepsInClassB } = measureOrder(problem, order);
    if (sum < best.sum - 1e-6 || (Math.abs(sum - best.sum) <= 1e-6 && stepsInClassB < best.stepsInClassB)) best = { sum, stepsInClassB };
  }
  return best;
}

/** The same by a walk through all orders that share their beginnings, for eight joints; each state by itself, whatever led to it. */
function byWalking(problem: JoinProblem): { sum: number; stepsInClassB: number } {
  const touch = toucher(problem);
  let best = { sum: Infinity, stepsInClassB: Infinity };
  const walk = (made: readonly number[], sum: number, stepsInClassB: number): void => {
    if (made.length === problem.joints.length) {
      if (sum < best.sum - 1e-6 || (Math.abs(sum - best.sum) <= 1e-6 && stepsInClassB < best.stepsInClassB)) best = { sum, stepsInClassB };
      return;
    }
    problem.joints.forEach(({ after }, joint) => {
      if (made.includes(joint) || !after.every((before) => made.includes(before))) return;
      const next = [...made, joint];
      const has = (one: number): boolean => next.includes(one);
      const { voltage } = touch(islandsOf(problem, has), has);
      walk(next, sum + voltage, stepsInClassB + (voltage > 60 ? 1 : 0));
    });
  };
  walk([], 0, 0);
  return best;
}

/** Any small pack: pieces joined at random by cells and joints, some covers, some precedence without circles. */
const problemsOf = (least: number, most: number): fc.Arbitrary<JoinProblem> => fc.integer({ min: 2, max: most }).chain((count) => fc.record({
  voltages: fc.array(fc.constantFrom(22, 44, 44, 44.1, 88), { minLength: count, maxLength: count }),
  joints: fc.array(fc.record({ a: fc.nat(2 * count - 1), b: fc.nat(2 * count - 1), after: fc.array(fc.nat(most - 1), { maxLength: 2 }) }), { minLength: least, maxLength: most }),
  exposed: fc.array(fc.constantFrom('always', 'until_joined', 'never') as fc.Arbitrary<'always' | 'until_joined' | 'never'>, { minLength: 2 * count, maxLength: 2 * count }),
})).map(({ voltages, joints, exposed }): JoinProblem => ({
  pieces: 2 * voltages.length,
  cells: voltages.map((voltage, index) => ({ negative: 2 * index, positive: 2 * index + 1, voltage })),
  joints: joints.map(({ a, b, after }, index) => ({ a, b, after: after.filter((before) => before < index) })),
  terminals: exposed.map((how, piece) => ({ piece, exposed: how, joints: joints.flatMap(({ a, b }, index) => (a === piece || b === piece ? [index] : [])) })),
}));
const problems = problemsOf(1, 6);

describe('the best order of joints', () => {
  it('halves a pack last', () => {
    const { steps } = found(row([44, 44, 44, 44, 44, 44, 44, 44]));
    expect(steps.at(-1)!.joint).toBe(3);
    // pairs first, 88 V each; then fours, 176 V; the whole 352 V only at the end
    expect(steps.map(({ touchable }) => touchable)).toEqual([88, 88, 88, 88, 176, 176, 352]);
  });
  it('is the best of all orders, ties included', () => {
    fc.assert(fc.property(problems, (problem) => {
      const { sum, stepsInClassB, isExact } = found(problem);
      const brute = byBruteForce(problem);
      expect(isExact).toBe(true);
      expect(sum).toBeCloseTo(brute.sum, 6);
      expect(stepsInClassB).toBe(brute.stepsInClassB);
    }), { numRuns: 60 });
  });
  it('is the best of all orders of seven and eight joints too, equal modules in a row included', () => {
    const rows = [row([44, 44, 44, 44, 44, 44, 44, 44, 44]), row([44.1, 44, 44, 22, 22, 44, 88, 88, 44], 'until_joined', { 3: [0], 7: [1] })];
    const check = (problem: JoinProblem): void => {
      const { sum, stepsInClassB } = found(problem);
      const all = byWalking(problem);
      expect(sum).toBeCloseTo(all.sum, 6);
      expect(stepsInClassB).toBe(all.stepsInClassB);
    };
    rows.forEach(check);
    fc.assert(fc.property(problemsOf(7, 8), check), { numRuns: 6 });
  }, 60_000);
  it('is never worse than an order that the builder has', () => {
    fc.assert(fc.property(problems, fc.infiniteStream(fc.nat()), (problem, keys) => {
      const given = problem.joints.map((_, index) => ({ index, key: keys.next().value as number }));
      given.sort((a, b) => a.key - b.key);
      const order: number[] = [];
      while (order.length < given.length) order.push(given.find(({ index }) => !order.includes(index) && problem.joints[index]!.after.every((before) => order.includes(before)))!.index);
      expect(found(problem).sum).toBeLessThanOrEqual(measureOrder(problem, order).sum + 1e-6);
    }));
  });
  it('is never worse than the order of the file beyond what is searched in full, also where joints short the cells', () => {
    const large = row(Array.from({ length: 23 }, (_, index) => [44, 22, 88][index % 3]!));
    const shorted: JoinProblem = { ...large, joints: [...large.joints, { a: 0, b: 3, after: [] }, { a: 10, b: 15, after: [] }] };
    for (const problem of [large, shorted]) {
      const own = measureOrder(problem, ownOrder(problem));
      const best = found(problem);
      expect(isBetter(own, best)).toBe(false);
      // and what it says of its steps is what they are
      expect(measureOrder(problem, best.steps.map(({ joint }) => joint)).sum).toBeCloseTo(best.sum, 6);
    }
  });
  it('takes the order of the file for the builder’s own, each joint as soon as it may be made', () => {
    expect(ownOrder(row([44, 44, 44, 44], 'always', { 0: [2], 1: [0] }))).toEqual([2, 0, 1]);
  });
  it('says which joints wait for each other', () => {
    expect(bestOrder(row([44, 44, 44, 44], 'always', { 0: [1], 1: [0] }))).toEqual({ outcome: 'impossible', joints: [0, 1] });
  });
  it('prefers the joint of the file that comes first, where nothing else decides', () => expect(found(row([44, 44, 44])).steps.map(({ joint }) => joint)).toEqual([0, 1]));
  it('searches 20 joints in full, and says so when there are more', () => {
    expect(found(row(Array.from({ length: 21 }, () => 44))).isExact).toBe(true);
    const large = found(row(Array.from({ length: 33 }, () => 44)));
    expect(large.isExact).toBe(false);
    expect(large.atLeast).toBeLessThanOrEqual(large.sum);
    // the halving tree is there: 32 joints, and the last one joins two halves of 16 and 17 modules
    expect(large.steps.at(-2)!.touchable).toBeLessThanOrEqual(17 * 44 + 1e-6);
  });
});

describe('what can be touched', () => {
  it('does not depend on the order that led to it', () => {
    fc.assert(fc.property(problems, fc.infiniteStream(fc.nat()), (problem, keys) => {
      const set = problem.joints.map((_, index) => index).filter(() => (keys.next().value as number) % 2 === 0);
      const has = (joint: number): boolean => set.includes(joint);
      const direct = toucher(problem)(islandsOf(problem, has), has).voltage;
      const shuffled = [...set].sort(() => ((keys.next().value as number) % 3) - 1);
      expect(measureOrder(problem, shuffled).steps.at(-1)?.touchable ?? direct).toBeCloseTo(direct, 9);
    }));
  });
  it('is nothing where every terminal is finger-proof or covered', () => {
    const { steps } = found(row([44, 44, 44], 'until_joined'));
    // the two ends of the row have no joint of their own and stay open
    expect(steps.at(-1)!.touchable).toBe(132);
  });
});
