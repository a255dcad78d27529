import { describe, expect, it } from 'vitest';
import { isolationFromReadings } from '../../physics/isolation.ts';
import { carOf } from '../../../checks/fixtures/high-voltage-car.ts';
import { edited, prechargeCar, studied } from '../../../checks/fixtures/precharge-car.ts';
import { studyIsolation } from './isolation.ts';

const study = (text: string) => studied(studyIsolation, text);
const run = (line: string) => (text: string) => edited(text, ['  R9:', `  ${line}\n  R9:`]);
const leaky = (resistance: string) => edited(prechargeCar, ['y_capacitance: 0.2 µF', `y_capacitance: 0.2 µF, insulation_resistance: ${resistance}`]);

describe('isolation of strange cars', () => {
  it('says nothing about a car without parts', () => {
    const { car, ask } = carOf('halfshaft: 1\nname: t\n');
    expect(studyIsolation(car, ask)).toEqual({ results: [], checks: [] });
  });

  it('asks for no isolation in class A', () => {
    expect(study(prechargeCar.replaceAll('series: 24 }', 'series: 3 }'))).toMatchObject({ results: [], checks: [] });
  });

  it('judges the pack alone in a car without modes', () => {
    const { results, find } = study(prechargeCar.slice(0, prechargeCar.indexOf('modes:')));
    expect(results[0]).toMatchObject({ modes: ['everything off'], parts: ['M1', 'M2', 'M3', 'M4'], limitPerVolt: 100 });
    expect(find('isolation-resistance').level).toBe('holds');
    expect(find('isolation-monitored').level).toBe('watch');
  });
});

describe('isolation', () => {
  it('studies each set of joined parts once, and no set inside another', () => {
    const { results } = study(edited(prechargeCar, ['INV: { draw: 40 kW } } }', 'INV: { draw: 40 kW } } }\n  reverse: { from: [drive], set: { SN: { closed: yes }, SP: { closed: yes }, INV: { draw: 5 kW } } }']));
    expect(results).toHaveLength(1);
    expect(results[0]).toMatchObject({ modes: ['drive', 'reverse'], limitPerVolt: 500 });
    expect(results[0]!.parts).toContain('INV');
  });

  it('gives what the three readings of UN R100 annex 4B would give', () => {
    const text = edited(leaky('300 kΩ'), ['JN: { kind: junction, studs: 5, pole: negative }', 'JN: { kind: junction, studs: 5, pole: negative, insulation_resistance: 150 kΩ }']);
    const { car, ask } = carOf(text);
    const at = (bridges: { a: string; b: string; resistance: number }[]) => {
      const solved = ask.solve({ mode: 'drive', bridges });
      if (solved.outcome !== 'solved') throw new Error(solved.outcome);
      return { negative: -solved.voltageOf('M1.neg'), positive: solved.voltageOf('M4.pos') };
    };
    const open = at([]);
    expect(open.positive).toBeGreaterThan(open.negative);
    const added = 200_000;
    const { positive: withAdded } = at([{ a: 'M4.pos', b: 'chassis', resistance: added }]);
    const measured = isolationFromReadings({ pack: open.negative + open.positive, ...open, added, withAdded });
    if (measured.outcome !== 'resistance') throw new Error(measured.outcome);
    const [result] = studyIsolation(car, ask).results;
    expect(result!.resistance! / measured.resistance).toBeCloseTo(1, 6);
    expect(result!.negative).toBeLessThan(result!.positive!);
  });

  it('holds dry, must be fixed below 500 Ω/V with a motor side, and says which pole', () => {
    expect(study(prechargeCar).find('isolation-resistance', 'drive').level).toBe('holds');
    const { find } = study(leaky('150 kΩ'));
    expect(find('isolation-resistance', 'drive')).toMatchObject({ level: 'fix', limit: 500 });
    expect(find('isolation-resistance', 'drive').value).toBeCloseTo(150_000 / 403.2, -2);
    expect(find('pole-not-tied').level).toBe('holds');
  });

  it('stops a pole that a run ties to the chassis', () => {
    const { find } = study(run('TIE: { from: JN.stud_5, to: G2.stud, stock: lv, length: 1 m }')(edited(prechargeCar, ['  G: {', '  G2: { kind: ground_stud }\n  G: {'])));
    expect(find('pole-not-tied')).toMatchObject({ level: 'stop' });
    expect(find('pole-not-tied').statement).toContain('the negative pole');
    expect(find('isolation-resistance').level).toBe('fix');
  });

  it('finds a leak in the middle of a module, which no single part declares', () => {
    const { car, ask } = carOf(prechargeCar);
    const failed = { ...ask, solve: (state: object) => ask.solve({ ...state, failures: [{ part: 'M2', failure: 'leak_middle' }] }), thevenin: (state: object, a: string, b: string) => ask.thevenin({ ...state, failures: [{ part: 'M2', failure: 'leak_middle' }] }, a, b) };
    const [result] = studyIsolation(car, failed).results;
    // 20 kΩ at 3/8 of the pack: the equivalent leak of the nearer, negative pole is 20 kΩ / (1 - 3/8)
    expect(result!.resistance! / (20_000 / 0.625)).toBeCloseTo(1, 1);
  });
});

