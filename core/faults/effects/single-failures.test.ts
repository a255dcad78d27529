import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { root } from '../../../checks/architecture/imports.ts';
import { carFromText } from '../../../checks/fixtures/car-from-text.ts';
import { changed, highVoltageCar } from '../../../checks/fixtures/high-voltage-car.ts';
import { judge, marginOf } from '../../findings/judge.ts';
import type { Check } from '../../findings/finding.ts';
import { listHypotheses } from '../list-hypotheses.ts';
import { sightsIn } from '../predict-state.ts';
import { effectsIn } from './effects-in.ts';
import { failureChecks } from './failure-checks.ts';
import { groupRows } from './group-rows.ts';
import { placesIn } from './places.ts';
import { effectWords, happens } from './words.ts';
import type { Say } from './words.ts';
import { singleFailures } from './single-failures.ts';
import type { FailureTable } from './single-failures.ts';
import type { Effect, InMode, SingleFailure } from './effect.ts';

/** Both coils hang on one switch, straight on the battery. */
const withWay = changed("  drive: { set: {", "  drive: { from: [rest], set: {", changed("  boost: { lasts", "  boost: { from: [drive], lasts", highVoltageCar));
const fused = changed('  L1: { from: B12.pos, to: S1.a1, stock: lv, length: 1 m }', '  L1: { from: B12.pos, to: FB.a, stock: lv, length: 0.1 m }\n  L7: { from: FB.b, to: S1.a1, stock: lv, length: 1 m }', changed('  G: { kind: ground_stud }', '  G: { kind: ground_stud }\n  FB: { kind: fuse, rating: 10 A, style: blade }', withWay));

interface Studied { readonly table: FailureTable; readonly checks: readonly Check[]; readonly of: (id: string) => SingleFailure; readonly verdict: (code: string, about?: string) => string }

