import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { smallExample, smallWords } from '../../checks/fixtures/small-words.ts';
import type { Build } from './build.ts';
import { readBuild } from './read-build.ts';

/** What runs away takes minutes; a slow machine takes a second for a megabyte. [ms] of the processor, whose clock stands still while it is busy with others. */
const LONGEST = 6000;

/** What takes long is tried twice: a text that runs away does so again, a collection of the whole memory does not. */
function timeOf(act: () => void): number {
  const first = timeOnce(act);
  return first > LONGEST ? Math.min(first, timeOnce(act)) : first;
}

/** On the wall or of the processor (which counts its garbage collectors too), whichever is less [ms]. */
function timeOnce(act: () => void): number {
  const [wall, used] = [performance.now(), process.cpuUsage()];
  act();
  const { user, system } = process.cpuUsage(used);
  return Math.min(performance.now() - wall, (user + system) / 1000);
}

/** Reads, and checks what must hold for any text whatever. */
function read(text: string): Build {
  let build = readBuild('', smallWords);
  expect(timeOf(() => { build = readBuild(text, smallWords); })).toBeLessThan(LONGEST);
  const lines = text.split('\n').length;
  // one question for all: thousands of texts with hundreds of values each
  expect(build.problems.filter(({ message, place: { line, column, offset, end } }) => !(line >= 1 && line <= lines && column >= 1 && offset <= text.length && end >= offset) || /undefined|NaN|\[object/.test(message)), text).toEqual([]);
  expect([...build.quantities].filter(([path, one]) => !(Number.isFinite(one.nominal) && Number.isFinite(one.low) && Number.isFinite(one.high) && one.low <= one.nominal && one.nominal <= one.high && one.path === path)), text).toEqual([]);
  return build;
}

/** How many values of the file the model holds. */
function held(build: Build): number {
  return [...build.quantities.keys()].filter((path) => !path.startsWith('handbook:')).length + build.parts.size + build.runs.size + build.modes.size + build.stock.size + build.cells.size + build.removed.size;
}

const whole = held(readBuild(smallExample, smallWords));

describe('whatever the text is, reading it', () => {
  it('ends with a model and located problems: characters of any kind', () => {
    fc.assert(fc.property(fc.string({ unit: 'binary', maxLength: 400 }), (text) => { read(text); }), { numRuns: 500 });
  });

  it('ends: bytes read as text', () => {
    fc.assert(fc.property(fc.uint8Array({ maxLength: 2000 }), (bytes) => { read(Buffer.from(bytes).toString('utf8')); }), { numRuns: 300 });
  });

  it('ends: signs of YAML in any order', () => {
    const sign = fc.constantFrom('{', '}', '[', ']', ':', ': ', ',', '-', '- ', '? ', '#', ' #', '&a', '*a', '!t', '|', '>', '"', "'", '%', '@', '`', '\n', '\n  ', '\r\n', '\t', ' ', 'a', 'parts', '---', '...', '<<', '~', '\u0000', '\ufeff');
    fc.assert(fc.property(fc.array(sign, { maxLength: 120 }), (signs) => { read(signs.join('')); }), { numRuns: 1500 });
  });

  it('loses nothing without a problem: the example with stretches cut, doubled or swapped', () => {
    const at = fc.nat(smallExample.length);
    const mutation = fc.record({ at, length: fc.nat(30), to: fc.oneof(fc.constantFrom('', '', '\n', ' ', ':', '{', '}', '[', ']', '"', "'", '#', '&x ', '*x', '|', '1e999', '-', 'kg', 'mm'), at.map((from) => smallExample.slice(from, from + 20))) });
    let lost = 0;
    fc.assert(fc.property(fc.array(mutation, { minLength: 1, maxLength: 3 }), (mutations) => {
      const text = mutations.reduce((before, { at: from, length, to }) => before.slice(0, from) + to + before.slice(from + length), smallExample);
      read(text);
    }), { numRuns: 1500 });
    // One stretch replaced by nonsense inside a value: the value is gone, so a problem must say so.
    fc.assert(fc.property(fc.constantFrom(...readBuild(smallExample, smallWords).quantities.keys()), fc.constantFrom('nonsense', '12 parsecs', '1e999 kg', '--1 mm', '±', '5..1 V', '12 kg ±', '[]', '{}'), (path, nonsense) => {
      const place = readBuild(smallExample, smallWords).places.get(path);
      if (!place) return;
      const build = read(smallExample.slice(0, place.offset) + nonsense + smallExample.slice(place.end));
      if (held(build) < whole) { lost++; expect(build.problems.length, `${path}: ${nonsense}`).toBeGreaterThan(0); }
      expect(build.problems.some((problem) => problem.place.offset >= place.offset - 60), `${path}: ${nonsense}`).toBe(true);
    }), { numRuns: 400 });
    expect(lost).toBeGreaterThan(100);
  }, 60_000);

  it('tells of each line of the example that is left out, when something else needed it or it was required', () => {
    const lines = smallExample.split('\n');
    lines.forEach((line, index) => {
      const build = read(lines.filter((_, other) => other !== index).join('\n'));
      if (/^ {2}(M1|M2|INV|J1|VCU|reclaimed|hv50|flat):/.test(line)) expect(build.problems.length, line).toBeGreaterThan(0);
    });
  });

  it('gives a huge number a problem and never an infinity', () => {
    for (const number of ['1e999', `${'9'.repeat(400)}`, `0.${'0'.repeat(400)}1`, '-1e308', '1e308 ± 1e308', `1e${'9'.repeat(100)}`]) {
      const build = read(smallExample.replace('12.4 kg ±0.1 measured', `${number} kg`));
      expect(build.problems.map((problem) => problem.path), number).toEqual(['parts.M1.mass']);
    }
  });

  it('ends in time: a megabyte of each sort of text that could run away', () => {
    const size = 990_000;
    const fill = (piece: string) => piece.repeat(Math.floor(size / piece.length));
    const bomb = Array.from({ length: 30 }, (_, n) => `a${n}: &a${n} [${n === 0 ? 'x' : fill(`*a${n - 1}, `).slice(0, 3000)}]`).join('\n');
    const cases: readonly (readonly [string, string, boolean])[] = [
      ['open brackets', fill('['), true], ['open braces', fill('{a: '), true], ['dashes', fill('- '), true], ['question marks', fill('? '), true],
      ['quotes', fill('"'), true], ['colons', fill(':'), true], ['commas', `[${fill(',')}]`, true], ['anchors', fill('&a '), true], ['aliases', `[${fill('*a, ')}]`, true],
      ['tabs', fill('\t'), true], ['backslashes', `"${fill('\\')}`, true], ['bars', fill('|\n'), true], ['one scalar', fill('x'), true], ['line ends', fill('\n'), true],
      ['carriage returns', fill('\r'), true], ['null characters', fill('\u0000'), true], ['documents', fill('---\n'), true], ['tags', fill('!a '), true], ['stairs', Array.from({ length: 1400 }, (_, n) => `${' '.repeat(n)}a:`).join('\n'), true],
      ['percent signs', fill('%a\n'), true], ['alias bomb', bomb, true], ['comments', `halfshaft: 1\nname: t\n${fill('# a remark about nothing much\n')}`, false], ['spaces', `halfshaft: 1\nname: t\n${fill(' ')}`, false],
    ];
    const slow: string[] = [];
    for (const [name, text, isWrong] of cases) {
      let build = readBuild('', smallWords);
      const took = timeOf(() => { build = readBuild(text, smallWords); });
      if (took > LONGEST) slow.push(`${name}: ${took.toFixed(0)} ms`);
      if (isWrong) expect(build.problems.length, name).toBeGreaterThan(0);
      else expect(build.problems, name).toEqual([]);
      for (const problem of build.problems) expect(problem.place.line, name).toBeGreaterThanOrEqual(1);
      // Problems are listed to be read: a file of nothing but mistakes does not get a hundred thousand.
      expect(build.problems.length, name).toBeLessThan(2000);
    }
    expect(slow).toEqual([]);
  }, 120_000);
});
