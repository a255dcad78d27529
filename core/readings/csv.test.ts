import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { printCsv, readCsv } from './csv.ts';

const texts = (text: string): string[][] => readCsv(text).map(({ fields }) => [...fields]);

describe('a table', () => {
  it('takes quotes, commas and line breaks in quotes, CRLF, LF, CR, and a byte order mark', () => {
    expect(texts('\uFEFFa,b\r\n"1,5","say ""so"""\n"two\r\nlines",\rlast,1')).toEqual([['a', 'b'], ['1,5', 'say "so"'], ['two\r\nlines', ''], ['last', '1']]);
    expect(texts('')).toEqual([]);
    expect(texts('\r\n\n,\n')).toEqual([['', '']]);
  });
  it('says where each field stands', () => {
    const [, second, third] = readCsv('\uFEFFid,note\r\n7,"two\nlines"\r\n8,x');
    expect([second!.lines, second!.columns]).toEqual([[2, 2], [1, 3]]);
    expect(third).toMatchObject({ line: 4, isClosed: false, lines: [4, 4], columns: [1, 3] });
  });
  it('tells an open quote and a stray one, and loses no letter of either', () => {
    expect(readCsv('a,"b\r\nc')).toMatchObject([{ fields: ['a', 'b\r\nc'], hasOpenQuote: true, isClosed: false }]);
    expect(readCsv('a"b,"c"d\n')).toMatchObject([{ fields: ['a"b', 'cd'], strayQuotes: [{ line: 1, column: 2 }] }]);
    expect(readCsv('"c"d\n')[0]!.strayQuotes).toEqual([{ line: 1, column: 4 }]);
  });
  it('reads back whatever was printed', () => {
    const field = fc.oneof(fc.string({ unit: 'binary' }), fc.string({ unit: fc.constantFrom('"', ',', '\r', '\n', 'a', ' ', '\uFEFF') }));
    fc.assert(fc.property(fc.array(fc.array(field, { minLength: 1, maxLength: 6 }).filter((fields) => fields.length > 1 || fields[0] !== ''), { maxLength: 6 }), (table) => {
      expect(texts(table.map(printCsv).join(''))).toEqual(table);
    }), { numRuns: 120 });
  });
  it('never throws, and keeps every letter that is no quote, comma or line end', () => {
    const bare = (text: string): string => text.replace(/[",\r\n\uFEFF]/g, '');
    fc.assert(fc.property(fc.string({ unit: fc.constantFrom('"', ',', '\r', '\n', 'a', 'Ω', '\u0000', '\uFEFF') }), (text) => {
      expect(bare(readCsv(text).flatMap(({ fields }) => fields).join(''))).toBe(bare(text));
    }), { numRuns: 1000 });
  });
});
