/** The bench beside the paper: what is being asked or joined, the card of what is selected, and the findings. */
import { memo, Suspense, useEffect, useRef } from 'react';
import type { ReactElement } from 'react';
import { useActs, useBench } from '../bench.ts';
import { FindingsList } from '../findings/findings-list.tsx';
import { Card, FaultPanel, JoinPanel, MeterPanel } from './pieces.tsx';

/** As in `style/desk.css`. */
const ONE_COLUMN = '(max-width: 820px)';

export const BenchColumn = memo(function BenchColumn(): ReactElement {
  const { select } = useActs();
  const selected = useBench('selected'), meter = useBench('meter'), fault = useBench('fault'), joining = useBench('joining');
  const card = useRef<HTMLElement>(null);
  // in one column the card stands below the paper: bring it into view, without taking the focus from the drawing
  useEffect(() => { if (selected !== undefined) card.current?.scrollIntoView({ block: 'nearest' }); }, [selected]);
  const column = useRef<HTMLElement>(null);
  const opened = joining !== undefined ? 'joining' : fault.isOpen ? 'fault' : meter.isOut ? 'meter' : undefined;
  useEffect(() => { if (opened !== undefined && matchMedia(ONE_COLUMN).matches) column.current?.scrollIntoView({ block: 'start' }); }, [opened]);
  const close = (): void => {
    select(undefined);
    document.querySelector<HTMLElement>('.paper')?.focus({ preventScroll: true });
  };
  return (
    <aside className="bench" aria-label="Bench" ref={column}>
      {meter.isOut && <section className="panel tall" aria-label="Meter"><MeterPanel /></section>}
      {fault.isOpen && <section className="panel tall" aria-label="Fault finding" tabIndex={-1}><Suspense fallback={<p className="waiting">Looking …</p>}><FaultPanel /></Suspense></section>}
      {joining !== undefined && <section className="panel tall" aria-label="Join two ports"><JoinPanel /></section>}
      {selected !== undefined && (
        <section className="panel card" id="card" ref={card} tabIndex={-1} aria-label={`Card of ${selected}`} onKeyDown={(event) => { if (event.key === 'Escape' && !event.defaultPrevented) { event.preventDefault(); close(); } }}>
          <button type="button" className="quiet card-close" onClick={close} aria-label="Close the card">Close</button>
          <Card key={selected.split('.').slice(0, 2).join('.')} />
        </section>
      )}
      <FindingsList />
    </aside>
  );
});
