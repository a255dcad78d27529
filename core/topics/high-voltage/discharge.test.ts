import { describe, expect, it } from 'vitest';
import { carOf } from '../../../checks/fixtures/high-voltage-car.ts';
import { edited, prechargeCar, studied } from '../../../checks/fixtures/precharge-car.ts';
import { studyDischarge } from './discharge.ts';

const study = (text: string) => studied(studyDischarge, text);
const noBleeder = edited(prechargeCar, ['bleeder: 47 kΩ, ', '']);
const nothing = edited(noBleeder, ['active_discharge_time: 3 s, ', '']);

describe('discharge of strange cars', () => {
  it('says nothing about a car without parts', () => {
    const { car, ask } = carOf('halfshaft: 1\nname: t\n');
    expect(studyDischarge(car, ask)).toEqual({ results: [], checks: [] });
  });

  it('says nothing of a link that no mode connects: its voltage is not known', () => {
    expect(study(prechargeCar.slice(0, prechargeCar.indexOf('modes:'))).checks).toEqual([]);
  });

  it('asks for no discharge in class A', () => {
    const classA = edited(prechargeCar.replaceAll('series: 24 }', 'series: 3 }'), ['minimum_voltage: 200 V, y_capacitance: 0.2', 'minimum_voltage: 20 V, y_capacitance: 0.2']);
    expect(study(classA)).toMatchObject({ results: [], checks: [] });
  });

  it('leaves a link across the pack for good to the check that it is dead when off', () => {
    const always = edited(prechargeCar, ['R7: { from: KP.out', 'R7: { from: F1.out'], ['R9: { from: KN.out', 'R9: { from: M1.neg']);
    expect(study(always).results).toEqual([]);
  });
});

describe('discharge', () => {
  it('takes R C ln(V/60) through the bleeder, for all capacitors that stay joined', () => {
    const { results, find } = study(prechargeCar);
    expect(results).toHaveLength(1);
    expect(results[0]).toMatchObject({ links: ['INV', 'DC', 'HT'], resistance: 47_000 });
    expect(results[0]!.passiveTime).toBeCloseTo(47_000 * 0.000811 * Math.log(403.2 / 60), 6);
    expect(find('discharge-passive').level).toBe('holds');
    expect(find('discharge-present').level).toBe('holds');
  });

  it('breaks with a bleeder that is too large, and says which would do', () => {
    const { results, find } = study(edited(prechargeCar, ['bleeder: 47 kΩ', 'bleeder: 470 kΩ']));
    expect(find('discharge-passive').level).toBe('fix');
    // the one it names just does it
    expect(results[0]!.bleederForLimit! * 0.000811 * Math.log(403.2 / 60)).toBeCloseTo(120, 6);
  });

  it('scales active discharge to all capacitors on the poles and to the voltage of the pack', () => {
    const { results, find } = study(prechargeCar);
    expect(results[0]!.activeBy).toBe('INV');
    expect(results[0]!.activeTime).toBeCloseTo(3 * (811 / 800) * (Math.log(403.2 / 60) / Math.log(450 / 60)), 6);
    expect(find('discharge-active', 'INV').level).toBe('holds');
    expect(study(edited(prechargeCar, ['active_discharge_time: 3 s', 'active_discharge_time: 9 s'])).find('discharge-active').level).toBe('fix');
  });

  it('agrees with the network: with the discharge switch closed, R C ln(V/60) is the scaled time', () => {
    const { car, ask } = carOf(noBleeder);
    const seen = ask.thevenin({ set: { INV: { discharge: true } } }, 'INV.pos', 'INV.neg');
    if (seen.outcome !== 'solved') throw new Error(seen.outcome);
    // megohms of leakage lie beside it
    expect(studyDischarge(car, ask).results[0]!.activeTime! / (seen.resistance * 0.000811 * Math.log(403.2 / 60))).toBeCloseTo(1, 2);
  });

  it('lets the leaks alone count as slow when there is no bleeder', () => {
    const { results, find } = study(noBleeder);
    expect(results[0]!.bleederPower).toBe(0);
    expect(find('discharge-present').level).toBe('holds');
    expect(find('discharge-passive').level).toBe('fix');
    expect(find('discharge-passive').statement).toContain('leaks alone');
  });

  it('stops a capacitor that nothing empties', () => {
    expect(study(nothing).find('discharge-present')).toMatchObject({ level: 'stop', value: 0 });
  });

  it('warns of plugs that stay live for more than a second', () => {
    expect(study(prechargeCar).find('discharge-at-plug').level).toBe('watch');
    expect(study(edited(prechargeCar, ['active_discharge_time: 3 s', 'active_discharge_time: 0.8 s'])).find('discharge-at-plug').level).toBe('holds');
    const unplugged = prechargeCar.replace(/ {2}H\d: .*\n/g, '').replaceAll(', interlock: yes', '');
    expect(study(unplugged).checks.filter(({ code }) => code === 'high-voltage.discharge-at-plug')).toEqual([]);
  });

  it('leaves charges below 60 µC alone', () => {
    const tiny = edited(nothing, ['link_capacitance: 0.8 mF', 'link_capacitance: 50 nF'], ['DC: { kind: dcdc,', 'DC: { kind: dcdc, link_capacitance: 10 nF,'], ['HT: { kind: hv_heater,', 'HT: { kind: hv_heater, link_capacitance: 10 nF,']);
    const { results, checks } = study(tiny);
    expect(results[0]).toMatchObject({ isExempt: true });
    expect(checks).toEqual([]);
  });
});
