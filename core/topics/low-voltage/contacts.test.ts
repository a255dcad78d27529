import { describe, expect, it } from 'vitest';
import { changed, lowVoltageCar, studied } from '../../../checks/fixtures/low-voltage-car.ts';

const bench = studied(lowVoltageCar);

describe('a contact', () => {
  it('carries its current', () => {
    expect(bench.check('contact-current', 'K1').value).toBeCloseTo(7.96, 1);
    expect(bench.outcome('contact-current', 'K1')).toBe('holds');
    expect(changed(['K1: { kind: relay, rating: 30 A', 'K1: { kind: relay, rating: 5 A']).outcome('contact-current', 'K1')).toBe('broken');
    expect(changed(['KEY: { kind: switch, rating: 10 A }', 'KEY: { kind: switch }']).check('contact-current', 'KEY').needs).toEqual(['parts.KEY.rating']);
  });

  it('of a high-voltage contactor is none of this subject', () => expect(bench.outcome('contact-current', 'KP')).toBe('none'));

  it('that is an electronic output stays within its limit', () => {
    expect(bench.outcome('contact-current', 'VC', 'output_main')).toBe('holds');
    expect(changed(['current_limit: 2 A', 'current_limit: 0.2 A']).outcome('contact-current', 'VC', 'output_main')).toBe('broken');
  });

  it('that is an electronic output without a limit is asked for by its own name', () => {
    expect(changed(['main: { side: high, current_limit: 2 A }', 'main: { side: high }']).check('contact-current', 'VC', 'output_main').needs).toEqual(['parts.VC.outputs.main.current_limit']);
  });

  it('through which nothing but rounding flows carries nothing', () => {
    const off = changed(['on: [main, fan]', 'on: [fan]']);
    expect(off.check('contact-current', 'VC', 'output_main').value).toBe(0);
    expect(off.findings.map(({ statement }) => statement).filter((statement) => /e-\d|[pn]A\b/.test(statement))).toEqual([]);
  });

  it('breaks the voltage of the bus', () => {
    expect(bench.outcome('contact-voltage', 'K1')).toBe('holds');
    expect(changed(['voltage_rating: 28 V', 'voltage_rating: 12 V']).outcome('contact-voltage', 'K1')).toBe('broken');
  });

  it('may close onto what starts behind it', () => {
    expect(bench.outcome('contact-making', 'K1', 'P1')).toBe('holds');
    expect(changed(['making_current: 120 A', 'making_current: 20 A']).outcome('contact-making', 'K1', 'P1')).toBe('broken');
  });
});

describe('a connector', () => {
  const plug = (fields: string) => changed(
    ['  G: {', `  X: { kind: connector, pins: 2, signal_pins: ["2"]${fields} }\n  G: {`],
    ['r5: { from: K1.no, to: P1.supply, stock: w4, length: 2 m }', 'r5: { from: K1.no, to: X.a1, stock: w4, length: 1 m }\n  r5b: { from: X.b1, to: P1.supply, stock: w4, length: 1 m }'],
  );

  it('carries its current in every pin', () => {
    expect(plug(', pin_rating: 13 A').check('pin-current', 'X')).toMatchObject({ value: expect.closeTo(7.96, 1), limit: 13, details: { pin: '1', mode: 'drive' } });
    expect(plug(', pin_rating: 13 A').outcome('pin-current', 'X')).toBe('holds');
    expect(plug(', pin_rating: 5 A').outcome('pin-current', 'X')).toBe('broken');
  });

  it('is asked for its rating when a pin carries more than a signal', () => {
    expect(plug('').check('pin-current', 'X').needs).toEqual(['parts.X.pin_rating']);
  });
});
