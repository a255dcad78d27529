import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { carFromText } from '../../../checks/fixtures/car-from-text.ts';
import { bareCar, replaced, twoStringCar } from '../../../checks/fixtures/pack-car.ts';
import type { Finding, Level } from '../../findings/finding.ts';
import { checkKey, judge } from '../../findings/judge.ts';
import { pack } from './study.ts';

function study(text: string) {
  const { car, ask, build } = carFromText(text);
  const { results, checks } = pack.study(car, ask);
  // judging words every check, so a wording that asks for a number it does not get is found here
  const findings = judge(checks, { places: build.places, units: 'metric' });
  const of = (code: string, about?: string): Finding[] => findings.filter((finding) => finding.code === `pack.${code}` && (about === undefined || finding.about.includes(about)));
  return { results, checks, findings, of, level: (code: string, about?: string): Level | undefined => of(code, about)[0]?.level };
}
const levels = (text: string, code: string): (Level | undefined)[] => study(text).of(code).map(({ level }) => level);
/** The two-string car with stretches replaced. */
const edited = (...edits: readonly (readonly [string, string])[]): string => replaced(twoStringCar, ...edits);
const module = (name: string, rest: string): readonly [string, string] => [`  ${name}: { kind: battery_module, cell: used, series: 12, measured_voltage: ${name.startsWith('A') ? '45.68' : '45.66'} V }`, `  ${name}: { kind: battery_module, ${rest} }`];
const read = (name: string, voltage: string): readonly [string, string] => module(name, `cell: used, series: 12, measured_voltage: ${voltage}`);

describe('the pack of strange cars', () => {
  it('says nothing about a car without high voltage', () => {
    expect(study('halfshaft: 1\nname: t\n')).toMatchObject({ checks: [], results: { packs: [], strings: [] } });
  });

  it('misses the battery of a car with high-voltage parts', () => {
    expect(levels('halfshaft: 1\nname: t\nparts:\n  INV: { kind: inverter, link_capacitance: 0.8 mF, maximum_voltage: 450 V }\n', 'has-cells')).toEqual(['fix']);
    expect(levels(twoStringCar, 'has-cells')).toEqual(['holds']);
  });

  it('does not count a module whose cell is not known, and says what it needs', () => {
    const { of, results } = study(edited(['capacity: 60 Ah, resistance: 1 mΩ, minimum_voltage: 3.0 V', 'capacity: 60 Ah, minimum_voltage: 3.0 V']));
    expect(of('module-counted')).toHaveLength(8);
    expect(of('module-counted')[0]).toMatchObject({ level: 'unknown', needs: ['cells.used.resistance'] });
    expect(results.packs).toEqual([]);
  });

  it('does not count cells at a temperature that nothing is known of', () => {
    expect(study(edited(['cell_temperature: 25 °C', 'cell_temperature: -40 °C'])).of('module-counted', 'A1')[0]).toMatchObject({ level: 'unknown', needs: ['conditions.cell_temperature'] });
  });

  it('bears any tangle of modules and runs without throwing and without numbers that are none', () => {
    const names = ['M1', 'M2', 'M3', 'M4', 'M5'];
    const port = fc.tuple(fc.constantFrom(...names), fc.constantFrom('pos', 'neg')).map(([name, pole]) => `${name}.${pole}`);
    fc.assert(fc.property(fc.array(fc.tuple(port, port).filter(([a, b]) => a !== b), { maxLength: 9 }), fc.boolean(), (runs, withInverter) => {
      const text = bareCar(names, [...runs.map((ends) => ends.join(' ')), ...(withInverter ? ['M1.neg INV.neg', 'M5.pos INV.pos'] : [])], withInverter ? '  INV: { kind: inverter, link_capacitance: 0.8 mF, maximum_voltage: 450 V }\n' : '');
      const { checks, results } = study(`${text}modes:\n  rest: { meaning: nothing }\n`);
      expect(JSON.stringify(results)).not.toMatch(/NaN|Infinity/);
      expect(new Set(checks.map(checkKey)).size).toBe(checks.length);
      const seen = [...results.strings.flatMap(({ modules }) => modules), ...results.unconnected, ...results.shorted];
      expect(seen.sort()).toEqual(names);
    }), { numRuns: 150 });
  });
});

