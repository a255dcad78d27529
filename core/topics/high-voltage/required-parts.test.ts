import { describe, expect, it } from 'vitest';
import { carOf } from '../../../checks/fixtures/high-voltage-car.ts';
import { edited, prechargeCar, studied } from '../../../checks/fixtures/precharge-car.ts';
import { studyRequiredParts } from './required-parts.ts';

const study = (text: string) => studied(studyRequiredParts, text);
const codesOf = (text: string) => new Set(study(text).checks.map(({ code }) => code.replace('high-voltage.', '')));
const classA = prechargeCar.replaceAll('series: 24 }', 'series: 3 }').replaceAll('minimum_voltage: 200 V', 'minimum_voltage: 20 V').replace('rated_voltage: 350 V', 'rated_voltage: 48 V');

describe('required parts of strange cars', () => {
  it('asks nothing of a car without high voltage', () => {
    const { car, ask } = carOf('halfshaft: 1\nname: t\nparts:\n  B12: { kind: battery_12v, chemistry: agm, nominal_voltage: 12 V, capacity: 60 Ah }\n');
    expect(studyRequiredParts(car, ask).checks).toEqual([]);
  });

  it('does not know the class of a car without cells', () => {
    const { find } = study('halfshaft: 1\nname: t\nparts:\n  INV: { kind: inverter, link_capacitance: 0.8 mF, maximum_voltage: 450 V }\n');
    expect(find('class-a-throughout').level).toBe('unknown');
  });

  it('bears a pack shorted on itself: a loop of cells without a fuse', () => {
    const { find } = study(edited(prechargeCar, ['R5: { from: M4.pos, to: F1.in', 'R5: { from: M4.pos, to: M1.neg']));
    expect(find('parallel-strings-fused').level).toBe('stop');
  });
});

describe('the voltage class', () => {
  it('is B above 60 V and A below, and class A raises no rule of class B', () => {
    expect(study(prechargeCar).results.voltageClass).toBe('B');
    expect(codesOf(prechargeCar).has('class-a-throughout')).toBe(false);
    const { results, find } = study(classA);
    expect(results).toMatchObject({ voltageClass: 'A' });
    expect(find('class-a-throughout')).toMatchObject({ level: 'holds' });
    expect(find('class-a-throughout').statement).toContain('are not checked');
    expect([...codesOf(classA)].sort()).toEqual(['class-a-throughout', 'class-border', 'parallel-strings-fused', 'string-fuse-present']);
  });

  it('is broken by a part behind a class A pack that makes more', () => {
    // the precharge converter of the same car is set to 80 V
    const text = edited(classA, ['  B12: {', '  PC: { kind: precharge_converter, output_voltage: 80 V, output_current: 0.6 A, output_power: 30 W }\n  B12: {'],
      ['  R9:', '  P3: { from: PC.pos, to: INV.pos, stock: thin, length: 1 m }\n  P4: { from: PC.neg, to: INV.neg, stock: thin, length: 1 m }\n  P5: { from: B12.pos, to: PC.supply, stock: lv, length: 1 m }\n  P6: { from: B12.neg, to: PC.ground, stock: lv, length: 1 m }\n  P7: { from: SX.b1, to: PC.enable, stock: lv, length: 1 m }\n  P8: { from: B12.pos, to: SX.a1, stock: lv, length: 1 m }\n  R9:'],
      ['  SN: {', '  SX: { kind: switch }\n  SN: {'], ['  drive:', '  boost: { set: { SX: { closed: yes } } }\n  drive:'], ['C5: { from: B12.pos', 'C5: { from: SR.a1'], ['C12: { from: IMD.supply, to: B12.pos', 'C12: { from: IMD.supply, to: SN.a1']);
    expect(study(text).find('class-a-throughout')).toMatchObject({ level: 'stop', value: expect.closeTo(80, 0) });
  });

  it('takes a heater of half an ohm for a heater and not for metal', () => {
    const resistive = classA.replace('behaves: constant_power', 'behaves: resistance');
    expect(study(resistive).results).toMatchObject({ voltageClass: 'A', packVoltage: expect.closeTo(50.4, 6) });
    expect(study(resistive).find('parallel-strings-fused').level).toBe('holds');
  });

  it('is near the border at 58.8 V', () => {
    expect(study(classA.replace('M4: { kind: battery_module, cell: used, series: 3 }', 'M4: { kind: battery_module, cell: used, series: 5 }')).find('class-a-throughout').level).toBe('watch');
  });
});

