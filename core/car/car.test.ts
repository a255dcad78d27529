import { describe, expect, it } from 'vitest';
import { carFromText } from '../../checks/fixtures/car-from-text.ts';
import { answerStore, askNetwork } from './ask-network.ts';
import { readState } from './read-state.ts';
import { realise } from './realise.ts';
import { wireCar } from './wire-car.ts';

const head = 'halfshaft: 1\nname: bench\nconditions: { ambient: 25 °C ±0, cell_temperature: 25 °C ±0, state_of_charge: 50 % ±0 }\n';
const twoModules = `${head}
cells:
  c: { chemistry: nmc, capacity: 60 Ah, resistance: 1 mΩ ±0 }
parts:
  M1: { kind: battery_module, cell: c, series: 10, link_resistance: 1 µΩ ±0, at: [0, 0, 0 mm] }
  M2: { kind: battery_module, cell: c, series: 10, link_resistance: 1 µΩ ±0, at: [300, 400, 0 mm] }
stock:
  bar: { kind: busbar, width: 20 mm, thickness: 3 mm, insulation: bare }
runs:
  W1: { from: M1.pos, to: M2.neg, stock: bar, joint_resistance: 0 Ω ±0 }
modes:
  off: {}
`;

describe('a car from a build', () => {
  it('is empty for an empty file, and says so with problems, not exceptions', () => {
    const { car, build, ask } = carFromText('');
    expect(car.parts.size).toBe(0);
    expect(build.problems.length).toBeGreaterThan(0);
    expect(ask.points).toEqual(['chassis']);
    expect(ask.solve({}).outcome).toBe('solved');
  });
  it('follows the resistance of its cells below 25 °C by one energy and above by another', () => {
    const resistanceAt = (celsius: number, fields = ''): number => {
      const { car } = carFromText(twoModules.replace('cell_temperature: 25 °C', `cell_temperature: ${celsius} °C`).replace('resistance: 1 mΩ ±0', `resistance: 1 mΩ ±0${fields}`));
      return car.parts.get('M1')!.cell!.resistance;
    };
    const own = ', activation_energy: 20000, activation_energy_warm: 5000';
    expect(resistanceAt(25, own)).toBeCloseTo(1e-3, 12);
    // exp(Ea/R (1/T - 1/298.15)): 2.093 at 0 °C with 20 kJ/mol, 0.881 at 45 °C with 5 kJ/mol
    expect(resistanceAt(0, own)).toBeCloseTo(2.093e-3, 6);
    expect(resistanceAt(45, own)).toBeCloseTo(0.881e-3, 6);
    // without them, the handbook: 20 and 8 kJ/mol
    expect(resistanceAt(0)).toBeCloseTo(2.093e-3, 6);
    expect(resistanceAt(45)).toBeCloseTo(0.816e-3, 6);
  });
  it('measures a run along its way when no length is given', () => {
    const { car } = carFromText(twoModules);
    expect(car.runs.get('W1')).toMatchObject({ lengthIs: 'route' });
    expect(car.runs.get('W1')?.length).toBeCloseTo(0.5, 9);
  });
  it('takes the given length before the way, and adds slack only to the way', () => {
    expect(carFromText(twoModules.replace('stock: bar,', 'stock: bar, length: 62 mm, slack: 10 %,')).car.runs.get('W1')?.length).toBeCloseTo(0.062, 9);
    expect(carFromText(twoModules.replace('stock: bar,', 'stock: bar, slack: 10 %,')).car.runs.get('W1')?.length).toBeCloseTo(0.55, 9);
    expect(carFromText(twoModules.replace('stock: bar,', 'stock: bar, via: [[300, 0, 0 mm]],')).car.runs.get('W1')?.length).toBeCloseTo(0.7, 9);
  });
  it('leaves a part that lacks a value out of the network and names what it lacks', () => {
    const { car } = carFromText(twoModules.replace('M2: { kind: battery_module, cell: c, series: 10,', 'M2: { kind: battery_module, cell: c,'));
    expect(wireCar(car, {}).notWired).toEqual([{ part: 'M2', missing: ['parts.M2.series'] }]);
    expect(car.parts.get('M2')?.roles).toEqual({});
  });
  it('lets one cell feed all its modules in a draw', () => {
    const { prepared } = carFromText(twoModules.replace('1 mΩ ±0', '1 mΩ ±20 %'));
    const car = realise(prepared, (quantity) => (quantity.path === 'cells.c.resistance' ? 0.002 : quantity.nominal));
    expect([...car.parts.values()].map(({ cell }) => cell?.resistance)).toEqual([0.002, 0.002]);
  });
});

