import { describe, expect, it } from 'vitest';
import { element, elementsOf, solvedOnBench } from '../../checks/fixtures/part-on-bench.ts';
import { battery12v } from './battery-12v.ts';
import { restVoltage, seriesCellsFor } from './pieces/rest-voltage.ts';

const flooded = { chemistry: 'flooded', nominal_voltage: 12, capacity: 216000 };
const cellsVoltage = (fields: Record<string, unknown>): number => {
  const cells = element(elementsOf(battery12v, fields), 'cells');
  return cells.type === 'source' ? cells.voltage : NaN;
};

describe('the 12 V battery', () => {
  // project's reference notes, section 9: open-circuit voltage of a flooded battery against charge, published table, ±10 mV
  it.each([[1, 12.6], [0.75, 12.4], [0.5, 12.2], [0.25, 12.0], [0, 11.6]])('rests at the published voltage at charge %f', (charge, volts) => {
    expect(cellsVoltage({ ...flooded, state_of_charge: charge })).toBeCloseTo(volts, 3);
  });

  it('loses 80 mV for each tenth of its charge, as the same notes say of the slope', () => {
    for (const charge of [0.9, 0.6, 0.4]) {
      expect(cellsVoltage({ ...flooded, state_of_charge: charge }) - cellsVoltage({ ...flooded, state_of_charge: charge - 0.1 })).toBeCloseTo(0.08, 3);
    }
  });

  // section 10, row "linear mid values at 50 %": LFP 3.299 V a cell
  it('made of lithium iron phosphate rests at 3.299 V a cell when half full', () => {
    expect(restVoltage('lfp', 0.5, 1)).toBeCloseTo(3.299, 3);
    expect(cellsVoltage({ chemistry: 'lfp', nominal_voltage: 12.8, capacity: 216000, state_of_charge: 0.5 })).toBeCloseTo(4 * 3.299, 2);
  });

  it.each([['flooded', 12, 6], ['agm', 24, 12], ['flooded', 6, 3], ['lfp', 12, 4], ['lfp', 12.8, 4], ['lfp', 24, 8], ['lfp', 25.6, 8]] as const)('%s of %f V has %i cells in series', (chemistry, volts, cells) => {
    expect(seriesCellsFor(chemistry, volts)).toBe(cells);
  });

  it('never rises when it is emptied, and stands still beyond full and empty', () => {
    for (const chemistry of ['flooded', 'agm', 'lfp'] as const) {
      for (let i = 0; i < 100; i += 1) expect(restVoltage(chemistry, (i + 1) / 100, 1)).toBeGreaterThan(restVoltage(chemistry, i / 100, 1));
      expect(restVoltage(chemistry, 1.2, 6)).toBe(restVoltage(chemistry, 1, 6));
      expect(restVoltage(chemistry, -0.2, 6)).toBe(restVoltage(chemistry, 0, 6));
    }
  });

  it('believes the meter before the table', () => {
    expect(cellsVoltage({ ...flooded, state_of_charge: 1, rest_voltage: 12.31 })).toBe(12.31);
  });

  it('gives through its internal resistance, whatever its charging resistance is', () => {
    for (const charging of [0.001, 0.05, 1]) {
      const elements = elementsOf(battery12v, { ...flooded, internal_resistance: 0.006, charge_resistance: charging });
      const [back, out] = [element(elements, 'charge_path'), element(elements, 'discharge_path')];
      if (back.type !== 'resistor' || out.type !== 'diode') throw new Error('wrong elements');
      expect(1 / (1 / back.resistance + 1 / out.resistance)).toBeCloseTo(0.006, 9);
    }
  });

  const post = (clipped: Parameters<typeof solvedOnBench>[1], fields: Record<string, unknown> = flooded) =>
    solvedOnBench(elementsOf(battery12v, { ...fields, rest_voltage: 12.6, internal_resistance: 0.006, charge_resistance: 0.2 }), [{ type: 'resistor', id: 'ground', a: 'X.neg', b: 'chassis', resistance: 0 }, ...clipped]);

  it('shows its rest voltage to a meter when nothing else is connected', () => {
    expect(post([{ type: 'resistor', id: 'meter', a: 'X.pos', b: 'X.neg', resistance: 10e6 }]).voltageOf('X.pos')).toBeCloseTo(12.6, 6);
  });
  it('sags by its internal resistance under load: 100 A on 6 mΩ is 0.6 V', () => {
    expect(post([{ type: 'current', id: 'load', a: 'X.pos', b: 'chassis', current: 100 }]).voltageOf('X.pos')).toBeCloseTo(12.0, 6);
  });
  it('made of lead takes 8 A from 14.2 V, not hundreds; made of lithium it takes what its resistance lets in', () => {
    const supply = { type: 'source', id: 'supply', a: 'X.pos', b: 'chassis', voltage: 14.2, resistance: 0 } as const;
    expect(-post([supply]).currentOf('supply')).toBeCloseTo(8, 6);
    expect(-post([supply], { ...flooded, chemistry: 'lfp' }).currentOf('supply')).toBeCloseTo(1.6 / 0.006, 3);
  });
});
