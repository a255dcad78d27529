import { describe, expect, it } from 'vitest';
import { cellTables } from '../../catalogue/cells.ts';
import { cellEnergy } from './cell-energy.ts';
import { cellVoltage } from './cell-voltage.ts';
import { integral } from './integral.ts';

const line = [[0, 3], [1, 4]] as const;
const nmc = cellTables.find(({ key }) => key === 'cell.ocv.nmc')!.rows;

describe('energy of a cell', () => {
  it('is nothing between a charge and itself', () => expect(cellEnergy(line, 3600, 0.4, 0.4)).toEqual({ outcome: 'energy', energy: 0 }));
  it('says where the curve ends instead of going on', () => expect(cellEnergy(line, 3600, 0, 1.01)).toEqual({ outcome: 'outside', lowest: 0, highest: 1 }));
  it('refuses a capacity of nothing and a turned interval', () => {
    expect(() => cellEnergy(line, 0, 0, 1)).toThrow('capacity');
    expect(() => cellEnergy(line, 3600, 0.5, 0.4)).toThrow('from');
  });
  it('is the mean voltage times the charge on a straight curve', () => {
    expect(cellEnergy(line, 3600, 0, 1)).toEqual({ outcome: 'energy', energy: 3.5 * 3600 });
    const part = cellEnergy(line, 3600, 0.2, 0.6);
    expect(part.outcome === 'energy' && part.energy).toBeCloseTo(3.4 * 0.4 * 3600, 9);
  });
  it('adds up over a split, on a curve with bends', () => {
    const of = (from: number, to: number): number => { const result = cellEnergy(nmc, 3600, from, to); return result.outcome === 'energy' ? result.energy : Number.NaN; };
    expect(of(0, 0.37) + of(0.37, 1)).toBeCloseTo(of(0, 1), 6);
  });
  it('agrees with an adaptive quadrature of the voltage', () => {
    const exact = integral((charge) => { const at = cellVoltage(nmc, charge); return at.outcome === 'voltage' ? at.voltage : Number.NaN; }, 0, 1, 1e-10);
    const result = cellEnergy(nmc, 2, 0, 1);
    expect(result.outcome === 'energy' && result.energy / 2).toBeCloseTo(exact, 6);
  });
});
