import { describe, expect, it } from 'vitest';
import { readQuantity } from '../core/quantity/read-quantity.ts';
import { assemble } from './assemble.ts';
import { catalogue, sources, sourcesPage } from './index.ts';

const row = { key: 'a', quantity: 'voltage', value: '1 V', range: '1..2 V', source: 'common-practice', note: '' } as const;

describe('assemble', () => {
  it('is empty for nothing', () => {
    expect(assemble([], []).rows.size).toBe(0);
  });
  it('stops at a key that two rows share, even in different lists', () => {
    expect(() => assemble([[row], [row]], [])).toThrow('two handbook rows have the key a');
  });
  it('stops at a table whose first column does not rise, or whose rows are ragged', () => {
    const table = { key: 't', columns: [{ name: 'x', quantity: 'ratio' }], source: 'closed-form', note: '' } as const;
    expect(() => assemble([], [[{ ...table, rows: [[0], [0]] }]])).toThrow('does not rise');
    expect(() => assemble([], [[{ ...table, rows: [[0, 1]] }]])).toThrow('2 numbers for 1 columns');
  });
});

describe('the catalogue', () => {
  it('has a value inside its range in every row, readable as the quantity it says', () => {
    for (const found of catalogue.rows.values()) {
      const value = readQuantity(found.value, found.quantity, found.key);
      const range = readQuantity(found.range, found.quantity, found.key);
      expect(value.ok, `${found.key}: ${found.value}`).toBe(true);
      expect(range.ok, `${found.key}: ${found.range}`).toBe(true);
      if (!value.ok || !range.ok) continue;
      expect(value.value.nominal, found.key).toBeGreaterThanOrEqual(range.value.low * (1 - 1e-12));
      expect(value.value.nominal, found.key).toBeLessThanOrEqual(range.value.high * (1 + 1e-12));
    }
    expect(catalogue.rows.size).toBeGreaterThan(40);
  });
  it('names a known source in every row and table', () => {
    const named = [...catalogue.rows.values(), ...catalogue.tables.values()];
    expect(named.filter((entry) => !sources.has(entry.source)).map((entry) => `${entry.key}: ${entry.source}`)).toEqual([]);
  });
  it('has a voltage curve and voltage limits for every chemistry of the build file', () => {
    for (const chemistry of ['nmc', 'nca', 'lfp', 'lmo', 'lto']) {
      const curve = catalogue.tables.get(`cell.ocv.${chemistry}`);
      expect(curve?.rows[0]![0], chemistry).toBe(0);
      expect(curve?.rows.at(-1)![0], chemistry).toBe(1);
      for (const limit of ['minimum', 'nominal', 'maximum']) expect(catalogue.rows.has(`cell.${limit}_voltage.${chemistry}`)).toBe(true);
    }
  });
});

describe('the page of sources', () => {
  it('has one line a source and no link', () => {
    const page = sourcesPage();
    for (const key of sources.keys()) expect(page).toContain(`| \`${key}\` |`);
    expect(page).not.toMatch(/https?:|www\./);
  });
});
