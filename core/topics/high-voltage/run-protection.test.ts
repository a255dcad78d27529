import { describe, expect, it } from 'vitest';
import { carOf, changed, checksOf, highVoltageCar, verdict } from '../../../checks/fixtures/high-voltage-car.ts';
import { knownOf, studyFaultCurrents } from './fault-currents.ts';
import { studyRunProtection } from './run-protection.ts';

const study = (text: string) => {
  const { car, ask } = carOf(text);
  return studyRunProtection(car, ask);
};
const of = (text: string, code: string, about: string) => verdict(checksOf(study(text).checks, code, about)[0]);
const fuseless = (text: string): string => changed(', fuse_rating: 350 A, fuse_style: partial_range, breaking_capacity: 20 kA, minimum_breaking: 900 A, time_constant_rating: 2 ms, melting_energy: 20 kA²s, clearing_energy: 60 kA²s', '', text);
/** The same car with a bar in place of the main fuse. */
const noMainFuse = changed('  F1: { kind: hv_fuse, rating: 315 A, style: partial_range, voltage_rating: 500 V, breaking_capacity: 20 kA, minimum_breaking: 800 A, time_constant_rating: 2 ms, melting_energy: 15 kA²s, clearing_energy: 50 kA²s }\n', '',
  changed('R5: { from: M4.pos, to: F1.in, stock: bar, length: 100 mm }', 'R5: { from: M4.pos, to: KP.in, stock: bar, length: 100 mm }',
    changed('  R6: { from: F1.out, to: KP.in, stock: thick, length: 200 mm }\n', '')));

/** Two equal strings of two modules, each with a fuse of its own, and an inverter behind a contactor in each pole. */
const twoStrings = (fuseB: string): string => `halfshaft: 1
name: t
cells: { c: { chemistry: nmc, capacity: 60 Ah, resistance: 1 mΩ, maximum_voltage: 4.2 V, activation_energy: 1000 } }
stock: { bar: { kind: busbar, width: 20 mm, thickness: 3 mm, insulation: bare }, thin: { kind: cable, conductor_area: 1.5 mm², insulation: xlpo_125, outside_diameter: 3.6 mm } }
parts:
  A: { kind: battery_module, cell: c, series: 96 }
  B: { kind: battery_module, cell: c, series: 96 }
  FA: { kind: hv_fuse, rating: 160 A, style: full_range, melting_energy: 6 kA²s, clearing_energy: 20 kA²s }
  ${fuseB}
  JP: { kind: junction, studs: 3, pole: positive }
  DC: { kind: dcdc, output_voltage: 13.8 V, output_current: 110 A, started_by: message, maximum_voltage: 450 V, minimum_voltage: 200 V }
runs:
  A1: { from: A.pos, to: FA.in, stock: bar, length: 100 mm }
  A2: { from: FA.out, to: JP.stud_1, stock: bar, length: 100 mm }
  B1: { from: B.pos, to: FB.in, stock: bar, length: 100 mm }
  B2: { from: FB.out, to: JP.stud_2, stock: bar, length: 100 mm }
  N: { from: A.neg, to: B.neg, stock: bar, length: 100 mm }
  P: { from: JP.stud_3, to: DC.pos, stock: thin, length: 1 m }
  M: { from: A.neg, to: DC.neg, stock: thin, length: 1 m }
`;

