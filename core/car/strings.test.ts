import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bareCar, goodCar, replaced, twoStringCar } from '../../checks/fixtures/pack-car.ts';
import { carFromText } from '../../checks/fixtures/car-from-text.ts';
import { stringsOf } from './strings.ts';
import type { PackLayout } from './strings.ts';

const layoutOf = (text: string): PackLayout => stringsOf(goodCar(text).car);
/** `A1 -A2 A3`: a module that is turned round carries a minus. */
const inWords = ({ packs }: PackLayout): string[][] => packs.map(({ strings }) => strings.map(({ modules }) => modules.map(({ part, isReversed }) => `${isReversed ? '-' : ''}${part.name}`).join(' ')));
const chain = (names: readonly string[]): string[] => names.slice(1).map((name, index) => `${names[index]}.pos ${name}.neg`);

describe('strings of strange cars', () => {
  it('finds nothing in a car without cells', () => {
    expect(stringsOf(carFromText('halfshaft: 1\nname: t\n').car)).toEqual({ packs: [], unconnected: [], shorted: [], notCounted: [] });
  });

  it('names a module that nothing is joined to', () => {
    const layout = layoutOf(bareCar(['M1', 'M2', 'M3'], ['M1.pos M2.neg']));
    expect(layout.unconnected.map(({ name }) => name)).toEqual(['M3']);
    expect(inWords(layout)).toEqual([['M1 M2']]);
  });

  it('names a module that lacks values instead of counting it', () => {
    const layout = stringsOf(carFromText(bareCar(['M1', 'M2'], ['M1.pos M2.neg']).replace('series: 12 }\n  M2', '}\n  M2')).car);
    expect(layout.notCounted.map(({ name }) => name)).toEqual(['M1']);
    expect(inWords(layout)).toEqual([['M2']]);
  });

  it('names a module whose terminals are joined, and the way', () => {
    const { shorted, packs } = layoutOf(bareCar(['M1', 'M2', 'M3'], ['M1.pos M2.neg', 'M2.pos M3.neg', 'M2.neg M2.pos']));
    expect(shorted.map(({ part, by }) => [part.name, by.through])).toEqual([['M2', ['R3']]]);
    expect(packs[0]!.strings[0]!.modules.map(({ part }) => part.name)).toEqual(['M1', 'M3']);
  });

  it('finds a string that is joined end to end in a ring', () => {
    const { packs } = layoutOf(bareCar(['M1', 'M2', 'M3'], [...chain(['M1', 'M2', 'M3']), 'M3.pos M1.neg']));
    expect(packs[0]!.strings.map(({ shortedBy, modules }) => [shortedBy?.through, modules.length])).toEqual([[['R3'], 3]]);
    expect(packs[0]!.assembly).toBeUndefined();
  });

  it('finds the part of a string that a run lies across', () => {
    const { packs } = layoutOf(bareCar(['M1', 'M2', 'M3', 'M4'], [...chain(['M1', 'M2', 'M3', 'M4']), 'M3.pos M2.neg']));
    expect(packs[0]!.strings.filter(({ shortedBy }) => shortedBy).map(({ modules, shortedBy }) => [modules.map(({ part }) => part.name), shortedBy!.through])).toEqual([[['M2', 'M3'], ['R4']]]);
  });

  it('names the module that looks the wrong way', () => {
    expect(inWords(layoutOf(bareCar(['M1', 'M2', 'M3'], ['M1.pos M2.pos', 'M2.neg M3.neg'])))).toEqual([['M1 -M2 M3']]);
  });

  it('takes the first module as right when two stand against each other', () => {
    expect(inWords(layoutOf(bareCar(['M1', 'M2'], ['M1.pos M2.pos'])))).toEqual([['M1 -M2']]);
  });

  it('keeps two groups apart that nothing joins', () => {
    expect(inWords(layoutOf(bareCar(['M1', 'M2', 'M3', 'M4'], ['M1.pos M2.neg', 'M3.pos M4.neg'])))).toEqual([['M1 M2'], ['M3 M4']]);
  });

  it('does not call a branch with a loose end a battery with two ends', () => {
    const { packs } = layoutOf(bareCar(['M1', 'M2', 'M3'], [...chain(['M1', 'M2']), 'M1.pos M3.neg']));
    expect(packs[0]!.assembly).toBeUndefined();
    expect(packs[0]!.strings).toHaveLength(3);
  });
});

