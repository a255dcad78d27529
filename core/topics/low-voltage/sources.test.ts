import { describe, expect, it } from 'vitest';
import { changed, lowVoltageCar, studied } from '../../../checks/fixtures/low-voltage-car.ts';

const bench = studied(lowVoltageCar);

describe('the sources', () => {
  it('must not be joined from plus to minus', () => {
    expect(bench.outcome('no-dead-short', 'B')).toBe('holds');
    const wrong = changed(['modes:', '  oops: { from: S.w5, to: G2.stud, stock: w1, length: 1 m }\nmodes:']);
    expect(wrong.check('no-dead-short', 'B').about).toEqual(['B', 'r0', 'FB', 'r1', 'S', 'oops', 'G2']);
    expect(wrong.findings[0]!.level).toBe('stop');
  });

  it('may be joined through an open switch without being called shorted', () => {
    const switched = changed(['KEY: {', 'KEY3: { kind: switch, rating: 5 A }\n  KEY: {'], ['modes:', '  o1: { from: S.w5, to: KEY3.a1, stock: w1, length: 1 m }\n  o2: { from: KEY3.b1, to: G2.stud, stock: w1, length: 1 m }\nmodes:']);
    expect(switched.outcome('no-dead-short', 'B')).toBe('holds');
  });

  it('need the battery’s negative post on the chassis', () => {
    expect(bench.outcome('battery-on-chassis', 'B')).toBe('holds');
    const loose = changed(['  rb: { from: B.neg, to: G.stud, stock: w25, length: 0.5 m }\n', '']);
    expect(loose.outcome('battery-on-chassis', 'B')).toBe('broken');
    expect(loose.outcome('fault-opens-fuse', 'r5')).toBe('unknown');
  });
});

describe('the DC-DC', () => {
  it('must be there, run, and carry the sum', () => {
    for (const code of ['supply-present', 'supply-runs', 'supply-capacity']) expect(bench.outcome(code)).toBe('holds');
    const drive = bench.results.supply.modes.find(({ mode }) => mode === 'drive')!;
    expect(bench.check('supply-capacity').value).toBeCloseTo(drive.supplied, 9);
    // balance of currents: what it gives is what consumers and battery take
    const taken = ['P1.taking', 'L1.taking', 'K1.coil', 'KP.coil', 'VC.taking', 'VC.standby'].reduce((sum, id) => {
      const solved = bench.ask.solve({ mode: 'drive' });
      return solved.outcome === 'solved' ? sum + solved.currentOf(id) : Number.NaN;
    }, 0);
    expect(drive.supplied + drive.fromBattery).toBeCloseTo(taken, 3);
  });

  it('is too small when the battery has to help', () => {
    const small = changed(['output_current: 60 A', 'output_current: 6 A']);
    expect(small.outcome('supply-capacity')).toBe('broken');
    expect(small.check('supply-capacity').value).toBeGreaterThan(9);
    expect(small.check('supply-capacity').details!['mode']).toBe('drive');
  });

  it('that no mode starts is told', () => {
    const asleep = changed(['started_by: high_voltage', 'started_by: message']);
    expect(asleep.outcome('supply-runs')).toBe('broken');
    expect(asleep.outcome('supply-capacity')).toBe('unknown');
  });

  it('that lacks a value is not called missing: what it lacks is asked for', () => {
    const unfinished = changed(['output_voltage: 13.8 V, ', ''], ['nominal_voltage: 12 V, ', '']);
    expect(unfinished.check('supply-present').needs).toEqual(['parts.DC.output_voltage', 'parts.B.nominal_voltage']);
    expect(unfinished.outcome('consumer-fed', 'L1')).toBe('unknown');
    expect(unfinished.findings.some(({ statement }) => statement.includes('no battery and no DC-DC'))).toBe(false);
  });

  it('that is not there is told', () => {
    const text = lowVoltageCar.replace(/ {2}(DC|FD): .*\n/g, '').replace(/ {2}(H2|H3|rd|re|rg): .*\n/g, '');
    expect(studied(text).outcome('supply-present')).toBe('broken');
    expect(studied(text).outcome('supply-runs')).toBe('none');
  });
});
