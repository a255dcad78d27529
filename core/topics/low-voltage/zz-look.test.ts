import { it } from 'vitest';
import { lowVoltageCar, studied, changed } from '../../../checks/fixtures/low-voltage-car.ts';
import { lowVoltage } from './study.ts';
import { askNetwork, answerStore } from '../../car/ask-network.ts';
import { prepareCar, realise, nominal } from '../../car/realise.ts';
import { readBuild } from '../../build/read-build.ts';
import { kinds } from '../../kinds/all.ts';
import { runKinds } from '../../kinds/run-kinds.ts';
import { catalogue } from '../../../catalogue/index.ts';
it('look', () => {
  const s = studied(lowVoltageCar);
  console.log(s.problems, s.results.failed, JSON.stringify(s.results.supply), JSON.stringify(s.results.standing));
  for (const f of s.findings) if (f.level !== 'holds' || /stand|brea/.test(f.code)) console.log(f.level.padEnd(8), f.code.replace('low-voltage.',''), '|', f.statement);
});
it('is quick on 150 runs', () => {
  // replicate circuits
  let parts = '', runs = '';
  const set: string[] = [];
  for (let n = 0; n < 26; n++) {
    parts += `  XF${n}: { kind: fuse, rating: 15 A, style: blade }\n  XK${n}: { kind: relay, rating: 30 A, coil_voltage: 12 V }\n  XL${n}: { kind: load, current: 4 A }\n`;
    runs += `  xa${n}: { from: S9.w${n + 2}, to: XF${n}.a, stock: w4, length: 0.1 m }\n  xb${n}: { from: XF${n}.b, to: XK${n}.common, stock: w1, length: 1 m }\n  xc${n}: { from: XK${n}.no, to: XL${n}.supply, stock: w1, length: 1 m }\n  xd${n}: { from: XL${n}.ground, to: G2.stud, stock: w1, length: 1 m }\n  xe${n}: { from: XF${n}.b, to: XK${n}.coil_a, stock: w1, length: 1 m }\n  xf${n}: { from: XK${n}.coil_b, to: VC.fan, stock: w1, length: 1 m }\n`;
  }
  const text = lowVoltageCar.replace('  G: {', () => `  S9: { kind: splice, wires: 40 }\n${parts}  G: {`).replace('modes:', () => `  x0: { from: S.w5, to: S9.w1, stock: w25, length: 0.2 m }\n${runs}modes:`) + '  a: { set: { KEY: { closed: yes } } }\n  b: { set: { VC: { on: [main, fan] } } }\n  c: { set: { VC: { on: [main] } } }\n  d: { set: { VC: { on: [fan] } } }\n';
  const words = { kinds, runKinds, catalogue };
  const build = readBuild(text, words);
  const prepared = prepareCar(build, words);
  const store = answerStore();
  console.log(build.problems.length, build.parts.size, build.runs.size);
  let topicTime = 0, solveTime = 0; let checks = 0;
  for (let n = 0; n < 60; n++) {
    const car = realise(prepared, (q) => q.nominal * (q.basis === 'label' ? 1 : 1 + 1e-3 * Math.sin(n)));
    const ask = askNetwork(car, store);
    const t0 = performance.now();
    ask.solve({}); for (const m of car.modes.keys()) ask.solve({ mode: m });
    const t1 = performance.now();
    checks = lowVoltage.study(car, ask).checks.length;
    const t2 = performance.now();
    if (n >= 20) { solveTime += t1 - t0; topicTime += t2 - t1; }
  }
  console.log('modes ms', solveTime / 40, 'topic ms', topicTime / 40, checks);
});
