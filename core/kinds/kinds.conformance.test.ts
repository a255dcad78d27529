/** What every kind must keep, whoever writes it: one suite for all of them. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { highVoltageRows } from '../../catalogue/high-voltage.ts';
import { lowVoltageRows } from '../../catalogue/low-voltage.ts';
import { runRows } from '../../catalogue/runs.ts';
import { fullValues, leastValues, numberOf, variantsOf, type Plain } from '../../checks/fixtures/example-values.ts';
import { recordWiring, type Recording } from '../../checks/fixtures/recording-wiring.ts';
import type { Field, Fields } from '../part/field.ts';
import { failuresOf, type CellNow, type Kind, type PartNow } from '../part/kind.ts';
import type { Element } from '../solve/element.ts';
import { kinds } from './all.ts';
import { highVoltageKinds } from './high-voltage.ts';
import { runKinds } from './run-kinds.ts';

const rows = new Map([...highVoltageRows, ...runRows, ...lowVoltageRows].map((row) => [row.key, row]));

const cell: CellNow = { name: 'reclaimed', chemistry: 'nmc', capacity: 62 * 3600, voltage: 3.7, resistance: 1e-3, minimumVoltage: 3, nominalVoltage: 3.65, maximumVoltage: 4.2 };
const partOf = (fields: Plain, settings: Plain): PartNow<Fields, Fields> =>
  ({ name: 'X', fields: fields as never, settings: settings as never, cell, conditions: { ambient: 298.15, cellTemperature: 298.15, stateOfCharge: 0.5 } });

interface Case { readonly called: string; readonly part: PartNow<Fields, Fields>; readonly ports: readonly string[]; readonly recording: Recording }

function casesOf(kind: Kind): readonly Case[] {
  const settings = [{ called: 'at rest', values: {} as Plain }, ...variantsOf(kind.settings, rows).map(({ called, values }) => ({ called: `settings ${called}`, values }))];
  return variantsOf(kind.fields, rows).flatMap((variant) => settings.map((asked) => {
    const ports = kind.ports(variant.values as never).map(({ name }) => name);
    const part = partOf(variant.values, asked.values);
    return { called: `${variant.called}; ${asked.called}`, part, ports, recording: recordWiring(ports, (wiring) => kind.wire(part, wiring)) };
  }));
}

const forbidden = new RegExp(`\\b(safe|safely|todo|fixme|${'tran'}script)\\b|https?:`, 'i');

describe.each([...kinds.values()].map((kind) => [kind.kind, kind] as const))('the kind %s', (_, kind) => {
  const cases = casesOf(kind);

  it('has ports of different names, each with a meaning, that take at least one run', () => {
    for (const { values } of variantsOf(kind.fields, rows)) {
      const ports = kind.ports(values as never);
      expect(new Set(ports.map(({ name }) => name)).size).toBe(ports.length);
      for (const port of ports) {
        expect(port.name).toMatch(/^[a-z][a-z0-9_]*$/);
        expect(port.name).not.toBe('chassis');
        expect(port.meaning).not.toBe('');
        expect(Number.isInteger(port.holds) && port.holds >= 1).toBe(true);
      }
    }
  });

  it('can say its ports while the builder has typed nothing yet', () => expect(() => kind.ports({} as never)).not.toThrow());

  it('wires only numbers that the solver can take', () => {
    for (const { called, recording } of cases) for (const element of recording.elements.values()) expect(faultOf(element), `${called}: ${element.id}`).toBeUndefined();
  });

  it('gives the same elements whatever the numbers are', () => {
    const ids = (values: Plain): string[] => {
      const ports = kind.ports(values as never).map(({ name }) => name);
      return [...recordWiring(ports, (wiring) => kind.wire(partOf(values, {}), wiring)).elements].map(([id, { type }]) => `${id}: ${type}`);
    };
    for (const base of [leastValues(kind.fields, rows), fullValues(kind.fields, rows)]) {
      const moved = Object.fromEntries(Object.entries(base).map(([name, value]) => [name, kind.fields[name]?.type === 'quantity' ? (value as number) * 1.003 : value]));
      expect(ids(moved)).toEqual(ids(base));
    }
  });

  it('has failures that change something that is there', () => {
    for (const { called, part, ports, recording } of cases) {
      const failures = failuresOf(kind, part);
      expect(new Set(failures.map(({ code }) => code)).size, called).toBe(failures.length);
      for (const failure of failures) {
        const where = `${called}: ${failure.code}`;
        const changes = failure.changes(part);
        expect(changes.length, where).toBeGreaterThan(0);
        expect(failure.likelihood, where).toBeGreaterThan(0);
        for (const change of changes) {
          if ('add' in change) {
            expect(recording.elements.has(change.add), where).toBe(false);
            for (const point of [change.a, change.b]) expect(point === 'chassis' || ports.includes(point) || recording.insides.has(point), `${where} at ${point}`).toBe(true);
          } else {
            const element = recording.elements.get(change.element);
            expect(element, `${where} of ${change.element}`).toBeDefined();
            if (change.becomes === 'resistive') expect(element !== undefined && 'resistance' in element, where).toBe(true);
          }
          if ('resistance' in change) expect(change.resistance, where).toBeGreaterThan(0);
        }
      }
    }
  });

  it('has roles that name its own elements and ports', () => {
    for (const { called, part, ports, recording } of cases) {
      const roles = kind.roles(part);
      for (const { key, value } of namesIn(roles)) {
        if (/element$/i.test(key)) expect(recording.elements.has(value), `${called}: role says ${key} ${value}`).toBe(true);
        else expect(ports.includes(value), `${called}: role says ${key} ${value}`).toBe(true);
      }
      for (const [from, to] of roles.interlock ?? []) expect(ports.includes(from) && ports.includes(to), called).toBe(true);
      for (const number of numbersIn(roles)) expect(Number.isFinite(number), called).toBe(true);
    }
  });

  it('has fields whose examples read and lie within their own limits', () => checkFields({ ...kind.fields, ...kind.settings }));

  it('asks the handbook only for rows that it has, of the same quantity, and within the limits of the field', () => checkHandbook(kind.fields));

  it('speaks in whole words and promises nothing', () => {
    const texts = [kind.title, kind.meaning, ...meaningsIn(kind.fields), ...meaningsIn(kind.settings), ...kind.observables.flatMap(({ name, meaning }) => [name, meaning]),
      ...cases.flatMap(({ part }) => failuresOf(kind, part).map(({ meaning }) => meaning))];
    for (const text of texts) {
      expect(text.trim()).not.toBe('');
      expect(text).not.toMatch(forbidden);
    }
    // a dead weight has nothing to watch
    if (kind.family !== 'mechanical') expect(kind.observables.length).toBeGreaterThan(0);
  });
});

describe.each([...runKinds.values()].map((kind) => [kind.kind, kind] as const))('the run kind %s', (_, kind) => {
  it('amounts to a conductor of possible numbers with every choice', () => {
    for (const { called, values } of variantsOf(kind.fields, rows)) {
      const conductor = kind.conductor(values as never);
      for (const number of numbersIn(conductor)) expect(Number.isFinite(number) && number > 0, called).toBe(true);
      expect(conductor.shortCircuitTemperature, called).toBeGreaterThan(conductor.temperatureRating);
      if (conductor.shape.form === 'round') expect(conductor.shape.outsideDiameter, called).toBeGreaterThanOrEqual(conductor.shape.conductorDiameter);
    }
  });
  it('has fields whose examples read and lie within their own limits', () => checkFields(kind.fields));
  it('asks the handbook only for rows that it has', () => checkHandbook(kind.fields));
  it('speaks in whole words', () => {
    for (const text of [kind.title, kind.meaning, ...meaningsIn(kind.fields), ...kind.observables.flatMap(({ name, meaning }) => [name, meaning])]) expect(text.trim() !== '' && !forbidden.test(text), text).toBe(true);
  });
});

describe('the lists of kinds', () => {
  it('name each kind once', () => expect(kinds.size).toBe(new Set([...kinds.values()].map(({ kind }) => kind)).size));
  it('leave out no kind that has a file', () => {
    const folder = new URL('./', import.meta.url);
    const written = readdirSync(folder).filter((file) => /\.ts$/.test(file) && !/\.test\.ts$/.test(file))
      .flatMap((file) => [...readFileSync(new URL(file, folder), 'utf8').matchAll(/define(?:Run)?Kind\(\{\s*kind: '([a-z0-9_]+)'/g)].map((match) => match[1]!));
    expect(written.filter((name) => !kinds.has(name) && !runKinds.has(name))).toEqual([]);
    expect(written.length).toBe(kinds.size + runKinds.size);
  });
  it('hold only high-voltage kinds in the high-voltage list', () => expect(highVoltageKinds.filter(({ family }) => family !== 'high_voltage')).toEqual([]));
});

describe('the handbook rows of the high-voltage and run kinds', () => {
  const used = new Set([...kinds.values(), ...runKinds.values()].flatMap(({ fields }) => Object.values(fields).flatMap((field) => (field.type === 'quantity' && field.handbook ? [field.handbook] : []))));
  it.each([...highVoltageRows, ...runRows].map((row) => [row.key, row] as const))('%s reads, lies in its range, says where it is from, and is used', (key, row) => {
    const value = numberOf(row.value, row.quantity).nominal;
    const range = numberOf(row.range, row.quantity);
    expect(range.low).toBeLessThanOrEqual(value);
    expect(range.high).toBeGreaterThanOrEqual(value);
    expect(range.low).toBeLessThan(range.high);
    if (row.source === 'common-practice') expect(row.note).toMatch(/common practice|from memory|secondary note/);
    expect(used.has(key)).toBe(true);
  });
  it('have different keys', () => expect(rows.size).toBe(highVoltageRows.length + runRows.length + lowVoltageRows.length));
});

/** What the solver could not take, or undefined. */
function faultOf(element: Element): string | undefined {
  const numbers = Object.entries(element).filter((entry): entry is [string, number] => typeof entry[1] === 'number');
  for (const [name, number] of numbers) if (!Number.isFinite(number)) return `${name} is not a number`;
  if ('resistance' in element && element.resistance < 0) return 'negative resistance';
  if ('knee' in element && !(element.knee > 0)) return 'knee is not above 0';
  if (element.type === 'capacitor' && !(element.capacitance > 0)) return 'capacitance is not above 0';
  if (element.type === 'relay' && !(element.pickUp > 0 && element.dropOut > 0 && element.dropOut <= element.pickUp)) return 'coil limits';
  if (element.type === 'converter' && !(element.efficiency > 0 && element.efficiency <= 1 && element.currentLimit > 0 && element.minimumInput > 0 && element.voltage > 0)) return 'converter numbers';
  return undefined;
}

