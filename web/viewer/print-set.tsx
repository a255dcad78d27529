/** Printing: the shown sheet or the whole set, A3 or A4, always as ink on white paper. */
import { memo, useEffect, useState } from 'react';
import { createPortal } from 'react-dom';
import type { ReactElement } from 'react';
import { drawings } from '../../sheets/drawings.ts';
import { paper } from '../../sheets/palette.ts';
import type { SheetName } from '../../sheets/sheet.ts';
import type { Study } from '../../study/study.ts';
import { Laid } from '../desk/dialog.tsx';
import { DrawnPage, usePages } from './drawn-page.tsx';

export type PaperSize = 'a3' | 'a4';
/** White, so that a printer does not tint the sheet. */
const printed = { ...paper, sheet: '#ffffff', wash: '#f4f4f2' };

export const PrintDialog = memo(function PrintDialog({ isOpen, onClose, shown, studyOf }: {
  readonly isOpen: boolean; readonly onClose: () => void; readonly shown: SheetName; readonly studyOf: (sheet: SheetName) => Promise<Study | undefined>;
}): ReactElement {
  const [size, setSize] = useState<PaperSize>('a3');
  const [what, setWhat] = useState<'sheet' | 'set'>('sheet');
  const [job, setJob] = useState<{ readonly studies: readonly Study[]; readonly size: PaperSize }>();
  const [trouble, setTrouble] = useState<string>();
  const start = async (): Promise<void> => {
    setTrouble(undefined);
    try {
      const names = what === 'sheet' ? [shown] : drawings.map(({ name }) => name);
      const studies: Study[] = [];
      for (const name of names) { const study = await studyOf(name); if (study) studies.push(study); }
      onClose();
      setJob({ studies, size });
    } catch (error) {
      setTrouble(error instanceof Error ? error.message : String(error));
    }
  };
  return (
    <>
      <Laid title="Print" isOpen={isOpen} onClose={onClose}>
        <fieldset className="choice-row"><legend>What</legend>
          <label><input type="radio" name="what" checked={what === 'sheet'} onChange={() => setWhat('sheet')} /> this sheet</label>
          <label><input type="radio" name="what" checked={what === 'set'} onChange={() => setWhat('set')} /> the set</label>
        </fieldset>
        <fieldset className="choice-row"><legend>Paper, landscape</legend>
          <label><input type="radio" name="size" checked={size === 'a3'} onChange={() => setSize('a3')} /> A3, as drawn</label>
          <label><input type="radio" name="size" checked={size === 'a4'} onChange={() => setSize('a4')} /> A4, at 1:√2</label>
        </fieldset>
        <p className="hint">In the print window choose no margins and no headers. Scales are right on A3 only.</p>
        {trouble !== undefined && <p role="alert">It could not be drawn: {trouble}</p>}
        <p className="form-end"><button type="button" className="primary" onClick={() => void start()}>{what === 'set' ? 'Print the set' : 'Print this sheet'}</button></p>
      </Laid>
      {job && <PrintJob {...job} onDone={() => setJob(undefined)} />}
    </>
  );
});

/** Lies beside the page, seen by the printer only. */
function PrintJob({ studies, size, onDone }: { readonly studies: readonly Study[]; readonly size: PaperSize; readonly onDone: () => void }): ReactElement {
  useEffect(() => {
    document.documentElement.dataset['print'] = size;
    const done = (): void => { delete document.documentElement.dataset['print']; onDone(); };
    addEventListener('afterprint', done, { once: true });
    const timer = setTimeout(() => print(), 50);
    return () => { clearTimeout(timer); removeEventListener('afterprint', done); };
  }, [size, onDone]);
  return createPortal(<div className="print-job" data-size={size} aria-hidden="true">{studies.map((study) => <PrintedSheet key={study.sheet.name} study={study} />)}</div>, document.body);
}

function PrintedSheet({ study }: { readonly study: Study }): ReactElement {
  const pages = usePages(study.sheet);
  return <>{pages.map((_, index) => <div className="printed-page" key={index}><DrawnPage study={study} pages={pages} index={index} next={study.next.do} palette={printed} /></div>)}</>;
}