describe('strings of a battery', () => {
  it('orders modules from the negative to the positive end, whatever the order of the file', () => {
    const layout = layoutOf(bareCar(['M3', 'M1', 'M2'], chain(['M1', 'M2', 'M3'])));
    expect(inWords(layout)).toEqual([['M1 M2 M3']]);
    expect(layout.packs[0]).toMatchObject({ negative: 'M1.neg', positive: 'M3.pos' });
  });

  it('goes through fuses and disconnects, and says what lies between', () => {
    const [pack] = layoutOf(twoStringCar).packs;
    expect(pack!.strings.map(({ name }) => name)).toEqual(['A1', 'B1']);
    expect(pack!.strings[0]!.between.map(({ through }) => through)).toEqual([['RA1'], ['RA2', 'DA', 'RA3'], ['RA4']]);
    expect(pack!.strings[1]).toMatchObject({ negative: 'B1.neg', positive: 'B4.pos', shortedBy: undefined });
  });

  it('finds where parallel strings meet, and their leads', () => {
    const [pack] = layoutOf(twoStringCar).packs;
    expect(pack).toMatchObject({ positive: 'JP.stud_2', negative: 'JN.stud_2', assembly: { form: 'parallel' } });
    const members = pack!.assembly!.form === 'parallel' ? pack!.assembly!.members : [];
    expect(members.map(({ lead }) => lead.through)).toEqual([['JN', 'RA7', 'RA5', 'FA', 'RA6', 'JP'], ['RB7', 'RB5', 'FB', 'RB6']]);
  });

  it('tells two bare parallel strings from a short', () => {
    const layout = layoutOf(bareCar(['A1', 'A2', 'B1', 'B2'], ['A1.pos A2.neg', 'B1.pos B2.neg', 'A1.neg B1.neg', 'A2.pos B2.pos']));
    expect(inWords(layout)).toEqual([['A1 A2', 'B1 B2']]);
    expect(layout.packs[0]!.assembly).toMatchObject({ form: 'parallel' });
  });

  it('tells parallel strings from a short while only one pole of the equipment is joined', () => {
    expect(inWords(layoutOf(replaced(twoStringCar, ['  W2: { from: JN.stud_3, to: INV.neg, stock: thick, length: 2 m }\n', ''])))).toEqual([['A1 A2 A3 A4', 'B1 B2 B3 B4']]);
  });

  it('finds pairs of parallel modules in series', () => {
    const [pack] = layoutOf(bareCar(['A1', 'B1', 'A2', 'B2'], ['A1.pos B1.pos', 'A1.neg B1.neg', 'A2.pos B2.pos', 'A2.neg B2.neg', 'A1.pos A2.neg'])).packs;
    expect(pack!.assembly).toMatchObject({ form: 'series', members: [{ isOpposed: false, assembly: { form: 'parallel' } }, { isOpposed: false, assembly: { form: 'parallel' } }] });
  });

  it('names a whole string that is joined the wrong way round', () => {
    const [pack] = layoutOf(replaced(twoStringCar, ['to: JP.stud_2, stock', 'to: JN.stud_2, stock'], ['from: B1.neg, to: JN.stud_2', 'from: B1.neg, to: JP.stud_2'])).packs;
    expect(pack!.assembly!.form === 'parallel' && pack!.assembly!.members.map(({ isOpposed }) => isOpposed)).toEqual([false, true]);
  });

  it('names a reversed module in one of two parallel strings', () => {
    const layout = layoutOf(replaced(twoStringCar, ['{ from: B1.pos, to: B2.neg', '{ from: B1.pos, to: B2.pos'], ['{ from: B2.pos, to: DB.in', '{ from: B2.neg, to: DB.in']));
    expect(inWords(layout)).toEqual([['A1 A2 A3 A4', 'B1 -B2 B3 B4']]);
  });

  it('does not take a precharge resistor, however small, for metal', () => {
    const car = bareCar(['M1', 'M2'], ['M1.pos PR.in', 'PR.out M2.neg'], '  PR: { kind: precharge_resistor, resistance: 0.5 Ω, coil_voltage: 12 V }\n');
    expect(inWords(layoutOf(car))).toEqual([['M1'], ['M2']]);
  });

  it('finds the same strings whatever the order of parts and runs and the direction of runs', () => {
    fc.assert(fc.property(fc.integer({ min: 1, max: 4 }), fc.integer({ min: 1, max: 5 }), fc.integer({ min: 0, max: 2 ** 30 }), (stringCount, moduleCount, seed) => {
      const names = Array.from({ length: stringCount }, (_, s) => Array.from({ length: moduleCount }, (__, m) => `S${s}M${m}`));
      const runs = [...names.flatMap(chain), ...names.slice(1).flatMap((string, index) => [`${names[index]![0]}.neg ${string[0]}.neg`, `${names[index]!.at(-1)}.pos ${string.at(-1)}.pos`])];
      const shuffled = <T>(list: readonly T[], salt: number): T[] => list.map((item, index) => ({ item, key: Math.sin(seed + salt + 12.9898 * index) })).sort((a, b) => a.key - b.key).map(({ item }) => item);
      const turned = shuffled(runs, 7).map((run, index) => ((seed >> (index % 16)) & 1 ? run.split(' ').reverse().join(' ') : run));
      if (stringCount * moduleCount === 1) return;
      const layout = layoutOf(bareCar(shuffled(names.flat(), 3), turned));
      expect(layout.unconnected).toEqual([]);
      expect(layout.packs).toHaveLength(1);
      expect([...inWords(layout)[0]!].sort()).toEqual(names.map((string) => string.join(' ')).sort());
      expect(layout.packs[0]!.assembly).toBeDefined();
    }), { numRuns: 60 });
  });
});
