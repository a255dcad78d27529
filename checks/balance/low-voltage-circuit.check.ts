/**
 * One low-voltage circuit through the whole pipeline, text to volts: a key wakes a controller, whose low-side output pulls a relay,
 * which feeds a pump. The numbers are invented; what is checked are closed forms and the balance of currents.
 */
import { describe, expect, it } from 'vitest';
import { catalogue } from '../../catalogue/index.ts';
import { readBuild } from '../../core/build/read-build.ts';
import { nominal } from '../../core/build/plain-values.ts';
import { prepareCar, realise } from '../../core/car/realise.ts';
import type { State } from '../../core/car/state.ts';
import { wireCar } from '../../core/car/wire-car.ts';
import { kinds } from '../../core/kinds/all.ts';
import { runKinds } from '../../core/kinds/run-kinds.ts';
import { solveAtRest } from '../../core/solve/solve-at-rest.ts';

const text = `halfshaft: 1
name: A pump behind key, controller and relay
stock:
  w25: { kind: wire, conductor_area: 2.5 mm², insulation: pvc_105 }
  w05: { kind: wire, conductor_area: 0.5 mm², insulation: pvc_105 }
parts:
  B: { kind: battery_12v, chemistry: agm, nominal_voltage: 12 V label, capacity: 60 Ah label, at: [100, 0, 500 mm], mass: 17 kg }
  G: { kind: ground_stud }
  F1: { kind: fuse, rating: 30 A label, style: blade }
  F2: { kind: fuse, rating: 5 A label, style: mini }
  KEY: { kind: switch, positions: { off: [], on: [ignition], start: [ignition, start] } }
  VC: { kind: controller, current: 0.3 A, standby_current: 3 mA, wakes_by: wake_pin, can: yes, can_termination: yes,
        inputs: { brake: { pull: down } }, outputs: { fan: { side: low, current_limit: 1 A } } }
  K1: { kind: relay, rating: 30 A label, coil_voltage: 12 V label }
  P1: { kind: pump, current: 8 A label, start_current: 30 A measured, start_time: 100 ms }
  S1: { kind: splice, wires: 6 }
  X1: { kind: connector, pins: 2, names: [feed, return] }
  BAL: { kind: ballast, mass: 80 kg, at: [1500, -350, 700 mm] }
runs:
  r1: { from: B.neg, to: G.stud, stock: w25, length: 0.5 m }
  r2: { from: B.pos, to: F1.a, stock: w25, length: 1 m }
  r3: { from: B.pos, to: F2.a, stock: w25, length: 1 m }
  r4: { from: F2.b, to: S1.w1, stock: w05, length: 1 m }
  r5: { from: S1.w2, to: KEY.common, stock: w05, length: 1 m }
  r6: { from: KEY.ignition, to: VC.wake, stock: w05, length: 1 m }
  r7: { from: S1.w3, to: VC.supply, stock: w05, length: 1 m }
  r8: { from: VC.ground, to: G.stud, stock: w05, length: 1 m }
  r9: { from: S1.w4, to: K1.coil_a, stock: w05, length: 1 m }
  r10: { from: K1.coil_b, to: VC.fan, stock: w05, length: 1 m }
  r11: { from: F1.b, to: K1.common, stock: w25, length: 1 m }
  r12: { from: K1.no, to: X1.a_feed, stock: w25, length: 2 m }
  r13: { from: X1.b_feed, to: P1.supply, stock: w25, length: 0.2 m }
  r14: { from: P1.ground, to: G.stud, stock: w25, length: 1 m }
modes:
  drive: { set: { KEY: { position: on }, VC: { on: [fan] } } }
`;

const words = { kinds, runKinds, catalogue };
const build = readBuild(text, words);
const car = realise(prepareCar(build, words), nominal);
function solved(state: State) {
  const { network, notWired } = wireCar(car, state);
  expect(notWired).toEqual([]);
  const result = solveAtRest(network);
  if (result.outcome !== 'solved') throw new Error(JSON.stringify(result));
  return result;
}

describe('a pump behind key, controller and relay', () => {
  it('reads without a problem', () => expect(build.problems).toEqual([]));

  it('off, draws its controller’s standby current from a battery at its rest voltage', () => {
    const at = solved({});
    expect(-at.currentOf('B.cells')).toBeCloseTo(0.003, 9);
    // AGM at 90 %: 12.2 + (12.825 - 12.2) * (0.9 - 0.5) / 0.5 = 12.70 V
    expect(at.voltageOf('B.pos') - at.voltageOf('B.neg')).toBeCloseTo(12.7, 3);
  });

  it('in drive, runs the pump as a resistance of its rated voltage over its current', () => {
    const at = solved({ mode: 'drive' });
    const across = at.voltageOf('P1.supply') - at.voltageOf('P1.ground');
    expect(across).toBeGreaterThan(12);
    expect(at.currentOf('P1.taking')).toBeCloseTo((8 * across) / 13.5, 3);
    expect(at.currentOf('K1.coil')).toBeGreaterThan(0.1);
  });

  it('takes from the battery what its consumers take', () => {
    const at = solved({ mode: 'drive' });
    const taken = ['P1.taking', 'K1.coil', 'VC.taking', 'VC.standby', 'VC.wake_input'].reduce((sum, id) => sum + at.currentOf(id), 0);
    expect(-at.currentOf('B.cells')).toBeCloseTo(taken, 6);
  });

  it.each([
    ['the key is turned back', { set: { KEY: { position: 'off' } } }],
    ['the controller’s fuse is pulled, though the output is asked for', { set: { F2: { pulled: true } } }],
    ['the controller’s ground wire is off', { without: ['r8'] }],
    ['the plug of the pump is apart', { set: { X1: { unplugged: true } } }],
    ['the relay does not move', { failures: [{ part: 'K1', failure: 'does_not_move' }] }],
    ['the controller’s output has died', { failures: [{ part: 'VC', failure: 'output_fan_dead' }] }],
    ['the plug’s feed pin has been pushed back', { failures: [{ part: 'X1', failure: 'pin_feed_open' }] }],
    ['the pump’s ground wire is off', { without: ['r14'] }],
  ] as const)('stands still when %s', (_, change) => {
    expect(solved({ mode: 'drive', ...change }).currentOf('P1.taking')).toBeCloseTo(0, 6);
  });

  it('goes on running with the key off when the relay has welded', () => {
    expect(solved({ failures: [{ part: 'K1', failure: 'welded' }] }).currentOf('P1.taking')).toBeGreaterThan(7);
  });

  it('runs weakly through a burnt relay contact: 1 Ω more in its way', () => {
    const at = solved({ mode: 'drive', failures: [{ part: 'K1', failure: 'contact_resistive' }] });
    const drop = at.voltageOf('K1.common') - at.voltageOf('K1.no');
    expect(drop).toBeCloseTo(at.currentOf('P1.taking') * 1.005, 3);
    expect(drop).toBeGreaterThan(4);
  });
});
