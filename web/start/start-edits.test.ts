import { describe, expect, it } from 'vitest';
import { words } from '../../catalogue/words.ts';
import { readBuild } from '../../core/build/read-build.ts';
import { emptyMemory } from '../../core/build/source-memory.ts';
import { answerEdit } from '../analysis/answers/edit.ts';
import { driveEdits, linkEdits, packEdits, vehicleEdits } from './start-edits.ts';
import type { Edit } from '../../core/build/edit-build.ts';

function written(text: string, edits: readonly Edit[]): string {
  const answer = answerEdit({ text, edits }, { words, memory: emptyMemory() });
  if (!answer.ok) throw new Error(answer.problem.message);
  return answer.text;
}
const none: ReadonlySet<string> = new Set();

function whole(): string {
  let text = written('', vehicleEdits('', { name: 'Post "van"', units: 'imperial', wheelbase: '98 in measured', front_track: '55 in', rear_track: '55 in', front_axle_load: '1320 lb ±10 measured', rear_axle_load: '1100 lb' }));
  text = written(text, packEdits({ chemistry: 'nmc', capacity: '60 Ah label', resistance: '1 mΩ', modules: '3', series: '12', mass: '12 kg measured', size: '385 x 150 x 110 mm' }, none));
  text = written(text, driveEdits({ drive: 'drive_unit', maximum_voltage: '420 V label', minimum_voltage: '200 V label', link_capacitance: '0.8 mF', mass: '90 kg' }, none));
  return written(text, linkEdits({ width: '20 mm', thickness: '3 mm', length: '70 mm' }, ['M1', 'M2', 'M3'], none));
}

describe('the guided start', () => {
  it('writes a file that reads without a problem', () => {
    const build = readBuild(whole(), words);
    expect(build.problems).toEqual([]);
    expect([build.name, build.units, [...build.parts.keys()], [...build.runs.values()].map(({ from, to }) => `${from.part}.${from.port} ${to.part}.${to.port}`)])
      .toEqual(['Post "van"', 'imperial', ['M1', 'M2', 'M3', 'DU'], ['M1.pos M2.neg', 'M2.pos M3.neg']]);
  });
  it('writes with nothing known, and only what is missing is a problem', () => {
    let text = written('# notes of mine\n', vehicleEdits('# notes of mine\n', {}));
    text = written(text, packEdits({ modules: '2' }, none));
    text = written(text, driveEdits({}, none));
    expect(text).toContain('# notes of mine');
    expect(readBuild(text, words).problems.filter(({ code }) => code !== 'missing_value')).toEqual([]);
  });
  it('takes no name twice', () => {
    expect(packEdits({ modules: '2' }, new Set(['M1'])).flatMap((edit) => (edit.do === 'add_part' ? [edit.name] : []))).toEqual(['M2', 'M3']);
  });
  it('says what is wrong with an answer and writes nothing', () => {
    expect(answerEdit({ text: '', edits: vehicleEdits('', { wheelbase: '98 kg' }) }, { words, memory: emptyMemory() }).ok).toBe(false);
  });
});
