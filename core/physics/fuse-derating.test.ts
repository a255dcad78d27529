import { describe, expect, it } from 'vitest';
import { forcedAirFactor, fuseAmbientFactor, fuseContinuousCurrent, generalFuseAmbientFactor } from './fuse-derating.ts';

describe('fuseContinuousCurrent', () => {
  it('is the rating at the reference ambient', () => {
    const found = fuseContinuousCurrent({ rating: 250, ambient: 303.15 });
    expect(found.outcome === 'current' && found.current).toBe(250);
  });
  it('says too_hot at the limit and beyond', () => {
    expect(fuseContinuousCurrent({ rating: 250, ambient: 403.15 })).toEqual({ outcome: 'too_hot', limit: 403.15 });
    expect(fuseContinuousCurrent({ rating: 250, ambient: 450 }).outcome).toBe('too_hot');
  });
  it('takes no credit for cold air', () => {
    const found = fuseContinuousCurrent({ rating: 100, ambient: 250 });
    expect(found.outcome === 'current' && found.current).toBe(100);
  });
  it('multiplies its factors', () => {
    const found = fuseContinuousCurrent({ rating: 100, ambient: 333.15, airSpeed: 2.5, connectionFactor: 0.9, loadFactor: 0.8 });
    expect(found.outcome === 'current' && found.current).toBeCloseTo(100 * Math.sqrt(0.7) * 1.125 * 0.9 * 0.8, 9);
  });
  it('refuses factors above 1 and a rating of zero', () => {
    expect(() => fuseContinuousCurrent({ rating: 100, ambient: 300, loadFactor: 1.1 })).toThrow('loadFactor');
    expect(() => fuseContinuousCurrent({ rating: 0, ambient: 300 })).toThrow('rating');
  });
});

describe('the factors', () => {
  it('of forced air stop at 5 m/s', () => {
    expect([0, 2.5, 5, 20].map((speed) => forcedAirFactor(speed))).toEqual([1, 1.125, 1.25, 1.25]);
  });
  it('of ambient fall to zero, not below', () => {
    expect(fuseAmbientFactor(403.15)).toBe(0);
    expect(fuseAmbientFactor(900)).toBe(0);
  });
  it('of a general-purpose fuse are 1 up to 40 °C and 0.9 at 60 °C', () => {
    expect(generalFuseAmbientFactor(300)).toBe(1);
    expect(generalFuseAmbientFactor(333.15)).toBeCloseTo(0.9, 12);
  });
});
