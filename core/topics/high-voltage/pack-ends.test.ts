import { describe, expect, it } from 'vitest';
import { carOf, changed, highVoltageCar } from '../../../checks/fixtures/high-voltage-car.ts';
import { packsOf } from './pack-ends.ts';

const packs = (text: string) => packsOf(carOf(text).car);
const modules = (runs: string) => `halfshaft: 1
name: t
cells: { c: { chemistry: nmc, capacity: 60 Ah, resistance: 1 mΩ, maximum_voltage: 4.2 V } }
stock: { bar: { kind: busbar, width: 20 mm, thickness: 3 mm, insulation: bare } }
parts:
  A: { kind: battery_module, cell: c, series: 10 }
  B: { kind: battery_module, cell: c, series: 10 }
  C: { kind: battery_module, cell: c, series: 20 }
runs: { ${runs} }
`;
const join = (name: string, from: string, to: string) => `${name}: { from: ${from}, to: ${to}, stock: bar, length: 50 mm }`;

describe('packsOf', () => {
  it('finds no pack in an empty car', () => {
    expect(packs('halfshaft: 1\nname: t\n')).toEqual({ packs: [], missing: [] });
  });

  it('takes modules that nothing joins as packs of their own, highest voltage first', () => {
    const { packs: found } = packs(modules(''));
    expect(found.map(({ positive, negative, maximumVoltage }) => [positive, negative, Math.round(maximumVoltage)])).toEqual([['C.pos', 'C.neg', 84], ['A.pos', 'A.neg', 42], ['B.pos', 'B.neg', 42]]);
    expect(found.every(({ isOneString }) => isOneString)).toBe(true);
  });

  it('adds the voltages of modules in series and finds the two ends', () => {
    const { packs: found } = packs(modules(`${join('r1', 'A.pos', 'B.neg')}, ${join('r2', 'C.neg', 'B.pos')}`));
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({ positive: 'C.pos', negative: 'A.neg', modules: ['A', 'B', 'C'], isOneString: true });
    expect(found[0]!.maximumVoltage).toBeCloseTo(40 * 4.2, 9);
  });

  it('counts two equal strings side by side as one pack of one string’s voltage', () => {
    const { packs: found } = packs(modules(`${join('r1', 'A.pos', 'B.neg')}, ${join('r2', 'C.neg', 'A.neg')}, ${join('r3', 'C.pos', 'B.pos')}`));
    expect(found).toHaveLength(1);
    expect(found[0]!.maximumVoltage).toBeCloseTo(20 * 4.2, 9);
    expect(found[0]!.isOneString).toBe(true);
  });

  it('counts a reversed module the right way round', () => {
    const { packs: found } = packs(modules(`${join('r1', 'A.pos', 'B.pos')}, ${join('r2', 'B.neg', 'C.neg')}`));
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({ isOneString: true });
    // not 10 + 10 or 20 of the 40 cells
    expect(found[0]!.maximumVoltage).toBeCloseTo(40 * 4.2, 9);
    // like poles joined at one end only cannot be told from a reversed module: the higher voltage counts
    expect(packs(modules(`${join('r1', 'A.pos', 'B.neg')}, ${join('r2', 'C.neg', 'A.neg')}`)).packs[0]!.maximumVoltage).toBeCloseTo(40 * 4.2, 9);
  });

  it('comes to an end on a pack that is shorted in a ring', () => {
    const { packs: found } = packs(modules(`${join('r1', 'A.pos', 'B.neg')}, ${join('r2', 'B.pos', 'A.neg')}`));
    expect(found.some(({ isOneString }) => !isOneString)).toBe(true);
    expect(found.every(({ maximumVoltage }) => Number.isFinite(maximumVoltage))).toBe(true);
  });

  it('reaches through the disconnect, its fuse and the bars between', () => {
    const { packs: found, missing } = packs(highVoltageCar);
    expect(missing).toEqual([]);
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({ positive: 'M4.pos', negative: 'M1.neg', isOneString: true });
    expect(found[0]!.maximumVoltage).toBeCloseTo(96 * 4.2, 9);
  });

  it('is not shorted by a heater of half an ohm, whatever way it behaves', () => {
    for (const behaves of ['constant_power', 'resistance']) {
      const text = `halfshaft: 1
name: t
cells: { c: { chemistry: lfp, capacity: 100 Ah, resistance: 1 mΩ, maximum_voltage: 3.6 V } }
stock: { bar: { kind: busbar, width: 20 mm, thickness: 3 mm, insulation: bare } }
parts:
  A: { kind: battery_module, cell: c, series: 16 }
  H: { kind: hv_heater, rated_power: 5 kW, rated_voltage: 48 V, behaves: ${behaves}, maximum_voltage: 60 V }
runs: { ${join('r1', 'A.pos', 'H.pos')}, ${join('r2', 'A.neg', 'H.neg')} }
`;
      const { packs: found } = packs(text);
      expect(found).toHaveLength(1);
      expect(found[0]).toMatchObject({ isOneString: true, maximumVoltage: expect.closeTo(57.6, 9) });
    }
  });

  it('names what is missing when a module cannot be counted', () => {
    const { missing } = packs(changed('M3: { kind: battery_module, cell: used, series: 24 }', 'M3: { kind: battery_module, cell: used }'));
    expect(missing).toEqual(['parts.M3.series']);
  });
});
