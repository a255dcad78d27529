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

  it('comes down to three quarters of the rating for long overloads', () => {
    expect(pulseLimit(fuse({}), 60)).toEqual({ outcome: 'current', current: 187.5 });
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
});