describe('how the modules are joined', () => {
  it('holds in a good car', () => {
    const { of } = study(twoStringCar);
    for (const code of ['modules-connected', 'module-not-shorted', 'one-group', 'two-ends', 'same-series-count']) expect(of(code).map(({ level }) => level), code).toEqual(['holds']);
    for (const code of ['string-not-shorted', 'modules-not-reversed', 'one-cell-type']) expect(of(code).map(({ level }) => level), code).toEqual(['holds', 'holds']);
  });

  it('names a module that is joined to nothing', () => {
    expect(study(bareCar(['M1', 'M2', 'M3'], ['M1.pos M2.neg'])).of('modules-connected')).toMatchObject([{ level: 'fix', about: ['M3'] }]);
  });

  it('stops at a shorted module and names the run', () => {
    const [finding] = study(edited(['  W1:', '  OOPS: { from: A2.neg, to: A2.pos, stock: bar, length: 400 mm }\n  W1:'])).of('module-not-shorted');
    expect(finding).toMatchObject({ level: 'stop', about: ['A2', 'OOPS'] });
    expect(finding!.statement).toContain('through OOPS');
  });

  it('stops at a string whose ends are joined', () => {
    const [finding] = study(edited(['  W1:', '  OOPS: { from: JP.stud_3, to: JN.stud_3, stock: bar, length: 400 mm }\n  W1:'])).of('string-not-shorted', 'A1');
    expect(finding).toMatchObject({ level: 'stop' });
    expect(finding!.statement).toContain('OOPS');
  });

  it('stops at a reversed module and names it', () => {
    const { of, level } = study(edited(['{ from: B1.pos, to: B2.neg', '{ from: B1.pos, to: B2.pos'], ['{ from: B2.pos, to: DB.in', '{ from: B2.neg, to: DB.in']));
    expect(of('modules-not-reversed', 'B1')).toMatchObject([{ level: 'stop', value: 1 }]);
    expect(of('modules-not-reversed', 'B1')[0]!.statement).toContain('B2: turned');
    expect(level('modules-not-reversed', 'A1')).toBe('holds');
    expect(level('same-series-count')).toBe('stop');
  });

  it('stops at a whole string that is joined the wrong way round', () => {
    expect(study(edited(['to: JP.stud_2, stock', 'to: JN.stud_2, stock'], ['from: B1.neg, to: JN.stud_2', 'from: B1.neg, to: JP.stud_2'])).of('modules-not-reversed').filter(({ level }) => level === 'stop')).toMatchObject([{ value: 4 }]);
  });

  it('finds that a run is missing', () => {
    const broken = study(edited(['  RA1: { from: A1.pos, to: A2.neg, stock: bar, length: 80 mm }\n', '']));
    expect(broken.level('two-ends')).toBe('fix');
    expect(levels(bareCar(['M1', 'M2', 'M3', 'M4'], ['M1.pos M2.neg', 'M3.pos M4.neg']), 'one-group')).toEqual(['fix']);
  });

  it('minds different cells in one string: more when the chemistry differs', () => {
    const other = '  old: { chemistry: nmc, capacity: 50 Ah, resistance: 1.4 mΩ }\n';
    expect(study(edited(['cells:\n', `cells:\n${other}`], module('A2', 'cell: old, series: 12'))).level('one-cell-type', 'A1')).toBe('watch');
    expect(study(edited(module('A2', 'cell: flat, series: 12'))).level('one-cell-type', 'A1')).toBe('fix');
    expect(study(edited(module('A2', 'cell: used, series: 12, parallel: 2'))).level('one-cell-type', 'A1')).toBe('watch');
  });

  it('stops at parallel strings of different series count', () => {
    expect(study(edited(module('A2', 'cell: used, series: 11'))).of('same-series-count')).toMatchObject([{ level: 'stop', value: 1 }]);
  });
});

