import { describe, expect, it } from 'vitest';
import { elementsOf, portsOf, solvedOnBench } from '../../checks/fixtures/part-on-bench.ts';
import { relay } from './relay.ts';

const changeover = { rating: 30, coil_voltage: 12, contact: 'changeover' };
/** 12 V on the coil's ports through 10 mΩ, 10 V on `common`, and 1 kΩ from each throw to ground. */
function bench(fields: Record<string, unknown>, coil: number, reversed = false) {
  return solvedOnBench(elementsOf(relay, fields), [
    { type: 'source', id: 'coil supply', a: reversed ? 'X.coil_b' : 'X.coil_a', b: 'chassis', voltage: coil, resistance: 0.01 },
    { type: 'resistor', id: 'coil ground', a: reversed ? 'X.coil_a' : 'X.coil_b', b: 'chassis', resistance: 0 },
    { type: 'source', id: 'feed', a: 'X.common', b: 'chassis', voltage: 10, resistance: 0 },
    { type: 'resistor', id: 'lamp no', a: 'X.no', b: 'chassis', resistance: 1000 },
    { type: 'resistor', id: 'lamp nc', a: 'X.nc', b: 'chassis', resistance: 1000 },
  ]);
}

describe('a changeover relay', () => {
  it('at rest joins common to the rest contact only', () => {
    const at = bench(changeover, 0);
    expect(at.voltageOf('X.nc')).toBeCloseTo(10, 3);
    expect(at.voltageOf('X.no')).toBeCloseTo(0, 6);
  });
  it('goes over when its coil is fed', () => {
    const at = bench(changeover, 12);
    expect(at.voltageOf('X.no')).toBeCloseTo(10, 3);
    expect(at.voltageOf('X.nc')).toBeCloseTo(0, 6);
  });
  it('stays at rest below its pick-up voltage', () => expect(bench({ ...changeover, pick_up: 7 }, 6.9).voltageOf('X.no')).toBeCloseTo(0, 6));
  it('works either way round without a diode', () => expect(bench(changeover, 12, true).voltageOf('X.no')).toBeCloseTo(10, 3));
  it('with a diode and the coil reversed shorts its feed and does not move', () => {
    const at = bench({ ...changeover, suppression: 'diode' }, 12, true);
    expect(-at.currentOf('coil supply')).toBeGreaterThan(100);
    expect(at.voltageOf('X.no')).toBeCloseTo(0, 6);
  });
  it('takes the current of its coil: 12 V on 300 Ω is 40 mA (component data)', () => {
    expect(bench({ ...changeover, coil_resistance: 300 }, 12).currentOf('X.coil')).toBeCloseTo(0.04, 5);
  });
});

describe('a relay', () => {
  it('has only the throws that it says', () => {
    const ports = (fields: Record<string, unknown>): string[] => portsOf(relay, fields).map(({ name }) => name).slice(3);
    expect(ports({})).toEqual(['no']);
    expect(ports({ contact: 'break' })).toEqual(['nc']);
    expect(ports({ contact: 'changeover' })).toEqual(['no', 'nc']);
  });
  it('never lets go above where it pulls in', () => {
    for (const one of elementsOf(relay, { ...changeover, pick_up: 5, drop_out: 6 })) if (one.type === 'relay') expect(one.dropOut).toBe(one.pickUp);
  });
});
