import { describe, expect, it } from 'vitest';
import { carOf, changed, checksOf, highVoltageCar, verdict } from '../../../checks/fixtures/high-voltage-car.ts';
import { prechargeCar } from '../../../checks/fixtures/precharge-car.ts';
import { studyContactors } from './contactors.ts';

const study = (text: string) => {
  const { car, ask } = carOf(text);
  return studyContactors(car, ask);
};
const of = (text: string, code: string, about = 'KP') => verdict(checksOf(study(text).checks, code, about)[0]);
const kp = (from: string, to: string): string => {
  const line = 'KP: { kind: contactor, rating: 250 A, voltage_rating: 900 V, breaking_current: 2000 A, coil_voltage: 12 V, coil_current: 0.4 A }';
  return changed(line, line.replace(from, to));
};

describe('studyContactors', () => {
  it('says nothing about a car without high-voltage contacts, nor about what is pulled by hand', () => {
    expect(study('halfshaft: 1\nname: t\nparts: { S: { kind: switch } }\n')).toEqual({ results: [], checks: [] });
    expect(study(highVoltageCar).results.map(({ part }) => part)).toEqual(['KP', 'KN']);
  });

  it('judges the lasting current', () => {
    expect(of(highVoltageCar, 'contactor-continuous-current')).toBe('holds');
    expect(of(kp('rating: 250 A', 'rating: 100 A'), 'contactor-continuous-current')).toBe('broken');
    expect(of(highVoltageCar.slice(0, highVoltageCar.indexOf('modes:')), 'contactor-continuous-current')).toBe('unknown');
  });

  it('judges the rms of the repeated load', () => {
    expect(of(highVoltageCar, 'contactor-duty-current')).toBe('holds');
    expect(of(kp('rating: 250 A', 'rating: 120 A'), 'contactor-duty-current')).toBe('broken');
    expect(of(changed(', every: 120 s', ''), 'contactor-duty-current')).toBe('not made');
  });

  it('judges the voltage rating', () => {
    expect(of(highVoltageCar, 'contactor-voltage-rating')).toBe('holds');
    expect(of(kp('voltage_rating: 900 V', 'voltage_rating: 400 V'), 'contactor-voltage-rating')).toBe('broken');
    expect(of(changed('M3: { kind: battery_module, cell: used, series: 24 }', 'M3: { kind: battery_module, cell: used }'), 'contactor-voltage-rating')).toBe('unknown');
  });

  it('judges the heaviest load of any mode against what the contact can break', () => {
    expect(checksOf(study(highVoltageCar).checks, 'contactor-breaks-load', 'KP')[0]).toMatchObject({ details: { mode: 'boost' } });
    expect(of(highVoltageCar, 'contactor-breaks-load')).toBe('holds');
    expect(of(kp('breaking_current: 2000 A', 'breaking_current: 250 A'), 'contactor-breaks-load')).toBe('broken');
    expect(of(kp('breaking_current: 2000 A, ', ''), 'contactor-breaks-load')).toBe('unknown');
  });

  it('lets a fuse end what the contact cannot break', () => {
    // 865 A is within 2000 A; 6.8 kA is not, but melts the fuse in under a millisecond
    expect(of(highVoltageCar, 'contactor-opens-after-fuse')).toBe('holds');
    // 500 A is less than the cold fault, whose clearing takes longer than 12 ms
    expect(of(kp('breaking_current: 2000 A', 'breaking_current: 500 A'), 'contactor-opens-after-fuse')).toBe('broken');
    // a fuse that melts it in 5 ms and a contact that lets go in a second at the most, 0.4 s at the least
    const quick = changed('melting_energy: 15 kA²s, clearing_energy: 50 kA²s', 'melting_energy: 4 kA²s, clearing_energy: 12 kA²s', kp('breaking_current: 2000 A', 'breaking_current: 500 A, release_time: 1 s'));
    expect(of(quick, 'contactor-opens-after-fuse')).toBe('holds');
    // the release on a sheet is the slowest: 13 ms of fuse against 20 ms of sheet is too near
    expect(of(quick.replace('release_time: 1 s', 'release_time: 20 ms'), 'contactor-opens-after-fuse')).toBe('broken');
    const noSheet = changed('melting_energy: 20 kA²s, clearing_energy: 60 kA²s', 'melting_energy: 20 kA²s', changed('melting_energy: 15 kA²s, clearing_energy: 50 kA²s', 'melting_energy: 15 kA²s', kp('breaking_current: 2000 A, ', '')));
    const [check] = checksOf(study(noSheet).checks, 'contactor-opens-after-fuse', 'KP');
    expect(verdict(check)).toBe('unknown');
    expect(check!.needs).toContain('parts.KP.breaking_current');
  });

  it('has a finite ratio for a contact that may break nothing', () => {
    const slow = changed('melting_energy: 20 kA²s, clearing_energy: 60 kA²s', 'melting_energy: 900 kA²s, clearing_energy: 990 kA²s', changed('melting_energy: 15 kA²s, clearing_energy: 50 kA²s', 'melting_energy: 900 kA²s, clearing_energy: 990 kA²s', kp('breaking_current: 2000 A', 'breaking_current: 1 mA')));
    const [check] = checksOf(study(slow).checks, 'contactor-opens-after-fuse', 'KP');
    expect(Number.isFinite(check!.value)).toBe(true);
    expect(verdict(check)).toBe('broken');
  });

  it('takes for a precharge contact the current at the start, not the one left when the links are full', () => {
    const { car, ask } = carOf(prechargeCar.replace('PR: { kind: precharge_resistor,', 'PR: { kind: precharge_resistor, breaking_current: 10 A,'));
    const [check] = checksOf(studyContactors(car, ask).checks, 'contactor-breaks-load', 'PR');
    // 403.2 V over 60 Ω
    expect(check!.value).toBeCloseTo(403.2 / 60, 6);
    expect(check).toMatchObject({ details: { mode: 'precharge' } });
  });
});
