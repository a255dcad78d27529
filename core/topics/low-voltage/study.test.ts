import { describe, expect, it } from 'vitest';
import { changed, lowVoltageCar, studied } from '../../../checks/fixtures/low-voltage-car.ts';
import { catalogue } from '../../../catalogue/index.ts';
import { readBuild } from '../../build/read-build.ts';
import { answerStore, askNetwork } from '../../car/ask-network.ts';
import { prepareCar, realise } from '../../car/realise.ts';
import { drawTable } from '../../chance/draw-table.ts';
import { kinds } from '../../kinds/all.ts';
import { runKinds } from '../../kinds/run-kinds.ts';
import { lowVoltage } from './study.ts';
import { lowVoltageCodes } from '../../findings/codes/low-voltage.ts';
import { checkKey, marginOf } from '../../findings/judge.ts';

/** A relay that cuts its own coil as soon as it moves, behind a switch of its own. */
export const buzzer = (closedAtRest: boolean): readonly (readonly [string, string])[] => [
  ['  G: {', `  KEY2: { kind: switch, rating: 10 A, rest: ${closedAtRest ? 'closed' : 'open'} }\n  K9: { kind: relay, contact: break, rating: 30 A, coil_voltage: 12 V }\n  G: {`],
  ['modes:', `  z1: { from: S.w5, to: KEY2.a1, stock: w1, length: 1 m }
  z2: { from: KEY2.b1, to: K9.common, stock: w1, length: 1 m }
  z3: { from: K9.nc, to: K9.coil_a, stock: w1, length: 0.1 m }
  z4: { from: K9.coil_b, to: G2.stud, stock: w1, length: 1 m }
modes:
  buzz: { set: { KEY2: { closed: yes } } }`],
];

describe('a strange car gives findings and never an exception', () => {
  it.each([
    ['an empty file', ''],
    ['a name and nothing else', 'halfshaft: 1\nname: x\n'],
    ['a lamp without any source', 'halfshaft: 1\nname: x\nparts:\n  L: { kind: load, current: 2 A }\n  G: { kind: ground_stud }\nruns: {}\n'],
    ['a battery alone', 'halfshaft: 1\nname: x\nparts:\n  B: { kind: battery_12v, chemistry: agm, nominal_voltage: 12 V, capacity: 60 Ah }\n'],
    ['a battery shorted by a wire', 'halfshaft: 1\nname: x\nstock:\n  w: { kind: wire, conductor_area: 4 mm², insulation: pvc_105 }\nparts:\n  B: { kind: battery_12v, chemistry: agm, nominal_voltage: 12 V, capacity: 60 Ah }\nruns:\n  r: { from: B.pos, to: B.neg, stock: w, length: 1 m }\n'],
    ['a wire from a part to itself', lowVoltageCar.replace('to: KEY.a1', 'to: S2.w4')],
    ['a fuse box whose battery lacks values', lowVoltageCar.replace('nominal_voltage: 12 V, capacity: 60 Ah', 'nominal_voltage: 12 V')],
    ['a car without modes', lowVoltageCar.slice(0, lowVoltageCar.indexOf('modes:'))],
    ['a car without runs', `${lowVoltageCar.slice(0, lowVoltageCar.indexOf('runs:'))}runs: {}\n`],
    ['air of 76 °C', lowVoltageCar.replace('ambient: 30 °C', 'ambient: 76 °C')],
    ['a wire in air hotter than its insulation stands', lowVoltageCar.replace('r15: {', 'r15: { ambient: 120 °C,')],
  ])('%s', (_, text) => {
    const { checks, findings } = studied(text);
    for (const check of checks) expect(() => marginOf(check), checkKey(check)).not.toThrow();
    expect(findings).toHaveLength(checks.length);
  });
});