describe('the service disconnect', () => {
  it('halves the pack in the middle', () => {
    const { results, find } = study(prechargeCar);
    expect(results.disconnects).toEqual(['MSD']);
    expect(results.piecesWhenPulled).toEqual([expect.closeTo(201.6, 6), expect.closeTo(201.6, 6)]);
    expect(find('disconnect-near-middle').level).toBe('holds');
  });

  it('is watched at the end of the string', () => {
    const atEnd = edited(prechargeCar, ['R2: { from: M2.pos, to: MSD.in', 'R2: { from: M2.pos, to: M3.neg'], ['R3: { from: MSD.out, to: M3.neg', 'R3: { from: MSD.out, to: F1.in'], ['R5: { from: M4.pos, to: F1.in', 'R5: { from: M4.pos, to: MSD.in']);
    const { find, results } = study(atEnd);
    expect(results.piecesWhenPulled[0]).toBeCloseTo(403.2, 6);
    // at the end it takes no cells apart at all
    expect(find('disconnect-present').level).toBe('fix');
    const quarter = edited(prechargeCar, ['R1: { from: M1.pos, to: M2.neg', 'R1: { from: M1.pos, to: MSD.in'], ['R2: { from: M2.pos, to: MSD.in', 'R2: { from: M2.pos, to: M3.neg'], ['R3: { from: MSD.out, to: M3.neg', 'R3: { from: MSD.out, to: M2.neg']);
    expect(study(quarter).find('disconnect-near-middle')).toMatchObject({ level: 'watch', value: expect.closeTo(302.4, 6) });
  });

  it('counts one in each of two parallel strings, which only together split the pack', () => {
    const text = edited(prechargeCar, ['  MSD: {', '  N1: { kind: battery_module, cell: used, series: 48 }\n  N2: { kind: battery_module, cell: used, series: 48 }\n  SD2: { kind: service_disconnect }\n  MSD: {'],
      ['  R9:', '  Q1: { from: N1.pos, to: SD2.in, stock: bar, length: 80 mm }\n  Q2: { from: SD2.out, to: N2.neg, stock: bar, length: 80 mm }\n  Q3: { from: N1.neg, to: M1.neg, stock: bar, length: 80 mm }\n  Q4: { from: N2.pos, to: M4.pos, stock: bar, length: 80 mm }\n  R9:']);
    const { results, find } = study(text);
    expect([...results.disconnects].sort()).toEqual(['MSD', 'SD2']);
    expect(find('disconnect-near-middle').level).toBe('holds');
    // one alone does not
    expect(study(text.replace(/ {2}SD2: .*\n/, '').replace('to: SD2.in', 'to: N2.neg').replace(/ {2}Q2: .*\n/, '')).find('disconnect-present')).toMatchObject({ level: 'fix', value: 0 });
  });

  it('must be there', () => {
    const without = prechargeCar.replace(/ {2}MSD: .*\n/, '').replace(/ {2}R2: .*\n {2}R3: .*\n/, '  R2: { from: M2.pos, to: M3.neg, stock: bar, length: 80 mm }\n').replace(/ {2}H1: .*\n {2}H2: .*\n/, '  H1: { from: B12.pos, to: INV.hvil_in, stock: lv, length: 1 m }\n');
    expect(study(without).find('disconnect-present')).toMatchObject({ level: 'fix', value: 0 });
  });
});

