import { describe, expect, it } from 'vitest';
import type { ProtectionRole } from '../../part/role.ts';
import type { Protection } from './fuse-in-fault.ts';
import { fastOpening, pulseLimit } from './fuse-pulses.ts';

const fuse = (role: Partial<ProtectionRole>): Protection => ({
  id: 'F.link', part: 'F', ambient: 293, opensByHeat: true,
  role: { element: 'link', a: 'in', b: 'out', style: 'full_range', rating: 250, voltageRating: undefined, breakingCapacity: undefined, minimumBreaking: undefined, timeConstantRating: undefined, meltingEnergy: undefined, clearingEnergy: undefined, ambient: undefined, ...role },
});

describe('pulseLimit', () => {
  it('is 22 % of the melting I²t for pulses up to a tenth of a second', () => {
    const limit = pulseLimit(fuse({ meltingEnergy: 20e3 }), 0.05);
    expect(limit).toMatchObject({ outcome: 'energy' });
    expect(limit.outcome === 'energy' && limit.energy).toBeCloseTo(4400, 6);
  });

  it('asks for the melting I²t when it is not there', () => {
    expect(pulseLimit(fuse({}), 0.05)).toEqual({ outcome: 'needs', needs: ['parts.F.melting_energy'] });
  });

  it('is 60 % of what the gate table says a full-range fuse carries for 10 s', () => {
    expect(pulseLimit(fuse({}), 10)).toEqual({ outcome: 'current', current: 450 });
  });

  it('uses the next smaller size of the table between sizes', () => {
    expect(pulseLimit(fuse({ rating: 350 }), 5)).toEqual({ outcome: 'current', current: 450 });
  });

  it('comes down over the logarithm of time, without a step at 10 s, and never below what it carries for good', () => {
    const at = (lasts: number): number => { const limit = pulseLimit(fuse({}), lasts); return limit.outcome === 'current' ? limit.current : NaN; };
    expect(at(10.001)).toBeCloseTo(450, 0);
    // half-way between 10 s and 3 h by the logarithm: half-way between 450 A and 0.8 x 250 A, which is more than 60 % of 1.25 x 250 A
    expect(at(Math.sqrt(10 * 10_800))).toBeCloseTo(325, 6);
    expect(at(1e6)).toBeCloseTo(200, 9);
    for (const [one, two] of [[10, 11], [60, 600], [600, 1e5]] as const) expect(at(two)).toBeLessThan(at(one));
  });

  it('says that no table covers a long pulse on a partial-range fuse, or sizes below the table', () => {
    expect(pulseLimit(fuse({ style: 'partial_range' }), 10)).toEqual({ outcome: 'no_table' });
    expect(pulseLimit(fuse({ rating: 10 }), 5)).toEqual({ outcome: 'no_table' });
  });
});

describe('fastOpening', () => {
  it('is the 5 s gate of the table', () => expect(fastOpening(fuse({}))).toEqual({ current: 1650, within: 5 }));
  it('uses the next larger size of the table between sizes', () => expect(fastOpening(fuse({ rating: 200 })).current).toBe(1650));
  it('keeps the multiple of the largest size above the table', () => expect(fastOpening(fuse({ rating: 500 })).current).toBeCloseTo(3550, 6));
  it('is six times the rating of a blade fuse', () => expect(fastOpening(fuse({ style: 'blade', rating: 40 }))).toEqual({ current: 240, within: 1 }));
  it('is 1.2 times what nominally melts it in 10 ms, when that is less than the gate', () => {
    const { current, within } = fastOpening(fuse({ meltingEnergy: 5400, rating: 160 }));
    expect(within).toBe(0.01);
    expect(current).toBeCloseTo(1.2 * Math.sqrt(5400 / 0.01), 9);
  });
});
