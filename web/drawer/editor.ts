/** The editor itself: what it can do, and what it is told by the bench. It keeps no history: there is one, on the bench. */
import { acceptCompletion, autocompletion, closeCompletion, completionKeymap, completionStatus } from '@codemirror/autocomplete';
import type { CompletionContext, CompletionResult } from '@codemirror/autocomplete';
import { defaultKeymap } from '@codemirror/commands';
import { yaml } from '@codemirror/lang-yaml';
import { bracketMatching, indentOnInput, indentUnit } from '@codemirror/language';
import { lintKeymap } from '@codemirror/lint';
import { highlightSelectionMatches, search, searchKeymap } from '@codemirror/search';
import { Annotation, EditorState } from '@codemirror/state';
import type { Extension, Transaction } from '@codemirror/state';
import { drawSelection, EditorView, highlightActiveLine, highlightActiveLineGutter, hoverTooltip, keymap, lineNumbers, tooltips } from '@codemirror/view';
import type { Tooltip } from '@codemirror/view';
import type { Acts } from '../bench.ts';
import type { CardField } from '../analysis/protocol.ts';
import { lineEndsOf } from './line-ends.ts';
import { levelGutter } from './marks.ts';
import { look } from './look.ts';
import { pathAtOffset } from './place-in-text.ts';

/** Marks a change that came from elsewhere and must not be told back. */
export const outside = Annotation.define<boolean>();

export interface Wishes {
  readonly acts: Acts;
  /** the file that the editor shows, with its own line ends */
  readonly file: () => string;
  readonly onTyped: (transaction: Transaction) => void;
  readonly onMoved: (view: EditorView) => void;
  /** show what the line of the cursor is about */
  readonly onShow: () => void;
}

export function editorExtensions({ acts, file, onTyped, onMoved, onShow }: Wishes): Extension {
  const nonce = document.querySelector<HTMLMetaElement>('meta[property="csp-nonce"]')?.nonce ?? '';
  return [
    nonce === '' ? [] : EditorView.cspNonce.of(nonce),
    lineNumbers(), levelGutter, highlightActiveLine(), highlightActiveLineGutter(), drawSelection(), bracketMatching(), indentOnInput(), indentUnit.of('  '),
    yaml(), look, search({ top: true }), highlightSelectionMatches(), tooltips({ position: 'fixed' }),
    autocompletion({ override: [(context) => complete(context, acts, file())], icons: false }),
    hoverTooltip((_view, position) => about(position, acts, file())),
    EditorView.contentAttributes.of({ 'aria-label': 'Text of the build file. Escape, then Tab, leaves it.', autocapitalize: 'off', spellcheck: 'false', tabindex: '0' }),
    keymap.of([
      { key: 'Mod-z', run: () => { acts.undo(); return true; }, preventDefault: true },
      { key: 'Mod-y', run: () => { acts.redo(); return true; }, preventDefault: true },
      { key: 'Mod-Shift-z', run: () => { acts.redo(); return true; }, preventDefault: true },
      { key: 'Mod-Enter', run: () => { onShow(); return true; } },
      { key: 'Tab', run: (view) => completionStatus(view.state) === 'active' && acceptCompletion(view) },
      { key: 'Escape', run: closeCompletion },
      ...completionKeymap, ...searchKeymap, ...lintKeymap, ...defaultKeymap,
    ]),
    EditorState.allowMultipleSelections.of(true),
    EditorView.updateListener.of((update) => {
      for (const transaction of update.transactions) if (transaction.docChanged && transaction.annotation(outside) !== true) onTyped(transaction);
      if (update.selectionSet || update.docChanged) onMoved(update.view);
    }),
  ];
}

/** While typing only where a word was begun; when asked for, anywhere. */
async function complete(context: CompletionContext, { ask }: Acts, file: string): Promise<CompletionResult | null> {
  const before = context.state.sliceDoc(Math.max(0, context.pos - 1), context.pos);
  if (!context.explicit && !/[\p{L}_±]/u.test(before)) return null;
  const ends = lineEndsOf(file);
  const found = await ask('complete', { text: file, offset: ends.toFile(context.pos) });
  if (!found || context.aborted) return null;
  const behind = context.state.sliceDoc(context.pos, context.pos + 20);
  return {
    from: ends.toEditor(found.from),
    options: found.items.map(({ label, detail, insert }, index) => ({ label, detail, boost: -index / 100, apply: /^\w*\s*:/.test(behind) ? label : insert })),
    validFor: /^[\p{L}\p{N}_.-]*$/u,
  };
}

/** What the key under the pointer means, with an example. */
async function about(position: number, { ask, now }: Acts, file: string): Promise<Tooltip | null> {
  const path = pathAtOffset(file, lineEndsOf(file).toFile(position));
  if (path === '') return null;
  const card = await ask('card', { text: file, path, units: now().choices.units });
  const field = card && fieldAt(card.fields, path);
  const lines = field ? [field.meaning, ...(field.example === undefined ? [] : [`for example ${field.example}`]), ...field.problems] : card?.path === path ? [card.meaning] : [];
  if (lines.length === 0) return null;
  return {
    pos: position, above: true,
    create: () => {
      const dom = document.createElement('div');
      dom.className = 'cm-about';
      for (const line of [path, ...lines]) {
        const row = document.createElement('div');
        row.textContent = line;
        dom.append(row);
      }
      return { dom };
    },
  };
}

/** The field at a path, or the nearest one around it. */
function fieldAt(fields: readonly CardField[], path: string): CardField | undefined {
  const field = fields.find((each) => path === each.path || path.startsWith(`${each.path}.`));
  return field && (fieldAt(field.fields, path) ?? field);
}
