import { describe, expect, it } from 'vitest';
import { analysed } from '../../checks/fixtures/analysed.ts';
import { lowVoltageCar } from '../../checks/fixtures/low-voltage-car.ts';
import { finderOf } from '../../core/faults/finder-of.ts';
import { percentWords } from '../../core/faults/fault-words.ts';
import { hear } from '../../core/faults/hear.ts';
import type { Page } from '../sheet.ts';
import { lettersInTrouble } from '../table/text-boxes.ts';
import { faultFindingDrawing } from './drawing.tsx';
import { faultFindingModel } from './model.ts';
import type { FaultFindingModel } from './model.ts';

const choices = { units: { system: 'metric' }, state: {} } as const;
const analysis = analysed(lowVoltageCar);
const HEAD = 'id,when,who,procedure,step,state,points,quantity,reading,instrument,verdict,revision,rests_on,replaces,note\r\n';
let number = 0;
const line = (state: string, points: string, quantity: string, reading: string, { name = 'drive-1', replaces = '', note = '' } = {}): string => `l${number++},2026-11-26T02:00:00Z,Ada,fault,${name},"${state}",${points},${quantity},${reading},,,c0a7bf26,,${replaces},${note}\r\n`;
const begun = HEAD + line('drive', 'symptom no_click', 'observation', 'yes') + line('drive', 'F2.a chassis', 'voltage', '13.6 V') + line('drive', 'F2.b chassis', 'voltage', '0 V');
const found = begun + line('drive, everything off', 'F2.a F2.b', 'resistance', 'open') + line('drive, everything off', 'F2.b chassis', 'resistance', '4.5 kΩ') + line('drive, everything off', 'KP.coil_a chassis', 'resistance', '30 Ω') + line('drive, everything off', 'L1.supply chassis', 'resistance', '6 Ω');
const modelOf = (log: string, faultCase?: string): FaultFindingModel => faultFindingModel.model(analysis, choices, { log, ...(faultCase === undefined ? {} : { faultCase }) }) as FaultFindingModel;
const pagesOf = (model: FaultFindingModel): readonly Page[] => faultFindingDrawing.pages(model);
const saidIn = (model: FaultFindingModel): string => JSON.stringify(pagesOf(model).flatMap(({ text }) => text));

describe('the sheet of fault finding', () => {
  it('says how to begin while nothing was said: what can be said of which mode', () => {
    const said = saidIn(modelOf(''));
    expect(said).toMatch(/no_click/);
    expect(said).toMatch(/KP/);
    expect(said).not.toMatch(/NaN|undefined|\[object|\bsafe\b/);
  });
  it('prints the path: each test, what was read, what remained, and the next test with what its outcomes would leave', () => {
    const model = modelOf(begun);
    const said = saidIn(model);
    expect(model.sections.map(({ title }) => title)).toEqual(['The path taken', 'Look at this next', 'What each outcome would leave', 'What it may be now']);
    expect(model.sections[0]!.table.rows).toHaveLength(3);
    expect(said).toMatch(/No contactor clicks/);
    expect(said).toMatch(/Volts from F2\.b to clean metal of the body/);
    expect(said).toMatch(/something that is not in the list/);
    expect(said).toMatch(/lead on/);
    // the same numbers as the conversation has
    const finder = finderOf(analysis.car, analysis.ask, 'drive');
    const observations = ['no_click', 'F2.a-chassis=13.6 V', 'F2.b-chassis=0 V'].flatMap((text, index) => { const heard = hear({ is: index === 0 ? 'symptom' : 'seen', text }, analysis.car, finder); return heard.ok ? heard.taken.observations : []; });
    const [first] = finder.rank(observations).causes;
    expect(said).toContain(`${percentWords(first!.chance)}  ${first!.hypothesis.words}`);
    expect(said).not.toMatch(/NaN|undefined|\[object|\bsafe\b/);
  });
  it('prints what was found and how to mend it, what came of it, and what was taken back', () => {
    const model = modelOf(found);
    expect(model.sections.some(({ title }) => title.startsWith('Found: it is') || title === 'Look at this next')).toBe(true);
    const ended = modelOf(`${begun}${line('drive', 'F1.a chassis', 'voltage', '3 V')}`.replace(/l(\d+),([^\r]*3 V)/, 'wrong,$2') + line('', '', 'observation', 'withdrawn', { replaces: 'wrong' }) + line('', 'ended', 'observation', 'yes', { note: 'new fuse' }));
    expect(saidIn(ended)).toMatch(/Ended 2026-11-26 02:00 UTC: new fuse/);
    expect(ended.words.join(' ')).toMatch(/Taken back: F1\.a-chassis=3 V/);
    expect(ended.sections.some(({ title }) => title === 'Look at this next')).toBe(false);
  });
  it('takes the conversation that is asked for, and lists the others', () => {
    const two = begun + line('ready', 'symptom fuse_blows', 'observation', 'yes', { name: 'other' });
    expect(modelOf(two, 'drive-1').heading).toMatch(/drive-1/);
    expect(saidIn(modelOf(two, 'drive-1'))).toMatch(/Other conversations.*other/);
    expect(modelOf(two, 'gone').heading).toMatch(/how to begin/);
  });
  it('leaves out what the build cannot be asked for any more, and says so; and bears any log', () => {
    expect(modelOf(`${begun}${line('drive', 'F9.a chassis', 'voltage', '3 V')}`).words.join(' ')).toMatch(/Left out: .*F9/);
    expect(modelOf(HEAD + line('gone', 'symptom no_click', 'observation', 'yes')).words.join(' ')).toMatch(/does not have any more/);
    expect(() => modelOf('nonsense,"\r\n')).not.toThrow();
  });
  it('bears a long conversation: the newest lines stand there, all of them count', () => {
    const long = begun + Array.from({ length: 150 }, () => line('drive', 'F2.a chassis', 'voltage', '13.6 V')).join('');
    const [path] = modelOf(long).sections;
    expect(path!.table.rows).toHaveLength(120);
    expect(path!.note).toMatch(/33 lines before these/);
  }, 60_000);
  it('is plain data, and keeps its letters apart and inside', () => {
    for (const log of ['', begun, found]) {
      const model = modelOf(log);
      expect(structuredClone(model)).toEqual(model);
      for (const { body } of pagesOf(model)) expect(lettersInTrouble(<g>{body}</g>)).toEqual([]);
    }
  });
  it('gives the reason instead of a table when there is nothing', () => {
    const none = faultFindingModel.model(analysed('halfshaft: 1\n'), choices) as FaultFindingModel;
    expect(none.words.join(' ')).toMatch(/no parts/);
    expect(pagesOf(none)).toHaveLength(1);
  });
});

describe('what a line of the path says of the state', () => {
  it('carries its precautions, and forbids to ask for the mode again while a leak is warned of', () => {
    const warned = saidIn(modelOf(HEAD + line('drive', 'symptom isolation_warning', 'observation', 'yes')));
    expect(warned).toMatch(/not again/);
    expect(warned).toMatch(/second person/);
    expect(warned).toMatch(/With MSD out, mode drive asked for/);
    expect(saidIn(modelOf(begun))).not.toMatch(/not again|\bbits?\b/);
  });
});
