import { describe, expect, it } from 'vitest';
import { bareCar, goodCar, replaced, twoStringCar } from '../../../checks/fixtures/pack-car.ts';
import type { Figures } from './pack-figures.ts';
import { pack } from './study.ts';

const studied = (text: string) => { const made = goodCar(text); return { ...made, ...pack.study(made.car, made.ask) }; };
const whole = (text: string): Figures => studied(text).results.packs[0]!.figures!;
const ends = ['JP.stud_2', 'JN.stud_2'] as const;
const row = (name: string, series: string): string => `  ${name}: { kind: battery_module, cell: used, series: ${series}, measured_voltage: 45.66 V }`;

describe('figures of a pack', () => {
  it('has none when it does not have two ends', () => {
    const { results } = studied(bareCar(['M1', 'M2', 'M3'], ['M1.pos M2.neg', 'M1.pos M3.neg']));
    expect(results.packs[0]).toMatchObject({ figures: undefined, positive: undefined });
    expect(results.strings.map(({ figures }) => figures?.series)).toEqual([12, 12, 12]);
  });

  it('counts cells and their voltage limits', () => {
    expect(whole(twoStringCar)).toMatchObject({ series: 48, minimumVoltage: 144, maximumVoltage: 48 * 4.2, nominalVoltage: 48 * 3.65, capacity: 2 * 60 * 3600 });
  });

  it('has the open voltage and resistance that the network shows at its ends', () => {
    const { ask, results } = studied(twoStringCar);
    const seen = ask.thevenin({ withoutLoads: true }, ...ends);
    const { now } = results.packs[0]!.figures!;
    expect(seen.outcome === 'solved' && seen.voltage / now.openVoltage).toBeCloseTo(1, 6);
    expect(seen.outcome === 'solved' && seen.resistance / now.resistance).toBeCloseTo(1, 5);
  });

  it('has them with strings that differ in resistance and modules that differ in number of cells', () => {
    const text = replaced(twoStringCar, [row('B2', '12'), row('B2', '11')], ['RB7: { from: B1.neg, to: JN.stud_2, stock: thick, length: 500 mm }', 'RB7: { from: B1.neg, to: JN.stud_2, stock: thick, length: 20 m }']);
    const { ask, results } = studied(text);
    const seen = ask.thevenin({ withoutLoads: true }, ...ends);
    const { now } = results.packs[0]!.figures!;
    expect(seen.outcome === 'solved' && seen.voltage / now.openVoltage).toBeCloseTo(1, 6);
    expect(seen.outcome === 'solved' && seen.resistance / now.resistance).toBeCloseTo(1, 5);
  });

  it.each([['highestFault', 1, 318.15], ['lowestFault', 0.1, 253.15]] as const)('has the %s current that the solved short shows at the ends', (which, stateOfCharge, cellTemperature) => {
    const { ask, results } = studied(twoStringCar);
    const solved = ask.solve({ withoutLoads: true, stateOfCharge, cellTemperature, bridges: [{ a: ends[0], b: ends[1], resistance: 1e-9 }] });
    expect(solved.outcome === 'solved' && solved.currentOf('bridge 1') / results.packs[0]!.figures![which].shortCircuit).toBeCloseTo(1, 4);
  });

  it('has the current that the solved short shows across one module', () => {
    // the other modules drive nothing through it: their way round is the short itself
    const { ask, results } = studied(bareCar(['M1', 'M2'], ['M1.pos M2.neg']));
    const solved = ask.solve({ bridges: [{ a: 'M2.pos', b: 'M2.neg', resistance: 1e-9 }] });
    expect(solved.outcome === 'solved' && solved.currentOf('bridge 1') / results.modules[1]!.shortCircuit).toBeCloseTo(1, 4);
  });

  it('gives its voltage-limited power when the weakest cell is just at its lowest voltage', () => {
    const { ask, car, results } = studied(twoStringCar);
    const { now } = results.packs[0]!.figures!;
    // current I of that power: I (V - I R) = P, the smaller root
    const current = (now.openVoltage - Math.sqrt(now.openVoltage ** 2 - 4 * now.resistance * now.voltageLimitedPower)) / (2 * now.resistance);
    const solved = ask.solve({ withoutLoads: true, bridges: [{ a: ends[0], b: ends[1], resistance: now.openVoltage / current - now.resistance }] });
    if (solved.outcome !== 'solved') throw new Error(solved.outcome);
    const cell = car.parts.get('A1')!.cell!;
    const lowest = Math.min(...['RA1', 'RB1'].map((run) => cell.voltage - solved.currentOf(run) * cell.resistance));
    expect(lowest).toBeCloseTo(3, 4);
    expect((solved.voltageOf(ends[0]) - solved.voltageOf(ends[1])) * solved.currentOf('bridge 1') / now.voltageLimitedPower).toBeCloseTo(1, 5);
    expect(now.voltageLimitedPower).toBeLessThan(now.matchedPower);
  });

  it('is held back by the 10 s current of the cells when they say it, and silent when they do not', () => {
    const { now, peakPower } = whole(twoStringCar);
    // two alike strings of 300 A each, but for 10 mΩ more or less in the leads
    expect(peakPower! / (600 * (now.openVoltage - 600 * now.resistance))).toBeCloseTo(1, 2);
    expect(peakPower!).toBeLessThan(now.voltageLimitedPower);
    expect(whole(replaced(twoStringCar, [', peak_discharge: 300 A', ''])).peakPower).toBeUndefined();
  });

  it('grows in resistance when cold as its cells do, links and bars left out', () => {
    const { byTemperature, now } = whole(bareCar(['M1', 'M2'], ['M1.pos M2.neg']));
    const cells = 24 * 1e-3;
    const factor = Math.exp((20_000 / 8.314462618) * (1 / 253.15 - 1 / 298.15));
    expect(byTemperature.map(({ cellTemperature }) => cellTemperature)).toEqual([253.15, 273.15, 298.15, 318.15]);
    expect(byTemperature[0]!.resistance - now.resistance).toBeCloseTo(cells * (factor - 1), 9);
    expect(byTemperature[2]!.resistance).toBeCloseTo(now.resistance, 12);
    expect(byTemperature[3]!.resistance).toBeLessThan(now.resistance);
  });

  it('holds the energy of all its cells, of which the part between the voltage limits can be used', () => {
    const { energy, usableEnergy, nominalVoltage, capacity } = whole(twoStringCar);
    // an independent sum: 1000 steps under the curve of the catalogue
    const { car } = goodCar(twoStringCar);
    const rows = car.catalogue.tables.get('cell.ocv.nmc')!.rows;
    const voltageAt = (charge: number): number => { const index = Math.max(1, rows.findIndex((point) => point[0]! >= charge)); const [a, b] = [rows[index - 1]!, rows[index]!]; return a[1]! + ((b[1]! - a[1]!) * (charge - a[0]!)) / (b[0]! - a[0]!); };
    let [sum, usable] = [0, 0];
    for (let step = 0; step < 10_000; step++) {
      const voltage = voltageAt((step + 0.5) / 10_000);
      sum += voltage / 10_000;
      if (voltage >= 3) usable += voltage / 10_000;
    }
    expect(energy / (96 * 60 * 3600 * sum)).toBeCloseTo(1, 4);
    expect(usableEnergy / (96 * 60 * 3600 * usable)).toBeCloseTo(1, 3);
    expect(energy / (nominalVoltage * capacity)).toBeCloseTo(1, 1);
  });

  it('is decided by the smallest module of a string', () => {
    const small = replaced(twoStringCar, ['cells:\n', 'cells:\n  worn: { chemistry: nmc, capacity: 40 Ah, resistance: 1 mΩ, minimum_voltage: 3.0 V, nominal_voltage: 3.65 V, maximum_voltage: 4.2 V }\n'], ['A2: { kind: battery_module, cell: used', 'A2: { kind: battery_module, cell: worn']);
    const string = studied(small).results.strings[0]!.figures!;
    const full = whole(twoStringCar);
    expect(string.capacity).toBe(40 * 3600);
    // 40 Ah from the top of 48 cells: more than 40/60 of the energy, because the top of the curve is higher
    expect(string.usableEnergy / (full.usableEnergy / 2)).toBeGreaterThan(40 / 60);
    expect(string.usableEnergy / (full.usableEnergy / 2)).toBeLessThan(44 / 60);
  });

  it('takes off the voltage of a reversed module twice', () => {
    const { now, series } = whole(bareCar(['M1', 'M2', 'M3'], ['M1.pos M2.pos', 'M2.neg M3.neg']));
    expect(series).toBe(12);
    expect(now.openVoltage).toBeCloseTo(12 * 3.806377, 6);
  });
});