describe('voltage of the pack', () => {
  it('states the class, and stops beyond class B', () => {
    expect(study(twoStringCar).of('voltage-class')[0]).toMatchObject({ level: 'holds', value: 48 * 4.2, limit: 1500 });
    expect(study(twoStringCar).of('voltage-class')[0]!.statement).toContain('class B');
    expect(study(bareCar(['M1'], ['M1.pos J.stud_1'], '  J: { kind: junction, studs: 1 }\n')).of('voltage-class')[0]!.statement).toContain('class A');
    expect(levels(edited(...['A1', 'A2', 'A3', 'A4', 'B1', 'B2', 'B3', 'B4'].map((name) => module(name, 'cell: used, series: 100'))), 'voltage-class')).toEqual(['stop']);
  });

  it('compares a full and an empty pack with the part on it', () => {
    expect(study(twoStringCar).of('equipment-maximum-voltage', 'INV')[0]).toMatchObject({ level: 'holds', value: 48 * 4.2, limit: 220 });
    expect(study(edited(['maximum_voltage: 220 V', 'maximum_voltage: 200 V'])).level('equipment-maximum-voltage')).toBe('stop');
    expect(study(twoStringCar).of('equipment-minimum-voltage', 'INV')[0]).toMatchObject({ level: 'holds', value: 144, limit: 120 });
    expect(study(edited(['minimum_voltage: 120 V', 'minimum_voltage: 150 V'])).level('equipment-minimum-voltage')).toBe('watch');
    expect(study(edited([', minimum_voltage: 120 V', ''])).of('equipment-minimum-voltage', 'INV')[0]).toMatchObject({ level: 'unknown', needs: ['parts.INV.minimum_voltage'] });
    expect(study(edited(['maximum_voltage: 220 V, ', ''])).of('equipment-maximum-voltage')).toEqual([]);
  });
});

