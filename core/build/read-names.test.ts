import { describe, expect, it } from 'vitest';
import { words } from '../../catalogue/words.ts';
import { readBuild } from './read-build.ts';

const text = `halfshaft: 1
name: names
parts:
  KEY: { kind: switch, positions: { off: [], on: [ignition] } }
  VCU: { kind: controller, current: 0.2 A, outputs: { main: { side: high }, pump: { side: high } } }
modes:
  drive: { set: { KEY: { position: om }, VCU: { on: [main, pumo] } } }
`;

describe('a name that only the part itself can know', () => {
  it('is a problem when it is wrong, with place and nearest, and only that word is left out', () => {
    const build = readBuild(text, words);
    expect(build.problems.map(({ code, path, nearest, place }) => ({ code, path, nearest, line: place.line }))).toEqual([
      { code: 'unknown_name', path: 'modes.drive.set.KEY.position', nearest: 'on', line: 7 },
      { code: 'unknown_name', path: 'modes.drive.set.VCU.on.1', nearest: 'pump', line: 7 },
    ]);
    expect(build.modes.get('drive')?.set).toEqual({ KEY: {}, VCU: { on: ['main'] } });
  });
  it('may not be that of another port', () => {
    const build = readBuild(text.replace('om }', 'on }').replace('[main, pumo]', '[main]').replace('pump: {', 'ground: {'), words);
    expect(build.problems.map(({ message }) => message)).toEqual([expect.stringContaining('two ports called ground')]);
  });
});

describe('a decimal comma inside braces', () => {
  it('is told as one, at its place, with the right spelling, and once', () => {
    const build = readBuild('halfshaft: 1\nname: comma\ncells:\n  c: { chemistry: nmc, capacity: 60 Ah, resistance: 0,25 mΩ datasheet }\n', words);
    const told = build.problems.filter(({ path }) => path.startsWith('cells.c.resistance'));
    expect(told[0]).toMatchObject({ code: 'bad_value', nearest: '0.25 mΩ datasheet', place: { line: 4 } });
    expect(told[0]?.message).toContain('decimal point');
    expect(build.problems.some(({ code }) => code === 'unknown_key')).toBe(false);
  });
});
