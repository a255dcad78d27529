import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { words } from '../../catalogue/words.ts';
import { lowVoltageCar } from '../../checks/fixtures/low-voltage-car.ts';
import { analyse } from '../analyse.ts';
import { finderOf } from '../faults/finder-of.ts';
import { hear } from '../faults/hear.ts';
import type { Said } from '../faults/hear.ts';
import { faultCases, newCaseName, openCase, saidCells } from './fault-cases.ts';
import { endCells, takenBackCells } from './fault-marks.ts';
import type { FaultCells } from './fault-marks.ts';
import { lineFor, printLog, readLog } from './log.ts';
import type { Reading } from './reading.ts';

const { car, ask } = analyse(lowVoltageCar, words, { only: [] });
const finder = finderOf(car, ask, 'drive');
const lineOf = (cells: FaultCells, id: string, when = '2026-11-26T02:00:00Z'): Reading => ({ ...cells, id, when, who: 'Ada', instrument: '', verdict: '', revision: '00000000', restsOn: '', more: [] });
const heard = (said: Said): FaultCells => { const one = hear(said, car, finder); if (!one.ok) throw new Error(one.problem); return saidCells('drive-1', one.taken, finder.states); };

describe('a fault-finding conversation in the log', () => {
  const said: readonly Said[] = [
    { is: 'symptom', text: 'no_click' }, { is: 'symptom', text: 'fuse_blows' }, { is: 'seen', text: 'F2.a-chassis=13.6 V' }, { is: 'seen', text: 'F2.a-chassis=13.6 V ±0.5 V' }, { is: 'seen', text: 'F2.a-F2.b=open' }, { is: 'seen', text: 'F2.b-chassis=4.5 kΩ' },
    { is: 'seen', text: 'KP.closes=no' }, { is: 'seen', text: `I(${[...car.runs.keys()].find((name) => finder.forecasts.predictionsIn(finder.states.asked).watched.runs.includes(name))!})=0.4 A` }, { is: 'seen', text: 'L1.runs=yes' }, { is: 'seen', text: 'F2.blown=yes' }, { is: 'seen', text: 'drains=no' }, { is: 'seen', text: 'isolation_warning=yes' },
  ];
  it('is read back as it was said, whatever was said', () => {
    const log = printLog(said.map((one, index) => lineOf(heard(one), `l${index}`)));
    const [found, ...more] = faultCases(readLog(log).readings);
    expect(more).toEqual([]);
    expect(found).toMatchObject({ name: 'drive-1', mode: 'drive', end: undefined, takenBack: [] });
    expect(found!.entries.map((entry) => entry.said)).toEqual(said);
    expect(readLog(log).problems).toEqual([]);
  });
  it('says in the state that the pack was parted, or that everything was off', () => {
    expect(heard({ is: 'seen', text: 'F2.a-F2.b=0.2 Ω' }).state).toBe('drive, everything off');
    const parted = lineOf({ ...heard({ is: 'seen', text: 'F2.a-chassis=13.6 V' }), state: 'drive, pack parted' }, 'p');
    expect(faultCases([parted])[0]!.entries[0]!.said.text).toBe('F2.a-chassis=13.6 V@pack_open');
  });
  it('leaves what is taken back in the file, and counts it no more', () => {
    const lines = [lineOf(heard(said[0]!), 'a'), lineOf(heard(said[2]!), 'b'), lineOf(takenBackCells('drive-1', 'b'), 'c')];
    let log = '';
    for (const line of lines) log += lineFor(line, readLog(log));
    const [found] = faultCases(readLog(log).readings);
    expect(found!.entries.map(({ id }) => id)).toEqual(['a']);
    expect(found!.takenBack.map(({ id }) => id)).toEqual(['b']);
    expect(log).toContain('13.6 V');
  });
  it('goes on with the open one that was spoken of last', () => {
    const at = (name: string, id: string, when: string): Reading => lineOf({ ...heard(said[0]!), step: name }, id, when);
    const lines = [at('drive-1', 'a', '2026-11-26T01:00:00Z'), at('drive-2', 'b', '2026-11-26T02:00:00Z'), at('drive-1', 'c', '2026-11-26T03:00:00+00:00'), lineOf(endCells('drive-2', 'new fuse'), 'd', '2026-11-26T04:00:00Z')];
    const cases = faultCases(lines);
    expect(openCase(cases)?.name).toBe('drive-1');
    expect(cases.find(({ name }) => name === 'drive-2')?.end?.note).toBe('new fuse');
    expect([newCaseName('drive', cases), newCaseName(undefined, cases)]).toEqual(['drive-3', 'fault-1']);
  });
  it('takes any log that somebody wrote by hand, and hears each line or says why not', () => {
    const text = fc.string({ maxLength: 12 });
    const line = fc.record({ step: text, state: text, points: fc.array(text, { maxLength: 3 }), reading: text, quantity: fc.constantFrom('voltage', 'resistance', 'observation' as const) });
    fc.assert(fc.property(fc.array(line, { maxLength: 6 }), (lines) => {
      const readings = readLog(printLog(lines.map((one, index) => lineOf({ ...one, procedure: 'fault', replaces: '', note: '' } as FaultCells, `r${index}`)))).readings;
      for (const { entries } of faultCases(readings)) for (const entry of entries) { const one = hear(entry.said, car, finder); expect(one.ok || one.problem.length > 10).toBe(true); }
    }), { numRuns: 60 });
  });
});
