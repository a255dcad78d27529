import { describe, expect, it } from 'vitest';
import { carOf, changed, checksOf, highVoltageCar, verdict } from '../../../checks/fixtures/high-voltage-car.ts';
import { knownOf, studyFaultCurrents } from './fault-currents.ts';
import { studyRunProtection } from './run-protection.ts';

const study = (text: string) => {
  const { car, ask, problems } = carOf(text);
  expect(problems).toEqual([]);
  const known = knownOf(car, ask);
  return { known, ...studyFaultCurrents(car, ask, known) };
};
const protectedAt = (text: string) => checksOf(study(text).checks, 'conductors-protected');

const bar = 'R2: { from: M2.pos, to: MSD.in, stock: bar, length: 150 mm }';
/** Two boxes: the string goes on through 1.5 m of cable beside the one from the negative end. */
const twoBoxes = (more = '') => changed(bar, `R2: { from: M2.pos, to: MSD.in, stock: thick, length: 1.5 m${more} }`, changed('R8: { from: M1.neg, to: KN.in, stock: thick, length: 400 mm }', 'R8: { from: M1.neg, to: KN.in, stock: thick, length: 1.6 m }'));

describe('shorts between conductors', () => {
  it('are not looked for where no cable leaves its box in the string', () => {
    expect(protectedAt('halfshaft: 1\nname: t\n')).toEqual([]);
    expect(protectedAt(highVoltageCar).map(({ about }) => about)).toEqual([]);
  });

  it('stop a string whose cable to the other box shorts half of it through no fuse', () => {
    const { checks, known } = study(twoBoxes());
    const [between] = checksOf(checks, 'conductors-protected').filter(({ about }) => about[0] === 'R2' && about[1] === 'R8');
    expect(between).toMatchObject({ value: 0, limit: 1 });
    expect(between).not.toHaveProperty('levelWhenBroken');
    expect(verdict(between)).toBe('broken');
    // M1 and M2, 48 cells
    const fault = known.faults.cases.find(({ where, at, other }) => where === 'conductors' && at === 'R2' && other === 'R8')!;
    const pack = known.faults.cases.find(({ where }) => where === 'pack')!;
    expect(fault.voltage / pack.voltage).toBeCloseTo(0.5, 2);
    expect(fault.current).toBeGreaterThan(2000);
    // the fuse of the disconnect lies on the other side of it
    expect(checksOf(checks, 'conductors-protected').filter(({ about }) => about[0] === 'R2' && about[1] !== 'R8').every(({ value }) => value !== undefined && value >= 1)).toBe(true);
  });

  it('let it be with a fuse at each of its ends, or when it lies alone', () => {
    const fuse = '  FM: { kind: hv_fuse, rating: 315 A, style: partial_range, voltage_rating: 500 V, breaking_capacity: 20 kA, minimum_breaking: 800 A, time_constant_rating: 2 ms, melting_energy: 15 kA²s, clearing_energy: 50 kA²s }\n  MSD: {';
    const fused = changed('R2: { from: M2.pos, to: MSD.in', 'R2a: { from: M2.pos, to: FM.in, stock: bar, length: 100 mm }\n  R2: { from: FM.out, to: MSD.in', changed('  MSD: {', fuse, twoBoxes()));
    const checks = protectedAt(fused);
    expect(checks.length).toBeGreaterThan(0);
    expect(checks.every((check) => verdict(check) === 'holds')).toBe(true);
    expect(protectedAt(twoBoxes(', alone: yes'))).toEqual([]);
  });

  it('ask for the length of a cable that has none', () => {
    const unknown = protectedAt(changed('stock: thick, length: 1.5 m }', 'stock: thick }', twoBoxes())).find(({ about }) => about[1] === 'R8');
    expect(unknown).toMatchObject({ needs: ['runs.R2.length'] });
    expect(verdict(unknown)).toBe('unknown');
  });

  it('lie between the two buses when each branch has a fuse of its own', () => {
    // F2 is all that hangs on the positive bus, so nothing with both poles shows what a spanner across the buses drives
    const buses = changed('W1: { from: JP.stud_2, to: INV.pos,', 'W0: { from: JP.stud_2, to: FI.in, stock: bar, length: 60 mm }\n  W1: { from: FI.out, to: INV.pos,', changed('  F2: {', '  FI: { kind: hv_fuse, rating: 250 A, style: full_range, voltage_rating: 500 V }\n  F2: {'));
    const { known } = study(buses);
    const fault = known.faults.cases.find(({ where, at, other }) => where === 'conductors' && [at, other].join() === 'W2,JP')!;
    expect(fault.openings.map(({ fuse }) => fuse.part)).toEqual(['MSD', 'F1']);
  });

  it('lie at the ends of leads that no other short flows through', () => {
    // measuring lead of 0.5 mm² behind 315 A, to a stud with nothing behind it
    const tapped = changed('  L1: {', '  T1: { from: JP.stud_1, to: TAP.stud, stock: thin, conductor_area: 0.5 mm², length: 300 mm }\n  L1: {', changed('  B12: {', '  TAP: { kind: stud }\n  B12: {'));
    const { car, ask } = carOf(tapped);
    const known = knownOf(car, ask);
    expect(known.faults.cases.filter(({ where }) => where === 'lead').map(({ at, end }) => [at, end])).toEqual([['T1', 'high'], ['T1', 'low']]);
    const { checks } = studyRunProtection(car, ask, known);
    expect(verdict(checksOf(checks, 'run-has-protection', 'T1')[0])).toBe('holds');
    expect(verdict(checksOf(checks, 'run-short-circuit', 'T1')[0])).toBe('broken');
    // the cold fault melts the main fuse in 20 ms, too slowly to count on: 860 A for 5 s
    const thick = carOf(tapped.replace(', conductor_area: 0.5 mm²', ', conductor_area: 16 mm²').replace('stock: thin, conductor_area: 16', 'stock: thick, outside_diameter: 9 mm, conductor_area: 16'));
    expect(thick.problems).toEqual([]);
    expect(verdict(checksOf(studyRunProtection(thick.car, thick.ask).checks, 'run-short-circuit', 'T1')[0])).toBe('holds');
    expect(checksOf(checks, 'run-overload', 'T1')).toEqual([]);
  });
});