describe('fuses in the strings', () => {
  it('lie in every way to every part', () => {
    for (const part of ['INV', 'DC', 'HT']) expect(study(prechargeCar).find('string-fuse-present', part).level).toBe('holds');
  });

  it('stop a part that has a way around the fuse', () => {
    const { find } = study(edited(prechargeCar, ['W5: { from: JP.stud_4, to: HT.pos', 'W5: { from: M4.pos, to: HT.pos'], ['W6: { from: JN.stud_4, to: HT.neg', 'W6: { from: M1.neg, to: HT.neg']));
    expect(find('string-fuse-present', 'HT').level).toBe('stop');
    expect(find('string-fuse-present', 'INV').level).toBe('holds');
    expect(find('dead-when-off', 'HT')).toMatchObject({ level: 'stop' });
    expect(find('dead-when-off', 'HT').value!).toBeGreaterThan(300);
    expect(find('both-poles-open', 'HT')).toMatchObject({ level: 'fix', value: 2 });
  });

  it('do not count when they are pyrotechnic: those open on a command only', () => {
    const pyro = edited(prechargeCar.replace(/ {2}F1: .*\n/, '  F1: { kind: pyro_fuse, rating: 400 A }\n'));
    expect(study(pyro).find('string-fuse-present', 'INV').level).toBe('stop');
  });

  it('stop two strings joined without a fuse of their own, and let them be with one each', () => {
    const second = (from: string, to: string, more = '') => edited(prechargeCar, ['  MSD: {', `  N1: { kind: battery_module, cell: used, series: 48 }\n  N2: { kind: battery_module, cell: used, series: 48 }\n${more}  MSD: {`], ['  R9:', `  Q1: { from: N1.pos, to: N2.neg, stock: bar, length: 80 mm }\n  Q2: { from: N1.neg, to: M1.neg, stock: bar, length: 80 mm }\n  Q3: { from: ${from}, to: ${to}, stock: bar, length: 80 mm }\n${more === '' ? '' : '  Q4: { from: F2.out, to: F1.out, stock: bar, length: 80 mm }\n'}  R9:`]);
    const bare = study(second('N2.pos', 'M4.pos')).find('parallel-strings-fused');
    expect(bare).toMatchObject({ level: 'stop', value: 2 });
    const fused = second('N2.pos', 'F2.in', '  F2: { kind: hv_fuse, rating: 315 A, style: partial_range, voltage_rating: 500 V }\n');
    // F1 lies behind the point where they meet: no loop stays closed, but the first string has no fuse of its own
    const oneOfTwo = fused.replace('Q4: { from: F2.out, to: F1.out', 'Q4: { from: F2.out, to: F1.in');
    expect(oneOfTwo).not.toBe(fused);
    expect(study(oneOfTwo).find('parallel-strings-fused')).toMatchObject({ level: 'stop', value: 1, statement: expect.stringContaining('from M1') });
  });

  it('only watch small modules side by side', () => {
    const pair = edited(prechargeCar.replaceAll('series: 24 }', 'series: 12 }'), ['  MSD: {', '  N1: { kind: battery_module, cell: used, series: 12 }\n  MSD: {'], ['  R9:', '  Q1: { from: N1.pos, to: M1.pos, stock: bar, length: 80 mm }\n  Q2: { from: N1.neg, to: M1.neg, stock: bar, length: 80 mm }\n  R9:']);
    expect(study(pair).find('parallel-strings-fused')).toMatchObject({ level: 'watch', value: 2 });
  });
});

describe('with everything off', () => {
  it('finds a pole that no contactor cuts off although there is no voltage between the poles', () => {
    const { find } = study(edited(prechargeCar, ['R9: { from: KN.out', 'R9: { from: KN.in']));
    expect(find('both-poles-open', 'INV')).toMatchObject({ level: 'fix', value: 1 });
    expect(find('dead-when-off', 'INV').level).toBe('holds');
  });

  it('looks at the pins of the charging inlet too', () => {
    const inlet = (ends: string) => edited(prechargeCar, ['  B12: {', '  IN: { kind: charge_inlet, type: type_2 }\n  B12: {'], ['  R9:', `${ends}  R9:`]);
    expect(study(inlet('')).find('dead-when-off', 'IN').level).toBe('holds');
    const live = inlet('  I1: { from: M4.pos, to: IN.l, stock: thin, length: 1 m }\n  I2: { from: M1.neg, to: IN.n, stock: thin, length: 1 m }\n');
    expect(study(live).find('dead-when-off', 'IN').level).toBe('stop');
    expect(study(live).find('both-poles-open', 'IN')).toMatchObject({ level: 'fix', value: 2 });
  });

  it('holds with a contactor in each pole', () => {
    for (const part of ['INV', 'DC', 'HT']) {
      expect(study(prechargeCar).find('both-poles-open', part).level).toBe('holds');
      expect(study(prechargeCar).find('dead-when-off', part).level).toBe('holds');
    }
  });
});

