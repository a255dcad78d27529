/** The drawing desk: makes the bench that every piece works with, and lays the pieces out. */
import { Suspense, useCallback, useEffect, useMemo, useRef, useState } from 'react';
import type { ReactElement } from 'react';
import { drawings } from '../../sheets/drawings.ts';
import { sheetsOfLog } from '../../sheets/sheet.ts';
import type { SheetName } from '../../sheets/sheet.ts';
import type { AnalysisClient } from '../analysis/client.ts';
import { BenchProvider } from '../bench.ts';
import type { Acts, Bench } from '../bench.ts';
import type { Chances } from '../analysis/protocol.ts';
import type { Study } from '../../study/study.ts';
import type { OnDisk } from '../document/document.ts';
import { useFaultDesk } from '../faults/use-fault-desk.ts';
import { CautionsDialog, CautionsGate } from '../people/cautions.tsx';
import { handsOn } from '../people/hands.ts';
import { useRemembered } from '../people/remembered.ts';
import { UnitsDialog } from '../people/units-dialog.tsx';
import { ConflictDialog } from '../server-link/conflict-dialog.tsx';
import { fileWords } from '../server-link/file-state-words.ts';
import { DrawingProvider } from '../../sheets/drawing-context.ts';
import { useGuideOpen } from '../readings/use-guide-open.ts';
import { GuidedStart } from '../start/guided-start.tsx';
import { PrintDialog } from '../viewer/print-set.tsx';
import { Viewer } from '../viewer/viewer.tsx';
import { BenchColumn } from './bench-column.tsx';
import { Header } from './header.tsx';
import type { MenuChoice } from './header.tsx';
import { GuidedPowerUp, TextDrawer, useChances, WhatIfTray } from './pieces.tsx';
import type { TextPlace } from './pieces.tsx';
import { Register } from './register.tsx';
import { useChoices, useSheet, useTheme } from './use-choices.ts';
import { useBenchStore } from './use-bench-store.ts';
import { useMarks } from './use-marks.ts';
import { useStudies } from './use-studies.ts';
import { useText } from './use-text.ts';

const known = (name: string): SheetName | undefined => drawings.find((drawing) => drawing.name === name)?.name;
const noMeter: Bench['meter'] = { isOut: false, red: undefined, black: undefined };
const nothing: Partial<Pick<Chances, 'open' | 'counts' | 'next'>> = {};
const noQuantities: Study['outline']['quantities'] = [];

type LaidSheet = 'cautions' | 'units' | 'print' | undefined;

