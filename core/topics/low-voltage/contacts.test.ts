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

  it('breaks the voltage of the bus', () => {
    expect(bench.outcome('contact-voltage', 'K1')).toBe('holds');
    expect(changed(['voltage_rating: 28 V', 'voltage_rating: 12 V']).outcome('contact-voltage', 'K1')).toBe('broken');
  });

  it('may close onto what starts behind it', () => {
    expect(bench.outcome('contact-making', 'K1', 'P1')).toBe('holds');
    expect(changed(['making_current: 120 A', 'making_current: 20 A']).outcome('contact-making', 'K1', 'P1')).toBe('broken');
  });
});
