import { describe, expect, it } from 'vitest';
import { carFromText } from '../../../checks/fixtures/car-from-text.ts';
import { mainsCar } from '../../../checks/fixtures/mains-car.ts';
import { replaced, twoStringCar } from '../../../checks/fixtures/pack-car.ts';
import { analyse } from '../../analyse.ts';
import { words } from '../../../catalogue/words.ts';
import type { Finding, Level } from '../../findings/finding.ts';
import { judge } from '../../findings/judge.ts';
import { pack } from './study.ts';

function study(text: string) {
  const { car, ask, build } = carFromText(text);
  const findings = judge(pack.study(car, ask).checks, { places: build.places, units: 'metric' });
  const of = (code: string, about?: string): Finding[] => findings.filter((finding) => finding.code === `pack.${code}` && (about === undefined || finding.about.includes(about)));
  return { of, level: (code: string, about?: string): Level | undefined => of(code, about)[0]?.level };
}
const mains = (...edits: readonly (readonly [string, string])[]) => study(replaced(mainsCar, ...edits));
const twoStrings = (...edits: readonly (readonly [string, string])[]) => study(replaced(twoStringCar, ...edits));

describe('what the charger is set to', () => {
  it('holds below the battery’s highest voltage', () => {
    expect(mains().of('charge-voltage')[0]).toMatchObject({ level: 'holds', variant: 'charge', value: 398, limit: expect.closeTo(403.2, 9) });
  });

  it('stops above it, however little of the current flows at the charge in the file', () => {
    expect(mains(['voltage: 398 V', 'voltage: 410 V']).of('charge-voltage')[0]).toMatchObject({ level: 'stop', path: 'modes.charge.set.CHG.voltage' });
    expect(mains(['voltage: 398 V', 'voltage: 410 V']).level('cell-maximum-under-charge', 'charge')).toBe('holds');
  });

  it('is its highest voltage when the mode does not say', () => {
    const [unset] = mains([', voltage: 398 V', '']).of('charge-voltage');
    expect(unset).toMatchObject({ level: 'stop', value: 430 });
    expect(unset!.statement).toContain('sets no “voltage”');
  });

  it('is asked for when no mode charges', () => {
    expect(mains(['CHG: { power: 6 kW, voltage: 398 V }', 'CHG: { voltage: 398 V }']).of('charge-voltage')[0]).toMatchObject({ level: 'unknown', needs: ['modes'] });
    expect(twoStrings().of('charge-voltage')).toEqual([]);
  });
});

describe('a mode that charges a full battery', () => {
  it('must not give back when it is full', () => {
    // the curve ends at 4.175 V; 50 A into each string add 50 mV
    const hard = ['draw: -5 kW', 'draw: -20 kW'] as const;
    const { of } = twoStrings(hard, ['reverse: { set', 'reverse: { lasts: 8 s, every: 60 s, set']);
    expect(of('cell-maximum-when-full', 'reverse').map(({ level }) => level)).toEqual(['fix', 'fix']);
    expect(of('cell-maximum-when-full', 'reverse')[0]!.whatToDo).toContain('highest_charge');
    expect(of('cell-maximum-when-full', 'drive')).toEqual([]);
    expect(twoStrings(hard).level('cell-maximum-when-full', 'reverse')).toBe('stop');
    expect(twoStrings().level('cell-maximum-when-full', 'reverse')).toBe('holds');
  });

  it('is judged at the charge up to which the controller lets it', () => {
    const limited = twoStrings(['draw: -5 kW', 'draw: -20 kW'], ['reverse: { set', 'reverse: { highest_charge: 90 %, set']);
    expect(limited.of('cell-maximum-when-full', 'reverse').map(({ level }) => level)).toEqual(['holds', 'holds']);
    expect(limited.of('cell-maximum-when-full', 'reverse')[0]!.statement).toContain('90 %');
  });

  it('takes as full what the cell’s own highest voltage makes full', () => {
    // at 4.05 V this curve stands at 84.7 %: with nothing given back the cell is not above its limit
    const { of } = mains(['maximum_voltage: 4.2 V', 'maximum_voltage: 4.05 V'], ['voltage: 398 V', 'voltage: 388 V']);
    expect(of('cell-maximum-when-full', 'charge')[0]).toMatchObject({ level: 'holds' });
    expect(of('cell-maximum-when-full', 'charge')[0]!.statement).toContain('84 %');
  });
});

describe('charging in the cold', () => {
  const cold = ['cell_temperature: 25 °C', 'cell_temperature: -5 °C'] as const;

  it('stops on the charger, and must be put right where it lasts for seconds', () => {
    expect(mains().level('charge-cold', 'charge')).toBe('holds');
    expect(mains(cold).of('charge-cold', 'charge')[0]).toMatchObject({ level: 'stop', path: 'conditions.cell_temperature' });
    expect(twoStrings(cold, ['reverse: { set', 'reverse: { lasts: 8 s, every: 60 s, set']).level('charge-cold', 'reverse')).toBe('fix');
    expect(twoStrings(cold).of('charge-cold', 'drive')).toEqual([]);
  });

  it('follows what the cell’s sheet allows', () => {
    const sheet = (coldest: string) => mains(cold, ['continuous_charge: 60 A', `continuous_charge: 60 A, minimum_charge_temperature: ${coldest}`]).level('charge-cold', 'charge');
    expect(sheet('-10 °C')).toBe('holds');
    expect(sheet('5 °C')).toBe('stop');
  });

  it('says nothing of titanate', () => {
    expect(mains(cold, ['chemistry: nmc', 'chemistry: lto'], ['minimum_voltage: 3.0 V, maximum_voltage: 4.2 V', 'minimum_voltage: 1.8 V, maximum_voltage: 2.7 V']).of('charge-cold')).toEqual([]);
  });
});

describe('the words of a current', () => {
  it('name the string where all its modules carry it, and the module where one differs', () => {
    expect(twoStrings().of('discharge-current', 'drive')[0]!.statement).toContain('each cell of the string from A1');
    const weaker = twoStrings(['cells:\n', 'cells:\n  weak: { chemistry: nmc, capacity: 60 Ah, resistance: 1 mΩ, minimum_voltage: 3.0 V, nominal_voltage: 3.65 V, maximum_voltage: 4.2 V, continuous_discharge: 80 A, peak_discharge: 300 A, continuous_charge: 60 A }\n'], ['A3: { kind: battery_module, cell: used', 'A3: { kind: battery_module, cell: weak']);
    expect(weaker.of('discharge-current', 'drive')[0]!.statement).toContain('each cell of A3');
  });
});

describe('values that are missing', () => {
  it('are named once each in what stands on the pack', () => {
    const { findings } = analyse(replaced(twoStringCar, ['capacity: 60 Ah, resistance: 1 mΩ, minimum_voltage: 3.0 V', 'capacity: 60 Ah, minimum_voltage: 3.0 V']), words);
    for (const { code, needs } of findings) expect(new Set(needs).size, code).toBe(needs.length);
  });

  it('are not all named in one sentence when they are many', () => {
    const text = ['A1', 'A2', 'A3', 'A4'].reduce((now, name) => now.replace(`${name}: { kind: battery_module, cell: used, series: 12, measured_voltage: 45.68 V }`, `${name}: { kind: battery_module, cell: used, series: 12 }`), twoStringCar);
    const [finding] = study(text).of('measured-spread', 'A1');
    expect(finding!.needs).toHaveLength(4);
    expect(finding!.statement).toContain('parts.A1.measured_voltage and 3 more');
    expect(finding!.whatToDo).toContain('parts.A4.measured_voltage');
  });
});
