import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lineFor, printLog, readLog, standing } from './log.ts';
import { columns, onOneLine, procedures, verdictWords } from './reading.ts';
import type { Reading } from './reading.ts';

const reading: Reading = {
  id: 'r1', when: '2026-11-25T14:30:00Z', who: 'Ada', procedure: 'power-up', step: 'join.H06', state: 'off', points: ['SD.out', 'M5.neg'], quantity: 'voltage',
  reading: '10.8 V', instrument: 'multimeter', verdict: 'agrees', revision: '1a2b3c4d', restsOn: 'ffee0011', replaces: '', note: 'steady, "quiet"', more: [],
};
const words = fc.string({ unit: 'grapheme' }).map(onOneLine);
const anyReading: fc.Arbitrary<Reading> = fc.record({
  id: fc.stringMatching(/^[A-Za-z0-9_-]{1,12}$/), when: fc.constantFrom('2026-11-25T14:30:00Z', '2026-11-25T14:30:00.123+01:00'), who: words, procedure: fc.constantFrom(...procedures),
  step: words, state: words, points: fc.array(fc.stringMatching(/^[A-Za-z0-9_.",]{1,8}$/), { maxLength: 3 }), quantity: fc.constantFrom('voltage', 'resistance', 'observation'),
  reading: words.filter((text) => text !== ''), instrument: words, verdict: fc.constantFrom('', ...verdictWords), revision: words, restsOn: words,
  replaces: fc.constant(''), note: words, more: fc.constant([]),
});

describe('the log', () => {
  it('reads back whatever readings were printed', () => {
    fc.assert(fc.property(fc.uniqueArray(anyReading, { selector: ({ id }) => id, maxLength: 8 }), (readings) => {
      expect(readLog(printLog(readings))).toEqual({ readings, problems: [], header: [...columns], close: '' });
    }), { numRuns: 300 });
  });
  it('never throws: bytes at random, and logs with bytes changed', () => {
    const decoder = new TextDecoder();
    fc.assert(fc.property(fc.uint8Array({ maxLength: 400 }), (bytes) => { readLog(decoder.decode(bytes)); }), { numRuns: 500 });
    const whole = new TextEncoder().encode(printLog([reading, { ...reading, id: 'r2', replaces: 'r1' }]));
    fc.assert(fc.property(fc.array(fc.tuple(fc.nat(whole.length - 1), fc.nat(255)), { maxLength: 12 }), (changes) => {
      const bytes = Uint8Array.from(whole);
      for (const [at, byte] of changes) bytes[at] = byte;
      for (const { line, column } of readLog(decoder.decode(bytes)).problems) expect(line > 0 && column > 0).toBe(true);
    }), { numRuns: 500 });
  });
  it('cut anywhere: every whole line counts, the cut one is told or whole but for its note, and the next line added is read', () => {
    const text = printLog([reading, { ...reading, id: 'r2', note: 'with "quotes", and a comma' }]);
    for (let length = printLog([]).length; length < text.length; length++) {
      const cut = text.slice(0, length);
      const found = readLog(cut);
      const whole = cut.split('\r\n').length - 2;
      expect(found.readings.length).toBeGreaterThanOrEqual(whole);
      if (!cut.endsWith('\n') && !cut.endsWith('\r')) expect(found.problems).toMatchObject([{ line: whole + 2 }]);
      const after = readLog(cut + lineFor({ ...reading, id: 'r3' }, found));
      expect(after.readings.at(-1)).toEqual({ ...reading, id: 'r3' });
      expect(after.readings.length).toBe(found.readings.length + 1);
    }
  });
  it('a header that a crash has cut: readings added later are read all the same', () => {
    const header = printLog([]);
    for (let length = 0; length < header.length; length++) {
      const cut = header.slice(0, length);
      expect(readLog(cut + lineFor(reading, readLog(cut))).readings).toEqual([reading]);
    }
  });
  it('keeps columns that it does not know, and follows the order of the file', () => {
    const text = 'weather,reading,id,when,quantity,step\n"cold, dry",12.4 V,a,2026-11-25T14:30Z,voltage,join.H06\n';
    const log = readLog(text);
    expect(log.problems).toEqual([]);
    expect(log.readings).toMatchObject([{ id: 'a', step: 'join.H06', procedure: 'power-up', more: [['weather', 'cold, dry']] }]);
    const after = readLog(text + lineFor({ ...reading, id: 'b' }, log));
    expect(after.readings.map(({ id, note }) => [id, note])).toEqual([['a', ''], ['b', reading.note]]);
    expect(readLog(printLog(after.readings)).readings[0]!.more).toEqual([['weather', 'cold, dry']]);
  });
  it('tells every line that it cannot use, where and why, and reads the rest', () => {
    const good = lineFor(reading, { header: columns, close: '' });
    const log = readLog(`${printLog([])}r2,yesterday,Ada,power-up,s,off,A,voltage,1 V,m,agrees,,,,\r\nshort,line\r\nr3,2026-11-25T14:30:00Z,,walk,s,off,A,voltage,,m,maybe,,,,\r\n${good}`);
    expect(log.readings).toEqual([reading]);
    expect(log.problems.map(({ line, column, level }) => [line, column, level])).toEqual([[2, 4, 'stop'], [3, 7, 'stop'], [4, 47, 'stop'], [4, 26, 'note'], [4, 50, 'note']]);
    expect(log.problems.find(({ line }) => line === 2)!.expected).toContain('2026-11-25T14:30:00Z');
  });
  it('a log without names of columns says what belongs there', () => {
    const log = readLog(lineFor(reading, { header: columns, close: '' }));
    expect(log.problems).toMatchObject([{ line: 1, expected: expect.stringContaining('id,when,who') }]);
    expect(log.readings).toEqual([reading]);
  });
  it('a correction takes the place of the one that it names; one that names nothing counts beside the others, and is told', () => {
    const log = readLog(printLog([reading, { ...reading, id: 'r2', reading: '10.9 V', replaces: 'r1' }, { ...reading, id: 'r3', replaces: 'nobody' }]));
    expect(standing(log.readings).map(({ id }) => id)).toEqual(['r2', 'r3']);
    expect(log.problems).toMatchObject([{ line: 4, level: 'note' }]);
  });
  it('the same line twice is one reading; another line under the same id is told', () => {
    expect(readLog(printLog([reading]) + lineFor(reading, { header: columns, close: '' }))).toMatchObject({ readings: [reading], problems: [] });
    expect(readLog(printLog([reading]) + lineFor({ ...reading, reading: '11 V' }, { header: columns, close: '' }))).toMatchObject({ readings: [reading], problems: [{ line: 3, level: 'stop' }] });
  });
});
