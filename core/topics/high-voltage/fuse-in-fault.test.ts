import { describe, expect, it } from 'vitest';
import type { ProtectionRole } from '../../part/role.ts';
import { fusesInSeries, letThroughTo as letThroughToOf, openingsIn, type Opening, type Protection } from './fuse-in-fault.ts';

const fuse = (part: string, role: Partial<ProtectionRole> = {}): Protection => ({
  id: `${part}.link`, part, ambient: 293, opensByHeat: role.style !== 'pyrotechnic',
  role: { element: 'link', a: 'in', b: 'out', style: 'partial_range', rating: 250, voltageRating: undefined, breakingCapacity: undefined, minimumBreaking: undefined, timeConstantRating: undefined, meltingEnergy: 2e4, clearingEnergy: 5e4, ambient: undefined, ...role },
});
/** 400 V, 0.1 ohm, 10 µH: 4 kA, as in the reference notes. */
const fault = (currents: Record<string, number>) => ({ current: 4000, voltage: 400, resistance: 0.1, inductance: 10e-6, currentOf: (id: string) => currents[id] ?? 0 });

/** A fault in which the run carries so much, and every fuse is in series with it. */
const seen = (through: number, openings: readonly Opening[], cut: readonly Opening[] = []) => ({ currentOf: () => through, openings, cut: () => cut, stops: () => true });
const letThroughTo = (through: number, openings: readonly Opening[], cut: readonly Opening[] = []) => letThroughToOf(seen(through, openings, cut), 'run');

describe('a fuse in a fault', () => {
  it('does not count when it carries nothing', () => {
    expect(openingsIn(fault({}), [fuse('F')])).toEqual([]);
    expect(letThroughTo(4000, [])).toEqual({ outcome: 'unprotected', hasPyrotechnic: false });
  });

  it('melts in 1.4 ms in the example of the reference notes (I²t/Ip² + 1.5 L/R)', () => {
    const [opening] = openingsIn(fault({ 'F.link': -4000 }), [fuse('F')]);
    expect(opening!.melting).toMatchObject({ outcome: 'melts' });
    expect(opening!.melting?.outcome === 'melts' && opening!.melting.time).toBeCloseTo(1.4e-3, 5);
    // then 3 (5e4 - 2e4)/4000² of arc
    expect(opening!.clearingTime).toBeCloseTo(1.4e-3 + (3 * 3e4) / 4000 ** 2, 4);
  });

  it('lets its clearing I²t through a conductor in series', () => {
    const openings = openingsIn(fault({ 'F.link': 4000 }), [fuse('F')]);
    expect(letThroughTo(4000, openings)).toEqual({ outcome: 'energy', energy: 5e4, fuse: 'F', isCleared: true });
  });

  it('lets a quarter through a conductor that carries half of its current', () => {
    const openings = openingsIn(fault({ 'F.link': 4000 }), [fuse('F')]);
    expect(letThroughTo(2000, openings)).toMatchObject({ energy: 1.25e4 });
  });

  it('does not protect a conductor that carries more than the fuse', () => {
    const openings = openingsIn(fault({ 'F.link': 2000 }), [fuse('F')]);
    expect(fusesInSeries(seen(4000, openings), 'run')).toEqual([]);
    expect(letThroughTo(4000, openings)).toMatchObject({ outcome: 'unprotected' });
  });

  it('does not protect what it does not stop, though it carries as much: it lies in the parallel string', () => {
    const openings = openingsIn(fault({ 'F.link': 2000 }), [fuse('F')]);
    expect(letThroughToOf({ ...seen(2000, openings), stops: () => false }, 'run')).toMatchObject({ outcome: 'unprotected' });
  });

  it('counts for five seconds when it melts too slowly for its I²t to hold', () => {
    const weak = { ...fault({ 'F.link': 300 }), current: 300, resistance: 400 / 300 };
    expect(letThroughTo(300, openingsIn(weak, [fuse('F')]))).toMatchObject({ outcome: 'energy', energy: 300 ** 2 * 5, isCleared: false });
  });

  it('counts a full-range fuse that melts after more than 10 ms with the tenth of a second of its gate', () => {
    const strong = { ...fault({ 'F.link': 5000 }), current: 5000, resistance: 400 / 5000 };
    const slow = fuse('F', { style: 'full_range', meltingEnergy: 4e5, clearingEnergy: 9e5 });
    const [opening] = openingsIn(strong, [slow]);
    expect(opening).toMatchObject({ melting: { outcome: 'too_slow' }, clearingTime: 0.1 });
    expect(letThroughTo(5000, [opening!])).toMatchObject({ energy: 5000 ** 2 * 0.1, isCleared: false });
  });

  it('takes the fuse that lets least through', () => {
    const openings = openingsIn(fault({ 'F.link': 4000, 'G.link': 4000 }), [fuse('F'), fuse('G', { meltingEnergy: 300, clearingEnergy: 900 })]);
    expect(letThroughTo(4000, openings)).toMatchObject({ fuse: 'G', energy: 900 });
  });

  it('ends a fault together with another: the roots of what each lets through add up', () => {
    const openings = openingsIn(fault({ 'F.link': 2400, 'G.link': 1600 }), [fuse('F'), fuse('G', { meltingEnergy: 1e4, clearingEnergy: 2e4 })]);
    expect(letThroughTo(4000, openings)).toMatchObject({ outcome: 'unprotected' });
    const result = letThroughTo(4000, openings, openings);
    expect(result).toMatchObject({ outcome: 'energy', fuse: 'F and G', isCleared: true });
    expect(result.outcome === 'energy' && result.energy).toBeCloseTo((Math.sqrt(5e4) + Math.sqrt(2e4)) ** 2, 6);
    // never less than what flows when they open one after the other: F alone to its end, then G with all of it
    expect(result.outcome === 'energy' && result.energy).toBeGreaterThan(5e4 + 2e4);
    // a conductor with half of the current sees a quarter
    expect(letThroughTo(2000, [], openings)).toMatchObject({ energy: expect.closeTo((Math.sqrt(5e4) + Math.sqrt(2e4)) ** 2 / 4, 6) });
    // one that does not melt counts for five seconds
    const weak = { ...fault({ 'F.link': 150, 'G.link': 150 }), current: 300, resistance: 400 / 300 };
    const slow = openingsIn(weak, [fuse('F'), fuse('G')]);
    expect(letThroughTo(300, slow, slow)).toMatchObject({ isCleared: false, energy: expect.closeTo(300 ** 2 * 5, 3) });
    expect(letThroughTo(4000, [], openingsIn(fault({ 'F.link': 2000 }), [fuse('F', { clearingEnergy: undefined })]))).toEqual({ outcome: 'needs', needs: ['parts.F.clearing_energy'] });
  });

  it('names what its sheet does not say', () => {
    const openings = openingsIn(fault({ 'F.link': 4000 }), [fuse('F', { meltingEnergy: undefined, clearingEnergy: undefined })]);
    expect(letThroughTo(4000, openings)).toEqual({ outcome: 'needs', needs: ['parts.F.melting_energy', 'parts.F.clearing_energy'] });
  });

  it('does not count on what opens only on a command, but says that it is there', () => {
    const openings = openingsIn(fault({ 'P.link': 4000 }), [fuse('P', { style: 'pyrotechnic', meltingEnergy: undefined })]);
    expect(letThroughTo(4000, openings)).toEqual({ outcome: 'unprotected', hasPyrotechnic: true });
  });
});
