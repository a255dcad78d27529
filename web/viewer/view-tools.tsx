/** Strip over the paper: what can be done on this sheet at the left, how it is looked at on the right. */
import { memo, useState } from 'react';
import type { ReactElement } from 'react';
import type { Page, SheetName } from '../../sheets/sheet.ts';
import type { Guided } from '../analysis/protocol.ts';
import { useActs, useBench } from '../bench.ts';
import { Laid } from '../desk/dialog.tsx';
import { AddPart } from '../desk/pieces.tsx';
import { StateDialog } from './state-dialog.tsx';
import { stateInWords } from './state-in-words.ts';
import type { Zooming } from './use-zoom.ts';

/** Sheets that show the vehicle in one state. */
export const electrical: ReadonlySet<SheetName> = new Set(['pack', 'high-voltage', 'low-voltage', 'precharge', 'cables']);
/** Sheets on which a probe can be put. */
const probed: ReadonlySet<SheetName> = new Set(['pack', 'high-voltage', 'low-voltage', 'precharge']);

/** Sheets that also lie there as a table to choose from. */
const chosenFrom: ReadonlySet<SheetName> = new Set(['single-failures']);

/** Sheets whose steps can also be gone through one by one. */
const guided: Partial<Readonly<Record<SheetName, Guided>>> = { 'power-up': 'power-up', assembly: 'assembly' };

export const ViewTools = memo(function ViewTools({ zooming, pages, index, onPage, isInWords, onInWords, isWide, onWide, isTable, onTable }: {
  readonly zooming: Zooming; readonly pages: readonly Page[]; readonly index: number; readonly onPage: (index: number) => void;
  readonly isInWords: boolean; readonly onInWords: (show: boolean) => void;
  readonly isWide: boolean; readonly onWide: (isWide: boolean) => void;
  /** the sheet lies there as a table to choose from */
  readonly isTable: boolean; readonly onTable: (show: boolean) => void;
}): ReactElement {
  const acts = useActs();
  const sheet = useBench('sheet'), fault = useBench('fault'), meter = useBench('meter'), joining = useBench('joining'), changed = useBench('changed'), { state } = useBench('choices');
  const [open, setOpen] = useState<'state' | 'part'>();
  const steps = guided[sheet];
  return (
    <div className="tools" role="group" aria-label="Tools of the sheet">
      <button type="button" onClick={() => setOpen('part')}>Add a part…</button>
      <button type="button" aria-label="Join two ports" aria-pressed={joining !== undefined} onClick={() => acts.setJoining(joining === undefined ? true : undefined)}>Join</button>
      {probed.has(sheet) && <button type="button" aria-pressed={meter.isOut} onClick={() => acts.setMeter({ ...meter, isOut: !meter.isOut })}>Meter</button>}
      {electrical.has(sheet) && <button type="button" className="state" onClick={() => setOpen('state')}>State: {stateInWords(state)}</button>}
      {chosenFrom.has(sheet) && <button type="button" aria-pressed={isTable && !isInWords} onClick={() => { if (isInWords) onInWords(false); onTable(!isTable || isInWords); }}>{isTable && !isInWords ? 'Back to the drawing' : 'Choose failures'}</button>}
      {sheet === 'fault-finding' && <button type="button" aria-pressed={fault.isOpen} onClick={() => fault.setOpen(!fault.isOpen)}>Why does it do nothing…</button>}
      {steps !== undefined && <button type="button" onClick={() => acts.goThrough(steps)}>Go through it step by step</button>}
      {changed.size > 0 && <button type="button" aria-label={`${changed.size} changed: all seen`} title="Everything that changed has been seen" onClick={() => acts.lookedAt()}><span className="changed-sign" aria-hidden="true" />{changed.size} changed</button>}
      <span className="gap" />
      {pages.length > 1 && !isTable && (
        <span className="pages">
          <button type="button" aria-label="Page before" disabled={index === 0} onClick={() => onPage(index - 1)}>‹</button>
          <label className="unseen" htmlFor="page-choice">Page</label>
          <select id="page-choice" value={index} onChange={(event) => onPage(Number(event.target.value))}>{pages.map((page, at) => <option key={at} value={at}>{page.subtitle ?? `page ${at + 1}`} ({at + 1} of {pages.length})</option>)}</select>
          <button type="button" aria-label="Next page" disabled={index === pages.length - 1} onClick={() => onPage(index + 1)}>›</button>
        </span>
      )}
      <button type="button" aria-label={isInWords ? 'Back to the drawing' : 'Read in words'} aria-pressed={isInWords} onClick={() => onInWords(!isInWords)}>{isInWords ? 'Drawing' : 'In words'}</button>
      {!isInWords && !isTable && (
        <span className="zoom" role="group" aria-label="Zoom">
          <button type="button" aria-label="Smaller" onClick={() => zooming.step(-1)}>−</button>
          <button type="button" className="percent" aria-label={`As large as on A3 paper; now ${zooming.percent} %`} onClick={zooming.lifeSize}>{zooming.percent} %</button>
          <button type="button" aria-label="Larger" onClick={() => zooming.step(1)}>+</button>
          <button type="button" aria-pressed={zooming.zoom === 'fit'} onClick={zooming.fit}>Fit</button>
        </span>
      )}
      <button type="button" className="wide-paper" aria-pressed={isWide} onClick={() => onWide(!isWide)}>Wide paper</button>
      <StateDialog isOpen={open === 'state'} onClose={() => setOpen(undefined)} />
      <Laid title="Add a part" isOpen={open === 'part'} onClose={() => setOpen(undefined)}><AddPart onDone={() => setOpen(undefined)} /></Laid>
    </div>
  );
});
