import { describe, expect, it } from 'vitest';
import { fuseCut } from './fuse-cut.ts';
import type { Opening } from './fuse-in-fault.ts';

const opening = (part: string, clearingEnergy: number | undefined, opensByHeat = true): Opening => ({
  fuse: { id: `${part}.link`, part, ambient: 293, opensByHeat, role: { clearingEnergy } as Opening['fuse']['role'] }, through: 1000, melting: undefined, clearingTime: undefined,
});
/** Fed as long as one of these ways has no open fuse in it. */
const fedBy = (...ways: readonly (readonly string[])[]) => (open: readonly string[]): boolean => ways.some((way) => !way.some((part) => open.includes(`${part}.link`)));
const names = (openings: readonly Opening[]): readonly string[] => openings.map(({ fuse }) => fuse.part);

describe('fuseCut', () => {
  it('is empty without fuses, and when the fault goes on with all of them open', () => {
    expect(fuseCut([], fedBy(['A']))).toEqual([]);
    expect(fuseCut([opening('A', 1)], fedBy(['A'], []))).toEqual([]);
  });

  it('is both of two parallel ones', () => {
    expect(names(fuseCut([opening('A', 1), opening('B', 2)], fedBy(['A'], ['B'])))).toEqual(['A', 'B']);
  });

  it('takes of two in one way the one that lets less through', () => {
    expect(names(fuseCut([opening('A', 1), opening('B', 2), opening('C', 3)], fedBy(['A', 'C'], ['B'])))).toEqual(['A', 'B']);
    expect(names(fuseCut([opening('A', undefined), opening('B', 2), opening('C', 3)], fedBy(['A', 'C'], ['B'])))).toEqual(['B', 'C']);
  });

  it('does not count what opens on a command', () => {
    expect(fuseCut([opening('A', 1), opening('B', 2, false)], fedBy(['A'], ['B']))).toEqual([]);
  });
});
