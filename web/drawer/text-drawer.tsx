/** The text of the build, under the sheet: the same build, edited by hand. */
import { openSearchPanel } from '@codemirror/search';
import { EditorState } from '@codemirror/state';
import type { Transaction } from '@codemirror/state';
import { EditorView } from '@codemirror/view';
import { memo, useEffect, useLayoutEffect, useRef, useState } from 'react';
import type { KeyboardEvent, PointerEvent, ReactElement } from 'react';
import { applySplices } from '../../core/build/splice.ts';
import { useActs, useBench } from '../bench.ts';
import type { Acts } from '../bench.ts';
import { editorExtensions, outside } from './editor.ts';
import { asInEditor, differenceOf, lineEndsOf, splicesOf } from './line-ends.ts';
import { saidOf, showSaid } from './marks.ts';
import { offsetOfPath, pathAtOffset } from './place-in-text.ts';
import './drawer.css';

type TextPlace = { readonly path: string } | { readonly offset: number };

export default memo(function TextDrawer({ at, onClose }: { readonly at: TextPlace | undefined; readonly onClose: () => void }): ReactElement {
  const acts = useActs();
  const undoes = useBench('undoes'), redoes = useBench('redoes');
  const place = useRef<HTMLDivElement>(null);
  const { view, path } = useEditor(place);
  useJump(view, at);
  const show = (): void => { showOnSheet(path, acts); };
  return (
    <Resizable>
      <div className="text-tools" role="toolbar" aria-label="Text">
        <strong>Text</strong>
        <span className="mono text-path" title={path}>{path === '' ? 'no key' : path}</span>
        <span className="gap" />
        <button type="button" disabled={path === ''} onClick={show} title="Control and Enter">Show what this line is about</button>
        <button type="button" onClick={() => { if (view.current) openSearchPanel(view.current); }}>Search</button>
        <button type="button" disabled={undoes === undefined} onClick={acts.undo} aria-label={undoes === undefined ? 'Undo' : `Undo ${undoes}`}>Undo</button>
        <button type="button" disabled={redoes === undefined} onClick={acts.redo} aria-label={redoes === undefined ? 'Redo' : `Redo ${redoes}`}>Redo</button>
        <button type="button" className="quiet" onClick={onClose} aria-label="Close the text">Close</button>
      </div>
      <div className="text-editor" ref={place} />
    </Resizable>
  );
});

/** Opens the card of what a path is about. */
function showOnSheet(path: string, { select, announce }: Acts): void {
  const [section, name] = path.split('.');
  if (section === undefined || path === '') return;
  select(name === undefined ? section : path);
  announce(`The card of ${name ?? section} is open.`);
}

function useEditor(place: React.RefObject<HTMLDivElement | null>): { readonly view: React.RefObject<EditorView | undefined>; readonly path: string } {
  const view = useRef<EditorView>(undefined);
  const acts = useActs();
  const text = useBench('text');
  /** the file as the editor shows it, with the line ends of the file */
  const file = useRef(text);
  const [path, setPath] = useState('');

  useEffect(() => {
    if (!place.current) return undefined;
    const pathHere = (): string => { const made = view.current; return made ? pathAtOffset(file.current, lineEndsOf(file.current).toFile(made.state.selection.main.head)) : ''; };
    let timer: ReturnType<typeof setTimeout> | undefined;
    const typed = (transaction: Transaction): void => {
      const splices = splicesOf(transaction.changes, file.current);
      file.current = applySplices(file.current, splices) ?? file.current;
      acts.typed(splices);
    };
    file.current = acts.now().text;
    const made = new EditorView({
      parent: place.current,
      state: EditorState.create({
        doc: file.current,
        extensions: editorExtensions({
          acts, file: () => file.current, onTyped: typed, onShow: () => showOnSheet(pathHere(), acts),
          // where the cursor is interests nobody while letters are flowing
          onMoved: () => { clearTimeout(timer); timer = setTimeout(() => setPath(pathHere()), 80); },
        }),
      }),
    });
    view.current = made;
    return () => { clearTimeout(timer); made.destroy(); view.current = undefined; };
  }, [place, acts]);

  // an edit made elsewhere: only what differs changes, so that cursor and place stay
  useLayoutEffect(() => {
    const made = view.current;
    if (!made || text === file.current) return;
    file.current = text;
    const change = differenceOf(made.state.doc.toString(), asInEditor(text));
    if (change) made.dispatch({ changes: change, annotations: outside.of(true) });
  }, [text]);

  // what is said of the text, as soon as it is said of this text
  const study = useBench('study'), chances = useBench('chances'), isStale = useBench('isStale');
  useEffect(() => {
    const made = view.current;
    if (!made || isStale || text !== file.current) return;
    made.dispatch(showSaid(made.state, saidOf({ study, chances }), lineEndsOf(text), (about) => acts.select(about)));
  }, [acts, study, chances, isStale, text]);
  return { view, path };
}

/** Goes to a place whenever one is asked for. */
function useJump(view: React.RefObject<EditorView | undefined>, at: TextPlace | undefined): void {
  const { now } = useActs();
  useEffect(() => {
    const made = view.current;
    if (!made || !at) return;
    const { text } = now();
    const { toEditor } = lineEndsOf(text);
    const found = 'path' in at ? offsetOfPath(text, at.path) : { from: at.offset, to: at.offset };
    const [from, to] = [toEditor(found?.from ?? 0), toEditor(found?.to ?? 0)].map((offset) => Math.min(made.state.doc.length, Math.max(0, offset))) as [number, number];
    made.dispatch({ selection: { anchor: from, head: to }, effects: EditorView.scrollIntoView(from, { y: 'center' }) });
    made.focus();
  }, [view, at, now]);
}

const STEP = 40;
const LEAST = 140;

/** Its upper edge can be dragged, or moved with the arrow keys. */
function Resizable({ children }: { readonly children: React.ReactNode }): ReactElement {
  const [height, setHeight] = useState(() => Math.round(Math.min(innerHeight * 0.44, 480)));
  const most = Math.max(LEAST, Math.round(innerHeight * 0.85));
  const put = (next: number): void => setHeight(Math.min(most, Math.max(LEAST, Math.round(next))));
  const keys = (event: KeyboardEvent): void => {
    const step = event.key === 'ArrowUp' ? STEP : event.key === 'ArrowDown' ? -STEP : undefined;
    if (step !== undefined) { event.preventDefault(); put(height + step); }
    if (event.key === 'Home') { event.preventDefault(); put(LEAST); }
    if (event.key === 'End') { event.preventDefault(); put(most); }
  };
  const drag = (event: PointerEvent<HTMLDivElement>): void => {
    const start = { y: event.clientY, height };
    const edge = event.currentTarget;
    edge.setPointerCapture(event.pointerId);
    const move = (moved: globalThis.PointerEvent): void => put(start.height + start.y - moved.clientY);
    const end = (): void => { edge.removeEventListener('pointermove', move); edge.removeEventListener('pointerup', end); edge.removeEventListener('pointercancel', end); };
    edge.addEventListener('pointermove', move);
    edge.addEventListener('pointerup', end);
    edge.addEventListener('pointercancel', end);
  };
  return (
    <div className="text-drawer" style={{ height: `${height}px` }}>
      <div className="drawer-edge" role="separator" aria-orientation="horizontal" aria-label="Height of the text" aria-valuenow={height} aria-valuemin={LEAST} aria-valuemax={most} tabIndex={0} onKeyDown={keys} onPointerDown={drag} />
      {children}
    </div>
  );
}
