/** Problems and findings beside the lines that they are about: a shape in the margin, a line beneath the words, the sentence on demand. */
import { setDiagnostics } from '@codemirror/lint';
import type { Diagnostic } from '@codemirror/lint';
import { RangeSet, StateEffect, StateField } from '@codemirror/state';
import type { EditorState, Extension, Range, Text, TransactionSpec } from '@codemirror/state';
import { gutter, GutterMarker } from '@codemirror/view';
import type { Level } from '../../core/findings/finding.ts';
import type { Place } from '../../core/build/place.ts';
import { levelOrder, levelWords } from '../../sheets/levels.ts';
import type { Bench } from '../bench.ts';
import type { LineEnds } from './line-ends.ts';

/** What is said at a place of the file. */
export interface Said { readonly place: Place; readonly level: Level; readonly says: string; readonly path: string }

/** Problems of the file, and findings that do not hold. */
export function saidOf({ study, chances }: Pick<Bench, 'study' | 'chances'>): readonly Said[] {
  if (!study) return [];
  const problems = study.problems.map(({ place, message, level, path }): Said => ({ place, says: message, level: level === 'stop' ? 'fix' : 'watch', path }));
  // problems of the file are findings too; they are said once
  const known = new Set(study.problems.map(({ place }) => place.offset));
  const findings = (chances ?? study).open.flatMap(({ place, statement, whatToDo, level, path, topic }): Said[] => (place === undefined || (topic === 'file' && known.has(place.offset)) ? [] : [{ place, level, path, says: whatToDo === '' ? statement : `${statement} ${whatToDo}` }]));
  return [...problems, ...findings];
}

const shapes: Readonly<Record<Level, string>> = { stop: '■', fix: '▲', unknown: '?', watch: '○', holds: '✓' };

class LevelMarker extends GutterMarker {
  readonly level: Level; readonly says: string;
  constructor(level: Level, says: string) { super(); this.level = level; this.says = says; }
  override eq(other: LevelMarker): boolean { return other.level === this.level && other.says === this.says; }
  override toDOM(): Node {
    const sign = document.createElement('span');
    sign.className = `cm-level cm-level-${this.level}`;
    sign.textContent = shapes[this.level];
    sign.title = this.says;
    sign.setAttribute('role', 'img');
    sign.setAttribute('aria-label', this.says);
    return sign;
  }
}

const putMarks = StateEffect.define<RangeSet<LevelMarker>>();
const marks = StateField.define<RangeSet<LevelMarker>>({
  create: () => RangeSet.empty,
  update: (now, transaction) => transaction.effects.reduce((set, effect) => (effect.is(putMarks) ? effect.value : set), now.map(transaction.changes)),
});

/** The margin. A click on a mark puts the cursor there. */
export const levelGutter: Extension = [marks, gutter({
  class: 'cm-levels', markers: (view) => view.state.field(marks), initialSpacer: () => new LevelMarker('watch', ''),
  domEventHandlers: { mousedown: (view, line) => { view.dispatch({ selection: { anchor: line.from } }); view.focus(); return true; } },
})];

/** Shows what is said, in place of what was. */
export function showSaid(state: EditorState, said: readonly Said[], ends: LineEnds, onCard: (path: string) => void): TransactionSpec {
  const { doc } = state;
  const within = (offset: number): number => Math.max(0, Math.min(doc.length, ends.toEditor(offset)));
  const diagnostics = said.map(({ place, level, says, path }): Diagnostic => {
    const from = within(place.offset);
    return {
      from, to: Math.max(from, Math.min(within(place.end), doc.lineAt(from).to)), severity: level === 'stop' ? 'error' : level === 'fix' ? 'warning' : 'info', markClass: `cm-said cm-said-${level}`, message: `${levelWords[level]}: ${says}`,
      ...(path === '' ? {} : { actions: [{ name: 'Open its card', apply: () => onCard(path) }] }),
    };
  });
  const spec = setDiagnostics(state, diagnostics);
  const effects = spec.effects === undefined ? [] : Array.isArray(spec.effects) ? spec.effects as readonly StateEffect<unknown>[] : [spec.effects as StateEffect<unknown>];
  return { ...spec, effects: [...effects, putMarks.of(markersOf(doc, said, within))] };
}

/** One mark a line, of the worst that is said there. */
function markersOf(doc: Text, said: readonly Said[], within: (offset: number) => number): RangeSet<LevelMarker> {
  const lines = new Map<number, Said[]>();
  for (const each of said) {
    const { from } = doc.lineAt(within(each.place.offset));
    lines.set(from, [...(lines.get(from) ?? []), each]);
  }
  const ranges = [...lines].map(([from, all]): Range<LevelMarker> => {
    const worst = all.reduce((a, b) => (levelOrder.indexOf(b.level) < levelOrder.indexOf(a.level) ? b : a));
    return new LevelMarker(worst.level, all.map(({ level, says }) => `${levelWords[level]}: ${says}`).join('\n')).range(from);
  });
  return RangeSet.of(ranges, true);
}
