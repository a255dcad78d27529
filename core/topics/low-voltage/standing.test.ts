import { describe, expect, it } from 'vitest';
import { changed, lowVoltageCar, studied } from '../../../checks/fixtures/low-voltage-car.ts';

describe('the car left standing', () => {
  it('takes what its sleeping controller takes', () => {
    const bench = studied(lowVoltageCar);
    expect(bench.check('standing-drain', 'B').value).toBeCloseTo(0.002, 6);
    expect(bench.outcome('standing-drain', 'B')).toBe('holds');
    expect(bench.outcome('standing-time', 'B')).toBe('holds');
  });

  it('lasts 20 days on 60 Ah at 50 mA, 10 at 100 mA (0.4 Ah / 24 I)', () => {
    const with50 = changed(['standby_current: 2 mA', 'standby_current: 50 mA']);
    expect(with50.check('standing-time', 'B').value! / 86_400).toBeCloseTo(20, 2);
    const with100 = changed(['standby_current: 2 mA', 'standby_current: 100 mA']);
    expect(with100.check('standing-time', 'B').value! / 86_400).toBeCloseTo(10, 2);
    expect(with100.outcome('standing-time', 'B')).toBe('broken');
    expect(with100.outcome('standing-drain', 'B')).toBe('broken');
  });

  it('without any drain counts as a year', () => {
    const none = changed(['standby_current: 2 mA, ', '']);
    expect(none.check('standing-time', 'B').value! / 86_400).toBeCloseTo(365, 6);
    expect(none.outcome('standing-drain', 'B')).toBe('holds');
  });
});
