/**
 * UN R100 annex 4B, 1.2.3 (two-voltmeter, three-reading method) with the constructed worked example, and FMVSS 305 S7.6
 * (from memory, algebraically the same). Read from the project's reference notes, section 6.
 * Grade: formula published; the example is closed form, constructed for the project (no published numeric example was found).
 *
 * Tolerances: half a unit of the last printed digit.
 */
import { describe, expect, it } from 'vitest';
import { isolationFromReadings, isolationLimits, isolationUnitedStatesForm, parallelResistance } from '../../core/physics/isolation.ts';

describe('UN R100 annex 4B, worked example: leaks 500 kohm (-) and 300 kohm (+), 400 V, Ro 200 kohm', () => {
  const readings = { pack: 400, negative: 250, positive: 150, added: 200e3, withAdded: 129.03 };
  it('the readings are those of the two leaks: 250 V, 150 V, then 129.03 V', () => {
    expect((400 * 500) / 800).toBe(250);
    const shunted = parallelResistance([500e3, 200e3]);
    expect((400 * shunted) / (shunted + 300e3)).toBeCloseTo(129.03, 2);
  });
  it('gives 300 kohm, 750 ohm/V, with the resistor across the negative side', () => {
    const found = isolationFromReadings(readings);
    expect(found).toMatchObject({ outcome: 'resistance', addedAcross: 'negative' });
    if (found.outcome !== 'resistance') return;
    // 129.03 is rounded to 0.005 V: 0.005/129.03 x 620 kohm = 24 ohm
    expect(Math.abs(found.resistance - 300e3)).toBeLessThan(25);
    expect(found.perVolt).toBeCloseTo(750, 0);
  });
  it('and the United States form the same', () => {
    expect(Math.abs(isolationUnitedStatesForm(readings) - 300e3)).toBeLessThan(25);
  });
  it('mirrored, the resistor goes across the positive side', () => {
    expect(isolationFromReadings({ ...readings, negative: 150, positive: 250 })).toMatchObject({ outcome: 'resistance', addedAcross: 'positive' });
  });
});

describe('UN R100 clause 5.1.3', () => {
  it('200 V at 500 ohm/V is 100 kohm (trade text)', () => {
    expect(200 * isolationLimits.alternating).toBe(100e3);
    expect(isolationLimits.direct).toBe(100);
  });
});