describe('what a meter reads', () => {
  // 20 cells at 50 % of the catalogue's nmc curve
  const { car, ask } = carFromText(twoModules);
  const cellVoltage = car.parts.get('M1')?.cell?.voltage as number;
  it('is the sum of the modules between the ends of a string', () => {
    const reading = ask.meter({}, 'M2.pos', 'M1.neg');
    expect(reading.outcome === 'reads' && reading.voltage).toBeCloseTo(20 * cellVoltage, 4);
  });
  it('is one module, with its sign, across it', () => {
    const reading = ask.meter({}, 'M1.neg', 'M1.pos');
    expect(reading.outcome === 'reads' && reading.voltage).toBeCloseTo(-10 * cellVoltage, 4);
  });
  it('is small where the run between is not made, for only leakage joins the two, and the meter loads it', () => {
    const reading = ask.meter({ without: ['W1'] }, 'M2.neg', 'M1.pos');
    expect(reading.outcome).toBe('reads');
    expect(Math.abs(reading.outcome === 'reads' ? reading.voltage : 99)).toBeLessThan(10 * cellVoltage);
  });
  it('gives the short-circuit current of the string by its resistance', () => {
    const fault = ask.faultCurrent({}, 'M2.pos', 'M1.neg');
    const run = (1.7241e-8 * 0.5) / 60e-6 + 2e-6;
    expect(fault.outcome === 'solved' && fault.current).toBeCloseTo((20 * cellVoltage) / (20 * 0.001 + run), -1);
  });
  it('keeps its answers when a store is shared by many draws', () => {
    const store = answerStore();
    const one = askNetwork(car, store).meter({}, 'M2.pos', 'M1.neg');
    const two = askNetwork(car, store).meter({}, 'M2.pos', 'M1.neg');
    expect(two).toEqual(one);
  });
  it('is that of the new wiring when a store outlives an edit that moves the end of a run', () => {
    const store = answerStore();
    const read = (text: string): unknown => { const meter = askNetwork(carFromText(text).car, store).meter({}, 'M2.pos', 'M1.neg'); return meter.outcome === 'reads' ? Math.round(meter.voltage / cellVoltage) : meter; };
    // W1 joins the positive ends now: the modules stand against each other
    const moved = twoModules.replace('to: M2.neg', 'to: M2.pos');
    expect([read(twoModules), read(moved), read(twoModules)]).toEqual([20, 10, 20]);
  });
});

describe('a state in words', () => {
  const { car } = carFromText(twoModules);
  it('reads a mode, a run left out, charge and temperature', () => {
    expect(readState({ mode: 'off', without: ['W1'], charge: '80 %', cells: '-10 °C' }, car)).toEqual({ ok: true, state: { mode: 'off', without: ['W1'], stateOfCharge: 0.8, cellTemperature: 263.15 } });
  });
  it('names every wrong word at once, with the nearest right one', () => {
    const read = readState({ mode: 'of', without: ['W2'], failed: ['M1.nonsense'], set: ['M1'] }, car);
    expect(read.ok).toBe(false);
    expect(read.ok ? [] : read.problems).toHaveLength(4);
    expect(read.ok ? '' : read.problems.join(' ')).toContain('did you mean off?');
  });
});

describe('runs cut from one stock', () => {
  it('share one conductor, unless a run says something of its own', () => {
    const { car } = carFromText(`${twoModules.replace('W1: {', 'W2: { from: M1.neg, to: M2.pos, stock: bar, length: 50 mm }\n  W3: { from: M1.pos, to: M2.pos, stock: bar, length: 50 mm, width: 25 mm }\n  W1: {')}`);
    const [one, two, own] = ['W1', 'W2', 'W3'].map((name) => car.runs.get(name)?.conductor);
    expect(one).toBe(two);
    expect(own).not.toBe(one);
    expect(own?.area).toBeCloseTo(75e-6, 12);
  });
});
