import { describe, expect, it } from 'vitest';
import { carOf, changed, checksOf, highVoltageCar, verdict } from '../../../checks/fixtures/high-voltage-car.ts';
import { converterCar, prechargeCar } from '../../../checks/fixtures/precharge-car.ts';
import { studyConductors } from './conductors.ts';

const study = (text: string) => {
  const { car, ask } = carOf(text);
  return studyConductors(car, ask);
};
const of = (text: string, code: string, about: string) => verdict(checksOf(study(text).checks, code, about)[0]);
const w1 = (rest: string): string => changed('W1: { from: JP.stud_2, to: INV.pos, stock: thick, length: 2 m, bend_radius: 100 mm, bundled: 2 }', `W1: { from: JP.stud_2, to: INV.pos, ${rest} }`);
const withoutModes = highVoltageCar.slice(0, highVoltageCar.indexOf('modes:'));

describe('studyConductors', () => {
  it('says nothing about an empty car, or about low-voltage wire', () => {
    expect(study('halfshaft: 1\nname: t\n')).toEqual({ results: { runs: [], drops: [], loss: 0 }, checks: [] });
    expect(study(highVoltageCar).checks.some(({ about }) => about[0]!.startsWith('L'))).toBe(false);
  });

  it('judges the lasting temperature', () => {
    expect(of(highVoltageCar, 'run-steady-temperature', 'W1')).toBe('holds');
    expect(of(w1('stock: thin, length: 2 m'), 'run-steady-temperature', 'W1')).toBe('broken');
    expect(of(w1('stock: thick, length: 2 m, bundled: 2, ambient: 120 °C'), 'run-steady-temperature', 'W1')).toBe('broken');
    expect(of(withoutModes, 'run-steady-temperature', 'W1')).toBe('unknown');
    expect(of(changed('thick: { kind: cable, conductor_area: 50 mm², ', 'thick: { kind: cable, '), 'run-steady-temperature', 'W1')).toBe('unknown');
  });

  it('judges the temperature after the short-time mode, higher than the lasting one', () => {
    expect(of(highVoltageCar, 'run-short-time-temperature', 'W1')).toBe('holds');
    const [steady, peak] = ['run-steady-temperature', 'run-short-time-temperature'].map((code) => checksOf(study(highVoltageCar).checks, code, 'W1')[0]!.value!);
    expect(peak).toBeGreaterThan(steady!);
    const thinner = changed('thin: { kind: cable, conductor_area: 4 mm²', 'thin: { kind: cable, conductor_area: 16 mm²', w1('stock: thin, length: 2 m'));
    const wide = changed('outside_diameter: 5.4 mm', 'outside_diameter: 9 mm', thinner);
    expect(of(wide, 'run-steady-temperature', 'W1')).toBe('holds');
    const often = changed('every: 120 s', 'every: 14 s', wide);
    expect(of(often, 'run-short-time-temperature', 'W1')).toBe('broken');
  });

  it('says nothing of a short-time mode that asks no more than the lasting one, and “beyond” where the model ends', () => {
    expect(of(changed('INV: { draw: 90 kW }', 'INV: { draw: 30 kW }'), 'run-short-time-temperature', 'W1')).toBe('not made');
    expect(checksOf(study(highVoltageCar).checks, 'run-steady-temperature', 'W1')[0]).toMatchObject({ details: { reaches: 'reaches' } });
    expect(checksOf(study(w1('stock: thin, length: 2 m, conductor_area: 0.5 mm²')).checks, 'run-steady-temperature', 'W1')[0]).toMatchObject({ details: { reaches: 'goes beyond' } });
  });

  it('takes a short-time mode as one pulse from the lasting temperature when the file does not say how soon it comes again', () => {
    const once = checksOf(study(changed(', every: 120 s', '')).checks, 'run-short-time-temperature', 'W1')[0]!;
    const repeated = checksOf(study(highVoltageCar).checks, 'run-short-time-temperature', 'W1')[0]!;
    expect(verdict(once)).toBe('holds');
    expect(once.value).toBeLessThan(repeated.value!);
  });

  it('adds up the heat: current squared times metal and joints at the working temperature', () => {
    const { results } = study(highVoltageCar);
    const run = results.runs.find(({ run: name }) => name === 'W1')!;
    const { car } = carOf(highVoltageCar);
    const cold = car.runs.get('W1')!.conductor!.resistancePerLength * 2;
    const warm = cold * (1 + (run.steadyTemperature! - 293.15) / 254.5) + car.runs.get('W1')!.jointResistance;
    expect(run.resistance).toBeCloseTo(warm, 9);
    expect(run.loss).toBeCloseTo(run.current! ** 2 * warm, 6);
    expect(results.loss).toBeGreaterThan(run.loss!);
  });

  it('asks for a length that it does not know', () => {
    expect(checksOf(study(highVoltageCar).checks, 'run-length-known')).toEqual([]);
    expect(checksOf(study(w1('stock: thick')).checks, 'run-length-known', 'W1')[0]).toMatchObject({ needs: ['runs.W1.length'] });
  });

  it('judges the voltage lost on the way to each part in its heaviest mode', () => {
    const { results } = study(highVoltageCar);
    const { car, ask } = carOf(highVoltageCar);
    const boost = ask.solve({ mode: 'boost' });
    if (boost.outcome !== 'solved') throw new Error('boost must solve');
    const lost = boost.voltageOf('M4.pos') - boost.voltageOf('M1.neg') - boost.voltageOf('INV.pos') + boost.voltageOf('INV.neg');
    expect(results.drops.find(({ part }) => part === 'INV')).toMatchObject({ mode: 'boost' });
    expect(results.drops.find(({ part }) => part === 'INV')!.drop).toBeCloseTo(lost, 6);
    // current times resistance of all that lies between
    const current = Math.abs(boost.currentOf('W1'));
    const runs = ['R5', 'R6', 'R7', 'R8', 'R9', 'W1', 'W2'].map((name) => car.runs.get(name)!).reduce((sum, run) => sum + run.conductor!.resistancePerLength * run.length! + run.jointResistance, 0);
    expect(lost).toBeGreaterThan(current * runs);
    expect(of(highVoltageCar, 'voltage-drop', 'INV')).toBe('holds');
    expect(of(w1('stock: thin, length: 12 m'), 'voltage-drop', 'INV')).toBe('broken');
    expect(study(withoutModes).results.drops).toEqual([]);
  });

  it('takes no voltage drop from a precharge, by resistor or by converter', () => {
    for (const text of [prechargeCar, converterCar]) {
      const { results } = study(text);
      expect(results.drops.map(({ part, mode }) => `${part} ${mode}`)).toEqual(['INV drive', 'DC drive', 'HT drive']);
      // the precharge converter would leave tens of volts
      expect(Math.max(...results.drops.map(({ share }) => share))).toBeLessThan(0.03);
    }
  });

  it('takes a part that stands above the battery for one that loses nothing', () => {
    const feeding = study(changed('INV: { draw: 40 kW }', 'INV: { draw: -40 kW }', changed('INV: { draw: 90 kW }', 'INV: { draw: -90 kW }')));
    expect(feeding.results.drops.find(({ part }) => part === 'INV')).toMatchObject({ drop: 0, share: 0 });
  });

  it('judges a bend when there is one', () => {
    expect(of(highVoltageCar, 'run-bend-radius', 'W1')).toBe('holds');
    expect(of(changed('bend_radius: 100 mm', 'bend_radius: 60 mm'), 'run-bend-radius', 'W1')).toBe('broken');
    expect(of(highVoltageCar, 'run-bend-radius', 'W2')).toBe('not made');
    expect(checksOf(study(changed('R1: { from: M1.pos, to: M2.neg, stock: bar, length: 80 mm }', 'R1: { from: M1.pos, to: M2.neg, stock: bar, length: 80 mm, bend_radius: 5 mm }')).checks, 'run-bend-radius', 'R1')[0]).toMatchObject({ needs: ['stock.bar.minimum_bend_radius'] });
  });

  it('judges the insulation against the battery at its highest, bare bars not', () => {
    expect(of(highVoltageCar, 'run-voltage-rating', 'W1')).toBe('holds');
    expect(of(w1('stock: thick, length: 2 m, voltage_rating: 300 V'), 'run-voltage-rating', 'W1')).toBe('broken');
    expect(checksOf(study(changed('outside_diameter: 14.2 mm, voltage_rating: 1000 V', 'outside_diameter: 14.2 mm')).checks, 'run-voltage-rating', 'W1')[0]).toMatchObject({ needs: ['stock.thick.voltage_rating'] });
    expect(of(highVoltageCar, 'run-voltage-rating', 'R1')).toBe('not made');
  });
});
