/** The thread that makes studies for the workbench, as the joined program has it. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { studyOnWorker } from '../../cli/study-on-worker.ts';
import { words } from '../../catalogue/words.ts';
import { keptAnalysis } from '../../study/kept-analysis.ts';
import { readStudy } from '../../study/study-as-text.ts';
import { studyOf } from '../../study/study.ts';
import { revisionOf } from '../../cli/revision-of.ts';
import { root } from '../architecture/imports.ts';

const program = join(root, 'dist/program/study-worker.cjs');
const text = readFileSync(join(root, 'examples/orchard-hauler/build.yaml'), 'utf8');
const choices = { units: { system: 'metric' }, state: {} } as const;

describe('studies in a thread of their own', () => {
  it('are those of this process', async () => {
    const studies = studyOnWorker(program);
    studies.begin(text);
    const made = readStudy(await studies.of(JSON.stringify({ text, sheet: 'cables', choices })));
    const here = await studyOf({ text, sheet: 'cables', choices }, keptAnalysis(words), { now: () => 0, revisionOf });
    expect({ ...made, took: 0 }).toStrictEqual(structuredClone(here));
  });
  it('say why when there is nothing to make them of, and go on', async () => {
    const studies = studyOnWorker(program);
    await expect(studies.of('{"sheet":"cover"}')).rejects.toThrow('it has no text');
    await expect(studies.of('no JSON')).rejects.toThrow(/JSON/);
    expect(readStudy(await studies.of(JSON.stringify({ text: '', sheet: 'cover', choices }))).isEmpty).toBe(true);
  });
  it('are refused when the thread cannot be started', async () => {
    await expect(studyOnWorker(join(root, 'dist/program/gone.cjs')).of('{}')).rejects.toThrow();
  });
});
