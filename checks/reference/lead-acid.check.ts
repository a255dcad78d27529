/**
 * Rested flooded lead-acid battery: voltage table, drain rule, reserve capacity. Read from the project's reference notes, section 9
 * (mailing-list table, battery FAQ, maker's bulletin, BCI definition). Grade: published rules of thumb; no standard's table was found.
 * Tolerance: exact at table points; 80 mV per 10 % is the published slope, true between 25 % and 100 % (0.8 V per unit) only.
 */
import { describe, expect, it } from 'vitest';
import { capacityFromReserve, leadAcidCharge, leadAcidVoltage, timeOnDrain } from '../../core/physics/lead-acid.ts';

describe('voltage of a rested battery', () => {
  for (const [charge, voltage] of [[1, 12.6], [0.75, 12.4], [0.5, 12.2], [0.25, 12.0], [0, 11.6]] as const) {
    it(`${charge * 100} %: ${voltage} V`, () => {
      expect(leadAcidVoltage(charge)).toMatchObject({ outcome: 'voltage', voltage });
      const back = leadAcidCharge(voltage);
      expect(back.outcome === 'charge' && back.stateOfCharge).toBeCloseTo(charge, 12);
    });
  }
  it('80 mV is worth about 10 %', () => {
    const found = leadAcidCharge(12.3);
    expect(found.outcome === 'charge' && found.perVolt * 0.08).toBeCloseTo(0.1, 9);
  });
});

describe('drain and reserve', () => {
  for (const [milliampere, days] of [[50, 20], [100, 10]] as const) {
    it(`60 Ah with ${milliampere} mA: ${days} days to no-start`, () => {
      const found = timeOnDrain(60 * 3600, milliampere * 1e-3);
      expect(found.outcome === 'time' && found.time / 86_400).toBeCloseTo(days, 9);
    });
  }
  it('90 min of reserve are 37.5 Ah at 25 A (the FAQ says 36) and 54 Ah by the service rule', () => {
    expect(capacityFromReserve(5400, '25 A') / 3600).toBeCloseTo(37.5, 9);
    expect(capacityFromReserve(5400, '20 h') / 3600).toBeCloseTo(54, 9);
  });
});
