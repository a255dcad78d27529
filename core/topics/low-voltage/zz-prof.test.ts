import { it } from 'vitest';
import { lowVoltageCar } from '../../../checks/fixtures/low-voltage-car.ts';
import { askNetwork, answerStore } from '../../car/ask-network.ts';
import { prepareCar, realise } from '../../car/realise.ts';
import { wireCar } from '../../car/wire-car.ts';
import { readBuild } from '../../build/read-build.ts';
import { kinds } from '../../kinds/all.ts';
import { runKinds } from '../../kinds/run-kinds.ts';
import { catalogue } from '../../../catalogue/index.ts';
import { modePoints, sourceEnds } from './mode-points.ts';
import { lowVoltageMetal } from './metal.ts';
import { shortOf } from './short-of-source.ts';
import { studyConsumers } from './consumers.ts';
import { studyFuses } from './fuses.ts';
import { studyWires } from './wires.ts';
import { ampacity } from './ampacity.ts';
import { studyCoils } from './coils.ts';
import { studyContacts } from './contacts.ts';
import { exposures } from './exposure.ts';
it('prof', () => {
  let parts = '', runs = '';
  for (let n = 0; n < 26; n++) {
    parts += `  XF${n}: { kind: fuse, rating: 15 A, style: blade }\n  XK${n}: { kind: relay, rating: 30 A, coil_voltage: 12 V }\n  XL${n}: { kind: load, current: 4 A }\n`;
    runs += `  xa${n}: { from: S9.w${n + 2}, to: XF${n}.a, stock: w4, length: 0.1 m }\n  xb${n}: { from: XF${n}.b, to: XK${n}.common, stock: w1, length: 1 m }\n  xc${n}: { from: XK${n}.no, to: XL${n}.supply, stock: w1, length: 1 m }\n  xd${n}: { from: XL${n}.ground, to: S8.w${n + 2}, stock: w1, length: 1 m }\n  xe${n}: { from: XF${n}.b, to: XK${n}.coil_a, stock: w1, length: 1 m }\n  xf${n}: { from: XK${n}.coil_b, to: S7.w${n + 2}, stock: w1, length: 1 m }\n`;
  }
  const text = lowVoltageCar.replace('  G: {', () => `  S9: { kind: splice, wires: 40 }\n  S8: { kind: splice, wires: 40 }\n  S7: { kind: splice, wires: 40 }\n${parts}  G: {`).replace('modes:', () => `  x0: { from: S.w5, to: S9.w1, stock: w25, length: 0.2 m }\n  x1: { from: S8.w1, to: G2.stud, stock: w25, length: 0.2 m }\n  x2: { from: S7.w1, to: VC.fan, stock: w1, length: 0.2 m }\n${runs}modes:`) + '  a: { set: { KEY: { closed: yes } } }\n  b: { set: { VC: { on: [main, fan] } } }\n  c: { set: { VC: { on: [main] } } }\n  d: { set: { VC: { on: [fan] } } }\n';
  const words = { kinds, runKinds, catalogue };
  const build = readBuild(text, words);
  const prepared = prepareCar(build, words);
  const store = answerStore();
  console.log(build.problems.map((p) => p.message), build.parts.size, build.runs.size);
  const times: Record<string, number[]> = {};
  for (let n = 0; n < 140; n++) {
    const car = realise(prepared, (q) => q.nominal * (q.basis === 'label' ? 1 : 1 + 1e-3 * Math.sin(n)));
    let t = performance.now();
    const lap = (name: string): void => { const now = performance.now(); if (n >= 40) (times[name] ??= []).push(now - t); t = performance.now(); };
    const ask = askNetwork(car, store); lap('ask (wires once)');
    const ends = sourceEnds(car);
    const modes = modePoints(car, ask, ends); lap('modes');
    wireCar(car, {}); lap('wireCar');
    const metal = lowVoltageMetal(car, ends); lap('metal');
    const shorts = new Map<string, any>();
    for (const e of ends) { const s = shortOf(ask, e, modes); if (s) shorts.set(e.positive, s); } lap('short');
    studyConsumers(car, modes, metal); lap('consumers');
    studyFuses(car, modes, metal, shorts); lap('fuses');
    for (const r of car.runs.values()) ampacity(car, r); lap('ampacity');
    const ex = exposures(metal); for (const e of metal.feedEdges) ex(e); lap('exposures');
    studyWires({ car, modes, metal, shorts }); lap('wires');
    studyCoils(car, modes, metal); lap('coils');
    studyContacts(car, modes, metal); lap('contacts');
  }
  console.log(Object.fromEntries(Object.entries(times).map(([k, v]) => [k, v.sort((a, b) => a - b)[Math.floor(v.length / 3)]])));
});
