import { describe, expect, it } from 'vitest';
import { changed, lowVoltageCar, studied } from '../../../checks/fixtures/low-voltage-car.ts';
import { lowVoltageMetal } from './metal.ts';
import { sourceEnds } from './mode-points.ts';
import { shortsOf } from './short-of-source.ts';

const bench = studied(lowVoltageCar);
const wire = (car: typeof bench, run: string) => car.results.wires.find((result) => result.run === run)!;
const levelOf = (car: typeof bench, code: string, about: string): string => car.findings.find((finding) => finding.code === `low-voltage.${code}` && finding.about[0] === about)!.level;

describe('the ways of the metal', () => {
  it('have the resistance that the one network has between the same points', () => {
    const ends = sourceEnds(bench.car);
    const metal = lowVoltageMetal(bench.car, ends);
    const battery = metal.sources.find(({ source }) => source.part === 'B')!;
    const inside = shortsOf(bench.ask, ends).get('B.pos')!;
    // AGM at 90 %: 6 mΩ of the handbook
    expect(inside.resistance).toBeCloseTo(6e-3, 6);
    // with everything off nothing lies beside the way
    const network = bench.ask.faultCurrent({ mode: 'off' }, 'K1.common', 'chassis');
    if (network.outcome !== 'solved') throw new Error(network.outcome);
    const mine = inside.resistance + battery.feed.resistance('K1.common')! + battery.back.resistance('chassis')!;
    expect(mine / network.resistance).toBeCloseTo(1, 4);
  });

  it('tell feed from return by what lies between, not by names', () => {
    for (const run of ['r0', 'r1', 'rd', 're', 'r5', 'r8', 'r10', 'r12', 'r15']) expect(wire(bench, run).isFed, run).toBe(true);
    for (const run of ['rb', 'rg', 'r6', 'r9', 'r11', 'r13', 'r16']) expect(wire(bench, run).isFed, run).toBe(false);
  });
});

describe('which fuse protects a wire', () => {
  it('is the smallest one on the widest way to it', () => {
    expect(wire(bench, 'r1').protectedBy).toEqual(['FB']);
    expect(wire(bench, 'r5').protectedBy).toEqual(['F1']);
    expect(wire(bench, 'r12').protectedBy).toEqual(['F2']);
  });

  it('are both of two fuses side by side, which add up', () => {
    const two = changed(['F2: {', 'F9: { kind: fuse, rating: 20 A, style: blade }\n  F2: {'], ['modes:', '  p1: { from: S.w5, to: F9.a, stock: w4, length: 0.1 m }\n  p2: { from: F9.b, to: K1.common, stock: w4, length: 2 m }\nmodes:']);
    expect(two.check('run-overload', 'r5').value).toBe(40);
    expect(wire(two, 'r5').protectedBy.toSorted()).toEqual(['F1', 'F9']);
  });

  it('is the DC-DC itself where its limit is all that can come', () => {
    const unfused = changed(['  rd: { from: DC.lv_pos, to: FD.a, stock: w25, length: 1 m }\n', ''], ['  re: { from: FD.b, to: S.w2, stock: w25, length: 1 m }\n', ''], ['modes:', '  d1: { from: DC.lv_pos, to: FD.a, stock: w25, length: 1 m }\nmodes:']);
    expect(wire(unfused, 'd1').protectedBy).toEqual(['DC']);
    expect(unfused.check('run-overload', 'd1').value).toBe(60);
    expect(unfused.outcome('fault-opens-fuse', 'd1')).toBe('none');
  });
});

