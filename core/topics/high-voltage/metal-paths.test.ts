import { describe, expect, it } from 'vitest';
import { carOf } from '../../../checks/fixtures/high-voltage-car.ts';
import { edited, prechargeCar } from '../../../checks/fixtures/precharge-car.ts';
import { linkTransitions } from './link-transitions.ts';
import { metalPaths } from './metal-paths.ts';
import { sections } from './pack-sections.ts';

const pathsOf = (text: string) => {
  const { car, ask } = carOf(text);
  return metalPaths(car, ask);
};

describe('metal paths', () => {
  it('has nothing in a car without parts', () => {
    const paths = pathsOf('halfshaft: 1\nname: t\n');
    expect(paths).toMatchObject({ branches: [], cellTerminals: [], packs: { packs: [], missing: [] } });
    expect(paths.pictureOf(undefined)!.live.same('A.a', 'B.b')).toBe(false);
    expect(paths.pictureOf(undefined)!.live.same('A.a', 'A.a')).toBe(true);
  });

  it('is remembered for one draw and not for the next', () => {
    const { car, ask } = carOf(prechargeCar);
    expect(metalPaths(car, ask)).toBe(metalPaths(car, ask));
    expect(metalPaths(car, { ...ask })).not.toBe(metalPaths(car, ask));
  });

  it('follows the contacts of a mode', () => {
    const paths = pathsOf(prechargeCar);
    const [off, precharge, drive] = [undefined, 'precharge', 'drive'].map((mode) => paths.pictureOf(mode)!);
    expect([off!, precharge!, drive!].map(({ live }) => live.same('INV.pos', 'M4.pos'))).toEqual([false, false, true]);
    expect([off!, precharge!, drive!].map(({ live }) => live.same('INV.neg', 'M1.neg'))).toEqual([false, true, true]);
    // metal does not lead through cells
    expect(drive!.metal.same('INV.pos', 'INV.neg')).toBe(false);
    expect(drive!.live.same('INV.pos', 'INV.neg')).toBe(true);
  });

  it('does not take the precharge resistor for metal, however small', () => {
    expect(pathsOf(edited(prechargeCar, ['resistance: 60 Ω', 'resistance: 0.4 Ω'])).pictureOf('precharge')!.live.same('INV.pos', 'M4.pos')).toBe(false);
  });

  it('keeps the low-voltage side apart', () => {
    expect(pathsOf(prechargeCar).branches.some(({ a }) => a.startsWith('B12.'))).toBe(false);
  });

  it('gives each module its share of the highest voltage', () => {
    const paths = pathsOf(prechargeCar);
    expect(paths.branches.reduce((sum, { voltage }) => sum + voltage, 0)).toBeCloseTo(403.2, 6);
    expect(sections(paths, () => true).map(({ highest }) => highest)).toEqual([expect.closeTo(403.2, 6)]);
    expect(sections(paths, ({ type }) => type === 'cells')).toHaveLength(4);
  });

  it('names the first mode with the same contacts', () => {
    const paths = pathsOf(edited(prechargeCar, ['INV: { draw: 40 kW } } }', 'INV: { draw: 40 kW } } }\n  reverse: { from: [drive], set: { SN: { closed: yes }, SP: { closed: yes } } }']));
    expect(paths.likeMode('reverse')).toBe('drive');
    expect(paths.likeMode('precharge')).toBe('precharge');
  });
});

describe('link transitions', () => {
  it('ask for no closing from a mode in which the link is live already', () => {
    const { car, ask } = carOf(edited(prechargeCar, ['INV: { draw: 40 kW } } }', 'INV: { draw: 40 kW } } }\n  reverse: { from: [drive], set: { SN: { closed: yes }, SP: { closed: yes } } }']));
    expect(linkTransitions(car, ask).closings.map(({ from, to }) => [from, to])).toEqual([['precharge', 'drive']]);
  });

  it('tell links that were filled from links that were not', () => {
    // the heater hangs behind a contactor of its own, on the pack side
    const text = edited(prechargeCar, ['  PR: {', '  KH: { kind: contactor, rating: 50 A, voltage_rating: 900 V, coil_voltage: 12 V, coil_current: 0.2 A }\n  PR: {'],
      ['W5: { from: JP.stud_4, to: HT.pos', 'W5: { from: KH.out, to: HT.pos'], ['  R9:', '  KH1: { from: JP.stud_4, to: KH.in, stock: thin, length: 1 m }\n  KH2: { from: SP.b1, to: KH.coil_a, stock: lv, length: 1 m }\n  KH3: { from: KH.coil_b, to: B12.neg, stock: lv, length: 1 m }\n  R9:']);
    const { car, ask } = carOf(text);
    const [closing] = linkTransitions(car, ask).closings;
    expect(closing!.empty.map(({ part }) => part)).toEqual(['HT']);
    expect(closing!.filled.flatMap(({ links }) => links.map(({ part }) => part))).toEqual(['INV', 'DC']);
  });
});
