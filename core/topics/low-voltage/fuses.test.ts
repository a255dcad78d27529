import { describe, expect, it } from 'vitest';
import { changed, lowVoltageCar, studied } from '../../../checks/fixtures/low-voltage-car.ts';
import { carriesFor, letsThrough, opensAbove } from './blade-gates.ts';

const bench = studied(lowVoltageCar);
const levelOf = (car: typeof bench, code: string, about: string): string => car.findings.find((finding) => finding.code === `low-voltage.${code}` && finding.about[0] === about)!.level;

describe('the gates of blade fuses', () => {
  it('promise nothing quick to a fuse at its rating, and 5 s at twice (ISO 8820-3)', () => {
    // no gate opens it at its rating: the longest time of all counts, 600 s
    expect(letsThrough('blade', 10, 10)).toBeCloseTo(60_000, 6);
    expect(opensAbove('blade', 10, 5)).toBe(20);
    expect(opensAbove('maxi', 40, 5)).toBe(240);
    expect(opensAbove('blade', 10, 0.01)).toBeUndefined();
    expect(carriesFor('blade', 10, 0.1)).toBe(20);
    expect(carriesFor('blade', 10, 3600)).toBe(11);
    expect(carriesFor('maxi', 40, 1e9)).toBe(40);
  });
  it('let I²t through that stops growing above the last gate', () => {
    expect(letsThrough('blade', 10, 60)).toBeCloseTo(360, 9);
    expect(letsThrough('blade', 10, 600)).toBeCloseTo(360, 9);
    expect(letsThrough('blade', 10, 40)).toBeCloseTo(800, 9);
  });
});

describe('a fuse', () => {
  it('may carry rating · √((130 − 30)/110) · 0.8 for good at 30 °C', () => {
    expect(bench.check('fuse-steady-current', 'F1').limit).toBeCloseTo(20 * Math.sqrt(100 / 110) * 0.8, 9);
    expect(changed(['F1: { kind: fuse, rating: 20 A', 'F1: { kind: fuse, rating: 10 A']).outcome('fuse-steady-current', 'F1')).toBe('broken');
    expect(changed(['F1: { kind: fuse, rating: 20 A, style: blade', 'F1: { kind: fuse, rating: 20 A, style: blade, ambient: 130 °C']).check('fuse-steady-current', 'F1').limit).toBe(0);
  });

  it('leaves out modes that do not last, and judges those by the gates', () => {
    expect(bench.outcome('fuse-short-time', 'F1')).toBe('none');
    const spurt = changed(['  drive: { set:', '  drive: { lasts: 10 s, every: 60 s, set:']);
    expect(spurt.check('fuse-steady-current', 'F1').value).toBe(0);
    expect(spurt.check('fuse-short-time', 'F1', 'drive').limit).toBe(22);
    expect(spurt.outcome('fuse-short-time', 'F1')).toBe('holds');
    const weak = changed(['  drive: { set:', '  drive: { lasts: 10 s, every: 60 s, set:'], ['F1: { kind: fuse, rating: 20 A', 'F1: { kind: fuse, rating: 5 A']);
    expect(weak.outcome('fuse-short-time', 'F1')).toBe('broken');
  });

  it('has to outlive the start of its pump, and cannot be judged without the time', () => {
    expect(bench.check('fuse-start-current', 'F1', 'P1').value).toBeCloseTo(24, 6);
    expect(bench.outcome('fuse-start-current', 'F1')).toBe('holds');
    expect(bench.outcome('fuse-start-current', 'F2')).toBe('none');
    expect(changed(['start_current: 24 A, start_time: 100 ms', 'start_current: 50 A, start_time: 100 ms']).outcome('fuse-start-current', 'F1')).toBe('broken');
    const timeless = changed([', start_time: 100 ms', '']);
    expect(timeless.check('fuse-start-current', 'F1', 'P1').needs).toEqual(['parts.P1.start_time']);
  });

  it('needs a voltage rating above the bus', () => {
    expect(bench.outcome('fuse-voltage', 'F1')).toBe('holds');
    expect(changed(['F1: { kind: fuse, rating: 20 A', 'F1: { kind: fuse, voltage_rating: 12 V, rating: 20 A']).outcome('fuse-voltage', 'F1')).toBe('broken');
  });
});

describe('the prospective current behind a fuse', () => {
  it('is what the one network says of a short there, and the DC-DC on top', () => {
    // right behind the fuse means in front of its own resistance: the short lies at FB.a
    const network = bench.ask.faultCurrent({ mode: 'off' }, 'FB.a', 'chassis');
    if (network.outcome !== 'solved') throw new Error(network.outcome);
    expect(bench.check('fuse-breaking-capacity', 'FB').limit).toBeCloseTo(network.current! + 60, 0);
  });

  it('is milder where a larger fuse in front can break it', () => {
    expect(bench.outcome('fuse-breaking-capacity', 'F1')).toBe('broken');
    expect(levelOf(bench, 'fuse-breaking-capacity', 'F1')).toBe('watch');
    const alone = changed(['FB: { kind: fuse, rating: 100 A, style: midi, breaking_capacity: 2500 A }', 'FB: { kind: fuse, rating: 100 A, style: midi, breaking_capacity: 1000 A }']);
    expect(levelOf(alone, 'fuse-breaking-capacity', 'F1')).toBe('fix');
    expect(levelOf(alone, 'fuse-breaking-capacity', 'FB')).toBe('fix');
  });

  it('is small enough far from the battery', () => {
    expect(changed(['r3: { from: S.w4, to: F2.a, stock: w25, length: 0.1 m }', 'r3: { from: S.w4, to: F2.a, stock: w4, length: 3 m }']).outcome('fuse-breaking-capacity', 'F2')).toBe('holds');
  });
});