describe('what the modes ask of the cells', () => {
  it('has an operating point in every mode', () => {
    expect(levels(twoStringCar, 'operating-point')).toEqual(['holds', 'holds', 'holds', 'holds']);
  });

  it('has none in the mode in which a relay buzzes, and names the relay', () => {
    // a break contact that feeds its own coil
    const buzzer = edited(['  INV:', `  B12: { kind: battery_12v, chemistry: agm, nominal_voltage: 12 V, capacity: 60 Ah }
  S1: { kind: switch }
  RL: { kind: relay, rating: 30 A, contact: break, coil_voltage: 12 V }
  INV:`], ['  W1:', `  L1: { from: B12.pos, to: S1.a1, kind: wire, conductor_area: 1 mm², insulation: pvc_105, length: 1 m }
  L2: { from: S1.b1, to: RL.common, kind: wire, conductor_area: 1 mm², insulation: pvc_105, length: 1 m }
  L3: { from: RL.nc, to: RL.coil_a, kind: wire, conductor_area: 1 mm², insulation: pvc_105, length: 1 m }
  L4: { from: RL.coil_b, to: B12.neg, kind: wire, conductor_area: 1 mm², insulation: pvc_105, length: 1 m }
  W1:`], ['drive: { set: { INV: { draw: 20 kW } } }', 'drive: { set: { S1: { closed: yes }, INV: { draw: 20 kW } } }']);
    const { of, results } = study(buzzer);
    expect(of('operating-point').map(({ about, level }) => [about[0], level])).toEqual([['drive', 'stop'], ['rest', 'holds'], ['boost', 'holds'], ['reverse', 'holds']]);
    expect(of('operating-point', 'drive')[0]!.statement).toContain('RL');
    expect(results.modes.find(({ mode }) => mode === 'drive')).toMatchObject({ strings: [], packs: [] });
    expect(of('cell-minimum-under-load', 'drive')).toEqual([]);
  });

  it('finds the collapse when a mode asks for more than the battery can give', () => {
    expect(study(edited(['draw: 20 kW', 'draw: 900 kW'])).of('cell-minimum-under-load', 'drive')).toMatchObject([{ level: 'fix' }, { level: 'fix' }]);
  });

  it('balances power and shares the current between the strings', () => {
    const { results } = study(twoStringCar);
    const drive = results.modes.find(({ mode }) => mode === 'drive')!;
    const [load] = drive.packs;
    const { figures } = results.packs[0]!;
    // what the cells' open voltage gives is heat in the modules and power out of them
    const given = drive.strings.reduce((sum, { current }) => sum + current * (results.strings[0]!.figures!.now.openVoltage), 0);
    expect((load!.power + load!.heat) / given).toBeCloseTo(1, 8);
    expect(load!.power).toBeGreaterThan(20_000);
    expect(load!.power).toBeLessThan(20_400);
    expect(load!.voltage! / (figures!.now.openVoltage - figures!.now.resistance * drive.strings.reduce((sum, { current }) => sum + current, 0))).toBeCloseTo(1, 5);
    expect(drive.strings[0]!.current / drive.strings[1]!.current).toBeCloseTo(1, 1);
  });

  it('compares cell voltage and current with their limits', () => {
    const { of } = study(twoStringCar);
    expect(of('cell-minimum-under-load', 'drive').map(({ level }) => level)).toEqual(['holds', 'holds']);
    expect(of('discharge-current', 'drive')[0]).toMatchObject({ level: 'holds', limit: 120 });
    expect(of('discharge-current', 'boost')[0]).toMatchObject({ level: 'holds', limit: 300 });
    expect(of('charge-current', 'reverse')[0]).toMatchObject({ level: 'holds', limit: 60 });
    expect(of('cell-maximum-under-charge', 'reverse')[0]).toMatchObject({ level: 'holds', limit: 4.2 });
    expect(of('discharge-current', 'rest')).toEqual([]);
  });

  it('finds cells that give or take too much', () => {
    const weak = study(edited(['resistance: 1 mΩ, minimum_voltage: 3.0 V', 'resistance: 5 mΩ, minimum_voltage: 3.4 V']));
    expect(weak.of('cell-minimum-under-load', 'boost')).toMatchObject([{ level: 'fix' }, { level: 'fix' }]);
    expect(study(edited(['continuous_discharge: 120 A', 'continuous_discharge: 50 A'])).of('discharge-current', 'drive')[0]!.level).toBe('fix');
    expect(study(edited(['peak_discharge: 300 A', 'peak_discharge: 100 A'])).of('discharge-current', 'boost')[0]!.level).toBe('fix');
    expect(study(edited(['continuous_charge: 60 A', 'continuous_charge: 10 A'])).of('charge-current', 'reverse')[0]!.level).toBe('fix');
    expect(study(edited(['continuous_charge: 60 A', 'continuous_charge: 10 A'], ['reverse: { set', 'reverse: { lasts: 5 s, set'])).of('charge-current', 'reverse')[0]!.level).toBe('watch');
    expect(study(edited(['state_of_charge: 60 %', 'state_of_charge: 100 %'], ['resistance: 1 mΩ, minimum_voltage: 3.0 V', 'resistance: 5 mΩ, minimum_voltage: 3.0 V'])).of('cell-maximum-under-charge', 'reverse')[0]!.level).toBe('stop');
  });

  it('asks once for a limit that is missing, however many modes need it', () => {
    const { of } = study(edited([', continuous_discharge: 120 A, peak_discharge: 300 A, continuous_charge: 60 A', '']));
    expect(of('discharge-current')).toMatchObject([{ level: 'unknown', needs: ['cells.used.continuous_discharge'] }, { level: 'unknown', needs: ['cells.used.peak_discharge'] }]);
    expect(of('charge-current')).toMatchObject([{ level: 'unknown', needs: ['cells.used.continuous_charge'] }]);
  });

  it('lets a short pulse within the continuous limit pass without a pulse limit', () => {
    expect(study(edited([', peak_discharge: 300 A', ''], ['continuous_discharge: 120 A', 'continuous_discharge: 200 A'])).of('discharge-current', 'boost')[0]).toMatchObject({ level: 'holds', limit: 200 });
  });
});

