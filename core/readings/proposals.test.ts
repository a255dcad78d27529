import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { words } from '../../catalogue/words.ts';
import { examples } from '../../checks/fixtures/examples.ts';
import { analyse } from '../analyse.ts';
import type { Analysis } from '../analyse.ts';
import { editBuild } from '../build/edit-build.ts';
import { readQuantity } from '../quantity/read-quantity.ts';
import { procedureOf, proposedBy } from './procedures.ts';
import type { ProcedureName } from './procedures.ts';
import { writeMeasured } from './proposals.ts';
import type { Reading } from './reading.ts';
import { restsOn } from './rests-on.ts';

const text = examples.find(({ name }) => name === 'bakery-van')!.text;
const van = analyse(text, words, { only: [] });
let number = 0;
function readingAt(of: Analysis, procedure: ProcedureName | 'free', id: string, value: string, more: Partial<Reading> = {}): Reading {
  const step = procedure === 'free' ? undefined : procedureOf(procedure, of, []).steps.find((one) => one.id === id);
  return { id: `r${++number}`, when: '2026-11-26T02:00:00Z', who: '', procedure, step: id, state: '', points: [], quantity: step?.quantity ?? 'voltage', reading: value, instrument: '', verdict: 'agrees', revision: '', restsOn: step ? restsOn(step, of.build) : '', replaces: '', note: '', more: [], ...more };
}
const applied = (of: string, path: string, to: string): Analysis => {
  const edited = editBuild(of, { do: 'set', path, to }, words);
  if (!edited.ok) throw new Error(edited.problem.message);
  return analyse(edited.text, words, { only: [] });
};
const without = text.replace(/(M1: \{[^\n]*?) measured_voltage: [^,]*,/, '$1');

describe('better numbers from readings', () => {
  it('a module’s voltage, with what the meter may be out by; and nothing any more once the file says so', () => {
    const unread = analyse(without, words, { only: [] });
    const reading = readingAt(unread, 'assembly', 'assembly.M1.voltage', '48.05 V');
    const [found, ...more] = proposedBy(unread, [reading]);
    expect(more).toEqual([]);
    // 0.5 % of 48.05 V and two digits of 10 mV: 0.26 V
    expect(found).toMatchObject({ path: 'parts.M1.measured_voltage', text: '48.05 V ±0.27 measured', instead: undefined, reading: reading.id });
    const after = applied(without, found!.path, found!.text);
    expect(proposedBy(after, [reading])).toEqual([]);
    // and what depends on it uses it: the step now expects it
    const { steps, progress } = procedureOf('assembly', after, [reading]);
    const at = steps.findIndex(({ id }) => id === 'assembly.M1.voltage');
    expect(steps[at]!.predicted!.nominal).toBeCloseTo(48.05, 5);
    expect(progress.steps[at]!.status).toBe('passed');
  });
  it('not what is known as closely, unless the reading is elsewhere', () => {
    expect(proposedBy(van, [readingAt(van, 'assembly', 'assembly.M1.voltage', '48.05 V')])).toEqual([]);
    // weeks later
    const found = proposedBy(van, [readingAt(van, 'assembly', 'assembly.M1.voltage', '47.60 V')]);
    expect(found).toMatchObject([{ path: 'parts.M1.measured_voltage', text: '47.60 V ±0.26 measured', instead: '47.92 V ±0.03 measured' }]);
  });
  it('of two readings of one number the newest; none that lies outside, is only an answer, or is open', () => {
    const unread = analyse(without, words, { only: [] });
    const at = (value: string, more: Partial<Reading> = {}): Reading => readingAt(unread, 'assembly', 'assembly.M1.voltage', value, more);
    const free = readingAt(unread, 'free', '', '48.02 V', { points: ['M1.pos', 'M1.neg'], state: 'nothing switched on', when: '2026-11-26T03:00:00Z' });
    expect(proposedBy(unread, [at('48.05 V'), at('48.01 V')]).map((one) => one.text)).toEqual(['48.01 V ±0.27 measured']);
    expect(proposedBy(unread, [at('48.05 V'), free]).map((one) => one.reading)).toEqual([free.id]);
    expect(proposedBy(unread, [at('-48.05 V')])).toEqual([]);
    expect(proposedBy(unread, [at('yes', { quantity: 'observation' })])).toEqual([]);
    expect(proposedBy(van, [readingAt(van, 'power-up', 'insulation.CHG', '> 550 MΩ')])).toEqual([]);
  });
  it('a resistor behind a contact: what is left when the contact is taken off', () => {
    const [found] = proposedBy(van, [readingAt(van, 'power-up', 'coils.PRE.contact', '98.4 Ω')]);
    expect(found).toMatchObject({ path: 'parts.PRE.resistance', text: expect.stringMatching(/^98\.\d+ Ω ±1\.\d measured$/) });
  });
  it('an insulation that the handbook knew only by its decade, in this part alone', () => {
    const reading = readingAt(van, 'power-up', 'insulation.CHG', '82 MΩ');
    const [found] = proposedBy(van, [reading]);
    expect(found).toMatchObject({ path: 'parts.CHG.insulation_resistance', instead: expect.stringContaining('usual in the trade') });
    const after = applied(text, found!.path, found!.text);
    const insulations = procedureOf('power-up', after, []).steps.find(({ id }) => id === 'insulation.CHG')!;
    expect(insulations.predicted!.nominal).toBeCloseTo(82e6, -4);
    expect(proposedBy(after, [reading])).toEqual([]);
  });
  it('finds a planted value again, whatever the network makes of it', () => {
    // both poles of the drive unit hang together through its capacitor’s bleeder: the tester shows half
    const planted = analyse(text.replace(/24 MΩ[^,}]*/, '21 MΩ ±20 % measured'), words, { only: [] });
    const shows = procedureOf('power-up', planted, []).steps.find(({ id }) => id === 'insulation.DU')!.predicted!.nominal;
    const [found] = proposedBy(van, [readingAt(van, 'power-up', 'insulation.DU', `${(shows / 1e6).toFixed(3)} MΩ`)]);
    expect(found?.path ?? 'parts.DU.insulation_resistance').toBe('parts.DU.insulation_resistance');
    if (found) expect(Number.parseFloat(found.text)).toBeCloseTo(21, 1);
  });
  it('what is written is read back as it was meant', () => {
    fc.assert(fc.property(fc.double({ min: 1e-6, max: 1e9, noNaN: true }), fc.double({ min: 1e-4, max: 0.5, noNaN: true }), (value, share) => {
      const half = value * share;
      const read = readQuantity(writeMeasured(value, half, 'resistance', undefined, 'metric'), 'resistance', 'x');
      if (!read.ok) throw new Error(read.problem.found);
      const { nominal, high, basis } = read.value;
      expect(basis).toBe('measured');
      expect(Math.abs(nominal - value)).toBeLessThanOrEqual(0.06 * half);
      expect(high - nominal).toBeGreaterThanOrEqual(half * 0.999);
      expect(high - nominal).toBeLessThanOrEqual(half * 1.11);
    }));
  });
});

