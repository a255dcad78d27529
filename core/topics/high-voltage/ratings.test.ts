import { describe, expect, it } from 'vitest';
import { carOf, changed, checksOf, highVoltageCar, verdict } from '../../../checks/fixtures/high-voltage-car.ts';
import { knownOf } from './fault-currents.ts';
import { checkRatings } from './ratings.ts';

const study = (text: string) => {
  const { car, ask, problems } = carOf(text);
  expect(problems).toEqual([]);
  return checkRatings(car, knownOf(car, ask));
};
const of = (text: string, code: string, about: string) => verdict(checksOf(study(text), code, about)[0]);

describe('declared ratings', () => {
  it('are not asked of a car without parts that declare any', () => expect(study('halfshaft: 1\nname: t\n')).toEqual([]));

  it('hold a disconnect against the pack’s voltage, and ask for it above 60 V', () => {
    expect(of(highVoltageCar, 'part-voltage-rating', 'MSD')).toBe('holds');
    expect(of(changed('rating: 400 A, voltage_rating: 500 V,', 'rating: 400 A, voltage_rating: 48 V,'), 'part-voltage-rating', 'MSD')).toBe('broken');
    expect(of(changed('rating: 400 A, voltage_rating: 500 V,', 'rating: 400 A,'), 'part-voltage-rating', 'MSD')).toBe('unknown');
  });

  it('hold a disconnect, a bar and a shunt against the modes', () => {
    expect(of(highVoltageCar, 'part-current-rating', 'MSD')).toBe('holds');
    expect(of(changed('rating: 400 A, voltage_rating: 500 V,', 'rating: 20 A, voltage_rating: 500 V,'), 'part-current-rating', 'MSD')).toBe('broken');
    const bar = (rating: string) => changed('JP: { kind: junction, studs: 3,', `JP: { kind: junction, studs: 3, ${rating}`);
    expect(of(bar('rating: 400 A, voltage_rating: 60 V,'), 'part-current-rating', 'JP')).toBe('holds');
    expect(of(bar('rating: 50 A,'), 'part-current-rating', 'JP')).toBe('broken');
    expect(of(bar('rating: 400 A, voltage_rating: 60 V,'), 'part-voltage-rating', 'JP')).toBe('broken');
    expect(of(highVoltageCar, 'part-current-rating', 'JP')).toBe('not made');
    const shunt = changed('R5: { from: M4.pos, to: F1.in,', 'R5a: { from: M4.pos, to: SH.in, stock: bar, length: 50 mm }\n  R5: { from: SH.out, to: F1.in,', changed('  F1: {', '  SH: { kind: shunt, resistance: 0.1 mΩ, rating: 90 A }\n  F1: {'));
    expect(of(shunt, 'part-current-rating', 'SH')).toBe('broken');
  });

  it('hold a monitor against the pack’s voltage', () => {
    const monitor = (volts: number) => changed('  L1: {', '  T1: { from: JP.stud_1, to: IMD.pos, stock: thin, length: 1 m }\n  T2: { from: JN.stud_1, to: IMD.neg, stock: thin, length: 1 m }\n  L1: {', changed('  B12: {', `  IMD: { kind: isolation_monitor, maximum_voltage: ${volts} V }\n  B12: {`));
    expect(of(monitor(450), 'part-voltage-rating', 'IMD')).toBe('holds');
    expect(of(monitor(400), 'part-voltage-rating', 'IMD')).toBe('broken');
  });

  it('hold a drive against what the modes ask of it', () => {
    const drive = (more: string) => changed('maximum_voltage: 450 V, minimum_voltage: 200 V }\n  DC:', `maximum_voltage: 450 V, minimum_voltage: 200 V, ${more} }\n  DC:`);
    const power = (text: string) => checksOf(study(text), 'part-power-rating', 'INV').map((check) => [check.variant, verdict(check)]);
    expect(power(drive('continuous_power: 45 kW, peak_power: 95 kW'))).toEqual([['continuous', 'holds'], ['peak', 'holds']]);
    expect(power(drive('continuous_power: 35 kW, peak_power: 85 kW'))).toEqual([['continuous', 'broken'], ['peak', 'broken']]);
    const current = (text: string) => checksOf(study(text), 'part-current-rating', 'INV').map((check) => [check.variant, verdict(check)]);
    expect(current(drive('continuous_current: 150 A, peak_current: 300 A'))).toEqual([[undefined, 'holds'], ['boost', 'holds']]);
    expect(current(drive('continuous_current: 90 A, peak_current: 200 A'))).toEqual([[undefined, 'broken'], ['boost', 'broken']]);
  });
});
