import { it } from 'vitest';
import { words } from '../../../checks/fixtures/high-voltage-car.ts';
import { prechargeCar } from '../../../checks/fixtures/precharge-car.ts';
import { readBuild } from '../../build/read-build.ts';
import { prepareCar, realise, nominal } from '../../car/realise.ts';
import { askNetwork, answerStore } from '../../car/ask-network.ts';
import { studyPrecharge } from './precharge.ts';
import { studyDischarge } from './discharge.ts';
import { studyIsolation } from './isolation.ts';
import { studyRequiredParts } from './required-parts.ts';
import { knownOf, studyFaultCurrents } from './fault-currents.ts';
import { metalPaths } from './metal-paths.ts';
import { linkTransitions } from './link-transitions.ts';
it('time', () => {
  const build = readBuild(prechargeCar, words); const prepared = prepareCar(build, words); const store = answerStore();
  const t: Record<string, number> = {};
  const timed = (n: string, f: () => unknown) => { const a = performance.now(); f(); t[n] = (t[n] ?? 0) + performance.now() - a; };
  for (let i = 0; i < 220; i++) {
    if (i === 20) for (const k in t) t[k] = 0;
    const car = realise(prepared, nominal); const ask = askNetwork(car, store);
    timed('modes', () => { ask.solve({}); for (const m of car.modes.keys()) ask.solve({ mode: m }); });
    timed('faults', () => studyFaultCurrents(car, ask, knownOf(car, ask)));
    timed('paths', () => { const p = metalPaths(car, ask); p.pictureOf(undefined); for (const m of car.modes.keys()) p.pictureOf(m); });
    timed('transitions', () => linkTransitions(car, ask));
    timed('precharge', () => studyPrecharge(car, ask));
    timed('discharge', () => studyDischarge(car, ask));
    timed('isolation', () => studyIsolation(car, ask));
    timed('required', () => studyRequiredParts(car, ask));
  }
  console.log(Object.fromEntries(Object.entries(t).map(([k, v]) => [k, (v / 200).toFixed(3) + ' ms'])));
});