describe('a changed build', () => {
  const reading = readingAt(van, 'power-up', 'coils.PRE.contact', '98.4 Ω');
  const statusIn = (of: Analysis, log: readonly Reading[]): string => { const { steps, progress } = procedureOf('power-up', of, log); return progress.steps[steps.findIndex(({ id }) => id === log[0]!.step)]!.status; };
  it('asks for a step again when a number that its prediction rests on has moved away from the reading, and not when the reading itself moved it', () => {
    expect(statusIn(van, [reading])).toBe('passed');
    expect(statusIn(applied(text, 'parts.PRE.resistance', '98.4 Ω ±1.2 measured'), [reading])).toBe('passed');
    // still within the band of ±5 %: judged again it would agree
    expect(statusIn(applied(text, 'parts.PRE.resistance', '102 Ω label'), [reading])).toBe('repeat');
    expect(statusIn(applied(text, 'parts.PRE.mass', '0.6 kg measured'), [reading])).toBe('passed');
    expect(statusIn(applied(text, 'parts.PRE.resistance', '100.3 Ω label'), [reading])).toBe('passed');
  });
  it('knows nothing of numbers where the log is from before', () => expect(statusIn(applied(text, 'parts.PRE.resistance', '102 Ω label'), [{ ...reading, restsOn: reading.restsOn.split('/')[0]! }])).toBe('passed'));
});
