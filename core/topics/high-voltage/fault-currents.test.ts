import { describe, expect, it } from 'vitest';
import { carOf, changed, checksOf, highVoltageCar, verdict } from '../../../checks/fixtures/high-voltage-car.ts';
import { extremeStates } from '../../car/extreme-states.ts';
import type { RestResult } from '../../solve/rest-result.ts';
import { knownOf, studyFaultCurrents } from './fault-currents.ts';

const study = (text: string) => {
  const { car, ask } = carOf(text);
  const known = knownOf(car, ask);
  return { car, ask, known, ...studyFaultCurrents(car, ask, known) };
};

describe('fault currents', () => {
  it('are none, and nothing is said, in a car without high voltage', () => {
    const { results, checks } = study('halfshaft: 1\nname: t\nparts: { B: { kind: battery_12v, chemistry: agm, nominal_voltage: 12 V, capacity: 60 Ah } }\n');
    expect(results).toEqual([]);
    expect(checks).toEqual([]);
  });

  it('ask for the battery when there is equipment without one', () => {
    const { checks } = study('halfshaft: 1\nname: t\nparts: { INV: { kind: inverter, link_capacitance: 1 mF, maximum_voltage: 450 V } }\n');
    expect(verdict(checksOf(checks, 'pack-known')[0])).toBe('unknown');
  });

  it('are what Ohm’s law gives for the loop: battery electromotive force over cells, links, bars, joints, fuses and cables', () => {
    const { results, car } = study(highVoltageCar);
    const pack = results.find(({ at, end }) => at === 'M4' && end === 'high')!;
    const cell = car.cells.get('used')!.at({ ...car.conditions, ...extremeStates.high })!;
    const value = (part: string, field: string) => car.parts.get(part)!.fields[field] as number;
    const bars = ['R1', 'R2', 'R3', 'R4'].map((name) => car.runs.get(name)!).reduce((sum, run) => sum + run.conductor!.resistancePerLength * run.length! + run.jointResistance, 0);
    const fuse = value('MSD', 'fuse_voltage_drop') / 350 + value('MSD', 'contact_resistance');
    const resistance = 96 * cell.resistance + 4 * value('M1', 'link_resistance') + bars + fuse + 1e-4;
    expect(pack.current).toBeCloseTo((96 * cell.voltage) / resistance, 0);
    expect(pack.voltage).toBeCloseTo(96 * cell.voltage, 2);
    expect(pack.resistance).toBeCloseTo(resistance, 6);
  });

  it('are lower at the far end, and far lower cold and nearly empty', () => {
    const { results } = study(highVoltageCar);
    const current = (at: string, end: string) => results.find((fault) => fault.at === at && fault.end === end)!.current;
    expect(current('M4', 'high')).toBeGreaterThan(current('INV', 'high'));
    expect(current('INV', 'high')).toBeGreaterThan(current('DC', 'high'));
    expect(current('INV', 'low')).toBeLessThan(current('INV', 'high') / 4);
    // the lowest with conductors warm from the load before
    const { ask, known } = study(highVoltageCar);
    const { positive, negative, mode } = known.faults.cases.find(({ at, end }) => at === 'INV' && end === 'low')!;
    const cold = ask.solve({ mode: mode!, withoutLoads: true, bridges: [{ a: positive, b: negative, resistance: 1e-4 }], ...extremeStates.low });
    expect(cold.outcome === 'solved' && Math.abs(cold.currentOf('bridge 1'))).toBeGreaterThan(current('INV', 'low') * 1.0005);
  });

  it('have the inductance of the runs they flow through', () => {
    const inverter = study(highVoltageCar).results.find(({ at, end }) => at === 'INV' && end === 'high')!;
    const metres = 0.08 + 0.15 + 0.15 + 0.08 + 0.1 + 0.2 + 0.2 + 0.4 + 0.2 + 2 + 2;
    expect(inverter.inductance).toBeCloseTo(metres * 1e-6, 9);
    expect(inverter.timeConstant).toBeCloseTo(inverter.inductance / inverter.resistance, 12);
  });

  it('name the fuses that carry them', () => {
    const { results } = study(highVoltageCar);
    expect(Object.keys(results.find(({ at, end }) => at === 'DC' && end === 'high')!.protection)).toEqual(['MSD.link', 'F1.link', 'F2.link']);
    expect(Object.keys(results.find(({ at }) => at === 'M4')!.protection)).toEqual(['MSD.link']);
  });

  it('share out over parallel strings, and the electromotive force stays that of one string', () => {
    const twoStrings = `halfshaft: 1
name: t
cells: { c: { chemistry: nmc, capacity: 60 Ah, resistance: 1 mΩ } }
stock: { bar: { kind: busbar, width: 20 mm, thickness: 3 mm, insulation: bare }, c: { kind: cable, conductor_area: 50 mm², insulation: xlpo_125, outside_diameter: 14 mm } }
parts:
  A: { kind: battery_module, cell: c, series: 48 }
  B: { kind: battery_module, cell: c, series: 48 }
  INV: { kind: inverter, link_capacitance: 1 mF, maximum_voltage: 250 V }
runs:
  P: { from: A.pos, to: B.pos, stock: bar, length: 100 mm }
  N: { from: A.neg, to: B.neg, stock: bar, length: 100 mm }
  X: { from: A.pos, to: INV.pos, stock: c, length: 1 m }
  Y: { from: A.neg, to: INV.neg, stock: c, length: 1 m }
`;
    const { results, car, known } = study(twoStrings);
    const fault = results.find(({ at, end }) => at === 'INV' && end === 'high')!;
    expect(fault.voltage).toBeCloseTo(48 * car.cells.get('c')!.at({ ...car.conditions, ...extremeStates.high })!.voltage, 1);
    const full = known.faults.cases.find(({ at, end }) => at === 'INV' && end === 'high')!;
    expect(Math.abs(full.currentOf('P'))).toBeGreaterThan(0.45 * fault.current);
    expect(Math.abs(full.currentOf('P'))).toBeLessThan(0.5 * fault.current);
    // X and Y carry all of it (1 m each), P and N nearly half (a tenth of a metre each, squared share a quarter)
    expect(fault.inductance).toBeGreaterThan(2.04e-6);
    expect(fault.inductance).toBeLessThan(2.05e-6);
  });

  it('find the mode that feeds a part, not the one that precharges it', () => {
    const { known } = study(highVoltageCar);
    expect(new Set(known.faults.cases.map(({ mode }) => mode))).toEqual(new Set(['drive']));
  });

  it('are not known for a part that no mode connects', () => {
    const { checks, known } = study(changed('drive: { set: { S1: { closed: yes }, INV', 'drive: { set: { INV', changed('boost: { lasts: 10 s, every: 120 s, set: { S1: { closed: yes }, INV', 'boost: { lasts: 10 s, every: 120 s, set: { INV')));
    expect(known.faults.notReached).toEqual(['INV', 'DC']);
    expect(verdict(checksOf(checks, 'fault-current-known', 'INV')[0])).toBe('unknown');
    expect(checksOf(study(highVoltageCar).checks, 'fault-current-known')).toEqual([]);
  });

  it('across the battery’s own ends melt the fuse in the middle of the string, or nothing', () => {
    expect(verdict(checksOf(study(highVoltageCar).checks, 'pack-terminals-protected')[0])).toBe('holds');
    const without = changed(', fuse_rating: 350 A, fuse_style: partial_range, breaking_capacity: 20 kA, minimum_breaking: 900 A, time_constant_rating: 2 ms, melting_energy: 20 kA²s, clearing_energy: 60 kA²s', '');
    expect(verdict(checksOf(study(without).checks, 'pack-terminals-protected')[0])).toBe('broken');
  });

  it('leave a short unfused lead to a warning, and not a long one', () => {
    const fuseInside = ', fuse_rating: 350 A, fuse_style: partial_range, breaking_capacity: 20 kA, minimum_breaking: 900 A, time_constant_rating: 2 ms, melting_energy: 20 kA²s, clearing_energy: 60 kA²s';
    const atEnd = changed(fuseInside, '');
    // R5, 100 mm of bar, is all that lies before F1; the negative side has no fuse at all
    expect(checksOf(study(atEnd).checks, 'pack-terminals-protected')[0]).toMatchObject({ levelWhenBroken: 'watch', details: { bare: 'R5', length: { value: 0.1 }, positive_end: 'M4.pos', other_end: 'M1.neg' } });
    const far = changed('R5: { from: M4.pos, to: F1.in, stock: bar, length: 100 mm }', 'R5: { from: M4.pos, to: F1.in, stock: thick, length: 800 mm }', atEnd);
    expect(checksOf(study(far).checks, 'pack-terminals-protected')[0]).not.toHaveProperty('levelWhenBroken');
    const unknown = changed('R5: { from: M4.pos, to: F1.in, stock: bar, length: 100 mm }', 'R5: { from: M4.pos, to: F1.in, stock: thick }', atEnd);
    expect(checksOf(study(unknown).checks, 'pack-terminals-protected')[0]).not.toHaveProperty('levelWhenBroken');
  });

  it('are a matter of class A packs too', () => {
    const low = highVoltageCar.replaceAll('series: 24 }', 'series: 3 }').replaceAll('minimum_voltage: 200 V', 'minimum_voltage: 20 V').replace('draw: 40 kW', 'draw: 4 kW').replace('draw: 90 kW', 'draw: 6 kW');
    const { results } = study(low);
    expect(results.find(({ at, end }) => at === 'INV' && end === 'high')!.current).toBeGreaterThan(3000);
  });

  it('say so when a fault cannot be computed', () => {
    const { car, ask } = carOf(highVoltageCar);
    const failing: RestResult = { outcome: 'contradiction', elements: ['R1', 'R2'] };
    const known = knownOf(car, { ...ask, solve: (state) => (state.bridges ? failing : ask.solve(state)) });
    const { checks, results } = studyFaultCurrents(car, ask, known);
    expect(results).toEqual([]);
    expect(verdict(checksOf(checks, 'fault-computed', 'INV')[0])).toBe('broken');
  });
});
