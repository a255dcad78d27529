import { expect, it } from 'vitest';
import { carOf } from '../../../checks/fixtures/high-voltage-car.ts';
import { prechargeCar, converterCar } from '../../../checks/fixtures/precharge-car.ts';
import { studyPrecharge } from './precharge.ts';
import { studyDischarge } from './discharge.ts';
import { studyIsolation } from './isolation.ts';
import { studyRequiredParts } from './required-parts.ts';
import { judge } from '../../findings/judge.ts';
for (const [name, text] of [['resistor', prechargeCar], ['converter', converterCar]] as const) it(name, () => {
  const { car, ask, problems } = carOf(text);
  console.log(problems);
  for (const m of [undefined, 'precharge', 'drive']) { const s = ask.solve(m ? { mode: m } : {}); console.log(m, s.outcome, s.outcome === 'solved' ? ['PR.contact','KP.contact','KN.contact'].map((x) => { try { return s.stateOf(x);} catch (e) { return String(e);} }) : JSON.stringify(s)); }
  const all = [studyPrecharge, studyDischarge, studyIsolation, studyRequiredParts].map((f) => f(car, ask));
  console.log(JSON.stringify(all.map((x) => x.results), (k, v) => k === 'curve' ? `${v.length} points` : v, 1));
  for (const f of judge(all.flatMap((x) => x.checks), { places: car.build.places, units: 'metric' })) console.log(f.level, f.code.slice(13), '|', f.statement, '|', f.place?.line);
  expect(1).toBe(1);
});