describe('the whole bench car', () => {
  const bench = studied(lowVoltageCar);

  it('reads without a problem', () => expect(bench.problems).toEqual([]));

  it('has no two checks of the same key', () => {
    const keys = bench.checks.map(checkKey);
    expect(keys.filter((key, index) => keys.indexOf(key) !== index)).toEqual([]);
  });

  it('makes the same checks in every draw', () => {
    const words = { kinds, runKinds, catalogue };
    const build = readBuild(lowVoltageCar, words);
    const prepared = prepareCar(build, words);
    const table = drawTable([...build.quantities.values()], 60, 7);
    const store = answerStore();
    const nominalKeys = bench.checks.map(checkKey);
    for (let draw = 0; draw < 60; draw++) {
      const car = realise(prepared, table.valueOf(draw));
      expect(lowVoltage.study(car, askNetwork(car, store)).checks.map(checkKey)).toEqual(nominalKeys);
    }
  });

  it('leaves nothing broken but the plug-in fuses right behind the battery', () => {
    const broken = bench.findings.filter(({ level }) => level !== 'holds');
    expect(broken.map(({ code, about }) => `${code} ${about.join(' ')}`)).toEqual(['low-voltage.fuse-breaking-capacity F1', 'low-voltage.fuse-breaking-capacity F2']);
  });

  it('makes every check of its code table on some bench car of these tests', () => {
    const plug = changed(['  G: {', '  X: { kind: connector, pins: 1, pin_rating: 13 A }\n  G: {'], ['r5: { from: K1.no, to: P1.supply, stock: w4, length: 2 m }', 'r5: { from: K1.no, to: X.a1, stock: w4, length: 1 m }\n  r5b: { from: X.b1, to: P1.supply, stock: w4, length: 1 m }']);
    const made = new Set([...bench.checks, ...plug.checks, ...changed(['drive: {', 'spurt: { lasts: 5 s, every: 60 s, set: {} }\n  drive: {']).checks].map(({ code }) => code));
    expect(lowVoltageCodes.filter(({ code }) => !made.has(code)).map(({ code }) => code)).toEqual([]);
  });

  it('says unknown, not holds, where a mode could not be computed', () => {
    const buzzing = changed(...buzzer(false));
    expect(buzzing.results.failed.map(({ mode }) => mode)).toEqual(['buzz']);
    for (const code of ['consumer-fed', 'consumer-voltage-low', 'consumer-voltage-high', 'consumer-drop', 'consumer-ground']) expect(buzzing.outcome(code, 'P1')).toBe('unknown');
    for (const code of ['coil-used', 'coil-pulls-in', 'coil-holds']) expect(buzzing.outcome(code, 'KP')).toBe('unknown');
    for (const code of ['fuse-steady-current', 'fuse-voltage']) expect(buzzing.outcome(code, 'F1')).toBe('unknown');
    expect(buzzing.outcome('critical-drop', 'VC')).toBe('unknown');
    expect(buzzing.outcome('run-current', 'r5')).toBe('unknown');
    expect(buzzing.outcome('contact-current', 'K1')).toBe('unknown');
    expect(buzzing.outcome('contact-voltage', 'K1')).toBe('unknown');
    expect(buzzing.outcome('supply-capacity', 'DC')).toBe('unknown');
    expect(buzzing.outcome('standing-time', 'B')).toBe('unknown');
    expect(buzzing.check('consumer-fed', 'P1').needs).toEqual(['modes.buzz']);
  });

  it('still says broken where a mode that could be computed breaks it', () => {
    expect(changed(...buzzer(false), ['F1: { kind: fuse, rating: 20 A', 'F1: { kind: fuse, rating: 5 A']).outcome('fuse-steady-current', 'F1')).toBe('broken');
  });

  it('knows no fault current when the state at rest could not be computed', () => {
    const buzzing = changed(...buzzer(true));
    expect(buzzing.outcome('fuse-breaking-capacity', 'FB')).toBe('unknown');
    expect(buzzing.outcome('fault-opens-fuse', 'r5')).toBe('unknown');
    expect(buzzing.outcome('run-survives-fault', 'r5')).toBe('unknown');
    expect(buzzing.outcome('standing-drain', 'B')).toBe('unknown');
  });
});
