import { describe, expect, it } from 'vitest';
import { words } from '../../catalogue/words.ts';
import { examples } from '../../checks/fixtures/examples.ts';
import { editBuild } from './edit-build.ts';
import { readBuild } from './read-build.ts';

const file = (needs: string, more = ''): string => `halfshaft: 1
name: t
parts:
  BRAKE: { kind: switch }
  KEY: { kind: switch, positions: { off: [], run: [out] } }
  G: { kind: ground_stud }
runs:
  W1: { from: BRAKE.b1, to: G.stud, kind: wire, conductor_area: 1 mm², insulation: xlpe, length: 1 m }
modes:
  off: { meaning: parked }
  go:
    from: [off]
    needs: ${needs}
${more}`;
const about = (text: string) => readBuild(text, words).problems.filter(({ path }) => path.startsWith('modes'));

describe('conditions in the file', () => {
  it('are read, each with its path', () => {
    const build = readBuild(file("[BRAKE.closed, KEY.position == 'run']"), words);
    expect(build.problems.filter(({ path }) => path.startsWith('modes'))).toEqual([]);
    expect(build.modes.get('go')!.needs.map(({ text, path }) => [text, path])).toEqual([['BRAKE.closed', 'modes.go.needs.0'], ["KEY.position == 'run'", 'modes.go.needs.1']]);
  });
  it.each([
    ["[KEY.position == 'runn']", "'runn'", 'run'],
    ['[BRAK.closed]', 'BRAK', 'BRAKE'],
    ["[\"V('BRAKE.b1') > voltage('6 V') && V('BRAKE.b2') > voltage('6 V')\"]", "'BRAKE.b2'", 'BRAKE.b1'],
  ])('%s is blamed at its very characters', (needs, stretch, nearest) => {
    const text = file(needs);
    const [problem, ...more] = about(text);
    expect(more).toEqual([]);
    expect(text.slice(problem!.place.offset, problem!.place.end)).toBe(stretch);
    expect(problem!.nearest).toBe(nearest);
  });
  it('that are words are sent to needs_in_words', () => expect(about(file('[brake pedal pressed]'))[0]!.message).toContain('needs_in_words'));
  it('that cannot be used are left out, the others stay', () => expect(readBuild(file('[BRAKE.closed, BRAKE.shut]'), words).modes.get('go')!.needs.map(({ text }) => text)).toEqual(['BRAKE.closed']));
  it('follow when a part or a run is renamed, and nothing else moves', () => {
    const text = file("[BRAKE.closed, \"V('BRAKE.b1', 'G.stud') > voltage('6 V')\"]", "    asserts: [I('W1') > current('1 A')]\n");
    const part = editBuild(text, { do: 'rename', section: 'parts', name: 'BRAKE', to: 'PEDAL' }, words);
    if (!part.ok) throw new Error(part.problem.message);
    expect(part.text).toBe(text.replaceAll('BRAKE', 'PEDAL'));
    const run = editBuild(part.text, { do: 'rename', section: 'runs', name: 'W1', to: 'wire' }, words);
    if (!run.ok) throw new Error(run.problem.message);
    expect(run.text).toBe(part.text.replaceAll('W1', 'wire'));
  });
  it.each(examples)('of $name are all usable', ({ text }) => {
    expect(about(text)).toEqual([]);
    expect([...readBuild(text, words).modes.values()].flatMap(({ needs }) => needs).length).toBeGreaterThan(4);
  });
});
