import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isolationFromReadings, isolationUnitedStatesForm, parallelResistance } from './isolation.ts';

/** Readings that two leaks would give, by the voltage divider. */
function readings(negativeLeak: number, positiveLeak: number, pack: number, added: number): { pack: number; negative: number; positive: number; added: number; withAdded: number } {
  const negative = (pack * negativeLeak) / (negativeLeak + positiveLeak);
  const positive = pack - negative;
  const onNegative = negative >= positive;
  const [own, other] = onNegative ? [negativeLeak, positiveLeak] : [positiveLeak, negativeLeak];
  const shunted = parallelResistance([own, added]);
  return { pack, negative, positive, added, withAdded: (pack * shunted) / (shunted + other) };
}

describe('isolationFromReadings', () => {
  it('cannot read insulation that shows no voltage at all', () => {
    expect(isolationFromReadings({ pack: 400, negative: 0, positive: 0, added: 1e5, withAdded: 0 })).toEqual({ outcome: 'too_high_to_read' });
  });
  it('finds readings that contradict each other', () => {
    expect(isolationFromReadings({ pack: 400, negative: 250, positive: 150, added: 1e5, withAdded: 260 })).toEqual({ outcome: 'inconsistent', reading: 'withAdded' });
    expect(isolationFromReadings({ pack: 400, negative: 250, positive: 150, added: 1e5, withAdded: 0 })).toEqual({ outcome: 'inconsistent', reading: 'withAdded' });
    expect(isolationFromReadings({ pack: 400, negative: 150, positive: 450, added: 1e5, withAdded: 100 })).toEqual({ outcome: 'inconsistent', reading: 'positive' });
  });
  it('refuses a negative reading: signs are dropped before', () => {
    expect(() => isolationFromReadings({ pack: 400, negative: -1, positive: 1, added: 1, withAdded: 1 })).toThrow('negative');
  });
  it('gives back the smaller leak of any pair, whichever pole, and the United States form agrees', () => {
    const leak = fc.double({ min: 1e4, max: 1e8, noNaN: true });
    fc.assert(fc.property(leak, leak, fc.double({ min: 70, max: 900, noNaN: true }), fc.double({ min: 1e4, max: 5e5, noNaN: true }), (one, two, pack, added) => {
      const read = readings(one, two, pack, added);
      const found = isolationFromReadings(read);
      expect(found.outcome).toBe('resistance');
      if (found.outcome !== 'resistance') return;
      expect(found.resistance / Math.min(one, two)).toBeCloseTo(1, 6);
      expect(found.perVolt).toBeCloseTo(found.resistance / pack, 9);
      expect(isolationUnitedStatesForm(read) / found.resistance).toBeCloseTo(1, 6);
    }));
  });
});

describe('parallelResistance', () => {
  it('is the one resistance alone, half of two, and refuses none or zero', () => {
    expect(parallelResistance([5])).toBeCloseTo(5, 12);
    expect(parallelResistance([10, 10])).toBeCloseTo(5, 12);
    expect(() => parallelResistance([])).toThrow('at least one');
    expect(() => parallelResistance([1, 0])).toThrow('resistance 1');
  });
});
