/** How the text looks: in the colours of the paper. Keys are strong, comments pale; colour says nothing here. */
import { HighlightStyle, syntaxHighlighting } from '@codemirror/language';
import type { Extension } from '@codemirror/state';
import { EditorView } from '@codemirror/view';
import { tags } from '@lezer/highlight';

const theme = EditorView.theme({
  '&': { height: '100%', color: 'var(--ink)', backgroundColor: 'var(--sheet)' },
  '&.cm-focused': { outline: '2.5px solid var(--mark)', outlineOffset: '-2.5px' },
  '.cm-scroller': { fontFamily: 'var(--mono)', fontSize: '0.875rem', lineHeight: '1.5' },
  '.cm-content': { caretColor: 'var(--ink)' },
  '.cm-cursor, .cm-dropCursor': { borderLeftColor: 'var(--ink)', borderLeftWidth: '2px' },
  '&.cm-focused > .cm-scroller > .cm-selectionLayer .cm-selectionBackground, .cm-selectionBackground, .cm-content ::selection': { backgroundColor: 'color-mix(in srgb, var(--mark) 32%, var(--sheet))' },
  '.cm-activeLine': { backgroundColor: 'color-mix(in srgb, var(--wash) 60%, transparent)' },
  '.cm-gutters': { backgroundColor: 'var(--sheet)', color: 'var(--muted)', borderRight: '1px solid var(--hairline)' },
  '.cm-activeLineGutter': { backgroundColor: 'var(--wash)', color: 'var(--ink)' },
  '.cm-levels': { width: '1.3em' },
  '.cm-level': { display: 'block', textAlign: 'center', cursor: 'pointer', fontSize: '0.8em' },
  '.cm-level-stop': { color: 'var(--red)' }, '.cm-level-fix': { color: 'var(--amber)' }, '.cm-level-unknown': { color: 'var(--signal)', fontWeight: '600' }, '.cm-level-watch': { color: 'var(--low-voltage)', fontWeight: '600' },
  '.cm-lintRange': { backgroundImage: 'none', paddingBottom: '0' },
  '.cm-lintRange-error, .cm-lintRange-warning, .cm-lintRange-info': { backgroundImage: 'none' },
  '.cm-said': { textDecoration: 'underline', textDecorationThickness: '1.5px', textUnderlineOffset: '3px' },
  '.cm-said-stop': { textDecorationStyle: 'double', textDecorationColor: 'var(--red)' }, '.cm-said-fix': { textDecorationStyle: 'wavy', textDecorationColor: 'var(--amber)' },
  '.cm-said-unknown': { textDecorationStyle: 'dashed', textDecorationColor: 'var(--signal)' }, '.cm-said-watch': { textDecorationStyle: 'dotted', textDecorationColor: 'var(--low-voltage)' },
  '.cm-lintPoint:after': { borderBottomColor: 'var(--ink)' },
  '.cm-tooltip': { backgroundColor: 'var(--sheet)', color: 'var(--ink)', border: '1.5px solid var(--ink)', fontFamily: 'var(--sans)', fontSize: '0.875rem', maxWidth: 'min(92vw, 34rem)' },
  '.cm-tooltip.cm-tooltip-autocomplete > ul': { fontFamily: 'var(--mono)', fontSize: '0.8125rem', maxHeight: '14em', maxWidth: 'min(92vw, 40rem)' },
  '.cm-tooltip.cm-tooltip-autocomplete > ul > li': { padding: '0.15rem 0.5rem' },
  '.cm-tooltip-autocomplete ul li[aria-selected]': { backgroundColor: 'var(--ink)', color: 'var(--sheet)' },
  '.cm-completionDetail': { fontStyle: 'normal', fontFamily: 'var(--sans)', color: 'var(--muted)' },
  '.cm-tooltip-autocomplete ul li[aria-selected] .cm-completionDetail': { color: 'inherit' },
  '.cm-diagnostic': { borderLeft: '4px solid var(--hairline)', padding: '0.3rem 0.6rem' },
  '.cm-diagnostic-error': { borderLeftColor: 'var(--red)' }, '.cm-diagnostic-warning': { borderLeftColor: 'var(--amber)' }, '.cm-diagnostic-info': { borderLeftColor: 'var(--low-voltage)' },
  '.cm-diagnosticAction': { backgroundColor: 'var(--sheet)', color: 'var(--ink)', border: '1px solid var(--hairline)', fontSize: '0.8125rem' },
  '.cm-panels': { backgroundColor: 'var(--wash)', color: 'var(--ink)' }, '.cm-panels-top': { borderBottom: '1px solid var(--hairline)' },
  '.cm-panel.cm-search': { padding: '0.3rem 2rem 0.3rem 0.5rem', fontFamily: 'var(--sans)' },
  '.cm-button': { backgroundImage: 'none', backgroundColor: 'var(--sheet)', color: 'var(--ink)', border: '1px solid var(--hairline)' },
  '.cm-button:active': { backgroundImage: 'none', backgroundColor: 'var(--wash)' },
  '.cm-textfield': { backgroundColor: 'var(--sheet)', color: 'var(--ink)', border: '1px solid var(--ink)' },
  '.cm-searchMatch': { backgroundColor: 'color-mix(in srgb, var(--amber) 28%, var(--sheet))' }, '.cm-searchMatch-selected': { backgroundColor: 'color-mix(in srgb, var(--amber) 50%, var(--sheet))' },
  '.cm-selectionMatch': { backgroundColor: 'color-mix(in srgb, var(--mark) 14%, var(--sheet))' },
  '.cm-matchingBracket, &.cm-focused .cm-matchingBracket': { backgroundColor: 'var(--wash)', outline: '1px solid var(--ink)' },
  '.cm-about': { padding: '0.4rem 0.6rem' },
});

const words = HighlightStyle.define([
  { tag: [tags.propertyName, tags.definition(tags.propertyName)], fontWeight: '600' },
  { tag: tags.comment, color: 'var(--muted)', fontStyle: 'italic' },
  { tag: [tags.punctuation, tags.separator, tags.squareBracket, tags.brace], color: 'var(--muted)' },
]);

export const look: Extension = [theme, syntaxHighlighting(words)];
