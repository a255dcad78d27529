import { describe, expect, it } from 'vitest';
import { changed, lowVoltageCar, studied } from '../../../checks/fixtures/low-voltage-car.ts';

describe('voltage at a consumer', () => {
  it('is what is left of the bus behind the resistances of its way, in every mode', () => {
    const { results, ask } = studied(lowVoltageCar);
    const pump = results.consumers.find(({ part }) => part === 'P1')!;
    expect(pump.modes.map(({ mode, isRunning }) => [mode, isRunning])).toEqual([['rest', false], ['off', false], ['drive', true]]);
    const drive = pump.modes[2]!;
    // closed form: a resistance of 13.5 V / 8 A, and 0.1 mΩ of its own switch
    expect(drive.current).toBeCloseTo(drive.voltage! / (13.5 / 8 + 1e-4), 6);
    const solved = ask.solve({ mode: 'drive' });
    if (solved.outcome !== 'solved') throw new Error(solved.outcome);
    expect(drive.voltage).toBeCloseTo(solved.voltageOf('P1.supply') - solved.voltageOf('P1.ground'), 12);
  });

  it('is too low behind a wire that is too thin for its length', () => {
    const thin = changed(['r5: { from: K1.no, to: P1.supply, stock: w4, length: 2 m }', 'r5: { from: K1.no, to: P1.supply, stock: w1, length: 40 m }']);
    expect(thin.outcome('consumer-voltage-low', 'P1')).toBe('holds');
    expect(thin.outcome('consumer-drop', 'P1')).toBe('broken');
    expect(thin.check('consumer-drop', 'P1').details!['mode']).toBe('drive');
    expect(changed(['r5: { from: K1.no, to: P1.supply, stock: w4, length: 2 m }', 'r5: { from: K1.no, to: P1.supply, stock: w1, length: 60 m }']).outcome('consumer-voltage-low', 'P1')).toBe('broken');
  });

  it('is too high when the DC-DC is set too high', () => {
    expect(studied(lowVoltageCar).outcome('consumer-voltage-high', 'VC')).toBe('holds');
    expect(changed(['output_voltage: 13.8 V', 'output_voltage: 17 V']).outcome('consumer-voltage-high', 'VC')).toBe('broken');
  });

  it('judges a control unit by 3 % and a pump by 10 %', () => {
    const long = changed(['r8: { from: S2.w2, to: VC.supply, stock: w1, length: 1 m }', 'r8: { from: S2.w2, to: VC.supply, stock: w1, length: 40 m }']);
    expect(long.outcome('critical-drop', 'VC')).toBe('broken');
    expect(long.findings.find(({ code }) => code === 'low-voltage.critical-drop')!.level).toBe('watch');
    expect(long.outcome('consumer-voltage-low', 'VC')).toBe('holds');
  });

  it('agrees with the wire table for 10 A over 21 ft with 3 % at 12 V: 10 AWG does, 16 AWG only with 10 % (ABYC E-11 tables IX, X)', () => {
    // 10.5 ft out and 10.5 ft back; a load that takes 10 A whatever it gets, straight from a stiff 12 V
    const lossWith = (gauge: string): number => {
      const text = `halfshaft: 1\nname: x\nconditions: { ambient: 30 °C }\nstock:\n  w: { kind: wire, conductor_area: ${gauge}, insulation: pvc_105 }\nparts:\n  B: { kind: battery_12v, chemistry: lfp, nominal_voltage: 12 V, capacity: 60 Ah, rest_voltage: 12 V, internal_resistance: 0.01 mΩ }\n  L: { kind: load, current: 10 A, draws: current }\nruns:\n  a: { from: B.pos, to: L.supply, stock: w, length: 10.5 ft, joint_resistance: 0 mΩ }\n  b: { from: L.ground, to: B.neg, stock: w, length: 10.5 ft, joint_resistance: 0 mΩ }\n`;
      return studied(text).check('consumer-drop', 'L').value!;
    };
    expect(lossWith('10 AWG')).toBeLessThan(0.03);
    expect(lossWith('12 AWG')).toBeGreaterThan(0.025);
    expect(lossWith('16 AWG')).toBeGreaterThan(0.03);
    expect(lossWith('16 AWG')).toBeLessThan(0.1);
  });
});

describe('the ground of a consumer', () => {
  it('rises with what flows through a bad wire home', () => {
    expect(changed(['r6: { from: P1.ground, to: G2.stud, stock: w4, length: 0.5 m }', 'r6: { from: P1.ground, to: G2.stud, stock: w1, length: 5 m }']).outcome('consumer-ground', 'P1')).toBe('broken');
  });
});

describe('a consumer that never gets its voltage', () => {
  it('is told from one that no mode switches on', () => {
    const noFeed = changed(['  r5: { from: K1.no, to: P1.supply, stock: w4, length: 2 m }\n', '']);
    expect(noFeed.check('consumer-fed', 'P1')).toMatchObject({ value: 0, levelWhenBroken: 'fix', details: { reason: 'no wire leads from a source to its supply' } });
    const noReturn = changed(['  r6: { from: P1.ground, to: G2.stud, stock: w4, length: 0.5 m }\n', '']);
    expect(noReturn.check('consumer-fed', 'P1')).toMatchObject({ levelWhenBroken: 'fix', details: { reason: 'its return leads to no source' } });
    expect(noReturn.outcome('consumer-fed', 'P1')).toBe('broken');
    const off = changed(['KEY: { closed: yes }, ', '']);
    expect(off.outcome('consumer-fed', 'L1')).toBe('broken');
    expect(off.findings.find(({ code, about }) => code === 'low-voltage.consumer-fed' && about[0] === 'L1')!.level).toBe('watch');
  });

  it('says so when it is wired the wrong way round', () => {
    const reversed = changed(['to: L1.supply', 'to: L1.ground'], ['from: L1.ground', 'from: L1.supply']);
    expect(reversed.check('consumer-fed', 'L1').details!['reason']).toBe('it is wired the wrong way round');
    expect(reversed.outcome('consumer-fed', 'L1')).toBe('broken');
  });
});

it('works the same on a 24 V side', () => {
  const text = lowVoltageCar.replace('nominal_voltage: 12 V', 'nominal_voltage: 24 V, internal_resistance: 14 mΩ').replace('output_voltage: 13.8 V', 'output_voltage: 27.6 V').replaceAll('coil_voltage: 12 V', 'coil_voltage: 24 V')
    .replace('minimum_voltage: 9 V, maximum_voltage: 16 V', 'minimum_voltage: 18 V, maximum_voltage: 32 V')
    .replace('P1: { kind: pump, current: 8 A', 'P1: { kind: pump, rated_voltage: 27 V, minimum_voltage: 18 V, maximum_voltage: 32 V, current: 8 A').replace('L1: { kind: load, current: 2 A', 'L1: { kind: load, rated_voltage: 27 V, minimum_voltage: 18 V, maximum_voltage: 32 V, current: 2 A');
  const truck = studied(text);
  expect(truck.findings.filter(({ level }) => level === 'fix' || level === 'stop').map(({ statement }) => statement)).toEqual([]);
  const sag = truck.check('coil-holds', 'KP').details!['sag'] as { value: number };
  expect(sag.value).toBeGreaterThan(17);
  expect(sag.value).toBeLessThan(20.5);
});