describe('the interlock loop', () => {
  /** A wire lies beside the contact of DC. */
  const withWireBeside = (text: string) => edited(text, ['  SN: {', '  J1: { kind: splice, wires: 3 }\n  J2: { kind: splice, wires: 3 }\n  SN: {'],
    ['H3: { from: INV.hvil_out, to: DC.hvil_in', 'H3: { from: INV.hvil_out, to: J1.w1'],
    ['H4: { from: DC.hvil_out, to: HT.hvil_in, stock: lv, length: 1 m }', 'H4: { from: J1.w2, to: DC.hvil_in, stock: lv, length: 1 m }\n  H5: { from: DC.hvil_out, to: J2.w2, stock: lv, length: 1 m }\n  H6: { from: J1.w3, to: J2.w3, stock: lv, length: 1 m }\n  H7: { from: J2.w1, to: HT.hvil_in, stock: lv, length: 1 m }']);

  it('is one chain through every plug', () => {
    const { results, find } = study(prechargeCar);
    expect(results.interlock.loops).toEqual([['MSD', 'INV', 'DC', 'HT']]);
    for (const code of ['interlock-present', 'interlock-one-loop', 'interlock-in-series']) expect(find(code).level, code).toBe('holds');
    expect(find('interlock-covers', 'HT').level).toBe('holds');
  });

  it('may be missing, but is watched', () => {
    const without = prechargeCar.replace(/ {2}H\d: .*\n/g, '').replaceAll(', interlock: yes', '');
    expect(study(without).find('interlock-present').level).toBe('watch');
    expect(codesOf(without).has('interlock-one-loop')).toBe(false);
  });

  it('is watched in two chains', () => {
    const { find } = study(edited(prechargeCar, ['  H3: { from: INV.hvil_out, to: DC.hvil_in, stock: lv, length: 1 m }\n', '']));
    expect(find('interlock-one-loop')).toMatchObject({ level: 'watch', value: 2 });
  });

  it('is not cut by what a charging station joins', () => {
    const inlet = edited(prechargeCar, ['  B12: {', '  IN: { kind: charge_inlet, type: type_2 }\n  GI: { kind: ground_stud }\n  B12: {'], ['  R9:', '  I1: { from: IN.pe, to: GI.stud, stock: lv, length: 1 m }\n  R9:']);
    expect(study(inlet).results.interlock.loops).toHaveLength(1);
  });

  it('is one chain, and a bypass is found, in a car whose charging station grounds the neutral', () => {
    const grounded = edited(prechargeCar, ['  B12: {', '  IN: { kind: charge_inlet, type: type_2 }\n  G2: { kind: ground_stud }\n  CH: { kind: charger, output_current: 20 A, output_power: 6.6 kW, maximum_voltage: 430 V, minimum_voltage: 200 V }\n  B12: {'],
      ['  R9:', '  I1: { from: IN.pe, to: G2.stud, stock: lv, length: 1 m }\n  I2: { from: IN.l, to: CH.l, stock: thin, length: 1 m }\n  I3: { from: IN.n, to: CH.n, stock: thin, length: 1 m }\n  I4: { from: JP.stud_2, to: CH.pos, stock: thin, length: 1 m }\n  I5: { from: JN.stud_2, to: CH.neg, stock: thin, length: 1 m }\n  R9:']);
    expect(study(grounded).find('interlock-one-loop').level).toBe('holds');
    const bypassed = study(withWireBeside(grounded));
    expect(bypassed.find('interlock-in-series')).toMatchObject({ level: 'fix', about: ['DC'] });
  });

  it('is not bypassed by a consumer of little resistance between its supply and the ground', () => {
    const loop = (more: string) => edited(prechargeCar, ['  B12: {', `  G2: { kind: ground_stud }\n${more}  B12: {`], ['  C13:', `  H5: { from: HT.hvil_out, to: G2.stud, stock: lv, length: 1 m }\n${more === '' ? '' : '  H6: { from: B12.pos, to: BL.supply, stock: lv, length: 1 m }\n  H7: { from: BL.ground, to: G2.stud, stock: lv, length: 1 m }\n'}  C13:`]);
    expect(study(loop('')).find('interlock-in-series').level).toBe('holds');
    expect(study(loop('  BL: { kind: load, current: 40 A, draws: resistance }\n')).find('interlock-in-series').level).toBe('holds');
  });

  it('goes on through a plug of the low-voltage side', () => {
    const { results } = study(edited(prechargeCar, ['  SN: {', '  X1: { kind: connector, pins: 2 }\n  SN: {'], ['  H3: { from: INV.hvil_out, to: DC.hvil_in', '  H5: { from: X1.b1, to: DC.hvil_in, stock: lv, length: 1 m }\n  H3: { from: INV.hvil_out, to: X1.a1']));
    expect(results.interlock.loops).toHaveLength(1);
  });

  it('must be fixed when a wire lies beside a contact', () => {
    const { find } = study(withWireBeside(prechargeCar));
    expect(find('interlock-in-series')).toMatchObject({ level: 'fix', about: ['DC'] });
    expect(find('interlock-one-loop').level).toBe('holds');
  });

  it('says which part it leaves out, unless a contact guards it', () => {
    const out = edited(prechargeCar, ['  H4: { from: DC.hvil_out, to: HT.hvil_in, stock: lv, length: 1 m }\n', ''], ['behaves: constant_power, maximum_voltage: 450 V, minimum_voltage: 200 V, y_capacitance: 0.05 µF, interlock: yes', 'behaves: constant_power, maximum_voltage: 450 V, minimum_voltage: 200 V, y_capacitance: 0.05 µF']);
    expect(study(out).find('interlock-covers', 'HT').level).toBe('watch');
    const guarded = edited(out, ['  SN: {', '  LID: { kind: interlock_contact, guards: HT }\n  SN: {'], ['  C13:', '  H4: { from: DC.hvil_out, to: LID.a, stock: lv, length: 1 m }\n  C13:']);
    expect(study(guarded).find('interlock-covers', 'HT').level).toBe('holds');
  });
});

