import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pulseShare, pulsesOutlived } from './fuse-repetitive.ts';

describe('pulseShare', () => {
  it('counts fewer than 100 pulses as 100, and does not go beyond 100 000', () => {
    expect(pulseShare(1)).toEqual({ outcome: 'share', share: 0.48 });
    expect(pulseShare(100_001)).toEqual({ outcome: 'outside_table', lowest: 100, highest: 100_000 });
  });
  it('lies half way between neighbours at the geometric mean of their numbers', () => {
    const found = pulseShare(Math.sqrt(1000 * 10_000));
    expect(found.outcome === 'share' && found.share).toBeCloseTo(0.335, 12);
  });
});

describe('pulsesOutlived', () => {
  it('says more or fewer than the table at its ends', () => {
    expect(pulsesOutlived(0, 100)).toEqual({ outcome: 'more_than_table', atLeast: 100_000 });
    expect(pulsesOutlived(60, 100)).toEqual({ outcome: 'fewer_than_table', fewerThan: 100 });
  });
  it('undoes pulseShare between the ends', () => {
    fc.assert(fc.property(fc.double({ min: 100, max: 100_000, noNaN: true }), (pulses) => {
      const share = pulseShare(pulses);
      if (share.outcome !== 'share') throw new Error('inside the table');
      const back = pulsesOutlived(share.share * 500, 500);
      if (back.outcome !== 'pulses') return; // rounding at the very ends
      expect(back.pulses / pulses).toBeCloseTo(1, 6);
    }));
  });
});
