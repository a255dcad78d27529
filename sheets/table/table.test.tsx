import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FlowPage, flowTables, flowText } from './flow.tsx';
import { Schedule } from './schedule.tsx';
import { cellText, fitted, headerHeight, isHeading, pageTable, rowHeight, tableText, tableWidth } from './table.ts';
import type { Row, Table } from './table.ts';
import { lettersInTrouble } from './text-boxes.ts';

const columns = fitted([{ head: 'Name', width: 20 }, { head: 'Mass', width: 10, align: 'end', sure: true }, { head: 'What it is', width: 30 }], 120);
const shown = { key: 'parts.M1.mass', path: 'parts.M1.mass', text: '25.3 kg', sure: '±0.2 measured' };
const row = fc.record({ cells: fc.tuple(fc.string({ maxLength: 60 }), fc.constantFrom(shown, undefined, { key: 'r', text: '12 kg' }), fc.string({ maxLength: 200 })) });
const heading = fc.record({ heading: fc.string({ minLength: 1, maxLength: 20 }) });
const rows: fc.Arbitrary<readonly Row[]> = fc.array(fc.oneof({ weight: 4, arbitrary: row }, { weight: 1, arbitrary: heading }), { maxLength: 40 });

describe('a table', () => {
  it('gives every row once and in order to pages that hold it', () => {
    fc.assert(fc.property(rows, fc.integer({ min: 10, max: 200 }), (content, first) => {
      const table: Table = { columns, rows: content };
      const parts = pageTable(table, (index) => (index === 0 ? first : 233));
      const own = (list: readonly Row[]): readonly Row[] => list.filter((one) => content.includes(one));
      expect(parts.flatMap((part) => own(part.rows))).toEqual(content);
      for (const [index, part] of parts.entries()) {
        const height = headerHeight(table) + part.rows.reduce((sum, one) => sum + rowHeight(table, one), 0);
        expect(part.height).toBeCloseTo(height, 6);
        expect(height <= (index === 0 ? Math.max(first, headerHeight(table)) : 233) + 1e-9).toBe(true);
        const last = part.rows.at(-1);
        if (index < parts.length - 1 && last) expect(isHeading(last)).toBe(false);
      }
    }));
  });
  it('keeps its letters apart and inside, whatever the words', () => {
    fc.assert(fc.property(rows, (content) => {
      const table: Table = { columns, rows: content };
      const [part] = pageTable(table, () => 233);
      expect(lettersInTrouble(<Schedule table={table} part={part!} x={0} y={0} />)).toEqual([]);
    }), { numRuns: 40 });
  });
  it('stretches its columns in proportion', () => {
    expect(tableWidth({ columns, rows: [] })).toBeCloseTo(120, 9);
    expect(columns[2]!.width / columns[0]!.width).toBeCloseTo(1.5, 9);
  });
  it('says in words what it shows', () => {
    expect(cellText(shown)).toBe('25.3 kg ±0.2 measured');
    expect(cellText([{ level: 'stop' }, undefined])).toBe('stop; —');
    expect(tableText('Parts', { columns, rows: [{ heading: 'Put in' }, { cells: ['M1', shown] }] })).toEqual({ kind: 'table', caption: 'Parts', head: ['Name', 'Mass', 'What it is'], rows: [['Put in', '', ''], ['M1', '25.3 kg ±0.2 measured', '—']] });
  });
});

describe('tables under one another', () => {
  const long = { title: 'Long', note: 'a note', table: { columns, rows: Array.from({ length: 90 }, (_, index) => ({ cells: [`R${index}`, shown, 'x'] })) } };
  it('go on over pages and begin where there is room', () => {
    const pages = flowTables([long, { title: 'Short', table: { columns, rows: [{ cells: ['S', shown, 'y'] }] } }], 233, 100);
    expect(pages.length).toBeGreaterThan(2);
    expect(pages.flat().flatMap(({ part }) => part.rows).length).toBe(91);
    for (const placed of pages) expect(lettersInTrouble(<FlowPage placed={placed} />)).toEqual([]);
    expect(flowText(pages[1]!)[0]).toEqual({ kind: 'heading', text: 'Long, continued' });
  });
  it('say a sentence where there is nothing to list', () => {
    const [page] = flowTables([{ title: 'Fuses', note: 'a note', table: { columns, rows: [{ heading: 'There is no fuse.' }] } }], 233);
    expect(flowText(page!)).toEqual([{ kind: 'heading', text: 'Fuses' }, { kind: 'paragraph', text: 'There is no fuse.' }]);
  });
});
