import { describe, expect, it } from 'vitest';
import { integral } from './integral.ts';
import { pulseHeating, type Pulse } from './pulse-heating.ts';

describe('pulseHeating', () => {
  it('is zero without current', () => {
    expect(pulseHeating({ shape: 'square', peak: 0, time: 1 })).toBe(0);
  });
  it('refuses a pulse that takes no time', () => {
    expect(() => pulseHeating({ shape: 'half_sine', peak: 1, time: 0 })).toThrow('time');
  });
  const T = 0.02;
  const cases: [Pulse, (t: number) => number][] = [
    [{ shape: 'square', peak: 30, time: T }, () => 30],
    [{ shape: 'ramp', from: 10, to: 30, time: T }, (t) => 10 + (20 * t) / T],
    [{ shape: 'triangle', peak: 30, time: T }, (t) => (30 * t) / T],
    [{ shape: 'half_sine', peak: 30, time: T }, (t) => 30 * Math.sin((Math.PI * t) / T)],
    [{ shape: 'parabola', peak: 30, time: T }, (t) => 30 * (t / T) ** 2],
  ];
  for (const [pulse, current] of cases) {
    it(`of a ${pulse.shape} is the integral of its square`, () => {
      expect(pulseHeating(pulse)).toBeCloseTo(integral((t) => current(t) ** 2, 0, T), 8);
    });
  }
  it('of a decay is the integral to the end', () => {
    expect(pulseHeating({ shape: 'decay', peak: 30, timeConstant: T })).toBeCloseTo(integral((t) => (30 * Math.exp(-t / T)) ** 2, 0, 40 * T), 8);
  });
});
