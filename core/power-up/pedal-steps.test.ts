import { describe, expect, it } from 'vitest';
import { carFromText } from '../../checks/fixtures/car-from-text.ts';
import { examples } from '../../checks/fixtures/examples.ts';
import { powerUp } from './steps.ts';

const bench = `halfshaft: 1
name: Pedal bench
stock: { w1: { kind: wire, conductor_area: 1 mm², insulation: pvc_105 } }
parts:
  B: { kind: battery_12v, chemistry: agm, nominal_voltage: 12 V, capacity: 60 Ah }
  KEY: { kind: switch, rating: 10 A }
  S: { kind: splice, wires: 4 }
  G: { kind: ground_stud }
  PEDAL: { kind: pedal, low_1: 16 %, high_1: 84 %, track_resistance: 2 kΩ }
runs:
  W1: { from: B.pos, to: KEY.a1, stock: w1, length: 1 m }
  W2: { from: KEY.b1, to: S.w1, stock: w1, length: 1 m }
  W3: { from: S.w2, to: PEDAL.supply_1, stock: w1, length: 1 m }
  W4: { from: PEDAL.ground_1, to: G.stud, stock: w1, length: 1 m }
  W5: { from: B.neg, to: G.stud, stock: w1, length: 1 m }
modes:
  off: { set: { KEY: { closed: no } } }
  on: { from: [off], set: { KEY: { closed: yes } } }
`;

describe('pedal steps', () => {
  const { car, ask, build } = { ...carFromText(bench), build: carFromText(bench).car.build };
  const { steps } = powerUp(car, ask, undefined);
  it('stand on a file that reads', () => expect(build.problems.filter(({ level }) => level === 'stop')).toEqual([]));
  it('predict the signal at rest and fully pressed from the supply it has', () => {
    const at = (id: string): number => steps.find((step) => step.id === id)!.predicted!.nominal;
    expect(at('low-voltage.pedal.PEDAL.1.pressed') / at('low-voltage.pedal.PEDAL.1.rest')).toBeCloseTo(0.84 / 0.16, 2);
    expect(at('low-voltage.pedal.PEDAL.1.pressed')).toBeGreaterThan(9.5);
  });
  it('say which wire a track without supply waits for', () => {
    expect(steps.find(({ id }) => id === 'low-voltage.pedal.PEDAL.2')!.unknown).toContain('runs: to PEDAL.supply_2');
  });
  it('name the wires to pull in the proof, and ask for a pedal where there is none', () => {
    const hauler = examples.find(({ name }) => name === 'orchard-hauler')!.text;
    const stepsOf = (text: string) => { const one = carFromText(text); return powerUp(one.car, one.ask, undefined).steps; };
    expect(stepsOf(hauler).find(({ id }) => id === 'proof.pedal-tracks')!.unknown).toHaveLength(1);
    const more = stepsOf(hauler.replace('  T_can:', '  PEDAL: { kind: pedal, low_1: 16 %, high_1: 84 % }\n  T_can:'));
    expect(more.find(({ id }) => id === 'proof.pedal-tracks.PEDAL')!.action).toContain('the wire at PEDAL.signal_2');
    expect(more.find(({ id }) => id === 'proof.pedal-tracks')).toBeUndefined();
  });
});
