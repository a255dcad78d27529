import { describe, expect, it } from 'vitest';
import { overloadRule } from './cable-overload.ts';

describe('overloadRule', () => {
  it('holds with equality', () => {
    expect(overloadRule(100, 100, 110.4, 1.6)).toMatchObject({ carriesLoad: true, withinCable: true, opensInTime: true });
  });
  it('finds a gG fuse that is within the cable but opens too late: In above Iz/1.1', () => {
    expect(overloadRule(80, 100, 105, 1.6)).toMatchObject({ carriesLoad: true, withinCable: true, opensInTime: false });
  });
  it('gives the highest rating: about Iz/1.1 for gG, the capacity itself for a fuse that opens at 1.35', () => {
    expect(overloadRule(1, 1, 110, 1.6).highestRating * 1.1).toBeCloseTo(110, 0);
    expect(overloadRule(1, 1, 110, 1.35).highestRating).toBe(110);
    expect(1.9 / 1.45).toBeCloseTo(1.31, 2); // below 16 A: I2 = 1.9 In
  });
  it('refuses a cable that carries nothing', () => {
    expect(() => overloadRule(1, 1, 0, 1.6)).toThrow('capacity');
  });
});
