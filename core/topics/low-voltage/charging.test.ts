import { describe, expect, it } from 'vitest';
import { changed, lowVoltageCar, studied } from '../../../checks/fixtures/low-voltage-car.ts';

const bench = studied(lowVoltageCar);
const set = (voltage: string): readonly [string, string] => ['output_voltage: 13.8 V', `output_voltage: ${voltage}`];
const chemistry = (word: string): readonly [string, string] => ['chemistry: agm', `chemistry: ${word}`];

describe('what the low-voltage battery is charged with', () => {
  it('is nothing that a car without a DC-DC says anything of', () => {
    const text = lowVoltageCar.replace(/ {2}DC: .*\n/, '').replace(/ {2}H2: .*\n/, '').replace(/ {2}H3: .*\n/, '').replace(/ {2}rd: .*\n/, '').replace(/ {2}rg: .*\n/, '');
    expect(studied(text).outcome('battery-charge-voltage', 'B')).toBe('none');
  });

  it('fits a glass mat battery at 13.8 V, and not at 15.6 V', () => {
    expect(bench.outcome('battery-charge-voltage', 'B')).toBe('holds');
    expect(bench.outcome('battery-charge-enough', 'B')).toBe('holds');
    const high = changed(set('15.6 V'));
    expect(high.outcome('battery-charge-voltage', 'B')).toBe('broken');
    expect(high.findings.find(({ code }) => code === 'low-voltage.battery-charge-voltage')).toMatchObject({ level: 'fix', limit: expect.closeTo(14.7, 9) });
  });

  it('may be a little more for liquid acid, and less for iron phosphate', () => {
    expect(changed(set('14.9 V'), chemistry('flooded')).check('battery-charge-voltage', 'B').limit).toBeCloseTo(14.8, 9);
    expect(changed(set('14.9 V'), chemistry('lfp')).check('battery-charge-voltage', 'B').limit).toBeCloseTo(14.6, 9);
    expect(changed(set('14.9 V'), chemistry('lfp')).outcome('battery-charge-voltage', 'B')).toBe('broken');
  });

  it('never fills it at 12.9 V', () => {
    const low = changed(set('12.9 V'));
    expect(low.findings.find(({ code }) => code === 'low-voltage.battery-charge-enough')).toMatchObject({ level: 'watch' });
  });
});
