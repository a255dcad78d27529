/** The drawing desk: makes the bench that every piece works with, and lays the pieces out. */
import { Suspense, useCallback, useEffect, useMemo, useRef, useState } from 'react';
import type { ReactElement } from 'react';
import { drawings } from '../../sheets/drawings.ts';
import { sheetsOfLog } from '../../sheets/sheet.ts';
import type { SheetName } from '../../sheets/sheet.ts';
import type { AnalysisClient } from '../analysis/client.ts';
import { BenchProvider } from '../bench.ts';
import type { Bench } from '../bench.ts';
import type { OnDisk } from '../document/document.ts';
import { useFaultDesk } from '../faults/use-fault-desk.ts';
import { Cautions, CautionsGate } from '../people/cautions.tsx';
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
import { Laid } from './dialog.tsx';
import { Header } from './header.tsx';
import type { MenuChoice } from './header.tsx';
import { GuidedPowerUp, TextDrawer, useChances, WhatIfTray } from './pieces.tsx';
import type { TextPlace } from './pieces.tsx';
import { Register } from './register.tsx';
import { unitsOfText, useChoices, useSheet, useTheme } from './use-choices.ts';
import { useMarks } from './use-marks.ts';
import { useStudies } from './use-studies.ts';
import { useText } from './use-text.ts';

const known = (name: string): SheetName | undefined => drawings.find((drawing) => drawing.name === name)?.name;
const noMeter: Bench['meter'] = { isOut: false, red: undefined, black: undefined };

type LaidSheet = 'cautions' | 'units' | 'print' | undefined;

export function Desk({ opened, client, patient, restarts }: { readonly opened: { readonly disk: OnDisk; readonly name: string }; readonly client: AnalysisClient; readonly patient: AnalysisClient; readonly restarts: string | undefined }): ReactElement {
  const [said, setSaid] = useState('');
  const announce = useCallback((words: string) => setSaid((now) => (now === words ? `${words}\u00a0` : words)), []);
  const theme = useTheme();
  const begin = useRef<(next: string) => Promise<unknown>>(undefined);
  const ahead = useCallback(async (next: string) => begin.current?.(next), []);
  const desk = useText(opened, client, announce, ahead);
  const { text } = desk.document;
  const { choices, choose, preference, prefer } = useChoices(text);
  const { sheet, page, show } = useSheet(known);
  const marks = useMarks();
  const [hands] = useState(() => handsOn(window));
  const fault = useFaultDesk(sheetsOfLog.has(sheet));
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
  // it holds nothing of one render
  const goThrough = useCallback<Bench['goThrough']>((steps) => guide.open(steps), []);

  const openText = useCallback((at: TextPlace) => { setTextAt(at); setTextOpen(true); }, []);
  const study = shown?.study;
  const isStale = shown === undefined || shown.isSheetOld === true || shown.text !== text || shown.choices !== choices || (study !== undefined && study.sheet.name !== sheet);
  const chances = useChances({ text, study, isStale }, hands);
  // while an older text is still being studied, the newest comes first
  const { expect: expectEdits } = desk;
  const stale = useRef(isStale);
  stale.current = isStale;
  const expect = useCallback<Bench['expect']>((edits) => { if (!stale.current) expectEdits(edits); }, [expectEdits]);
  const bench = useMemo((): Bench => ({
    text, study, isStale, chances, ask: client.ask, askAside: patient.ask,
    edit: desk.edit, expect, typed: desk.typed, undo: desk.undo, redo: desk.redo,
    undoes: desk.document.past.at(-1)?.label, redoes: desk.document.future.at(-1)?.label,
    sheet, page, show, selected, select, openText, isTextOpen, choices, choose,
    palette: theme.palette, setTheme: theme.choose, changed: marks.changed, lookedAt: marks.lookedAt,
    meter, setMeter, fault, joining, setJoining, announce, goThrough,
  }), [text, study, isStale, chances, client, patient, desk, expect, sheet, page, show, selected, openText, isTextOpen, choices, choose, theme.palette, theme.choose, marks.changed, marks.lookedAt, meter, fault, joining, announce, goThrough]);

  useUndoKeys(desk.undo, desk.redo);
  useEffect(() => { document.title = `${study?.build || opened.name || 'Halfshaft'} – Halfshaft`; }, [study?.build, opened.name]);
  useEffect(() => { if (restarts !== undefined) announce(restarts); }, [restarts, announce]);
  const isConflict = desk.fileState.is === 'conflict';
  useEffect(() => { if (!isConflict) setPutOff(false); }, [isConflict]);
  const closeText = useCallback(() => setTextOpen(false), []);

  const onMenu = (choice: MenuChoice): void => {
    switch (choice) {
      case 'units': case 'print': setLaid(choice); return;
      case 'start': start.open(); return;
      case 'fault': fault.setOpen(true); return;
      case 'machine': theme.choose(undefined); return;
      case 'paper': case 'blueprint': theme.choose(choice);
    }
  };
  if (hasRead !== true) return <CautionsGate build={study?.build || opened.name} onRead={() => setRead(true)} />;
  const name = study?.build || opened.name || 'New build';
  return (
    <BenchProvider value={bench}>
      <DrawingProvider value={{ palette: theme.palette, live: undefined }}>
        {guide.shows !== undefined ? (
          <Suspense fallback={<p className="waiting">Opening the steps …</p>}>
            <GuidedPowerUp name={name} shows={guide.shows} onShow={guide.open} onLeave={guide.leave} onCautions={() => setLaid('cautions')} />
            <p className="unseen" role="status" aria-live="polite">{said}</p>
          </Suspense>
        ) : <div className="desk" data-studied={study?.revision}>
          <Header name={name} failure={failure} file={fileWords(desk.fileState, desk.isLinked)} theme={theme.chosen} onMenu={onMenu} onCautions={() => setLaid('cautions')} onPowerUp={() => guide.open('power-up')}
            onText={() => (isTextOpen ? closeText() : openText(selected === undefined ? { offset: 0 } : { path: selected }))}
            onFile={(does) => { if (does === 'choose') setPutOff(false); else void desk.keeper.save(); }} />
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
          <Toast words={said} />
        </div>}
        <Laid title="Cautions" isOpen={laid === 'cautions'} onClose={() => setLaid(undefined)}><Cautions /></Laid>
        <UnitsDialog isOpen={laid === 'units'} onClose={() => setLaid(undefined)} preference={preference} ofFile={unitsOfText(text)} used={study?.outline.quantities ?? []} onChoose={prefer} />
        <PrintDialog isOpen={laid === 'print'} onClose={() => setLaid(undefined)} shown={sheet} studyOf={of} />
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
  return { isOpen, open: () => setOpen(true), leave: () => setOpen(false) };
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

/** What was said last, for those who see, for a few seconds. */
function Toast({ words }: { readonly words: string }): ReactElement | null {
  const [isShown, setShown] = useState(false);
  useEffect(() => {
    if (words === '') return undefined;
    setShown(true);
    const timer = setTimeout(() => setShown(false), 6000);
    return () => clearTimeout(timer);
  }, [words]);
  return isShown ? <p className="said" aria-hidden="true">{words}</p> : null;
}
