import { describe, expect, it } from 'vitest';
import { latinHypercube } from './latin-hypercube.ts';
import { nextBits, seededRandom } from './random.ts';

describe('seeded random numbers', () => {
  it('follows the published recurrence: first outputs from the state 1, 2, 3, 4, worked by hand', () => {
    const state = Uint32Array.from([1, 2, 3, 4]);
    // rotl(2 * 5, 7) * 9 = 11520; then s = (7, 0, 1026, 12288): 0; then s1 = 1029: rotl(5145, 7) * 9 = 5927040
    expect([nextBits(state), nextBits(state), nextBits(state)]).toEqual([11520, 0, 5927040]);
  });
  it('gives the same numbers for the same seed, others for another seed or stream', () => {
    const take = (seed: number, stream?: number): number[] => { const r = seededRandom(seed, stream); return [r(), r(), r()]; };
    expect(take(7)).toEqual(take(7));
    expect(take(7)).not.toEqual(take(8));
    expect(take(7, 0)).not.toEqual(take(7, 1));
    expect(take(7)).not.toEqual(take(7 + 4294967296));
  });
  it('has the mean and variance of the uniform distribution', () => {
    const random = seededRandom(1);
    const n = 200_000;
    let sum = 0, squares = 0, outside = 0;
    for (let k = 0; k < n; k++) { const x = random(); if (!(x >= 0 && x < 1)) outside++; sum += x; squares += x * x; }
    expect(outside).toBe(0);
    expect(Math.abs(sum / n - 0.5)).toBeLessThan(0.003);
    expect(Math.abs(squares / n - (sum / n) ** 2 - 1 / 12)).toBeLessThan(0.001);
  });
});

describe('Latin hypercube', () => {
  it('refuses no points', () => { expect(() => latinHypercube(0, 1, 1)).toThrow(/points >= 1/); });
  it('uses every share of every axis once', () => {
    for (const axis of latinHypercube(64, 5, 3)) expect([...axis].map((x) => Math.floor(x * 64)).sort((a, b) => a - b)).toEqual(Array.from({ length: 64 }, (_, k) => k));
  });
  it('does not move an axis when another is added', () => { expect(latinHypercube(10, 2, 5)).toEqual(latinHypercube(10, 3, 5).slice(0, 2)); });
  it('shuffles axes independently', () => {
    const [a, b] = latinHypercube(400, 2, 9) as [Float64Array, Float64Array];
    let correlation = 0;
    for (let k = 0; k < 400; k++) correlation += (a[k]! - 0.5) * (b[k]! - 0.5) * 12 / 400;
    expect(Math.abs(correlation)).toBeLessThan(0.15);
  });
});
