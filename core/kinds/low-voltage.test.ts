/** What the low-voltage kinds keep besides the suite for all kinds (kinds.conformance.test.ts). */
import { describe, expect, it } from 'vitest';
import { lowVoltageRows } from '../../catalogue/low-voltage.ts';
import { elementsOf, portsOf } from '../../checks/fixtures/part-on-bench.ts';
import { handbookValue } from '../build/handbook-value.ts';
import { lowVoltageKinds, mechanicalKinds } from './low-voltage.ts';

type Plain = Readonly<Record<string, unknown>>;
/** For each kind the plainest part and fuller ones, SI, with settings that move it. */
const samples: Readonly<Record<string, readonly (readonly [fields: Plain, settings: Plain])[]>> = {
  battery_12v: [[{ chemistry: 'flooded', nominal_voltage: 12, capacity: 216000 }, {}], [{ chemistry: 'lfp', nominal_voltage: 25.6, capacity: 216000 }, {}]],
  fuse: [[{ rating: 15, style: 'blade' }, {}], [{ rating: 15, style: 'blade' }, { pulled: true }]],
  relay: [[{ rating: 30, coil_voltage: 12 }, {}], [{ rating: 30, coil_voltage: 12, contact: 'changeover', suppression: 'diode' }, {}], [{ rating: 30, coil_voltage: 24, contact: 'break', suppression: 'resistor' }, {}]],
  switch: [[{}, {}], [{ poles: 2, rest: 'closed' }, { closed: false }], [{ positions: { off: [], on: ['ignition'], start: ['ignition', 'start'] } }, { position: 'on' }]],
  pedal: [[{ low_1: 0.16, high_1: 0.84 }, {}], [{ tracks: 1, low_1: 0.1, high_1: 0.9 }, { travel: 0.5 }]],
  diode: [[{ rating: 3 }, {}]],
  load: [[{ current: 5 }, {}], [{ current: 5, runs: 'when_told', standby_current: 0.001, draws: 'power', input_capacitance: 1e-3 }, { on: true }]],
  pump: [[{ current: 6 }, {}], [{ current: 6, runs: 'when_told', standby_current: 0.001, start_current: 20, start_time: 0.1 }, { speed: 0.5 }]],
  indicator: [[{ type: 'led', current: 0.02 }, {}], [{ type: 'lamp', current: 0.2 }, {}]],
  controller: [
    [{ current: 0.25 }, {}],
    [{ current: 0.25, standby_current: 0.002, wakes_by: 'wake_pin', can: true, can_termination: true, input_capacitance: 1e-4,
      inputs: { brake: { pull: 'down' }, door: { pull: 'up' }, sensor: { pull: 'up', pull_voltage: 5 }, crash: { pull: 'none' } },
      outputs: { main: { side: 'high', current_limit: 2 }, fan: { side: 'low' } } }, { on: ['main', 'fan'] }],
  ],
  can_node: [[{ current: 0.1 }, {}], [{ current: 0.1, can_termination: true, runs: 'when_told', standby_current: 0.001 }, { on: true }]],
  can_termination: [[{}, {}]],
  connector: [[{ pins: 1 }, {}], [{ pins: 4, names: ['wake', 'ground'] }, { unplugged: true }]],
  splice: [[{ wires: 3 }, {}]],
  ground_stud: [[{}, {}]],
  interlock_contact: [[{}, { opened: true }]],
  ballast: [[{}, {}]],
};
const kinds = [...lowVoltageKinds, ...mechanicalKinds];
const cases = kinds.flatMap((kind) => (samples[kind.kind] ?? []).map(([fields, settings], i) => ({ name: `${kind.kind} ${i + 1}`, kind, fields, settings })));

describe('the low-voltage and mechanical kinds', () => {
  it('have a sample each here', () => expect(Object.keys(samples).sort()).toEqual(kinds.map(({ kind }) => kind).sort()));

  it.each(cases)('wire every port: $name', ({ kind, fields, settings }) => {
    const touched = new Set(elementsOf(kind, fields, settings).flatMap((one) => (one.type === 'converter' ? [] : one.type === 'relay' ? [one.a, one.b, ...one.coil] : [one.a, one.b])));
    expect(portsOf(kind, fields).map(({ name }) => name).filter((name) => !touched.has(`X.${name}`))).toEqual([]);
  });

  it.each(cases)('have the same elements whatever is set, so that a role holds in every mode: $name', ({ kind, fields, settings }) => {
    const ids = (set: Plain): string[] => elementsOf(kind, fields, set).map(({ id }) => id);
    expect(ids(settings)).toEqual(ids({}));
  });
});

describe('the low-voltage handbook rows', () => {
  const catalogue = { rows: new Map(lowVoltageRows.map((row) => [row.key, row])), tables: new Map() };
  const used = kinds.flatMap(({ fields }) => Object.values(fields)).flatMap((field) => (field.type === 'quantity' && field.handbook !== undefined ? [field.handbook] : []));

  it('have keys of their own, and all are used', () => {
    expect(catalogue.rows.size).toBe(lowVoltageRows.length);
    expect(lowVoltageRows.filter(({ key }) => !used.includes(key)).map(({ key }) => key)).toEqual([]);
  });
  it.each(lowVoltageRows)('$key reads, lies in a range of some width and says where it is from', ({ key, quantity, source, note }) => {
    const { low, high } = handbookValue(catalogue, key, quantity);
    expect(low).toBeLessThan(high);
    if (source === 'common-practice') expect(note).toMatch(/common practice|from memory|component data/i);
  });
});
