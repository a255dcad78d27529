import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { carOf, changed, highVoltageCar } from '../../../checks/fixtures/high-voltage-car.ts';
import { codeTable } from '../../findings/code-table.ts';
import { checkKey, judge } from '../../findings/judge.ts';
import { highVoltage } from './study.ts';

const study = (text: string) => {
  const { car, ask } = carOf(text);
  return { car, ...highVoltage.study(car, ask) };
};
const findings = (text: string) => {
  const { car, checks } = study(text);
  return judge(checks, { places: car.build.places, units: 'metric' });
};

describe('the subject high-voltage', () => {
  it('has little to say about an empty file, and does not throw', () => {
    expect(() => findings('')).not.toThrow();
    expect(findings('halfshaft: 1\nname: t\n').filter(({ level }) => level === 'stop')).toEqual([]);
  });

  it('uses only codes of the table, with every placeholder filled, whatever the outcome', () => {
    for (const text of [highVoltageCar, highVoltageCar.slice(0, highVoltageCar.indexOf('modes:')), changed(', every: 120 s', '')]) {
      for (const finding of findings(text)) {
        expect(codeTable.has(finding.code)).toBe(true);
        expect(finding.statement).not.toMatch(/[{}]|NaN|undefined|Infinity/);
        if (finding.level !== 'unknown') expect(finding.statement).not.toContain('?');
      }
    }
  });

  it('gives each check a name of its own', () => {
    const keys = study(highVoltageCar).checks.map(checkKey);
    expect(new Set(keys).size).toBe(keys.length);
  });

  it('hands over plain data', () => {
    const { results } = study(highVoltageCar);
    expect(JSON.parse(JSON.stringify(results))).toMatchObject({ packs: [{ positive: 'M4.pos' }], fuses: [{ part: 'MSD' }, { part: 'F1' }, { part: 'F2' }] });
  });

  it('gives the same checks for the same car', () => {
    expect(study(highVoltageCar).checks).toEqual(study(highVoltageCar).checks);
  });

  it('never throws and never prints a number that is none, whichever lines of the file are missing', () => {
    const lines = highVoltageCar.split('\n');
    const removable = lines.map((line, index) => ({ line, index })).filter(({ line }) => /^ {2}\w/.test(line)).map(({ index }) => index);
    fc.assert(fc.property(fc.subarray(removable, { minLength: 1, maxLength: 6 }), (gone) => {
      for (const finding of findings(lines.filter((_, index) => !gone.includes(index)).join('\n'))) expect(finding.statement).not.toMatch(/NaN|Infinity/);
    }), { numRuns: 60, seed: 7 });
  });

  it('never throws when the pack is shorted or wired in a ring', () => {
    expect(() => findings(changed('W2: { from: JN.stud_2, to: INV.neg,', 'W2: { from: JN.stud_2, to: INV.pos,'))).not.toThrow();
    expect(() => findings(changed('R8: { from: M1.neg, to: KN.in,', 'R8: { from: M1.neg, to: M4.pos,'))).not.toThrow();
  });
});
