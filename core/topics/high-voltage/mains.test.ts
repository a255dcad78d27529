import { describe, expect, it } from 'vitest';
import { carFromText } from '../../../checks/fixtures/car-from-text.ts';
import { mainsCar } from '../../../checks/fixtures/mains-car.ts';
import { replaced, twoStringCar } from '../../../checks/fixtures/pack-car.ts';
import type { Finding } from '../../findings/finding.ts';
import { judge } from '../../findings/judge.ts';
import { studyConductors } from './conductors.ts';
import { studyMains } from './mains.ts';
import { studyRequiredParts } from './required-parts.ts';

function study(...edits: readonly (readonly [string, string])[]) {
  const { car, ask, build } = carFromText(replaced(mainsCar, ...edits));
  const outcomes = [studyMains(car, ask), studyConductors(car, ask), studyRequiredParts(car, ask)];
  const findings = judge(outcomes.flatMap(({ checks }) => checks), { places: build.places, units: 'metric' });
  const of = (code: string, variant?: string): Finding[] => findings.filter((finding) => finding.code === `high-voltage.${code}` && (variant === undefined || finding.variant === variant));
  return { results: studyMains(car, ask).results, of, level: (code: string, variant?: string) => of(code, variant)[0]?.level };
}
const toChassis = ['  E2: { from: INLET.pe, to: G.stud, stock: pe, length: 0.5 m }\n', ''] as const;
const toCharger = ['  E1: { from: INLET.pe, to: CHG.pe, stock: pe, length: 1 m }\n', ''] as const;

describe('the protective conductor', () => {
  it('is nothing that a car without mains is asked for', () => {
    const { car, ask } = carFromText(twoStringCar);
    expect(studyMains(car, ask)).toEqual({ results: { voltage: 0, earths: [], currents: [] }, checks: [] });
  });

  it('holds in a good car, with the resistance of its copper, and reminds of the housings', () => {
    const good = study();
    expect(good.of('mains-earth').map(({ level, variant }) => [variant, level])).toEqual([['the bodywork', 'holds'], ['CHG', 'holds']]);
    expect(good.of('mains-earth')[0]!.statement).toContain('housing');
    // 6 mm² flexible copper, class 5: 3.30 mΩ/m at 20 °C (IEC 60228 table 3), and two joints of 0.05 mΩ
    expect(good.of('mains-earth-resistance', 'CHG')[0]!.value).toBeCloseTo(3.3e-3 + 0.1e-3, 5);
  });

  it('stops where the inlet or the charger is not earthed', () => {
    expect(study(toChassis).level('mains-earth', 'the bodywork')).toBe('stop');
    expect(study(toChassis).level('mains-earth', 'CHG')).toBe('holds');
    expect(study(toCharger).level('mains-earth', 'CHG')).toBe('stop');
    expect(study(toCharger).level('mains-earth', 'the bodywork')).toBe('holds');
  });

  it('may reach the charger through the bodywork', () => {
    expect(study([toCharger[0], '  E1: { from: G.stud, to: CHG.pe, stock: pe, length: 1 m }\n']).level('mains-earth', 'CHG')).toBe('holds');
  });

  it('must not lead through a fuse or a switch', () => {
    const through = (part: string, a: string, b: string) => study(['  G: {', `  X: ${part}\n  G: {`], [toChassis[0], `  E2: { from: INLET.pe, to: X.${a}, stock: pe, length: 0.2 m }\n  E3: { from: X.${b}, to: G.stud, stock: pe, length: 0.2 m }\n`]);
    expect(through('{ kind: fuse, rating: 30 A, style: maxi }', 'a', 'b').level('mains-earth', 'the bodywork')).toBe('stop');
    expect(through('{ kind: switch, rest: closed }', 'a1', 'b1').level('mains-earth', 'the bodywork')).toBe('stop');
    expect(through('{ kind: connector, pins: 1 }', 'a1', 'b1').level('mains-earth', 'the bodywork')).toBe('holds');
  });

  it('must have little resistance, which is not known without its length', () => {
    expect(study(['to: G.stud, stock: pe, length: 0.5 m', 'to: G.stud, stock: pe, length: 40 m']).level('mains-earth-resistance', 'the bodywork')).toBe('stop');
    expect(study(['to: G.stud, stock: pe, length: 0.5 m', 'to: G.stud, stock: pe']).of('mains-earth-resistance', 'the bodywork')[0]).toMatchObject({ level: 'unknown', needs: ['runs.E2.length'] });
  });
});

describe('mains and the rest of the car', () => {
  it('are kept apart', () => {
    expect(study().level('mains-apart')).toBe('holds');
    expect(study(['A2: { from: INLET.n, to: CHG.n', 'A2: { from: INLET.n, to: CHG.neg']).of('mains-apart')[0]).toMatchObject({ level: 'stop' });
    expect(study(['A2: { from: INLET.n, to: CHG.n', 'A2: { from: INLET.n, to: G.stud']).of('mains-apart')[0]!.statement).toContain('bodywork');
  });

  it('are judged by their own voltage: cable for 300 V serves 230 V beside a battery of 403 V', () => {
    expect(study().of('run-voltage-rating').filter(({ about }) => about[0]!.startsWith('A')).map(({ level, limit }) => [level, limit])).toEqual([['holds', 230], ['holds', 230]]);
    expect(study(['voltage_rating: 300 V', 'voltage_rating: 100 V']).of('run-voltage-rating').filter(({ level }) => level === 'stop').map(({ about }) => about[0])).toEqual(['A1', 'A2']);
  });

  it('keep a class A car from being called class A throughout', () => {
    const small = [['series: 96', 'series: 13'], ['maximum_voltage: 430 V, minimum_voltage: 200 V', 'maximum_voltage: 58 V, minimum_voltage: 30 V'], ['power: 6 kW, voltage: 398 V', 'power: 0.5 kW, voltage: 54 V']] as const;
    const [finding] = study(...small).of('class-a-throughout');
    expect(finding!.statement).toContain('230 V alternating');
    expect(finding!.statement).toContain('A1, A2');
    expect(study(...small).of('cable-orange').map(({ level, about }) => [level, about])).toEqual([['holds', ['A1', 'A2']]]);
    expect(study(...small, ['voltage_rating: 300 V, colour: orange', 'voltage_rating: 300 V, colour: brown']).level('cable-orange')).toBe('fix');
  });
});

describe('inlet and cable', () => {
  it('carry what the charger takes: power over voltage and efficiency', () => {
    const { results, level } = study();
    const charge = results.currents.find(({ mode }) => mode === 'charge')!;
    // 6 kW at 93 % from 230 V less some volts on the way: 28 to 29.5 A
    expect(charge.current).toBeGreaterThan(28);
    expect(charge.current).toBeLessThan(29.5);
    expect(results.currents).toHaveLength(1);
    expect(level('mains-inlet-current', 'charge')).toBe('holds');
    expect(level('mains-cable-current', 'charge')).toBe('holds');
  });

  it('are found too small, and an inlet without a rating is asked for it', () => {
    expect(study(['type_2, rating: 32 A', 'type_2, rating: 6 A']).level('mains-inlet-current', 'charge')).toBe('fix');
    expect(study(['cable_rating: 32 A', 'cable_rating: 13 A']).level('mains-cable-current', 'charge')).toBe('fix');
    expect(study(['type_2, rating: 32 A', 'type_2']).of('mains-inlet-current', 'charge')[0]).toMatchObject({ level: 'unknown', needs: ['parts.INLET.rating'] });
  });
});
