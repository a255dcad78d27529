import { describe, expect, it } from 'vitest';
import { words } from '../../../catalogue/words.ts';
import { lowVoltageCar as text } from '../../../checks/fixtures/low-voltage-car.ts';
import { finderOf } from '../../../core/faults/finder-of.ts';
import { readLog } from '../../../core/readings/log.ts';
import { keptAnalysis } from '../../../study/kept-analysis.ts';
import { answerFailures } from './failures.ts';
import { answerFault, answerFaultExpected, answerFaultLine } from './fault.ts';

const kept = keptAnalysis(words);
const HEAD = 'id,when,who,procedure,step,state,points,quantity,reading,instrument,verdict,revision,rests_on,replaces,note\r\n';
const log = `${HEAD}a,2026-11-26T02:00:00Z,,fault,drive-1,drive,symptom no_click,observation,yes,,,,,,\r\nb,2026-11-26T02:01:00Z,,fault,drive-1,drive,F2.a chassis,voltage,13.6 V,,,,,,\r\n`;

describe('a conversation as the screen has it', () => {
  it('begins in the first mode that drives, with a name that no other has', () => {
    expect(answerFault({ text, log: '', name: undefined, mode: undefined }, kept)).toMatchObject({ mode: 'drive', name: '', newName: 'drive-1', cases: [], path: [], next: undefined });
    expect(answerFault({ text, log, name: '', mode: undefined }, kept)).toMatchObject({ name: '', newName: 'drive-2', path: [] });
  });
  it('goes on with the open one, and says what to look at next and where', () => {
    const answer = answerFault({ text, log, name: undefined, mode: undefined }, kept);
    expect(answer).toMatchObject({ name: 'drive-1', end: undefined, problems: [], path: [{ id: 'a', symptom: 'no_click' }, { id: 'b', symptom: undefined }] });
    expect(answer.causes.length).toBeGreaterThan(3);
    expect(answer.next && answer.next.points.length + answer.next.subjects.length).toBeGreaterThan(0);
    expect(structuredClone(answer)).toEqual(answer);
    expect(answerFault({ text, log, name: undefined, mode: undefined, upTo: 'said' }, kept)).toEqual({ ...answer, causes: [], withPairs: false, next: undefined, verdict: undefined });
    expect(answerFault({ text, log, name: undefined, mode: undefined, upTo: 'causes' }, kept)).toEqual({ ...answer, next: undefined, verdict: undefined });
  });
  it('works out what the next question asks for while the file takes the line, and then says the same', () => {
    const longer = `${log}c,2026-11-26T02:02:00Z,,fault,drive-1,drive,F2.b chassis,voltage,0 V,,,,,,\r\n`;
    const fresh = answerFault({ text, log: longer, name: undefined, mode: undefined }, keptAnalysis(words));
    const own = keptAnalysis(words);
    const { car, ask } = own.of(text);
    const finder = finderOf(car, ask, 'drive');
    answerFaultExpected({ text, log, name: 'drive-1', mode: 'drive', said: { is: 'seen', text: 'F2.b-chassis=0 V' } }, own);
    const solved = finder.forecasts;
    expect(answerFault({ text, log: longer, name: undefined, mode: undefined }, own)).toEqual(fresh);
    expect(finderOf(car, ask, 'drive').forecasts).toBe(solved);
  });
  it('makes a line that the log reads back, and none of what the build cannot be asked for', () => {
    const made = answerFaultLine({ text, log, name: 'drive-1', mode: 'drive', said: { is: 'seen', text: 'F2.b-chassis=0 V' } }, kept);
    expect(made).toEqual({ ok: true, cells: { procedure: 'fault', step: 'drive-1', state: 'drive', points: 'F2.b chassis', quantity: 'voltage', reading: '0 V' } });
    expect(answerFaultLine({ text, log, name: 'drive-1', mode: 'drive', said: { is: 'seen', text: 'F9.b-chassis=0 V' } }, kept)).toMatchObject({ ok: false });
    expect(readLog(log).problems).toEqual([]);
  });
});

describe('single failures as the screen has them', () => {
  it('are chosen from, with counts of what another choice would give', () => {
    const units = { system: 'metric' } as const;
    const all = answerFailures({ text, units, wish: {} }, kept);
    expect(all.count).toBe(all.total);
    const stops = answerFailures({ text, units, wish: { severity: 'stops' } }, kept);
    expect(stops.count).toBe(all.severities.find(({ name }) => name === 'stops')?.count);
    expect(stops.severities).toEqual(all.severities);
    expect(stops.rows.every(({ severity }) => severity === 'stops')).toBe(true);
    const told = answerFailures({ text, units, wish: { told: true, about: 'KP', mode: 'drive' } }, kept);
    expect(told.count).toBeLessThan(all.count);
    expect(answerFailures({ text, units, wish: { words: 'no such words' } }, kept)).toMatchObject({ count: 0, rows: [] });
  });
});