describe('measured module voltages', () => {
  it('holds when they agree with each other and with the file', () => {
    const { of, results } = study(twoStringCar);
    expect(of('measured-spread').map(({ level, value }) => [level, value])).toEqual([['holds', 0], ['holds', 0]]);
    expect(of('charge-agrees').map(({ level }) => level)).toEqual(['holds', 'holds']);
    expect(of('module-in-line')).toHaveLength(8);
    expect(of('measured-lowest').map(({ level }) => level)).toEqual(['holds', 'holds']);
    expect(of('measured-highest').map(({ level }) => level)).toEqual(['holds', 'holds']);
    expect(results.readings[0]!.stateOfCharge).toBeCloseTo(0.6, 3);
  });

  it('names the module that is out of line', () => {
    const { of } = study(edited(read('A3', '45.00 V')));
    expect(of('measured-spread', 'A1')[0]).toMatchObject({ level: 'fix', limit: 0.02 });
    expect(of('measured-spread', 'A1')[0]!.statement).toContain('A3 lowest');
    expect(of('module-in-line').filter(({ level }) => level === 'fix').map(({ about }) => about)).toEqual([['A3']]);
  });

  it('asks for readings that are missing', () => {
    const { of } = study(edited(module('A3', 'cell: used, series: 12')));
    expect(of('measured-spread', 'A1')[0]).toMatchObject({ level: 'unknown', needs: ['parts.A3.measured_voltage'] });
    expect(of('module-in-line', 'A2')[0]!.level).toBe('holds');
    expect(study(bareCar(['M1', 'M2'], ['M1.pos M2.neg'])).of('measured-spread')[0]!.needs).toHaveLength(2);
  });

  it('stops at a deep-discharged and at an overcharged module', () => {
    expect(study(edited(read('A3', '33 V'))).of('measured-lowest', 'A1')[0]!.level).toBe('stop');
    expect(study(edited(read('A3', '52 V'))).of('measured-highest', 'A1')[0]!.level).toBe('stop');
  });

  it('says when the file believes in another charge', () => {
    expect(study(edited(['state_of_charge: 60 %', 'state_of_charge: 90 %'])).of('charge-agrees', 'A1')[0]).toMatchObject({ level: 'watch', limit: 0.1 });
  });

  it('takes a reading beyond the curve for its end', () => {
    // the curve ends at 4.175 V, the cell's limit is 4.2 V: 12 x 4.19 V is full, not overcharged
    const { of, results } = study(edited(...['A1', 'A2', 'A3', 'A4'].map((name) => read(name, '50.28 V'))));
    expect(results.readings[0]!.stateOfCharge).toBe(1);
    expect(of('measured-highest', 'A1')[0]!.level).toBe('holds');
    expect(of('charge-agrees', 'A1')[0]).toMatchObject({ level: 'watch', value: 0.4 });
  });

  it('warns that an iron-phosphate voltage says little, and is stricter with it', () => {
    const text = `${replaced(bareCar(['M1', 'M2', 'M3'], ['M1.pos M2.neg', 'M2.pos M3.neg']), ['state_of_charge: 60 %', 'state_of_charge: 65 %'])}`
      .replace(/(M1): \{ kind: battery_module, cell: used, series: 12/, '$1: { kind: battery_module, cell: flat, series: 12, measured_voltage: 39.79 V')
      .replace(/(M2): \{ kind: battery_module, cell: used, series: 12/, '$1: { kind: battery_module, cell: flat, series: 12, measured_voltage: 39.80 V')
      .replace(/(M3): \{ kind: battery_module, cell: used, series: 12/, '$1: { kind: battery_module, cell: flat, series: 12, measured_voltage: 39.88 V');
    const [spread] = study(text).of('measured-spread');
    expect(spread).toMatchObject({ level: 'fix', limit: 0.005 });
    expect(spread!.statement).toContain('says little');
  });
});

describe('joining parallel strings', () => {
  it('computes current, time, charge and heat from the readings', () => {
    const { of, results } = study(twoStringCar);
    const [joining] = results.joinings;
    expect(joining).toMatchObject({ branches: ['A1', 'B1'], fuller: 'A1', emptier: 'B1', limitFrom: 'cells', limit: 60 });
    expect(joining!.difference).toBeCloseTo(0.08, 9);
    // 0.08 V through 2 x 48 mΩ of cells and some links, bars, fuses
    expect(joining!.equalising!.current).toBeGreaterThan(0.08 / 0.115);
    expect(joining!.equalising!.current).toBeLessThan(0.08 / 0.096);
    expect(of('joining-current')[0]!.level).toBe('holds');
  });

  it('flows as the network shows when strings at different voltage are joined', () => {
    // another cell gives string B another voltage at the same charge; the readings are those voltages
    const other = '  second: { chemistry: nca, capacity: 60 Ah, resistance: 1.2 mΩ, continuous_charge: 60 A }\n';
    const cell = carFromText(edited(['cells:\n', `cells:\n${other}`])).car.cells;
    const [a, b] = ['used', 'second'].map((name) => 12 * cell.get(name)!.at({ ambient: 303.15, cellTemperature: 298.15, stateOfCharge: 0.6 })!.voltage);
    const text = edited(['cells:\n', `cells:\n${other}`], ...['A1', 'A2', 'A3', 'A4'].map((name) => read(name, `${a} V`)), ...['B1', 'B2', 'B3', 'B4'].map((name) => module(name, `cell: second, series: 12, measured_voltage: ${b} V`)));
    const { car, ask } = carFromText(text);
    const solved = ask.solve({ withoutLoads: true });
    const { equalising, fuller } = pack.study(car, ask).results.joinings[0]!;
    expect(fuller).toBe('B1');
    expect(equalising!.current).toBeGreaterThan(10);
    expect(solved.outcome === 'solved' && solved.currentOf('RB6') / equalising!.current).toBeCloseTo(1, 4);
  });

  it('stops when too much would flow', () => {
    const { of } = study(edited(read('A1', '47.5 V'), read('A2', '47.5 V'), read('A3', '47.5 V'), read('A4', '47.5 V')));
    expect(of('joining-current')[0]).toMatchObject({ level: 'stop', limit: 60 });
    expect(of('joining-current')[0]!.value!).toBeGreaterThan(60);
  });

  it('uses common practice where the cells do not say, and says so', () => {
    const [finding] = study(edited([', continuous_charge: 60 A', ''])).of('joining-current');
    expect(finding).toMatchObject({ level: 'holds', limit: 12 });
    expect(finding!.statement).toContain('common practice');
  });

  it('cannot say without readings', () => {
    expect(study(edited(module('B2', 'cell: used, series: 12'))).of('joining-current')[0]).toMatchObject({ level: 'unknown', needs: ['parts.B2.measured_voltage'] });
  });

  it('asks for nothing where nothing is parallel', () => {
    expect(study(bareCar(['M1', 'M2'], ['M1.pos M2.neg'])).of('joining-current')).toEqual([]);
  });
});
