/**
 * Planted faults with a SPICE engine as the car: it answers every reading, so that our solver does not mark its own work. At least 95 % of
 * the single faults that change any reading on offer away from exposed high voltage must be named, or narrowed to a group that no such
 * reading tells apart. (A leak that shows at bare poles only is the business of the isolation readings of the power-up.)
 *
 * Source:    ngspice (open source circuit simulator) compiled to WebAssembly, run here; another program, so a comparison, no published value.
 *            `planted-in-spice.ts` says what is the engine's and what is ours
 * Tolerance: 95 % of a seeded sample; the share is printed
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { root } from '../architecture/imports.ts';
import { lowVoltageCar } from '../fixtures/low-voltage-car.ts';
import { plantInSpice } from './planted-in-spice.ts';

const builds: readonly (readonly [string, string, string, number])[] = [
  ['the low-voltage bench', lowVoltageCar, 'drive', 45],
  ['the van', readFileSync(join(root, 'examples/bakery-van/build.yaml'), 'utf8'), 'ready', 12],
];

describe.each(builds)('faults planted in %s', (name, text, mode, most) => {
  it('are found, or narrowed to what no reading tells apart', { timeout: 300_000 }, async () => {
    const { count, missed, silent, readings } = await plantInSpice(text, mode, most, 11);
    console.log(`${name}: ${count - missed.length} of ${count} planted faults found in ${(readings / Math.max(1, count)).toFixed(1)} readings each, ${silent} without an answer of the engine${missed.length > 0 ? `; not ${missed.join('; ')}` : ''}`);
    expect(missed.length).toBeLessThanOrEqual(0.05 * count);
  });
});
