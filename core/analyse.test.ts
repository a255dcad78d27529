import { describe, expect, it } from 'vitest';
import { examples } from '../checks/fixtures/examples.ts';
import { words } from '../catalogue/words.ts';
import { analyse } from './analyse.ts';
import type { Analysis } from './analyse.ts';
import { editBuild } from './build/edit-build.ts';
import type { Edit } from './build/edit-build.ts';
import { emptyMemory } from './build/source-memory.ts';
import { answerStore } from './car/ask-network.ts';

/** All but the words: of two modes that load a fuse alike to the last digits, the words name one. */
const said = ({ findings }: Analysis): unknown => findings.map(({ statement: _, whatToDo: __, ...rest }) => rest);

/** Where two analyses first differ by more than the last digits, which depend on the order of elimination. */
function firstDifference(a: unknown, b: unknown, at = ''): string | undefined {
  if (Object.is(a, b) || (typeof a === 'number' && typeof b === 'number' && Math.abs(a - b) <= 1e-6 * Math.max(1e-3, Math.abs(a), Math.abs(b)))) return undefined;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return `${at}: ${String(a)} against ${String(b)}`;
  for (const key of new Set([...Object.keys(a), ...Object.keys(b)])) {
    const found = firstDifference((a as Record<string, unknown>)[key], (b as Record<string, unknown>)[key], `${at}.${key}`);
    if (found !== undefined) return found;
  }
  return undefined;
}

/** Weights and shifts, and between them an edit that moves every voltage. */
function editsOf({ car }: Analysis): Edit[] {
  const parts = [...car.parts.values()].filter((_, index) => index % 60 === 3);
  const run = [...car.runs.values()].find(({ lengthIs }) => lengthIs === 'given')!;
  return parts.flatMap((part, index): Edit[] => [
    { do: 'set', path: `parts.${part.name}.mass`, to: `${(1.5 + index).toFixed(1)} kg` },
    ...(part.at ? [{ do: 'set', path: `parts.${part.name}.at.y`, to: `${40 + index} mm` } as const] : []),
    { do: 'set', path: `runs.${run.name}.length`, to: `${(1 + index / 10).toFixed(1)} m` },
    ...(part.size ? [{ do: 'set', path: `parts.${part.name}.size.x`, to: `${140 + index} mm` } as const] : []),
    { do: 'set', path: 'conditions.state_of_charge', to: `${40 + index} %` },
  ]);
}

describe('an analysis after an edit', () => {
  it.each(examples)('says of $name what a fresh one says, whatever was kept', ({ text: whole }) => {
    let text = whole;
    const [store, memory] = [answerStore(), emptyMemory()];
    let before = analyse(text, words, { store, memory });
    let kept = 0;
    for (const edit of editsOf(before)) {
      const edited = editBuild(text, edit, words);
      if (!edited.ok) throw new Error(edited.problem.message);
      text = edited.text;
      const now = analyse(text, words, { store, memory, before });
      if (now.ask === before.ask) kept++;
      expect(firstDifference(said(now), said(analyse(text, words))), JSON.stringify(edit)).toBeUndefined();
      before = now;
    }
    expect(kept, 'edits after which nothing electrical was asked again').toBeGreaterThan(1);
  });
});
