import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { words } from '../../../checks/fixtures/high-voltage-car.ts';
import { converterCar, prechargeCar } from '../../../checks/fixtures/precharge-car.ts';
import { readBuild } from '../../build/read-build.ts';
import { answerStore, askNetwork } from '../../car/ask-network.ts';
import { nominal } from '../../build/plain-values.ts';
import type { ValueOf } from '../../build/plain-values.ts';
import { prepareCar, realise } from '../../car/realise.ts';
import { checkKey, judge } from '../../findings/judge.ts';
import { studyDischarge } from './discharge.ts';
import { studyIsolation } from './isolation.ts';
import { studyPrecharge } from './precharge.ts';
import { studyRequiredParts } from './required-parts.ts';

/** The keys of all checks of a text; every one has been judged and worded. */
function keysOf(text: string, valueOf: ValueOf = nominal): string[] {
  const build = readBuild(text, words);
  const car = realise(prepareCar(build, words), valueOf);
  const ask = askNetwork(car, answerStore());
  const checks = [studyPrecharge, studyDischarge, studyIsolation, studyRequiredParts].flatMap((study) => study(car, ask).checks);
  for (const finding of judge(checks, { places: build.places, units: 'metric' })) expect(finding.statement).not.toMatch(/NaN|undefined|Infinity/);
  return checks.map(checkKey);
}

const lines = prechargeCar.split('\n');
const removable = lines.flatMap((line, index) => (/^ {2}\w+: \{/.test(line) ? [index] : []));

describe('precharge, discharge, isolation and required parts of strange cars', () => {
  it('say something without a stumble whichever line is missing', () => {
    for (const index of removable) expect(() => keysOf(lines.filter((_, line) => line !== index).join('\n')), lines[index]).not.toThrow();
  });

  it('say something without a stumble when many lines are missing', () => {
    fc.assert(fc.property(fc.uniqueArray(fc.constantFrom(...removable), { minLength: 2, maxLength: 20 }), (gone) => {
      keysOf(lines.filter((_, line) => !gone.includes(line)).join('\n'));
    }), { numRuns: 60, seed: 7 });
  });

  it('never make two checks of one key', () => {
    for (const text of [prechargeCar, converterCar]) {
      const keys = keysOf(text);
      expect(keys.filter((key, index) => keys.indexOf(key) !== index)).toEqual([]);
    }
  });

  it('make the same checks in every draw of the examples, each key once', () => {
    const examples = new URL('../../../examples/', import.meta.url);
    for (const name of readdirSync(examples)) {
      const text = readFileSync(new URL(`${name}/build.yaml`, examples), 'utf8');
      const usual = keysOf(text);
      expect(usual.length, name).toBeGreaterThan(20);
      expect(new Set(usual).size, name).toBe(usual.length);
      for (const end of ['low', 'high'] as const) expect(keysOf(text, (quantity) => quantity[end]), `${name} ${end}`).toEqual(usual);
    }
  });
});
