import { describe, expect, it } from 'vitest';
import { carOf } from '../../checks/fixtures/high-voltage-car.ts';
import { edited, prechargeCar } from '../../checks/fixtures/precharge-car.ts';
import { metalOf } from './metal-graph.ts';

const joined = (text: string, a: string, b: string): boolean => {
  const { netOf } = metalOf(carOf(text).car);
  return netOf(a) === netOf(b);
};

describe('the metal of a car', () => {
  it('is nothing in a car without parts', () => {
    const metal = metalOf(carOf('halfshaft: 1\nname: t\n').car);
    expect(metal.links).toEqual([]);
    expect(metal.path('A.a', 'B.b')).toBeUndefined();
    expect(metal.netOf('A.a')).toBe('A.a');
  });

  it('is remembered for the life of a car', () => {
    const { car } = carOf(prechargeCar);
    expect(metalOf(car)).toBe(metalOf(car));
    expect(metalOf({ ...car })).not.toBe(metalOf(car));
  });

  it('leads through bars, cables, fuses, contacts and disconnects, not through cells or capacitors', () => {
    expect(joined(prechargeCar, 'M2.pos', 'M3.neg')).toBe(true);
    expect(joined(prechargeCar, 'M4.pos', 'INV.pos')).toBe(true);
    expect(joined(prechargeCar, 'INV.pos', 'INV.neg')).toBe(false);
    expect(metalOf(carOf(prechargeCar).car).path('M4.pos', 'KP.out')!.links.map(({ id }) => id)).toEqual(['R5', 'F1.link', 'R6', 'KP.contact']);
  });

  it('does not lead through what takes power, however little its resistance', () => {
    // 0.4 Ω of precharge resistor; without the bars beside it nothing else joins its ends
    const small = edited(prechargeCar, ['resistance: 60 Ω', 'resistance: 0.4 Ω'], ['R7: { from: KP.out, to: JP.stud_1, stock: thick, length: 200 mm }', 'R7: { from: PR.out, to: JP.stud_1, stock: thick, length: 200 mm }'], ['  P2: { from: PR.out, to: KP.out, stock: thin, length: 150 mm }\n', '']);
    expect(joined(small, 'PR.in', 'PR.out')).toBe(false);
    // 40 A at 13.5 V are a third of an ohm
    const blower = edited(prechargeCar, ['  B12: {', '  BL: { kind: load, current: 40 A, draws: resistance }\n  B12: {']);
    expect(joined(blower, 'BL.supply', 'BL.ground')).toBe(false);
    // 5 kW at 48 V are half an ohm
    for (const behaves of ['resistance', 'constant_power']) expect(joined(prechargeCar.replace('rated_voltage: 350 V, behaves: constant_power', `rated_voltage: 48 V, behaves: ${behaves}`), 'HT.pos', 'HT.neg')).toBe(false);
  });
});
