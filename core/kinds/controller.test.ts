import { describe, expect, it } from 'vitest';
import { elementsOf, portsOf, solvedOnBench } from '../../checks/fixtures/part-on-bench.ts';
import type { Element } from '../solve/element.ts';
import { canNode } from './can-node.ts';
import { canTermination } from './can-termination.ts';
import { controller } from './controller.ts';

const fields = {
  current: 0.25, standby_current: 0.002, minimum_voltage: 8,
  inputs: { brake: { pull: 'down' }, door: { pull: 'up', resistance: 1000 }, sensor: { pull: 'up', pull_voltage: 5, resistance: 1000 } },
  outputs: { main: { side: 'high', resistance: 0.1 }, fan: { side: 'low', resistance: 0.1 } },
};
const supply = (volts: number): Element => ({ type: 'source', id: 'battery', a: 'X.supply', b: 'chassis', voltage: volts, resistance: 0 });
const ground: Element = { type: 'resistor', id: 'ground', a: 'X.ground', b: 'chassis', resistance: 0 };
/** 12 Ω from the high-side output to ground and from the low-side output to the battery. */
const coils: Element[] = [
  { type: 'resistor', id: 'main coil', a: 'X.main', b: 'chassis', resistance: 12 },
  { type: 'resistor', id: 'fan coil', a: 'X.supply', b: 'X.fan', resistance: 12 },
];
const on = (settings: Record<string, unknown>, volts = 12, more: Record<string, unknown> = {}, clipped: Element[] = []) =>
  solvedOnBench(elementsOf(controller, { ...fields, ...more }, settings), [supply(volts), ground, ...coils, ...clipped]);

describe('a controller', () => {
  it('at rest drives nothing and takes its standby current alone', () => {
    const at = on({});
    expect(at.currentOf('main coil')).toBeCloseTo(0, 6);
    expect(at.currentOf('fan coil')).toBeCloseTo(0, 6);
    expect(-at.currentOf('battery')).toBeCloseTo(0.002, 5);
  });
  it('switches a high-side output to its supply through its resistance', () => {
    const at = on({ on: ['main'] });
    expect(at.currentOf('main coil')).toBeCloseTo(12 / 12.1, 5);
    expect(at.currentOf('fan coil')).toBeCloseTo(0, 6);
  });
  it('switches a low-side output to its ground through its resistance', () => {
    expect(on({ on: ['fan'] }).currentOf('fan coil')).toBeCloseTo(12 / 12.1, 5);
  });
  it('takes its own current when it is awake, besides standby', () => {
    const at = on({ awake: true });
    expect(-at.currentOf('battery')).toBeCloseTo(0.252 + 12 / 101000 + 0, 2);
    expect(at.currentOf('X.taking')).toBeCloseTo(0.25, 5);
  });
  it('releases its outputs below its lowest working voltage', () => {
    expect(on({ on: ['main', 'fan'] }, 7.5).currentOf('main coil')).toBeCloseTo(0, 6);
    expect(on({ on: ['main', 'fan'] }, 7.5).currentOf('fan coil')).toBeCloseTo(0, 6);
  });
  it('without its supply wire does not even hold its low-side outputs', () => {
    const at = solvedOnBench(elementsOf(controller, fields, { on: ['fan'] }), [
      ground,
      { type: 'source', id: 'other supply', a: 'elsewhere', b: 'chassis', voltage: 12, resistance: 0 },
      { type: 'resistor', id: 'fan coil', a: 'elsewhere', b: 'X.fan', resistance: 12 },
    ]);
    expect(at.currentOf('fan coil')).toBeCloseTo(0, 6);
  });
  it('woken by its wake pin does what it is told only with voltage there', () => {
    const wake = (volts: number): Element => ({ type: 'source', id: 'key', a: 'X.wake', b: 'chassis', voltage: volts, resistance: 0 });
    const woken = { wakes_by: 'wake_pin' };
    expect(on({ on: ['main'] }, 12, woken, [wake(12)]).currentOf('main coil')).toBeCloseTo(12 / 12.1, 5);
    expect(on({ on: ['main'] }, 12, woken, [wake(0)]).currentOf('main coil')).toBeCloseTo(0, 6);
  });
  it('holds its inputs where their pull resistors hold them', () => {
    const at = on({ awake: true }, 12, { input_resistance: 100e3 });
    expect(at.voltageOf('X.brake')).toBeCloseTo(0, 6);
    expect(at.voltageOf('X.door')).toBeCloseTo(12 * 100 / 101, 2);
    expect(at.voltageOf('X.sensor')).toBeCloseTo(5 * 100 / 101, 2);
    expect(on({}).voltageOf('X.sensor')).toBeCloseTo(0, 6);
  });
  it('an input named like its supply gives a second port of that name, which the reader reports', () => {
    const names = portsOf(controller, { current: 1, inputs: { supply: { pull: 'none' } } }).map(({ name }) => name);
    expect(names).toEqual(['supply', 'ground', 'supply']);
  });
});

describe('a CAN bus seen by a meter', () => {
  const node = { current: 0.1, can_input_resistance: 25e3 };
  const oneAmpere: Element = { type: 'current', id: 'ohmmeter', a: 'X.can_l', b: 'X.can_h', current: 0.001 };
  const termination = elementsOf(canTermination, {}).map((one) => ({ ...one, id: 'end' }));

  // ISO 11898-2: two terminations of 120 Ω in parallel, 60 Ω; the node's own 50 kΩ takes 0.1 % off. One missing: 120 Ω.
  it.each([[true, 60], [false, 120]])('has its resistance between the wires: a second termination %s, %f Ω', (inside, ohms) => {
    const at = solvedOnBench(elementsOf(canNode, { ...node, can_termination: inside }), [...termination, oneAmpere, ground]);
    const reading = (at.voltageOf('X.can_h') - at.voltageOf('X.can_l')) / 0.001;
    expect(Math.abs(reading / ohms - 1)).toBeLessThan(0.003);
  });
  it('rests at 2.5 V on both wires while a node is awake', () => {
    const meter: Element[] = ['X.can_h', 'X.can_l'].map((a) => ({ type: 'resistor', id: `meter ${a}`, a, b: 'chassis', resistance: 10e6 }));
    const at = solvedOnBench(elementsOf(canNode, node), [supply(12), ground, ...termination, ...meter]);
    for (const wire of ['X.can_h', 'X.can_l']) expect(at.voltageOf(wire)).toBeCloseTo(2.5, 1);
    const asleep = solvedOnBench(elementsOf(canNode, { ...node, runs: 'when_told' }), [supply(12), ground, ...termination, ...meter]);
    for (const wire of ['X.can_h', 'X.can_l']) expect(asleep.voltageOf(wire)).toBeCloseTo(0, 3);
  });
});
