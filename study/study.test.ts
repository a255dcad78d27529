import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { words } from '../catalogue/words.ts';
import { root } from '../checks/architecture/imports.ts';
import { sheetNames, slowSheets } from '../sheets/sheet.ts';
import { keptAnalysis } from './kept-analysis.ts';
import { readStudy, writeStudy } from './study-as-text.ts';
import { studyOf } from './study.ts';

const choices = { units: { system: 'metric' }, state: {} } as const;
const machine = { now: () => 0, revisionOf: () => 'abcdef01' };

describe('a study', () => {
  it.each(['bakery-van', 'orchard-hauler'])('of %s is the same after it was sent as text, whatever sheet', async (demo) => {
    const kept = keptAnalysis(words);
    const text = readFileSync(join(root, 'examples', demo, 'build.yaml'), 'utf8');
    for (const sheet of sheetNames.filter((name) => !slowSheets.has(name))) {
      const study = await studyOf({ text, sheet, choices }, kept, machine);
      expect(readStudy(writeStudy(study)), sheet).toStrictEqual(structuredClone(study));
    }
  });
  it('knows a build with nothing in it from one that cannot be read', async () => {
    const kept = keptAnalysis(words);
    const isEmpty = async (text: string): Promise<boolean> => (await studyOf({ text, sheet: 'cover', choices }, kept, machine)).isEmpty;
    expect(await isEmpty('# later\n')).toBe(true);
    expect(await isEmpty('halfshaft: 1\nname: x\n')).toBe(true);
    expect(await isEmpty('halfshaft: 1\nname: x\nparts: {\n')).toBe(false);
  });
});