const nameKeys = /^(element|resistorElement|contactElement|standbyElement|positive|negative|a|b|port|supplyPositive|supplyNegative)$/;

function namesIn(value: unknown, key = ''): readonly { key: string; value: string }[] {
  if (typeof value === 'string') return nameKeys.test(key) ? [{ key, value }] : [];
  if (Array.isArray(value)) return value.flatMap((item) => namesIn(item, key));
  return value !== null && typeof value === 'object' ? Object.entries(value).flatMap(([inner, item]) => namesIn(item, inner)) : [];
}

function numbersIn(value: unknown): readonly number[] {
  if (typeof value === 'number') return [value];
  return value !== null && typeof value === 'object' ? Object.values(value).flatMap(numbersIn) : [];
}

function meaningsIn(fields: Fields): readonly string[] {
  return Object.values(fields).flatMap((field) => [field.meaning, ...(field.type === 'choice' ? Object.values(field.explain ?? {}) as string[] : [])]);
}

function checkFields(fields: Fields): void {
  for (const [name, field] of Object.entries(fields)) {
    expect(name).toMatch(/^[a-z][a-z0-9_]*$/);
    expect(['mass', 'size', 'at', 'note', 'kind']).not.toContain(name);
    if (field.type === 'quantity') expect(limitFault(field, numberOf(field.example, field.quantity).nominal), `${name}: ${field.example}`).toBeUndefined();
    if (field.type === 'count') expect(Number(field.example) >= field.minimum && Number(field.example) <= field.maximum, name).toBe(true);
    if (field.type === 'choice') expect(new Set(field.choices).size, name).toBe(field.choices.length);
  }
}

function checkHandbook(fields: Fields): void {
  for (const [name, field] of Object.entries(fields)) {
    if (field.type !== 'quantity' || field.need !== 'handbook') continue;
    const row = rows.get(field.handbook ?? '');
    expect(row, `${name} asks for ${field.handbook}`).toBeDefined();
    expect(row?.quantity, name).toBe(field.quantity);
    const range = numberOf(row!.range, row!.quantity);
    expect(limitFault(field, range.low) ?? limitFault(field, range.high), name).toBeUndefined();
  }
}

function limitFault(field: Extract<Field, { type: 'quantity' }>, value: number): string | undefined {
  if (field.minimum !== undefined && (field.aboveMinimum === true ? value <= field.minimum : value < field.minimum)) return 'below its minimum';
  return field.maximum !== undefined && value > field.maximum ? 'above its maximum' : undefined;
}
