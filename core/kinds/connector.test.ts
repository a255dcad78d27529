import { describe, expect, it } from 'vitest';
import { elementsOf, partNow, portsOf } from '../../checks/fixtures/part-on-bench.ts';
import { failuresOf } from '../part/kind.ts';
import { connector } from './connector.ts';

const joins = (fields: Record<string, unknown>, settings: Record<string, unknown> = {}): [string, string][] =>
  elementsOf(connector, fields, settings).flatMap((pin): [string, string][] => (pin.type === 'switch' && pin.closed ? [[pin.a, pin.b]] : []));

describe('a connector', () => {
  it('joins each pin to its own other half and to no other pin', () => {
    expect(joins({ pins: 3 })).toEqual([['X.a1', 'X.b1'], ['X.a2', 'X.b2'], ['X.a3', 'X.b3']]);
  });
  it('joins nothing when it is unplugged', () => expect(joins({ pins: 3 }, { unplugged: true })).toEqual([]));
  it('calls pins by their names and the rest by their numbers', () => {
    expect(joins({ pins: 3, names: ['wake', 'ground'] })).toEqual([['X.a_wake', 'X.b_wake'], ['X.a_ground', 'X.b_ground'], ['X.a3', 'X.b3']]);
  });
  it('counts a name given twice once', () => expect(joins({ pins: 2, names: ['wake', 'wake'] })).toEqual([['X.a_wake', 'X.b_wake']]));
  it('has pins that carry signals where it says so', () => {
    const ports = portsOf(connector, { pins: 2, names: ['wake'], signal_pins: ['wake'] });
    expect(ports.map(({ name, carries }) => [name, carries])).toEqual([['a_wake', 'signal'], ['b_wake', 'signal'], ['a2', 'low_voltage'], ['b2', 'low_voltage']]);
  });
  it('can lose any one pin, and lets neighbours leak unless it is sealed', () => {
    const codes = (fields: Record<string, unknown>): string[] => failuresOf(connector, partNow(connector, fields)).map(({ code }) => code);
    expect(codes({ pins: 2 })).toEqual(['apart', 'corroded', 'pin_1_open', 'pin_1_resistive', 'pin_1_leaks_to_2', 'pin_2_open', 'pin_2_resistive']);
    expect(codes({ pins: 2, is_sealed: true })).not.toContain('pin_1_leaks_to_2');
  });
});
