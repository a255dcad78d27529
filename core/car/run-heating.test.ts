import { describe, expect, it } from 'vitest';
import { carOf, changed, highVoltageCar } from '../../checks/fixtures/high-voltage-car.ts';
import { runCapacity, sharedHeating } from './heating-memo.ts';
import { runHeating, type RunHeating } from './run-heating.ts';

const heatingOf = (text: string, run = 'W1'): RunHeating => {
  const { car } = carOf(text);
  const result = runHeating(car, car.runs.get(run)!);
  if (result.outcome === 'needs') throw new Error(`needs ${result.needs.join(', ')}`);
  return result.heating;
};
const needsOf = (text: string, run = 'W1') => {
  const { car } = carOf(text);
  const result = runHeating(car, car.runs.get(run)!);
  return result.outcome === 'needs' ? result.needs : [];
};

describe('runHeating', () => {
  it('is at ambient without current, and carries nothing at ambient', () => {
    for (const run of ['W1', 'R1']) {
      const heating = heatingOf(highVoltageCar, run);
      expect(heating.steady(0)).toBeCloseTo(303.15, 9);
      expect(heating.currentAt(303.15)).toBe(0);
    }
  });

  it('brings a run to the temperature that its capacity belongs to', () => {
    for (const run of ['W1', 'W4', 'R1']) {
      const heating = heatingOf(highVoltageCar, run);
      expect(heating.steady(heating.currentAt(378.15))).toBeCloseTo(378.15, 6);
    }
  });

  it('takes the air the run lies in over that of the car', () => {
    expect(heatingOf(highVoltageCar).ambient).toBeCloseTo(303.15, 9);
    expect(heatingOf(changed('bend_radius: 100 mm', 'bend_radius: 100 mm, ambient: 70 °C')).ambient).toBeCloseTo(343.15, 9);
  });

  it('lets bundled conductors carry less: two touching 0.88, four 0.88 x 0.8', () => {
    const alone = heatingOf(highVoltageCar, 'R6').currentAt(363.15);
    expect(heatingOf(highVoltageCar, 'W1').currentAt(363.15) / alone).toBeCloseTo(0.88, 9);
    expect(heatingOf(changed('bend_radius: 100 mm, bundled: 2', 'bundled: 4')).currentAt(363.15) / alone).toBeCloseTo(0.704, 9);
  });

  it('has one value for a duty that is constant, once or repeated', () => {
    for (const run of ['W1', 'R1']) {
      const heating = heatingOf(highVoltageCar, run);
      const steady = heating.steady(150);
      expect(heating.peak([{ current: 150, time: 60 }])).toBeCloseTo(steady, 6);
      expect(heating.after(150, 60, steady)).toBeCloseTo(steady, 6);
    }
  });

  it('warms in a pulse, less than for good', () => {
    const heating = heatingOf(highVoltageCar);
    const start = heating.steady(100);
    const after = heating.after(300, 10, start);
    expect(after).toBeGreaterThan(start + 1);
    expect(after).toBeLessThan(heating.steady(300));
  });

  it('stays at its model’s limit above it, and in air hotter than the model', () => {
    const heating = heatingOf(highVoltageCar);
    expect(heating.steady(5000)).toBe(heating.modelLimit);
    expect(heating.after(5000, 600, 303.15)).toBe(heating.modelLimit);
    const hot = heatingOf(changed('bend_radius: 100 mm', 'bend_radius: 100 mm, ambient: 310 °C'));
    expect(hot.currentAt(398)).toBe(0);
    expect(hot.steady(0)).toBeCloseTo(583.15, 6);
  });

  it('takes air colder than the bar model knows as its coldest', () => {
    expect(heatingOf(changed('R1: { from: M1.pos, to: M2.neg, stock: bar, length: 80 mm }', 'R1: { from: M1.pos, to: M2.neg, stock: bar, length: 80 mm, ambient: -70 °C }'), 'R1').ambient).toBe(220);
  });

  it('names the value that is missing or does not fit', () => {
    expect(needsOf(changed('thick: { kind: cable, conductor_area: 50 mm², ', 'thick: { kind: cable, '))).toEqual(['runs.W1.conductor_area']);
    expect(needsOf(changed('outside_diameter: 14.2 mm', 'outside_diameter: 8 mm'))).toEqual(['stock.thick.outside_diameter']);
    expect(needsOf(changed('bend_radius: 100 mm, bundled: 2', 'bundled: 40'))).toEqual(['runs.W1.bundled']);
  });
});

describe('the memory of heat balances', () => {
  it('gives runs of one stock in one place one answer, and others their own', () => {
    const { car } = carOf(highVoltageCar);
    const memo = new Map<string, number>();
    const capacity = (run: string): number => runCapacity(car.runs.get(run)!, heatingOf(highVoltageCar, run), memo);
    expect(capacity('R6')).toBe(capacity('R7'));
    expect(memo.size).toBe(1);
    expect(capacity('W1')).toBeLessThan(capacity('R6'));
    expect(capacity('W4')).toBeLessThan(capacity('W1'));
    expect(memo.size).toBe(3);
  });

  it('keeps apart what is asked', () => {
    const { car } = carOf(highVoltageCar);
    const memo = new Map<string, number>();
    const run = car.runs.get('W1')!;
    const heating = heatingOf(highVoltageCar);
    expect(sharedHeating(memo, run, heating, ['steady', 1], () => 1)).toBe(1);
    expect(sharedHeating(memo, run, heating, ['steady', 2], () => 2)).toBe(2);
    expect(sharedHeating(memo, run, heating, ['steady', 1], () => 3)).toBe(1);
  });
});
