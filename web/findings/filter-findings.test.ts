import { describe, expect, it } from 'vitest';
import { codeTable } from '../../core/findings/code-table.ts';
import type { FindingRow } from '../../study/finding-row.ts';
import { filterFindings } from './filter-findings.ts';
import { cardOfFinding, sheetOfFinding } from './sheet-of-finding.ts';

const row = (fields: Partial<FindingRow>): FindingRow => ({ key: '', code: 'pack.two-ends', topic: 'pack', level: 'fix', about: ['M1'], statement: 'The string has no end.', whatToDo: 'Join M1.', margin: undefined, chance: undefined, settledBy: [], needs: [], sources: [], path: 'parts.M1', place: undefined, ...fields });
const none = { about: undefined, topic: undefined, words: '' };

describe('the filter', () => {
  const rows = [row({}), row({ about: ['W1', 'F1'], topic: 'high-voltage', statement: 'The fuse F1 is too large.' })];
  it('takes every subject of a finding', () => expect(filterFindings(rows, { ...none, about: 'F1' })).toEqual([rows[1]]));
  it('wants all words, in any order and case', () => {
    expect(filterFindings(rows, { ...none, words: 'LARGE fuse' })).toEqual([rows[1]]);
    expect(filterFindings(rows, { ...none, words: 'fuse string' })).toEqual([]);
  });
  it('takes a topic', () => expect(filterFindings(rows, { ...none, topic: 'pack' })).toEqual([rows[0]]));
});

describe('the way from a finding', () => {
  it('leads to a sheet of its own subject, and only problems of the file to the cover', () => {
    expect([...codeTable.values()].filter((code) => sheetOfFinding(code) === 'cover').map(({ topic }) => topic).filter((topic) => topic !== 'file')).toEqual([]);
  });
  it('leads to the card of the entry that a value stands in', () => {
    expect(cardOfFinding(row({ path: 'parts.M1.mass' }))).toBe('parts.M1');
    expect(cardOfFinding(row({ path: 'vehicle.wheelbase' }))).toBe('vehicle');
    expect(cardOfFinding(row({ path: '', about: [] }))).toBeUndefined();
  });
});