export function Desk({ opened, client, patient, restarts }: { readonly opened: { readonly disk: OnDisk; readonly name: string }; readonly client: AnalysisClient; readonly patient: AnalysisClient; readonly restarts: string | undefined }): ReactElement {
  const [{ words: said, at: saidAt }, setSaid] = useState({ words: '', at: 0 });
  const announce = useCallback((words: string) => setSaid((now) => ({ words: now.words === words ? `${words}\u00a0` : words, at: performance.now() })), []);
  const theme = useTheme();
  const begin = useRef<(next: string) => Promise<unknown>>(undefined);
  const ahead = useCallback(async (next: string) => begin.current?.(next), []);
  const desk = useText(opened, client, announce, ahead);
  const { text } = desk.document;
  const { choices, choose, preference, ofFile, prefer } = useChoices(text);
  const { sheet, page, show } = useSheet(known);
  const marks = useMarks();
  const [hands] = useState(() => handsOn(window));
  const { fault, pointed } = useFaultDesk(sheetsOfLog.has(sheet));
  const { shown, failure, of, begin: beginStudy } = useStudies(client, patient, text, choices, sheet, fault, marks.seen, hands);
  begin.current = beginStudy;
  const [selected, select] = useState<string>();
  const [textAt, setTextAt] = useState<TextPlace>();
  const [isTextOpen, setTextOpen] = useState(false);
  const [meter, setMeter] = useState(noMeter);
  const [joining, setJoining] = useState<Bench['joining']>();
  const [laid, setLaid] = useState<LaidSheet>();
  const [isInWords, setInWords] = useState(false);
  const [isWide, setWide] = useState(false);
  const [isPutOff, setPutOff] = useState(false);
  const [hasRead, setRead] = useRemembered('cautions-read', (value) => (value === true ? true : undefined));
  const start = useGuidedStart(shown?.study.isEmpty);
  const guide = useGuideOpen(sheet);

  const openText = useCallback((at: TextPlace) => { setTextAt(at); setTextOpen(true); }, []);
  const study = shown?.study;
  const isStale = shown === undefined || shown.isSheetOld === true || shown.text !== text || shown.choices !== choices || (study !== undefined && study.sheet.name !== sheet);
  const chances = useChances({ text, study, isStale }, hands);
  // while an older text is still being studied, the newest comes first
  const { edit, expect: expectEdits, typed, undo, redo } = desk;
  const stale = useRef(isStale);
  stale.current = isStale;
  const expect = useCallback<Acts['expect']>((edits) => { if (!stale.current) expectEdits(edits); }, [expectEdits]);
  const { palette } = theme;
  const { lookedAt } = marks;
  const openGuide = guide.open;
  const acts = useMemo(() => ({
    ask: client.ask, askAside: patient.ask, edit, expect, typed, undo, redo, show, select, openText, choose, lookedAt, setMeter, setJoining, goThrough: openGuide, announce,
  }), [client, patient, edit, expect, typed, undo, redo, show, openText, choose, lookedAt, openGuide, announce]);
  const { open, counts, next } = chances ?? study ?? nothing;
  const store = useBenchStore({
    text, undoes: desk.document.past.at(-1)?.label, redoes: desk.document.future.at(-1)?.label, study, outline: study?.outline, isStale, chances, open, counts, next,
    sheet, page, selected, isTextOpen, choices, palette, changed: marks.changed, meter, joining, fault, pointed,
  }, acts);
  const drawing = useMemo(() => ({ palette, live: undefined }), [palette]);

  useUndoKeys(undo, redo);
  useEffect(() => { document.title = `${study?.build || opened.name || 'Halfshaft'} – Halfshaft`; }, [study?.build, opened.name]);
  useEffect(() => { if (restarts !== undefined) announce(restarts); }, [restarts, announce]);
  const isConflict = desk.fileState.is === 'conflict';
  useEffect(() => { if (!isConflict) setPutOff(false); }, [isConflict]);
  const closeText = useCallback(() => setTextOpen(false), []);

  const { choose: chooseTheme } = theme;
  const { setOpen: setFaultOpen } = fault;
  const { open: openStart } = start;
  const onMenu = useCallback((choice: MenuChoice): void => {
    switch (choice) {
      case 'units': case 'print': setLaid(choice); return;
      case 'start': openStart(); return;
      case 'fault': setFaultOpen(true); return;
      case 'machine': chooseTheme(undefined); return;
      case 'paper': case 'blueprint': chooseTheme(choice);
    }
  }, [openStart, setFaultOpen, chooseTheme]);
  const toCautions = useCallback(() => setLaid('cautions'), []);
  const putAway = useCallback(() => setLaid(undefined), []);
  const toPowerUp = useCallback(() => openGuide('power-up'), [openGuide]);
  const { now } = store.acts;
  const toText = useCallback(() => {
    const { isTextOpen: isOpen, selected: path } = now();
    if (isOpen) closeText();
    else openText(path === undefined ? { offset: 0 } : { path });
  }, [now, openText, closeText]);
  const { keeper } = desk;
  const onFile = useCallback((does: 'save' | 'choose') => { if (does === 'choose') setPutOff(false); else void keeper.save(); }, [keeper]);
  const file = useMemo(() => fileWords(desk.fileState, desk.isLinked), [desk.fileState, desk.isLinked]);
  const latestOf = useRef(of);
  latestOf.current = of;
  const studyOf = useCallback((one: SheetName) => latestOf.current(one), []);
  if (hasRead !== true) return <CautionsGate build={study?.build || opened.name} onRead={() => setRead(true)} />;
  const name = study?.build || opened.name || 'New build';
  return (
    <BenchProvider value={store}>
      <DrawingProvider value={drawing}>
        {guide.shows !== undefined ? (
          <Suspense fallback={<p className="waiting">Opening the steps …</p>}>
            <GuidedPowerUp name={name} shows={guide.shows} onShow={guide.open} onLeave={guide.leave} onCautions={toCautions} />
            <p className="unseen" role="status" aria-live="polite">{said}</p>
          </Suspense>
        ) : <div className="desk" data-studied={study?.revision}>
          <Header name={name} failure={failure} file={file} theme={theme.chosen} onMenu={onMenu} onCautions={toCautions} onPowerUp={toPowerUp} onText={toText} onFile={onFile} />
          {desk.left && <p className="notice" role="alert">There is text from last time that never reached the file. <button type="button" onClick={() => desk.answerLeft(true)}>Take it back in</button> <button type="button" onClick={() => desk.answerLeft(false)}>Throw it away</button></p>}
          <Register changedOn={marks.countOn} />
          <div className="table" data-wide={isWide && selected === undefined && !meter.isOut && !fault.isOpen && joining === undefined ? '' : undefined}>
            <main className="left">
              {start.isOpen ? <GuidedStart onLeave={start.leave} /> : study ? <Viewer study={study} isInWords={isInWords} onInWords={setInWords} isWide={isWide} onWide={setWide} /> : <p className="waiting">{failure === undefined ? 'Drawing …' : 'There is nothing to draw.'}</p>}
              <WhatIfTray />
            </main>
            <BenchColumn />
          </div>
          {isTextOpen && <section className="drawer" aria-label="Text of the build"><Suspense fallback={<p className="waiting">Opening the text …</p>}><TextDrawer at={textAt} onClose={closeText} /></Suspense></section>}
          <p className="unseen" role="status" aria-live="polite">{said}</p>
          <Toast words={said} at={saidAt} />
        </div>}
        <CautionsDialog isOpen={laid === 'cautions'} onClose={putAway} />
        <UnitsDialog isOpen={laid === 'units'} onClose={putAway} preference={preference} ofFile={ofFile} used={study?.outline.quantities ?? noQuantities} onChoose={prefer} />
        <PrintDialog isOpen={laid === 'print'} onClose={putAway} shown={sheet} studyOf={studyOf} />
        {desk.fileState.is === 'conflict' && <ConflictDialog base={desk.document.disk.text} mine={text} theirs={desk.fileState.disk.text} isOpen={!isPutOff} onPutOff={() => setPutOff(true)} onChosen={desk.keeper.settle} />}
      </DrawingProvider>
    </BenchProvider>
  );
}

