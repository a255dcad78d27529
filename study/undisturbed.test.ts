import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { words } from '../catalogue/words.ts';
import { root } from '../checks/architecture/imports.ts';
import { keptAnalysis } from './kept-analysis.ts';
import { undisturbed } from './undisturbed.ts';

const text = readFileSync(join(root, 'examples/bakery-van/build.yaml'), 'utf8');
const other = text.replace(/^(name:).*$/m, '$1 another');

describe('an answer that waits', () => {
  it('is made again when another text was analysed meanwhile', async () => {
    const kept = keptAnalysis(words);
    let times = 0;
    const name = await undisturbed(kept, text, async (analysis) => {
      if (++times === 1) { kept.of(other); await Promise.resolve(); }
      return analysis.build.name;
    });
    expect(times).toBe(2);
    expect(name).not.toBe('another');
  });

  it('is made again when what came between made it fail, and fails when nothing did', async () => {
    const kept = keptAnalysis(words);
    let times = 0;
    const volts = await undisturbed(kept, text, (analysis) => {
      if (++times === 1) kept.of(other.replace('25.3 kg', '26.3 kg').replace(/length: 1\.2 m/, 'length: 1.3 m'));
      // a state that nobody has asked for yet
      const solved = analysis.ask.solve({ bridges: [{ a: 'chassis', b: 'chassis', resistance: 1 }], without: ['H05'] });
      return Promise.resolve(solved.outcome);
    });
    expect([volts, times]).toEqual(['solved', 2]);
    await expect(undisturbed(kept, text, () => Promise.reject(new Error('planted')))).rejects.toThrow('planted');
  });

  it('comes for each of several that disturb each other, however they take turns', async () => {
    const kept = keptAnalysis(words);
    const texts = [text, other, text.replace(/^(name:).*$/m, '$1 a third')];
    let calls = 0;
    const waiting = async (name: string): Promise<string> => {
      if (++calls > 50) throw new Error('they go on for ever');
      for (let n = 0; n < 5; n++) await Promise.resolve();
      return name;
    };
    const names = await Promise.all(texts.map((one) => undisturbed(kept, one, ({ build }) => waiting(build.name))));
    expect(new Set(names).size).toBe(3);
    expect(calls).toBeLessThanOrEqual(6);
  });

  it('cannot be had from a car whose store has passed to another', () => {
    const kept = keptAnalysis(words);
    const { ask } = kept.of(text);
    kept.of(text.replace(/(H05:[\s\S]*?length: )[\d.]+ m/, '$13.7 m'));
    expect(() => ask.solve({ without: ['H05'] })).toThrow('another one had taken over its store');
  });
});
