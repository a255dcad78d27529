import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readSource } from '../../core/build/read-source.ts';
import type { SourceNode } from '../../core/build/source-tree.ts';
import { offsetOfPath, pathAtOffset } from './place-in-text.ts';
import { scanText } from './scan-text.ts';
import type { ScanNode } from './scan-text.ts';

const demos = ['bakery-van', 'two-string-coupe', 'orchard-hauler'].map((name) => readFileSync(`examples/${name}/build.yaml`, 'utf8'));
const van = demos[0] as string;

function scalarsOf(node: SourceNode | undefined, path = '', into = new Map<string, string>()): Map<string, string> {
  if (node?.form === 'scalar') into.set(path, node.text);
  else if (node?.form === 'list') node.items.forEach((item, index) => scalarsOf(item, `${path}.${index}`, into));
  else for (const { key, value } of node?.entries ?? []) scalarsOf(value, path === '' ? key : `${path}.${key}`, into);
  return into;
}
function scannedOf(node: ScanNode, path = '', into = new Map<string, string>()): Map<string, string> {
  if (node.text !== undefined) into.set(path, node.text);
  for (const entry of node.entries) scannedOf(entry, path === '' ? entry.key : `${path}.${entry.key}`, into);
  return into;
}

describe('scanText', () => {
  test.each(demos.map((text, index) => [index, text] as const))('demo %i: every value where the real reader has it', (_, text) => {
    const real = scalarsOf(readSource(text, () => undefined));
    const scanned = scannedOf(scanText(text).root);
    expect(scanned).toEqual(real);
  });

  test('any beginning of a file is read to its end, and says where the typing is', () => {
    fc.assert(fc.property(fc.integer({ min: 0, max: van.length }), (length) => {
      const { typing } = scanText(van.slice(0, length));
      if (!typing) return;
      expect(typing.from).toBeLessThanOrEqual(length);
      expect(van.slice(typing.from, length)).toBe(typing.typed);
    }), { numRuns: 300 });
  });

  test('strange text neither hangs nor throws', () => {
    fc.assert(fc.property(fc.array(fc.constantFrom('a', ':', ' ', '\n', '{', '}', '[', ']', ',', '"', "'", '#', '-', '|', '\\', 'é', '  '), { maxLength: 120 }), (pieces) => {
      expect(scanText(pieces.join('')).root.key).toBe('');
    }), { numRuns: 500 });
  });

  test.each([
    ['', [], true],
    ['parts:\n  M1:\n    ', ['parts', 'M1'], true],
    ['parts:\n  M1:\n    ma', ['parts', 'M1'], true],
    ['parts:\n  M1:\n    mass: ', ['parts', 'M1', 'mass'], false],
    ['parts:\n  M1: { kind: contactor, ', ['parts', 'M1'], true],
    ['parts:\n  M1: { kind: con', ['parts', 'M1', 'kind'], false],
    ['parts:\n  M1: { kind: contactor,\n        at: [1, 2', ['parts', 'M1', 'at', '1'], false],
    ['parts:\n  M1: { kind: contactor\n  M2: { ki', ['parts', 'M2'], true],
    ['modes:\n  drive:\n    set:\n      VCU: { on: [a, ', ['modes', 'drive', 'set', 'VCU', 'on', '1'], false],
    ['runs:\n  W1:\n    via:\n      - [1, 2, 3 mm]\n      - ', ['runs', 'W1', 'via', '1'], false],
    ['parts:\n  M1: {}\nru', [], true],
  ] as const)('%j', (text, path, isKey) => {
    const { typing } = scanText(text);
    expect([typing?.path, typing?.isKey]).toEqual([path, isKey]);
  });

  test('nothing is being typed in a comment', () => {
    expect(scanText('parts:   # all that').typing).toBeUndefined();
    expect(scanText('# all').typing).toBeUndefined();
    expect(scanText('a: 1 mm # all').typing).toBeUndefined();
  });
});

describe('places', () => {
  test('a path leads to its value and back', () => {
    for (const path of ['parts.M1.mass', 'parts.K_neg.coil_current', 'vehicle.wheelbase', 'cells.reclaimed.capacity', 'modes.full_power.set.DU.draw']) {
      const place = offsetOfPath(van, path);
      expect(place).toBeDefined();
      expect(pathAtOffset(van, place?.from ?? 0)).toBe(path);
    }
    const x = offsetOfPath(van, 'parts.M1.at.x');
    expect(van.slice(x?.from, x?.to)).toBe('1040');
    const entry = offsetOfPath(van, 'parts.M1');
    expect(van.slice(entry?.from, entry?.to)).toBe('M1');
    expect(offsetOfPath(van, 'parts.M1.nothing')).toEqual(entry);
    expect(offsetOfPath(van, 'nothing')).toBeUndefined();
  });
  test('the end of a line belongs to its key', () => {
    expect(pathAtOffset('vehicle:\n  wheelbase: 2 m   \n', 25)).toBe('vehicle.wheelbase');
  });
});