const known = new Map<string, Studied>();
function studied(text: string): Studied {
  const before = known.get(text);
  if (before) return before;
  const { build, car, ask } = carFromText(text);
  expect(build.problems.map(({ message }) => message)).toEqual([]);
  const table = singleFailures(car, ask);
  const checks = failureChecks(car, table);
  // throws where a sentence cannot be filled
  for (const { statement, whatToDo } of judge(checks, { places: build.places, units: 'metric' })) expect(`${statement} ${whatToDo}`).not.toMatch(/NaN|undefined|\{/);
  const made: Studied = {
    table, checks,
    of: (id) => { const found = table.failures.find((one) => one.id === id); if (!found) throw new Error(`no failure ${id}`); return found; },
    verdict: (code, about) => { const check = checks.find((one) => one.code === code && (about === undefined || one.about[0] === about)); if (!check) return 'not made'; const margin = marginOf(check); return margin === undefined ? 'unknown' : margin < 0 ? 'broken' : 'holds'; },
  };
  known.set(text, made);
  return made;
}
const sorts = ({ modes }: SingleFailure, mode: string): readonly string[] => modes.filter((one) => one.mode === mode && one.handsAs === undefined).flatMap(({ effects }) => effects.map(({ sort }) => sort));
const numbersIn = (value: unknown): readonly number[] => (typeof value === 'number' ? [value] : value !== null && typeof value === 'object' ? Object.values(value).flatMap(numbersIn) : []);

describe('high voltage after key-off', () => {
  it('stays when the one switch of both coils sticks', () => {
    const { of, verdict } = studied(withWay);
    const stuck = of('S1.contact_1_stuck_closed');
    expect(sorts(stuck, 'rest')).toContain('high_voltage_on');
    expect(stuck.severity).toBe('danger');
    expect(verdict('high-voltage.dead-after-key-off', 'rest')).toBe('broken');
  });
  it('does not when each coil has a switch of its own', () => {
    const two = changed('  L3: { from: S1.b1,', '  L8: { from: B12.pos, to: S2.a1, stock: lv, length: 1 m }\n  L3: { from: S2.b1,', changed('  S1: { kind: switch }', '  S1: { kind: switch }\n  S2: { kind: switch }', withWay)).replaceAll('S1: { closed: yes }', 'S1: { closed: yes }, S2: { closed: yes }');
    const { of, verdict } = studied(two);
    const stuck = of('S1.contact_1_stuck_closed');
    expect(sorts(stuck, 'rest')).toEqual(['contact_closes']);
    expect(stuck.second).toEqual({ sort: 'contact', by: ['KN'] });
    expect(stuck.severity).toBe('hidden');
    expect(verdict('high-voltage.dead-after-key-off', 'rest')).toBe('holds');
  });
});

describe('a string that is lost', () => {
  it('leaves all the current to the other, whose thin cable is hot before its fuse opens', () => {
    const { car, ask } = carFromText(readFileSync(join(root, 'examples/two-string-coupe/build.yaml'), 'utf8'));
    const places = placesIn(car, ask);
    const lost = listHypotheses(car).find(({ id }) => id === 'F_A.blown')!;
    const hotIn = (mode: string, isShort: boolean): Effect => {
      const sights = sightsIn(car, { mode }, places.watched);
      const hot = effectsIn(car, places, sights.base!, sights.of(lost), lost, sights.isHigh, isShort).effects.find(({ sort }) => sort === 'overheats')!;
      // about twice what each string carries with both of them
      const place = places.watched.runs.indexOf('S_F_B');
      expect(hot.amount! / Math.abs(sights.base!.amps[place]!)).toBeGreaterThan(1.6);
      return hot;
    };
    const [drive, full] = [hotIn('drive', false), hotIn('full_power', true)];
    const say: Say = (si) => `${si.toFixed(0)} A`;
    expect(effectWords(full, false, say)).toMatch(/^S_F_B overheats, \d+ A, before F_B opens$/);
    expect(effectWords(drive, false, say)).toMatch(/^S_F_B overheats, \d+ A, and no fuse opens$/);
    const inMode = (mode: string, effect: Effect): InMode => ({ mode, handsAs: undefined, effects: [effect], notices: [], seenAt: [] });
    // what no fuse ends in one mode is said of both
    expect(happens({ modes: [inMode('full_power', full), inMode('drive', drive)] } as unknown as SingleFailure, say)[0]!.text).toMatch(/and no fuse opens$/);
  });
});

describe('a welded contactor', () => {
  it('is hidden when nothing looks, and dangerous with the other', () => {
    const { of, verdict } = studied(withWay);
    expect(of('KP.welded')).toMatchObject({ severity: 'hidden', isNoticed: false, second: { sort: 'contact' } });
    expect(of('KP.welded').second!.by).toContain('KN');
    expect([verdict('high-voltage.weld-noticed', 'KP'), verdict('high-voltage.weld-noticed', 'KN')]).toEqual(['broken', 'broken']);
  });
  it('is noticed by a condition that compares the voltage across it', () => {
    const { of, verdict } = studied(changed('rest: { meaning: nothing }', `rest: { meaning: nothing, asserts: ["V('KP.in', 'KP.out') > voltage('20 V')"] }`, withWay));
    expect(of('KP.welded')).toMatchObject({ severity: 'guard', isNoticed: true });
    expect(of('KP.welded').modes.flatMap(({ notices }) => notices)).toContainEqual({ by: 'refusal', about: ['rest'] });
    expect([verdict('high-voltage.weld-noticed', 'KP'), verdict('high-voltage.weld-noticed', 'KN')]).toEqual(['holds', 'broken']);
  });
  it('is dangerous at once where it is the only one', () => {
    const single = changed('  R9: { from: KN.out, to: JN.stud_1,', '  R9: { from: M1.neg, to: JN.stud_1,', withWay);
    expect(sorts(studied(single).of('KP.welded'), 'rest')).toContain('high_voltage_on');
  });
});

describe('a wire chafed through', () => {
  it('burns without a fuse', () => {
    const { of, verdict, checks } = studied(withWay);
    const chafed = of('L1.to_chassis');
    expect(chafed.severity).toBe('danger');
    expect(chafed.modes.flatMap(({ effects }) => effects).find(({ sort }) => sort === 'overheats')).toMatchObject({ about: ['L1', 'L6'] });
    expect(verdict('low-voltage.chafed-wire-fused', 'L1')).toBe('broken');
    expect(checks.find(({ code }) => code === 'low-voltage.chafed-wire-fused')!.levelWhenBroken).toBe('fix');
  });
  it('opens the fuse before it; the stub before the fuse is only watched', () => {
    const { of, verdict, checks } = studied(fused);
    expect(of('L7.to_chassis').modes.flatMap(({ effects }) => effects.map(({ sort }) => sort))).toContain('fuse_opens');
    expect(of('L7.to_chassis').severity).not.toBe('danger');
    expect([verdict('low-voltage.chafed-wire-fused', 'L7'), verdict('low-voltage.chafed-wire-fused', 'L1')]).toEqual(['holds', 'broken']);
    expect(checks.find(({ code, about }) => code === 'low-voltage.chafed-wire-fused' && about[0] === 'L1')!.levelWhenBroken).toBe('watch');
  });
});

describe('an interlock loop', () => {
  const loop = changed('  L2: { from: S1.b1, to: KP.coil_a,', '  L9: { from: S1.b1, to: IL.a, stock: lv, length: 1 m }\n  L2: { from: IL.b, to: KP.coil_a,', changed('  G: { kind: ground_stud }', '  G: { kind: ground_stud }\n  IL: { kind: interlock_contact }', fused));
  it('is bypassed by its own bridge, and by a wire behind it that touches a live one', () => {
    const { of, verdict, table } = studied(loop);
    expect(table.loop).toMatchObject({ watched: ['IL'], unwatched: [] });
    expect(of('IL.bridged').second).toEqual({ sort: 'cover', by: ['IL'] });
    expect(of('IL.bridged').severity).toBe('hidden');
    expect(sorts(of('L2.to_supply'), 'drive')).toContain('loop_bypassed');
    expect(verdict('high-voltage.loop-bypass-noticed', 'IL')).toBe('broken');
  });
  it('that breaks is no bypass', () => {
    expect(sorts(studied(loop).of('IL.open'), 'drive')).not.toContain('loop_bypassed');
    expect(sorts(studied(loop).of('IL.open'), 'drive')).toContain('contacts_drop');
  });
  it('is not spoken of where there is none', () => expect(studied(fused).verdict('high-voltage.loop-bypass-noticed')).toBe('not made'));
});

describe('the plug', () => {
  const plugged = (need: string): string => changed('from: [rest],', `from: [rest], needs: ["${need}"],`, changed('  L6: {', '  P1: { from: INLET.pe, to: G.stud, stock: lv, length: 1 m }\n  P2: { from: INLET.proximity, to: VC.prox, stock: lv, length: 2 m }\n  P3: { from: FB.b, to: VC.supply, stock: lv, length: 1 m }\n  P4: { from: VC.ground, to: G.stud, stock: lv, length: 1 m }\n  L6: {', changed('  G: { kind: ground_stud }', '  G: { kind: ground_stud }\n  INLET: { kind: charge_inlet, type: type_1 }\n  VC: { kind: controller, wakes_by: supply, current: 0.3 A, minimum_voltage: 9 V, maximum_voltage: 16 V, inputs: { prox: { pull: up } } }', fused)));
  it('cannot be told from a setting', () => {
    const { verdict, table } = studied(plugged('INLET.plugged == false'));
    expect(verdict('modes.plugged-after-failure', 'INLET')).toBe('unknown');
    expect(table.untold.some((text) => text.includes('INLET.plugged == false'))).toBe(true);
  });
  it('is hidden by a broken wire to an input that reads open as unplugged', () => {
    const { of, verdict } = studied(plugged(`V('VC.prox') > voltage('1 V')`));
    expect(of('P2.open').modes.flatMap(({ effects }) => effects)).toContainEqual({ sort: 'drives_plugged', about: ['INLET'] });
    expect(of('P2.open').severity).toBe('danger');
    expect(sorts(of('P2.to_chassis'), 'drive')).not.toContain('drives_plugged');
    expect(verdict('modes.plugged-after-failure', 'INLET')).toBe('broken');
  });
});

describe('the table', () => {
  it('has every failure once, worst first, in rows that lose none, and only numbers', () => {
    const { table } = studied(fused);
    expect(new Set(table.failures.map(({ id }) => id)).size).toBe(table.failures.length);
    const rows = groupRows(table.failures, (si) => String(si));
    expect(rows.flatMap(({ failures }) => failures).length).toBe(table.failures.length);
    expect(rows.length).toBeLessThan(table.failures.length);
    expect(numbersIn(table).every(Number.isFinite)).toBe(true);
    expect(JSON.parse(JSON.stringify(structuredClone(table)))).toEqual(JSON.parse(JSON.stringify(table)));
  });
  it('says what stops the car, and that the driver feels it', () => {
    expect(studied(fused).of('L7.open')).toMatchObject({ severity: 'stops', isNoticed: true });
    expect(sorts(studied(fused).of('L7.open'), 'drive')).toEqual(expect.arrayContaining(['contacts_drop', 'torque_lost']));
  });
  it('tells of a leak only where there is a monitor', () => {
    expect(studied(fused).of('W1.to_chassis')).toMatchObject({ severity: 'hidden', second: { sort: 'leak' } });
  });
  it('counts a leak from inside a module, where no probe reaches, like any other', () => {
    expect(studied(fused).of('M3.leak_middle')).toMatchObject({ severity: 'hidden', second: { sort: 'leak' } });
  });
  it.each(['halfshaft: 1\n', 'halfshaft: 1\nparts:\n  K: { kind: contactor }\n', 'halfshaft: 1\nparts:\n  B: { kind: battery_12v, chemistry: agm, nominal_voltage: 12 V, capacity: 60 Ah }\nmodes:\n  off: { meaning: parked }\n'])('never throws on a strange car %#', (text) => {
    const { car, ask } = carFromText(text);
    expect(Array.isArray(failureChecks(car, singleFailures(car, ask)))).toBe(true);
  });
});
