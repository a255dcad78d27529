import { describe, expect, it } from 'vitest';
import { carOf, changed, checksOf, highVoltageCar, verdict } from '../../../checks/fixtures/high-voltage-car.ts';
import { studyFuses } from './fuses.ts';

const study = (text: string) => {
  const { car, ask } = carOf(text);
  return studyFuses(car, ask);
};
const of = (text: string, code: string, about: string, variant?: string) => verdict(checksOf(study(text).checks, code, about).find((check) => variant === undefined || check.variant === variant));
/** F1 with one value replaced or left out. */
const f1 = (from: string, to: string): string => changed("F1: { kind: hv_fuse, rating: 315 A, style: partial_range, voltage_rating: 500 V, breaking_capacity: 20 kA, minimum_breaking: 800 A, time_constant_rating: 2 ms, melting_energy: 15 kA²s, clearing_energy: 50 kA²s }",
  "F1: { kind: hv_fuse, rating: 315 A, style: partial_range, voltage_rating: 500 V, breaking_capacity: 20 kA, minimum_breaking: 800 A, time_constant_rating: 2 ms, melting_energy: 15 kA²s, clearing_energy: 50 kA²s }".replace(from, to));

describe('studyFuses', () => {
  it('says nothing about a car without fuses on its high-voltage side', () => {
    expect(study('halfshaft: 1\nname: t\n')).toEqual({ results: [], checks: [] });
    expect(study('halfshaft: 1\nname: t\nparts: { F: { kind: fuse, rating: 10 A, style: blade } }\n')).toEqual({ results: [], checks: [] });
  });

  it('judges the lasting load against rating, air and load factor', () => {
    expect(of(highVoltageCar, 'fuse-continuous-current', 'F1')).toBe('holds');
    expect(of(f1('rating: 315 A', 'rating: 125 A'), 'fuse-continuous-current', 'F1')).toBe('broken');
    expect(of(f1('rating: 315 A', 'rating: 150 A, ambient: 30 °C'), 'fuse-continuous-current', 'F1')).toBe('holds');
    expect(of(f1('rating: 315 A', 'rating: 150 A, ambient: 90 °C'), 'fuse-continuous-current', 'F1')).toBe('broken');
    const withoutModes = highVoltageCar.slice(0, highVoltageCar.indexOf('modes:'));
    expect(of(withoutModes, 'fuse-continuous-current', 'F1')).toBe('unknown');
  });

  it('breaks, not fails, in air at which a fuse may carry nothing', () => {
    const [check] = checksOf(study(f1('rating: 315 A', 'rating: 315 A, ambient: 140 °C')).checks, 'fuse-continuous-current', 'F1');
    expect(check).toMatchObject({ limit: 0 });
    expect(verdict(check)).toBe('broken');
  });

  it('judges the rms of the repeated load, when it is known how soon it comes again', () => {
    expect(of(highVoltageCar, 'fuse-duty-current', 'F1', 'boost')).toBe('holds');
    expect(of(f1('rating: 315 A', 'rating: 200 A'), 'fuse-duty-current', 'F1', 'boost')).toBe('broken');
    expect(of(changed(', every: 120 s', ''), 'fuse-duty-current', 'F1', 'boost')).toBe('not made');
  });

  it('judges long pulses on a full-range fuse by the gate table, short ones by melting I²t', () => {
    expect(of(f1('style: partial_range', 'style: full_range'), 'fuse-pulse-current', 'F1', 'boost')).toBe('holds');
    expect(of(f1('rating: 315 A, style: partial_range', 'rating: 125 A, style: full_range'), 'fuse-pulse-current', 'F1', 'boost')).toBe('broken');
    const short = (text: string): string => changed('boost: { lasts: 10 s', 'boost: { lasts: 50 ms', text);
    // 264 A for 50 ms: 3.5 kA²s against 22 % of 15 kA²s
    expect(of(short(highVoltageCar), 'fuse-pulse-energy', 'F1', 'boost')).toBe('broken');
    expect(of(short(f1('melting_energy: 15 kA²s', 'melting_energy: 18 kA²s')), 'fuse-pulse-energy', 'F1', 'boost')).toBe('holds');
    expect(of(short(f1(', melting_energy: 15 kA²s', '')), 'fuse-pulse-energy', 'F1', 'boost')).toBe('unknown');
  });

  it('judges the voltage rating against the cells at their highest', () => {
    expect(of(f1('voltage_rating: 500 V', 'voltage_rating: 404 V'), 'fuse-voltage-rating', 'F1')).toBe('holds');
    expect(of(f1('voltage_rating: 500 V', 'voltage_rating: 400 V'), 'fuse-voltage-rating', 'F1')).toBe('broken');
    expect(of(f1('voltage_rating: 500 V, ', ''), 'fuse-voltage-rating', 'F1')).toBe('unknown');
  });

  it('does not judge a voltage while cells are missing from the count', () => {
    const text = changed('M3: { kind: battery_module, cell: used, series: 24 }', 'M3: { kind: battery_module, cell: used }');
    expect(of(text, 'fuse-voltage-rating', 'F1')).toBe('unknown');
  });

  it('judges breaking capacity against a short right behind the fuse', () => {
    expect(of(highVoltageCar, 'fuse-breaking-capacity', 'F1')).toBe('holds');
    expect(of(f1('breaking_capacity: 20 kA', 'breaking_capacity: 4 kA'), 'fuse-breaking-capacity', 'F1')).toBe('broken');
    expect(of(f1('breaking_capacity: 20 kA, ', ''), 'fuse-breaking-capacity', 'F1')).toBe('unknown');
    const { results } = study(highVoltageCar);
    const highest = results.map(({ highestFault }) => highestFault!);
    // every fuse lies in the one string: a short behind it is at most that across the battery
    expect(Math.max(...highest) / Math.min(...highest)).toBeCloseTo(1, 6);
  });

  it('judges the lowest fault of a partial-range fuse, leaving out what a smaller fuse ends first', () => {
    const result = (text: string) => study(text).results.find(({ part }) => part === 'F1')!;
    const checks = study(highVoltageCar).checks;
    expect(checksOf(checks, 'fuse-minimum-breaking', 'F1')[0]).toMatchObject({ details: { at: 'INV' } });
    expect(of(highVoltageCar, 'fuse-minimum-breaking', 'F1')).toBe('holds');
    // a branch fuse that is slower than the main one leaves the branch to the main one
    const slowBranch = changed('melting_energy: 300 A²s, clearing_energy: 900 A²s', 'melting_energy: 9 kA²s, clearing_energy: 30 kA²s');
    expect(result(slowBranch).lowestFault).toBeLessThan(result(highVoltageCar).lowestFault!);
    expect(of(slowBranch, 'fuse-minimum-breaking', 'F1')).toBe('broken');
    expect(of(f1('minimum_breaking: 800 A', 'minimum_breaking: 900 A'), 'fuse-minimum-breaking', 'F1')).toBe('broken');
    expect(of(f1('minimum_breaking: 800 A, ', ''), 'fuse-minimum-breaking', 'F1')).toBe('unknown');
    expect(of(f1('style: partial_range', 'style: full_range'), 'fuse-minimum-breaking', 'F1')).toBe('not made');
  });

  it('does not blame a fuse for a fault that a smaller one may end, when its sheet does not say', () => {
    const noSheet = changed('melting_energy: 300 A²s, clearing_energy: 900 A²s', 'melting_energy: 300 A²s');
    expect(checksOf(study(noSheet).checks, 'fuse-minimum-breaking', 'F1')[0]).toMatchObject({ needs: ['parts.F2.clearing_energy'], details: { at: 'DC' } });
    expect(of(noSheet, 'fuse-minimum-breaking', 'F1')).toBe('unknown');
  });

  it('judges how fast the lowest fault melts a partial-range fuse', () => {
    expect(of(highVoltageCar, 'fuse-melts', 'F1')).toBe('holds');
    expect(of(f1('melting_energy: 15 kA²s, clearing_energy: 50 kA²s', 'melting_energy: 90 kA²s, clearing_energy: 300 kA²s'), 'fuse-melts', 'F1')).toBe('broken');
    expect(of(f1('melting_energy: 15 kA²s, ', ''), 'fuse-melts', 'F1')).toBe('unknown');
  });

  it('reminds that a partial-range fuse clears no overload', () => {
    expect(of(highVoltageCar, 'fuse-clears-overload', 'F1')).toBe('broken');
    expect(of(f1('style: partial_range', 'style: full_range'), 'fuse-clears-overload', 'F1')).toBe('holds');
  });

  it('judges whether the lowest fault opens a full-range fuse within seconds', () => {
    expect(of(highVoltageCar, 'fuse-opens-lowest-fault', 'F2')).toBe('holds');
    // 860 A do not surely open 250 A (gate 1650 A)
    expect(of(f1('rating: 315 A, style: partial_range', 'rating: 250 A, style: full_range'), 'fuse-opens-lowest-fault', 'F1')).toBe('broken');
  });

  it('believes a declared melting I²t before the gate of a slower fuse', () => {
    // 2 kA²s nominally melts in 10 ms at 447 A, surely at 1.2 times that; the cold fault has 860 A
    const [check] = checksOf(study(f1('rating: 315 A, style: partial_range, voltage_rating: 500 V, breaking_capacity: 20 kA, minimum_breaking: 800 A, time_constant_rating: 2 ms, melting_energy: 15 kA²s', 'rating: 250 A, style: full_range, voltage_rating: 500 V, breaking_capacity: 20 kA, minimum_breaking: 800 A, time_constant_rating: 2 ms, melting_energy: 2 kA²s')).checks, 'fuse-opens-lowest-fault', 'F1');
    expect(check).toMatchObject({ limit: expect.closeTo(1.2 * Math.sqrt(2e3 / 0.01), 6), details: { within: { value: 0.01 } } });
    expect(verdict(check)).toBe('holds');
  });

  it('judges L/R of the loop', () => {
    expect(of(highVoltageCar, 'fuse-time-constant', 'F1')).toBe('holds');
    expect(of(f1('time_constant_rating: 2 ms', 'time_constant_rating: 0.05 ms'), 'fuse-time-constant', 'F1')).toBe('broken');
    expect(of(f1('time_constant_rating: 2 ms, ', ''), 'fuse-time-constant', 'F1')).toBe('unknown');
    const noLength = changed('W1: { from: JP.stud_2, to: INV.pos, stock: thick, length: 2 m,', 'W1: { from: JP.stud_2, to: INV.pos, stock: thick,');
    expect(checksOf(study(noLength).checks, 'fuse-time-constant', 'F1')[0]).toMatchObject({ needs: ['runs.W1.length'] });
  });

  it('notices a fuse that lies in nobody’s way', () => {
    expect(of(highVoltageCar, 'fuse-protects-something', 'F2')).toBe('holds');
    const loose = changed('W4: { from: F2.out, to: DC.pos,', 'W4: { from: F1.out, to: DC.pos,');
    expect(of(loose, 'fuse-protects-something', 'F2')).toBe('broken');
  });

  it('judges whether a branch fuse leaves the fuses it hangs on whole', () => {
    const pairs = (text: string) => checksOf(study(text).checks, 'fuse-is-selective').map((check) => [...check.about, verdict(check)].join(' '));
    expect(pairs(highVoltageCar)).toEqual(['F2 MSD holds', 'F2 F1 holds']);
    expect(pairs(changed('clearing_energy: 900 A²s', 'clearing_energy: 16 kA²s'))).toEqual(['F2 MSD holds', 'F2 F1 broken']);
    expect(pairs(changed(', clearing_energy: 900 A²s', ''))).toEqual(['F2 MSD unknown', 'F2 F1 unknown']);
    // two fuses of the same loop and nearly the same rating are no branch of each other
    expect(pairs(changed('F2: { kind: hv_fuse, rating: 20 A', 'F2: { kind: hv_fuse, rating: 250 A'))).toEqual([]);
  });

  it('asks nothing of heat from a disconnect that opens on a command', () => {
    const pyro = changed('F2: { kind: hv_fuse, rating: 20 A, style: full_range, voltage_rating: 500 V, breaking_capacity: 20 kA, time_constant_rating: 2 ms, melting_energy: 300 A²s, clearing_energy: 900 A²s }', 'F2: { kind: pyro_fuse, rating: 400 A, voltage_rating: 500 V, breaking_capacity: 16 kA, time_constant_rating: 1 ms }');
    const about = (code: string) => of(pyro, code, 'F2');
    expect(['fuse-voltage-rating', 'fuse-breaking-capacity', 'fuse-continuous-current', 'fuse-time-constant'].map(about)).toEqual(['holds', 'holds', 'holds', 'holds']);
    expect(['fuse-melts', 'fuse-minimum-breaking', 'fuse-opens-lowest-fault', 'fuse-pulse-current'].map(about)).toEqual(['not made', 'not made', 'not made', 'not made']);
  });
});
