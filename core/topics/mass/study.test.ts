import { describe, expect, it } from 'vitest';
import { carFromText } from '../../../checks/fixtures/car-from-text.ts';
import type { Check } from '../../findings/finding.ts';
import { judge, marginOf } from '../../findings/judge.ts';
import { mass } from './study.ts';

const study = (text: string): ReturnType<typeof mass.study> => {
  const { car, ask } = carFromText(text);
  return mass.study(car, ask);
};
const find = (checks: readonly Check[], code: string): Check => checks.find((check) => check.code === code) as Check;

/** Statics by hand: 950 kg, wheelbase 2.4 m; out go 150 and 45 kg, in come 85, 25, 180 and 60 kg. */
const replaced = `halfshaft: 1
name: worked
vehicle: { wheelbase: 2.4 m, front_track: 1.4 m, rear_track: 1.4 m, front_axle_load: 520 kg, rear_axle_load: 430 kg, left_load: 475 kg, centre_of_gravity_height: 0.6 m, front_axle_rating: 600 kg label, rear_axle_rating: 540 kg label, total_rating: 1150 kg label }
removed:
  engine: { mass: 150 kg, at: [-50, 0, 600 mm] }
  tank: { mass: 45 kg, at: [2650, 0, 600 mm] }
parts:
  drive: { kind: ballast, mass: 85 kg, at: [100, 0, 600 mm] }
  charger: { kind: ballast, mass: 25 kg, at: [300, 0, 600 mm] }
  pack: { kind: ballast, mass: 180 kg, at: [2000, 0, 600 mm] }
  front: { kind: ballast, mass: 60 kg, at: [-100, 0, 600 mm] }
`;

describe('the mass of a converted vehicle', () => {
  it('is unknown, not zero, when the file says nothing of the vehicle', () => {
    const { results, checks } = study('halfshaft: 1\nname: empty\n');
    expect(results.after).toBeUndefined();
    expect(find(checks, 'mass.total').needs).toContain('vehicle.front_axle_load');
    expect(checks.filter((check) => check.code !== 'mass.all-weighed').every((check) => marginOf(check) === undefined)).toBe(true);
  });
  it('agrees with moments taken by hand', () => {
    const { after } = study(replaced).results;
    // mechanical reference notes, section 1, "replaced drivetrain": total 1105.0, front 567.396, rear 537.604 kg, centre 1.16765 m
    expect(after?.total).toBeCloseTo(1105, 6);
    expect(after?.front).toBeCloseTo(567.396, 3);
    expect(after?.rear).toBeCloseTo(537.604, 3);
    expect(after?.centreX).toBeCloseTo(1.16765, 5);
    expect(after?.centreZ).toBeCloseTo(0.6, 9);
    expect(after?.left).toBeCloseTo(552.5, 6);
  });
  it('holds within the ratings and breaks beyond them', () => {
    expect(marginOf(find(study(replaced).checks, 'mass.rear-axle'))).toBeGreaterThan(0);
    expect(marginOf(find(study(replaced.replace('rear_axle_rating: 540', 'rear_axle_rating: 530')).checks, 'mass.rear-axle'))).toBeLessThan(0);
  });
  it('says what one part without a mass leaves open, and names it', () => {
    const { build } = carFromText(replaced);
    const { checks } = study(replaced.replace('pack: { kind: ballast, mass: 180 kg, at: [2000, 0, 600 mm] }', 'pack: { kind: ballast, at: [2000, 0, 600 mm] }'));
    expect(find(checks, 'mass.total').needs).toContain('parts.pack.mass');
    const finding = judge(checks, { places: build.places, units: 'metric' }).find(({ code, about }) => code === 'mass.all-weighed' && about[0] === 'pack');
    expect(finding).toMatchObject({ level: 'unknown', needs: ['parts.pack.mass'] });
  });
  it('notices sides that differ and a centre that rises', () => {
    const lopsided = study(replaced.replace('mass: 180 kg, at: [2000, 0, 600 mm]', 'mass: 180 kg, at: [2000, 500, 900 mm]')).checks;
    expect(marginOf(find(lopsided, 'mass.sides'))).toBeLessThan(0);
    expect(marginOf(find(lopsided, 'mass.centre-height'))).toBeLessThan(0);
  });
});