describe('the insulation monitor', () => {
  it('warns in time and not without cause', () => {
    const { find } = study(prechargeCar);
    for (const code of ['isolation-monitored', 'monitor-threshold', 'monitor-quiet']) expect(find(code).level, code).toBe('holds');
  });

  it('must not be set too low, nor above what the car has', () => {
    expect(study(edited(prechargeCar, ['warn_below: 220 kΩ', 'warn_below: 100 kΩ'])).find('monitor-threshold').level).toBe('fix');
    expect(study(edited(prechargeCar, ['warn_below: 220 kΩ', 'warn_below: 5 MΩ'])).find('monitor-quiet').level).toBe('watch');
  });

  it('is unknown without its threshold', () => {
    const { find } = study(edited(prechargeCar, ['warn_below: 220 kΩ, ', '']));
    expect(find('monitor-threshold')).toMatchObject({ level: 'unknown', needs: ['parts.IMD.warn_below'] });
    expect(find('monitor-quiet').level).toBe('unknown');
  });

  it('does not count when its wires go nowhere', () => {
    expect(study(edited(prechargeCar, ['  W7: { from: JP.stud_4, to: IMD.pos, stock: thin, length: 1 m }\n', ''], ['  W8: { from: JN.stud_5, to: IMD.neg, stock: thin, length: 1 m }\n', ''])).find('isolation-monitored').level).toBe('watch');
  });
});

describe('energy in the filter capacitors', () => {
  it('adds up both poles of all joined parts at the full pack voltage', () => {
    const { results, find } = study(prechargeCar);
    expect(results[0]!.capacitance).toBeCloseTo(0.6e-6, 12);
    expect(results[0]!.touchEnergy).toBeCloseTo((0.6e-6 * 403.2 ** 2) / 2, 9);
    expect(find('touch-energy').level).toBe('holds');
  });

  it('is watched above 0.2 J', () => {
    expect(study(edited(prechargeCar, ['y_capacitance: 0.2 µF', 'y_capacitance: 1.5 µF'])).find('touch-energy').level).toBe('watch');
  });

  it('is broken by what is declared alone, whatever the rest may hold', () => {
    expect(study(edited(prechargeCar, ['y_capacitance: 0.2 µF', 'y_capacitance: 1.5 µF'], ['minimum_voltage: 200 V, y_capacitance: 0.05 µF, interlock: yes }\n  HT', 'minimum_voltage: 200 V, interlock: yes }\n  HT'])).find('touch-energy')).toMatchObject({ level: 'watch', needs: [] });
  });

  it('counts a declared zero as none', () => {
    const { results, find } = study(edited(prechargeCar, ['y_capacitance: 0.2 µF', 'y_capacitance: 0 F']));
    expect(results[0]!.capacitance).toBeCloseTo(0.2e-6, 12);
    expect(find('touch-energy').level).toBe('holds');
  });

  it('is unknown while power electronics do not say', () => {
    expect(study(edited(prechargeCar, ['y_capacitance: 0.2 µF, ', ''])).find('touch-energy')).toMatchObject({ level: 'unknown', needs: ['parts.INV.y_capacitance'] });
  });
});

describe('the charging inlet', () => {
  const inlet = (resistance: string) => edited(prechargeCar, ['  B12: {', `  IN: { kind: charge_inlet, type: type_2, insulation_resistance: ${resistance} }\n  B12: {`]);
  it('needs 1 MΩ to the chassis', () => {
    expect(study(inlet('50 MΩ')).find('inlet-isolation', 'IN').level).toBe('holds');
    expect(study(inlet('300 kΩ')).find('inlet-isolation', 'IN')).toMatchObject({ level: 'fix' });
  });
});