/** Opens by itself on a build with nothing in it, and stays until it is left. */
function useGuidedStart(isEmpty: boolean | undefined): { readonly isOpen: boolean; readonly open: () => void; readonly leave: () => void } {
  const [isOpen, setOpen] = useState(false);
  const wasAsked = useRef(false);
  useEffect(() => {
    if (isEmpty === undefined || wasAsked.current) return;
    wasAsked.current = true;
    if (isEmpty) setOpen(true);
  }, [isEmpty]);
  const open = useCallback(() => setOpen(true), []);
  const leave = useCallback(() => setOpen(false), []);
  return { isOpen, open, leave };
}

/** Ctrl or ⌘ with Z and Y, except where letters are typed: those places undo their own letters. */
function useUndoKeys(undo: () => void, redo: () => void): void {
  useEffect(() => {
    const hear = (event: KeyboardEvent): void => {
      const key = event.key.toLowerCase();
      if (!(event.ctrlKey || event.metaKey) || event.altKey || (key !== 'z' && key !== 'y')) return;
      if (event.target instanceof HTMLElement && (event.target.isContentEditable || event.target.matches('input:not([type=radio],[type=checkbox]), textarea'))) return;
      event.preventDefault();
      if (key === 'y' || event.shiftKey) redo();
      else undo();
    };
    addEventListener('keydown', hear);
    return () => removeEventListener('keydown', hear);
  }, [undo, redo]);
}

/** [ms] */
const SHOWN = 6000;

/** What was said last, for those who see, for a few seconds. */
function Toast({ words, at }: { readonly words: string; /** [ms] */ readonly at: number }): ReactElement | null {
  const [isShown, setShown] = useState(false);
  useEffect(() => {
    // the desk may have been left since, for the steps of a procedure
    const left = at + SHOWN - performance.now();
    if (words === '' || left <= 0) return undefined;
    setShown(true);
    const timer = setTimeout(() => setShown(false), left);
    return () => clearTimeout(timer);
  }, [words, at]);
  return isShown ? <p className="said" aria-hidden="true">{words}</p> : null;
}
