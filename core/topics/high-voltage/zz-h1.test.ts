import { it } from 'vitest';
import { carOf } from '../../../checks/fixtures/high-voltage-car.ts';
import { edited, prechargeCar } from '../../../checks/fixtures/precharge-car.ts';
import { judge } from '../../findings/judge.ts';
import { studyPrecharge } from './precharge.ts';
import { studyDischarge } from './discharge.ts';
import { studyIsolation } from './isolation.ts';
import { studyRequiredParts } from './required-parts.ts';
const all = (text: string) => {
  const { car, ask, problems } = carOf(text);
  console.log(problems, [...car.parts.values()].filter((p) => p.missing.length).map((p) => p.missing));
  for (const m of [undefined, ...car.modes.keys()]) { const s = ask.solve(m ? { mode: m } : {}); console.log(m, s.outcome, s.outcome === 'solved' ? '' : JSON.stringify(s)); }
  const out = [studyPrecharge, studyDischarge, studyIsolation, studyRequiredParts].map((f) => f(car, ask));
  console.log(JSON.stringify(out.slice(0, 2).map((x) => x.results), (k, v) => k === 'curve' ? `${v.length} points` : v));
  for (const f of judge(out.flatMap((x) => x.checks), { places: car.build.places, units: 'metric' })) if (f.level !== 'holds') console.log(f.level, f.code.slice(13), '|', f.statement);
};
it('dcdc', () => all(edited(prechargeCar, ['started_by: message', 'started_by: high_voltage'], ['  C13:', '  D1: { from: DC.lv_pos, to: B12.pos, stock: lv, length: 1 m }\n  D2: { from: DC.lv_neg, to: B12.neg, stock: lv, length: 1 m }\n  C13:'])));
it('cell', () => all(edited(prechargeCar, ['capacity: 60 Ah, resistance: 0.9 mΩ', 'resistance: 0.9 mΩ'])));
it('module', () => all(edited(prechargeCar, ['M1: { kind: battery_module, cell: used, series: 24 }', 'M1: { kind: battery_module, cell: used }'])));
