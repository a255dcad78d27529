import { describe, expect, it } from 'vitest';
import { changed, lowVoltageCar, studied } from '../../../checks/fixtures/low-voltage-car.ts';
import { SAG_SHARE } from './coils.ts';

const feed = 'r12: { from: VC.main, to: KP.coil_a, stock: w1, length: 2 m }';

describe('a coil', () => {
  it('that no mode feeds is told', () => {
    expect(studied(lowVoltageCar).outcome('coil-used', 'KP')).toBe('holds');
    const never = changed(['on: [main, fan]', 'on: [fan]']);
    expect(never.outcome('coil-used', 'KP')).toBe('broken');
    expect(never.outcome('coil-pulls-in', 'KP')).toBe('none');
    expect(never.findings.find(({ code, about }) => code === 'low-voltage.coil-used' && about[0] === 'KP')!.level).toBe('watch');
  });

  it('that gets too little to close but more than nothing is told', () => {
    // half the bus: in series with a resistance as large as its own (12 V / 0.4 A = 30 Ω), as through another consumer
    const weak = changed(['KP: {', 'RS: { kind: load, current: 0.45 A }\n  KP: {'], [feed, 'r12: { from: VC.main, to: RS.supply, stock: w1, length: 2 m }\n  r12b: { from: RS.ground, to: KP.coil_a, stock: w1, length: 1 m }']);
    expect(weak.check('coil-pulls-in', 'KP').value).toBeCloseTo(6.8, 0);
    expect(weak.outcome('coil-pulls-in', 'KP')).toBe('broken');
    expect(weak.outcome('coil-holds', 'KP')).toBe('holds');
  });

  it('that would not pull in when it is hot is at watch', () => {
    // 13.8 V less the way there: 9 V are needed cold, 12 V hot
    const level = (voltage: string) => changed(['coil_voltage: 12 V, coil_current: 0.4 A', `coil_voltage: 12 V, coil_current: 0.4 A, pick_up: ${voltage}`]).findings.find(({ code, about }) => code === 'low-voltage.coil-pulls-in' && about[0] === 'KP')!.level;
    expect(level('9 V')).toBe('holds');
    expect(level('11 V')).toBe('watch');
  });

  it('with an economiser is judged while it takes its pull-in current', () => {
    const economiser = ['coil_current: 0.4 A }', 'coil_current: 0.13 A, economiser: yes, pull_in_current: 3.8 A }'] as const;
    const short = changed(economiser);
    const plain = short.results.coils.find(({ part }) => part === 'KP')!.modes.find(({ mode }) => mode === 'drive')!;
    // closed form: the holding power at this voltage; 3.8 A through what lies between the DC-DC and the coil, out and back
    const holding = (12 * 0.13) / plain.voltage;
    const ways = (plain.voltage - plain.closing) / (3.8 - holding);
    expect(ways).toBeGreaterThan(0.08 + 3 * 0.0195);
    expect(ways).toBeLessThan(0.25);
    expect(short.outcome('coil-pulls-in', 'KP')).toBe('holds');
    expect(changed(economiser, [feed, feed.replace('2 m', '60 m')]).outcome('coil-pulls-in', 'KP')).toBe('broken');
  });

  it('holds as long as the sagging side leaves it more than its drop-out voltage', () => {
    const bench = studied(lowVoltageCar);
    const sag = bench.check('coil-holds', 'KP').details!['sag'] as { value: number };
    // AGM at 90 %: 12.70 V at rest, whatever the DC-DC holds the bus at
    expect(sag.value).toBeCloseTo(SAG_SHARE * 12.7, 3);
    expect(bench.check('coil-holds', 'KP').value).toBeLessThan(bench.check('coil-pulls-in', 'KP').value!);
    expect(changed(['coil_current: 0.4 A }', 'coil_current: 0.4 A, pick_up: 11 V, drop_out: 10.5 V }']).outcome('coil-holds', 'KP')).toBe('broken');
  });

  it('that is polarised and wired backwards does not close', () => {
    const backwards = changed(['coil_current: 0.4 A }', 'coil_current: 0.13 A, economiser: yes }'], ['to: KP.coil_a', 'to: KP.coil_b'], ['from: KP.coil_b', 'from: KP.coil_a']);
    expect(backwards.outcome('coil-used', 'KP')).toBe('broken');
  });

  it('of a plain relay may be wired either way round', () => {
    const swapped = changed(['to: K1.coil_a', 'to: K1.coil_b'], ['from: K1.coil_b', 'from: K1.coil_a']);
    expect(swapped.outcome('coil-used', 'K1')).toBe('holds');
    expect(swapped.outcome('coil-pulls-in', 'K1')).toBe('holds');
  });
});