describe('orange cables', () => {
  it('are judged a reel, and bars not at all', () => {
    const { checks } = study(prechargeCar);
    const orange = checks.filter(({ code }) => code === 'high-voltage.cable-orange');
    expect(orange.map(({ about }) => about)).toEqual([['R6', 'R7', 'R8', 'R9', 'W1', 'W2'], ['P1', 'P2', 'W3', 'W4', 'W5', 'W6', 'W7', 'W8']]);
    expect(study(prechargeCar).find('cable-orange', 'W1').level).toBe('holds');
  });

  it('must be fixed in another colour, and are unknown without one', () => {
    expect(study(edited(prechargeCar, ['outside_diameter: 5.4 mm, voltage_rating: 1000 V, colour: orange', 'outside_diameter: 5.4 mm, voltage_rating: 1000 V, colour: red'])).find('cable-orange', 'W3').level).toBe('fix');
    expect(study(edited(prechargeCar, ['outside_diameter: 5.4 mm, voltage_rating: 1000 V, colour: orange', 'outside_diameter: 5.4 mm, voltage_rating: 1000 V'])).find('cable-orange', 'W3')).toMatchObject({ level: 'unknown', needs: ['stock.thin.colour'] });
  });
});

describe('the border between the sides', () => {
  it('stops a run from high to low voltage', () => {
    const { find } = study(edited(prechargeCar, ['  R9:', '  BAD: { from: JN.stud_5, to: B12.pos, stock: lv, length: 1 m }\n  R9:']));
    expect(find('class-border', 'BAD')).toMatchObject({ level: 'stop' });
    expect(study(prechargeCar).find('class-border').level).toBe('holds');
  });

  it('stops it in class A too: 57 V into the 12 V side burn what hangs on it', () => {
    expect(study(edited(classA, ['  R9:', '  BAD: { from: JN.stud_5, to: B12.pos, stock: lv, length: 1 m }\n  R9:'])).find('class-border', 'BAD').level).toBe('stop');
  });
});