describe('studyRunProtection', () => {
  it('says nothing without a fault', () => {
    expect(study('halfshaft: 1\nname: t\n')).toEqual({ results: [], checks: [] });
  });

  it('wants a fuse in series with every run that a fault flows through', () => {
    expect(of(highVoltageCar, 'run-has-protection', 'W1')).toBe('holds');
    const bare = study(fuseless(noMainFuse)).checks;
    expect(verdict(checksOf(bare, 'run-has-protection', 'W1')[0])).toBe('broken');
    expect(verdict(checksOf(bare, 'run-has-protection', 'R1')[0])).toBe('broken');
    // the branch carries the inverter's fault in no part, and its own fault through F2
    expect(verdict(checksOf(bare, 'run-has-protection', 'W4')[0])).toBe('holds');
    // what feeds the branch carries both
    expect(verdict(checksOf(bare, 'run-has-protection', 'R7')[0])).toBe('broken');
  });

  it('finds a thin tap to a monitor that only the main fuse stands before', () => {
    const tapped = changed('  B12: {', '  IMD: { kind: isolation_monitor }\n  B12: {', changed('  L1: {', '  T1: { from: JP.stud_1, to: IMD.pos, stock: thin, length: 1 m, conductor_area: 0.5 mm² }\n  T2: { from: JN.stud_1, to: IMD.neg, stock: thin, length: 1 m, conductor_area: 0.5 mm² }\n  L1: {'));
    expect(of(tapped, 'run-has-protection', 'T1')).toBe('holds');
    // 0.5 mm² stands about 7 kA²s, the main fuse lets 50 kA²s through
    expect(of(tapped, 'run-short-circuit', 'T1')).toBe('broken');
    expect(of(tapped, 'run-short-circuit', 'W1')).toBe('holds');
  });

  it('counts two string fuses that together end the fault, with the sum of what both let through', () => {
    const fuse = 'FB: { kind: hv_fuse, rating: 160 A, style: full_range, melting_energy: 6 kA²s, clearing_energy: 20 kA²s }';
    const { checks } = study(twoStrings(fuse));
    expect(checksOf(checks, 'run-has-protection', 'P')[0]).toMatchObject({ value: 1 });
    const [short] = checksOf(checks, 'run-short-circuit', 'P');
    expect(short).toMatchObject({ details: { fuse: 'FA and FB' } });
    // (√20 000 + √20 000)²
    expect(short!.value).toBeCloseTo(80e3, 0);
    expect(verdict(short)).toBe('broken');
    // against overload the two let through what both carry for good
    expect(checksOf(checks, 'run-overload', 'P')[0]).toMatchObject({ value: expect.closeTo(320, 6) });
    // a bar in place of one of them leaves a way without a fuse
    const barred = study(twoStrings('FB: { kind: stud }').replace('to: FB.in', 'to: FB.stud').replace('from: FB.out', 'from: FB.stud')).checks;
    expect(checksOf(barred, 'run-has-protection', 'P')[0]).toMatchObject({ value: 0 });
    expect(verdict(checksOf(barred, 'run-has-protection', 'P')[0])).toBe('broken');
    // nor does the fuse of the one string protect the other, although both carry the same
    expect(verdict(checksOf(barred, 'run-has-protection', 'B1')[0])).toBe('broken');
    expect(verdict(checksOf(barred, 'run-has-protection', 'A1')[0])).toBe('holds');
    // across the battery's ends as well
    const ends = (text: string) => { const { car, ask } = carOf(text); return verdict(checksOf(studyFaultCurrents(car, ask).checks, 'pack-terminals-protected')[0]); };
    expect(ends(twoStrings('FB: { kind: stud }').replace('to: FB.in', 'to: FB.stud').replace('from: FB.out', 'from: FB.stud'))).toBe('broken');
    // without the sheet of one of them nothing can be said
    expect(checksOf(study(twoStrings(fuse.replace(', clearing_energy: 20 kA²s', ''))).checks, 'run-short-circuit', 'P')[0]).toMatchObject({ needs: ['parts.FB.clearing_energy'] });
  });

  it('is content with the fuse in the disconnect when there is no main fuse', () => {
    expect(of(noMainFuse, 'run-has-protection', 'W1')).toBe('holds');
  });

  it('takes a disconnect that opens on command as a lesser fault than nothing', () => {
    const pyro = changed('  MSD: { kind: service_disconnect, rating: 400 A, voltage_rating: 500 V, breaking_current: 0 A, fuse_rating: 350 A, fuse_style: partial_range, breaking_capacity: 20 kA, minimum_breaking: 900 A, time_constant_rating: 2 ms, melting_energy: 20 kA²s, clearing_energy: 60 kA²s }',
      '  MSD: { kind: pyro_fuse, rating: 400 A, voltage_rating: 500 V, breaking_capacity: 16 kA }', noMainFuse);
    const [check] = checksOf(study(pyro).checks, 'run-has-protection', 'W1');
    expect(check).toMatchObject({ value: 0, levelWhenBroken: 'fix' });
    expect(checksOf(study(fuseless(noMainFuse)).checks, 'run-has-protection', 'W1')[0]).not.toHaveProperty('levelWhenBroken');
  });

  it('compares the I²t let through with what the conductor stands from its working temperature', () => {
    const [check] = checksOf(study(highVoltageCar).checks, 'run-short-circuit', 'W1');
    // the cold fault needs 20 ms to melt F1: nothing published says when a partial-range fuse is done then, so 860 A count for 5 s
    const { known } = ((asked) => ({ known: knownOf(asked.car, asked.ask) }))(carOf(highVoltageCar));
    const cold = known.faults.cases.find(({ at, end }) => at === 'INV' && end === 'low')!;
    expect(check!.value! / (5 * cold.current ** 2)).toBeCloseTo(1, 6);
    // a fuse that melts within 10 ms there: its clearing I²t
    const quick = changed('melting_energy: 15 kA²s, clearing_energy: 50 kA²s', 'melting_energy: 5 kA²s, clearing_energy: 50 kA²s');
    expect(checksOf(study(quick).checks, 'run-short-circuit', 'W1')[0]!.value).toBeCloseTo(50e3, 3);
    // 50 mm² from 44.8 °C to 250 °C: 226² 50² ln(484.5/279.3)
    expect(check!.limit! / (226 ** 2 * 50 ** 2 * Math.log(484.5 / 279.3))).toBeCloseTo(1, 3);
    expect(verdict(check)).toBe('holds');
  });

  it('breaks when a thin run hangs behind the main fuse alone', () => {
    const straight = changed('W3: { from: JP.stud_3, to: F2.in, stock: thin, length: 100 mm }', 'W3: { from: JP.stud_3, to: F2.in, stock: thin, length: 100 mm, conductor_area: 1 mm² }');
    const direct = changed('W4: { from: F2.out, to: DC.pos, stock: thin, length: 3 m }', 'W4: { from: JP.stud_3, to: DC.pos, stock: thin, length: 3 m, conductor_area: 1 mm² }', straight);
    // 1 mm² stands about 31 kA²s; the main fuse lets 50 kA²s through
    expect(of(direct, 'run-short-circuit', 'W4')).toBe('broken');
  });

  it('does not know without the fuses’ melting and clearing I²t', () => {
    const unknown = changed('melting_energy: 20 kA²s, clearing_energy: 60 kA²s', 'melting_energy: 20 kA²s', changed('melting_energy: 15 kA²s, clearing_energy: 50 kA²s', 'melting_energy: 15 kA²s'));
    const [check] = checksOf(study(unknown).checks, 'run-short-circuit', 'W1');
    expect(verdict(check)).toBe('unknown');
    expect(check!.needs).toEqual(expect.arrayContaining(['parts.MSD.clearing_energy', 'parts.F1.clearing_energy']));
  });

  it('counts a fuse that melts slowly as five seconds of fault', () => {
    const slow = changed('melting_energy: 300 A²s, clearing_energy: 900 A²s', 'melting_energy: 300 kA²s, clearing_energy: 900 kA²s',
      changed('melting_energy: 20 kA²s, clearing_energy: 60 kA²s', 'melting_energy: 300 kA²s, clearing_energy: 900 kA²s', changed('melting_energy: 15 kA²s, clearing_energy: 50 kA²s', 'melting_energy: 300 kA²s, clearing_energy: 900 kA²s')));
    const [check] = checksOf(study(slow).checks, 'run-short-circuit', 'W4');
    expect(check!.value).toBeGreaterThan(900e3);
    expect(verdict(check)).toBe('broken');
  });

  it('compares a full-range fuse with what the run may carry, and a partial-range one not', () => {
    expect(of(highVoltageCar, 'run-overload', 'W4')).toBe('holds');
    expect(of(changed('F2: { kind: hv_fuse, rating: 20 A', 'F2: { kind: hv_fuse, rating: 80 A'), 'run-overload', 'W4')).toBe('broken');
    expect(of(highVoltageCar, 'run-overload', 'W1')).toBe('not made');
    // the string carries what goes to either: the branch fuse does not protect it, the main one does not clear overloads
    expect(of(highVoltageCar, 'run-overload', 'R8')).toBe('not made');
    const fullRange = highVoltageCar.replaceAll('style: partial_range', 'style: full_range');
    expect(checksOf(study(fullRange).checks, 'run-overload', 'R8')[0]).toMatchObject({ value: expect.closeTo(315, 6), details: { fuse: 'F1' } });
    // without a main fuse the trunk carries what all branches let through
    const branches = changed('W1: { from: JP.stud_2, to: INV.pos,', 'W0: { from: JP.stud_2, to: FI.in, stock: bar, length: 60 mm }\n  W1: { from: FI.out, to: INV.pos,',
      changed('  F2: {', '  FI: { kind: hv_fuse, rating: 250 A, style: full_range, voltage_rating: 500 V, melting_energy: 5 kA²s, clearing_energy: 20 kA²s }\n  F2: {', fuseless(noMainFuse)));
    expect(checksOf(study(branches).checks, 'run-overload', 'R8')[0]).toMatchObject({ value: expect.closeTo(270, 6), details: { fuse: 'FI and F2' } });
    // and with one no more than that lets through
    expect(checksOf(study(fullRange.replace('rating: 20 A, style', 'rating: 10 A, style')).checks, 'run-overload', 'R8')[0]).toMatchObject({ value: expect.closeTo(315, 6) });
    const noDiameter = changed('outside_diameter: 5.4 mm', 'outside_diameter: 2 mm');
    expect(of(noDiameter, 'run-overload', 'W4')).toBe('unknown');
  });
});
