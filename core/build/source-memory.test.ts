import { isDeepStrictEqual } from 'node:util';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { smallExample, smallWords } from '../../checks/fixtures/small-words.ts';
import { readBuild } from './read-build.ts';
import { emptyMemory } from './source-memory.ts';

/** Everything that a build says, as plain data. */
function plain(text: string, memory?: ReturnType<typeof emptyMemory>) {
  const build = readBuild(text, smallWords, memory);
  return Object.fromEntries(Object.entries(build).map(([name, value]) => [name, value instanceof Map ? [...value] : value]));
}

/** The same with this memory as without any; where not, the comparison of the runner says what. */
function expectSame(text: string, memory: ReturnType<typeof emptyMemory>): void {
  const [kept, fresh] = [plain(text, memory), plain(text)];
  if (!isDeepStrictEqual(kept, fresh)) expect(kept, text).toEqual(fresh);
}

describe('reading a file again with the memory of the last time', () => {
  it('gives the same build, places included, for the example and after an edit that moves everything', () => {
    const memory = emptyMemory();
    for (const text of [smallExample, smallExample, `# a line\n${smallExample}`, smallExample.replace('12.4 kg', '12.45 kg'), smallExample.replaceAll('\n', '\r\n'), smallExample]) expectSame(text, memory);
    expect(memory.pieces.size).toBeGreaterThan(20);
  });

  it('holds only the pieces of the last text', () => {
    const memory = emptyMemory();
    readBuild(smallExample, smallWords, memory);
    readBuild('halfshaft: 1\nname: t\n', smallWords, memory);
    expect([...memory.pieces.keys()]).toEqual(['halfshaft: 1\n', 'name: t\n']);
  });

  it('gives the same sections again while nothing in them changed or moved, and reads them when a name or a port did', () => {
    const memory = emptyMemory();
    const read = (text: string) => readBuild(text, smallWords, memory);
    const first = read(smallExample);
    const warmer = read(smallExample.replace('35 °C', '36 °C'));
    for (const section of ['removed', 'cells', 'stock', 'parts', 'runs', 'modes'] as const) expect(warmer[section], section).toBe(first[section]);
    expect([...warmer.places]).toEqual([...first.places]);
    const heavier = read(smallExample.replace('12.4 kg', '12.5 kg'));
    expect([heavier.stock === warmer.stock, heavier.parts === warmer.parts]).toEqual([true, false]);
    const dangling = smallExample.replace('run: INV.enable', 'run: INV.enabel');
    for (const text of [dangling, dangling.replace('35 °C', '36 °C'), smallExample]) expect(plain(text, memory)).toEqual(plain(text));
    expect(read(dangling).problems.map(({ code }) => code)).toEqual(['unknown_port']);
  });

  it('gives the same build where an entry does not end where it seems to', () => {
    const head = 'halfshaft: 1\nname: t\n';
    for (const text of [
      'parts:\n  A: { kind: junction,\n  studs: 3 }\n', 'parts:\n  A:\n    note: |\n     text\n\n    # text\n     more\n    kind: junction\n', 'parts:\n  A:\n    note: "one\n  B: two"\n',
      'parts:\n? A\n: { kind: junction }\n', 'parts:\n- A\n- B\n', 'parts:\n    A: { kind: junction }\n  B: { kind: junction }\n', 'parts:\n  A: { kind: junction }\n    B: { kind: junction }\n',
      'parts:\n  A: { kind: junction, studs: 2 }\n  A: { kind: junction }\nparts:\n  B: {}\n', 'scenario: one\n  two\n   three\nparts: # c\n\n  # c\n\n  A: { kind: junction, studs: 2 }\n# c\n',
      'parts: {\n  A: { kind: junction } }\n', 'parts:\n  A: {}\nruns:\n', 'parts:\n  "A": { kind: junction, studs: 2 }\n', 'parts: # c\n', 'cells: *x\n', '--- \nname: u\n', 'parts:\n  A: { kind: junction }\n}\n', 'parts:\n  [a]\n', 'parts:\n  a\n', 'scenario:\n  a: b\n', 'parts:\n  A: |\n   b\n  # c\n   d\n', 'parts:\n  A: \'x\n\n  B: {}\n   y\'\n',
    ]) for (const whole of [head + text, text, ` ${text}`]) expectSame(whole, emptyMemory());
  });

  it('gives the same build for any text, edited step by step', () => {
    const mutation = fc.record({ at: fc.nat(smallExample.length), length: fc.nat(8), to: fc.constantFrom('', '\n', '\n  ', ' ', ':', '{', '}', '[', ']', '"', "'", '#', '|', '|\n', '? ', '- ', '&x ', '*x', ',', 'a: b', '\n  N: {}', '---\n') });
    fc.assert(fc.property(fc.array(mutation, { minLength: 1, maxLength: 4 }), (mutations) => {
      const memory = emptyMemory();
      let text = smallExample;
      for (const { at, length, to } of mutations) {
        text = text.slice(0, at) + to + text.slice(at + length);
        expectSame(text, memory);
      }
    }), { numRuns: 500 });
  }, 60_000);
});