describe('a wire', () => {
  it('carries its current as long as it stays below its temperature rating', () => {
    expect(bench.outcome('run-current', 'r5')).toBe('holds');
    const hot = changed(['r5: { from: K1.no, to: P1.supply, stock: w4, length: 2 m }', 'r5: { from: K1.no, to: P1.supply, stock: w1, length: 2 m, ambient: 100 °C }']);
    expect(hot.outcome('run-current', 'r5')).toBe('broken');
  });

  it('may carry less in a bundle', () => {
    const bundled = changed(['r5: { from: K1.no, to: P1.supply, stock: w4, length: 2 m }', 'r5: { from: K1.no, to: P1.supply, stock: w4, length: 2 m, bundled: 6 }']);
    expect(bundled.check('run-current', 'r5').limit! / bench.check('run-current', 'r5').limit!).toBeCloseTo(0.88 * 0.7, 9);
    expect(changed(['r5: { from: K1.no, to: P1.supply, stock: w4, length: 2 m }', 'r5: { from: K1.no, to: P1.supply, stock: w4, length: 2 m, bundled: 60 }']).check('run-current', 'r5').needs).toEqual(['runs.r5.bundled']);
  });

  it('is not suited by a fuse larger than what it may carry', () => {
    expect(bench.outcome('run-overload', 'r8')).toBe('holds');
    expect(changed(['F2: { kind: fuse, rating: 10 A', 'F2: { kind: fuse, rating: 30 A']).outcome('run-overload', 'r8')).toBe('broken');
    expect(changed(['r8: { from: S2.w2, to: VC.supply, stock: w1, length: 1 m }', 'r8: { from: S2.w2, to: VC.supply, stock: w1, length: 1 m, bundled: 60 }']).outcome('run-overload', 'r8')).toBe('unknown');
  });

  it('of 178 mm may hang on the battery without a fuse, up to 1.83 m in a sheath, no longer at all (ABYC E-11)', () => {
    const withLength = (length: string) => changed(['r0: { from: B.pos, to: FB.a, stock: w25, length: 0.15 m }', `r0: { from: B.pos, to: FB.a, stock: w25${length} }`]);
    expect(levelOf(bench, 'run-protected', 'r0')).toBe('holds');
    expect(levelOf(withLength(', length: 0.5 m'), 'run-protected', 'r0')).toBe('watch');
    expect(levelOf(withLength(', length: 2 m'), 'run-protected', 'r0')).toBe('stop');
    expect(withLength('').check('run-protected', 'r0').needs).toEqual(['runs.r0.length']);
  });

  it('straight from the battery past all fuses is found wherever it ends', () => {
    const bypass = changed(['modes:', '  by: { from: B.pos, to: S.w5, stock: w4, length: 2 m }\nmodes:']);
    for (const run of ['by', 'r1', 'r2']) expect(bypass.outcome('run-protected', run), run).toBe('broken');
    expect(bypass.check('run-protected', 'r2').value).toBeGreaterThan(1);
    expect(wire(bypass, 'r5').protectedBy).toEqual(['F1']);
  });

  it('must be short and thick enough for a far fault to open its fuse', () => {
    expect(bench.outcome('fault-opens-fuse', 'r15')).toBe('holds');
    const long = changed(['r15: { from: KEY.b1, to: L1.supply, stock: w1, length: 2 m }', 'r15: { from: KEY.b1, to: L1.supply, stock: w1, length: 30 m }']);
    expect(long.outcome('fault-opens-fuse', 'r15')).toBe('broken');
    expect(long.outcome('run-survives-fault', 'r15')).toBe('broken');
    const unmeasured = changed(['r14: { from: S2.w4, to: KEY.a1, stock: w1, length: 1 m }', 'r14: { from: S2.w4, to: KEY.a1, stock: w1 }']);
    expect(unmeasured.check('fault-opens-fuse', 'r15').needs).toEqual(['runs.r14.length']);
  });

  it('has a least fault current below that of the cold network', () => {
    const network = bench.ask.faultCurrent({ mode: 'drive' }, 'P1.supply', 'chassis');
    if (network.outcome !== 'solved') throw new Error(network.outcome);
    const far = wire(bench, 'r5').farFault!;
    expect(far).toBeLessThan(network.current!);
    expect(far).toBeGreaterThan(0.7 * network.current!);
  });

  it('must outlive the fault until the fuse is done', () => {
    expect(bench.outcome('run-survives-fault', 'r8')).toBe('holds');
    // k is 88 A√s/mm² for PVC from 105 °C to 160 °C: (88 · 0.35)² = 950 A²s, while a 20 A blade may let (6 · 20)² · 0.1 = 1440 A²s through
    const thin = changed(['r8: { from: S2.w2', 'r8: { conductor_area: 0.35 mm², from: S2.w2'], ['F2: { kind: fuse, rating: 10 A', 'F2: { kind: fuse, rating: 20 A']);
    expect(thin.check('run-survives-fault', 'r8').limit).toBeGreaterThan(900);
    expect(thin.check('run-survives-fault', 'r8').limit).toBeLessThan(1000);
    expect(thin.outcome('run-survives-fault', 'r8')).toBe('broken');
  });
});

describe('advice about an unfused wire', () => {
  it('gives its lengths in the units of the file', () => {
    const advice = (units: string) => studied(lowVoltageCar.replace('name: Low-voltage bench', `name: t\nunits: ${units}`).replace('r0: { from: B.pos, to: FB.a, stock: w25, length: 0.15 m }', 'r0: { from: B.pos, to: FB.a, stock: w25, length: 1 m }')).findings.find(({ code, about }) => code === 'low-voltage.run-protected' && about[0] === 'r0')!.whatToDo;
    expect(advice('metric')).toContain('1.829 m');
    expect(advice('imperial')).not.toMatch(/\d m\b/);
  });
});
