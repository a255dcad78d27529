import { describe, expect, it } from 'vitest';
import { leastBendRadius } from './bend-radius.ts';
import { conductorDiameter } from './conductor-diameter.ts';
import { groupingFactor } from './grouping.ts';
import { insulationMaterials } from './insulation-material.ts';
import { capacityFromReserve, leadAcidCharge, leadAcidVoltage, timeOnDrain } from './lead-acid.ts';
import { areaForDrop, voltageDrop } from './voltage-drop.ts';
import { handbookBusbarCurrent, handbookRodCurrent } from './busbar-handbook-rating.ts';
import { touchEnergy, touchEnergyAbove60 } from './y-capacitor-energy.ts';

describe('groupingFactor', () => {
  it('is 1 for one cable, falls with more, and says outside_table above 18', () => {
    expect(groupingFactor(1)).toEqual({ outcome: 'factor', factor: 1 });
    const factors = Array.from({ length: 18 }, (_, index) => groupingFactor(index + 1)).map((found) => (found.outcome === 'factor' ? found.factor : Number.NaN));
    factors.slice(1).forEach((factor, index) => expect(factor).toBeLessThanOrEqual(factors[index]!));
    expect(groupingFactor(19)).toEqual({ outcome: 'outside_table', largest: 18 });
    expect(() => groupingFactor(1.5)).toThrow('whole number');
  });
});

describe('leastBendRadius', () => {
  it('is larger for screened and largest for moving cables', () => {
    expect(leastBendRadius(0.01, { isScreened: false, moves: false })).toBe(0.04);
    expect(leastBendRadius(0.01, { isScreened: true, moves: false })).toBe(0.06);
    expect(leastBendRadius(0.01, { isScreened: true, moves: true })).toBe(0.1);
    expect(() => leastBendRadius(0, { isScreened: true, moves: true })).toThrow('outsideDiameter');
  });
});

describe('conductorDiameter', () => {
  it('of a solid wire is that of the circle, and stranded wire is thicker', () => {
    expect(conductorDiameter(Math.PI * 1e-6, 1)).toBeCloseTo(2e-3, 15);
    expect(conductorDiameter(35e-6)).toBeGreaterThan(conductorDiameter(35e-6, 1));
    expect(() => conductorDiameter(1e-6, 1.2)).toThrow('fill');
  });
});

describe('lead-acid rules', () => {
  it('say never for a battery without drain', () => {
    expect(timeOnDrain(216_000, 0)).toEqual({ outcome: 'never' });
  });
  it('say outside for a voltage that no rested battery of the table has', () => {
    expect(leadAcidCharge(13.2).outcome).toBe('outside');
    expect(leadAcidVoltage(1.2).outcome).toBe('outside');
  });
  it('keep the two readings of reserve capacity 1.44 apart', () => {
    expect(capacityFromReserve(5400, '20 h') / capacityFromReserve(5400, '25 A')).toBeCloseTo(1.44, 12);
  });
});

describe('voltage drop', () => {
  it('is zero without current or length, and needs no area then', () => {
    expect(voltageDrop(1e-3, 0, 50)).toBe(0);
    expect(areaForDrop(0, 5, 0.36)).toBe(0);
    expect(() => areaForDrop(1, 5, 0)).toThrow('drop');
  });
});

describe('handbook bar ratings', () => {
  it('grow with the bar and refuse a bar of no thickness', () => {
    expect(handbookBusbarCurrent(30e-3, 5e-3)).toBeGreaterThan(handbookBusbarCurrent(20e-3, 5e-3));
    expect(() => handbookBusbarCurrent(20e-3, 0)).toThrow('thickness');
    expect(() => handbookRodCurrent(-1)).toThrow('diameter');
  });
});

describe('touch energy', () => {
  it('is nothing at 60 V by the one form, and C V²/2 by the other', () => {
    expect(touchEnergyAbove60(1e-6, 60)).toBe(0);
    expect(touchEnergyAbove60(1e-6, 10)).toBe(0);
    expect(touchEnergy(2e-6, 100)).toBeCloseTo(0.01, 15);
  });
});

describe('insulation materials', () => {
  it('stand more in a short circuit than in service', () => {
    for (const material of Object.values(insulationMaterials)) {
      expect(material.shortCircuitTemperature).toBeGreaterThan(material.temperatureRating);
      expect(material.sources.length).toBeGreaterThan(0);
    }
  });
});
