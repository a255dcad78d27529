/** The sheet on the desk: drawn, zoomed, taken hold of with pointer and keys. */
import { memo, Suspense, useCallback, useLayoutEffect, useMemo, useRef, useState } from 'react';
import type { PointerEvent, ReactElement } from 'react';
import { useActs, useBench } from '../bench.ts';
import type { Live } from '../../sheets/drawing-context.ts';
import type { Study } from '../../study/study.ts';
import { FailuresView, useDrag } from '../desk/pieces.tsx';
import { DrawnPage, drawingOf, usePages } from './drawn-page.tsx';
import { Overlay } from './overlay.tsx';
import { SheetInWords } from './sheet-in-words.tsx';
import { takeHold } from './take-hold.ts';
import { useAfterPaint, useLasting } from './use-after-paint.ts';
import { useKeys } from './use-keys.ts';
import { useLooking } from './use-looking.ts';
import { usePageOf } from './use-page-of.ts';
import { useZoom } from './use-zoom.ts';
import { ViewTools } from './view-tools.tsx';

/** A drawing that is behind by more than this says so [ms]. */
const LATE = 600;

export const Viewer = memo(function Viewer({ study: newest, isInWords, onInWords, isWide, onWide }: {
  readonly study: Study; readonly isInWords: boolean; readonly onInWords: (show: boolean) => void;
  /** the bench is put away, so that the paper has all the width */
  readonly isWide: boolean; readonly onWide: (isWide: boolean) => void;
}): ReactElement {
  const acts = useActs();
  const page = useBench('page'), selected = useBench('selected'), palette = useBench('palette'), meter = useBench('meter'), pointed = useBench('pointed');
  // findings and card are on the screen first: a drawing takes longer, and nobody reads both at once
  const { study, live, next } = useAfterPaint(useNewest(newest));
  const isLate = useLasting(useBench('isStale'), LATE), wanted = useBench('sheet');
  const pages = usePages(study.sheet);
  const drawing = drawingOf(study.sheet.name);
  const index = Math.min(page, pages.length - 1);
  const room = useRef<HTMLDivElement>(null);
  const paper = useRef<HTMLDivElement>(null);
  const svg = useRef<SVGSVGElement | null>(null);
  const zooming = useZoom(room);
  const [hovered, setHovered] = useState<Element>();
  const [wantsTable, setWantsTable] = useState(false);
  const isTable = wantsTable && study.sheet.name === 'single-failures';
  const { name } = study.sheet;
  const toPage = useCallback((to: number) => acts.show(name, to), [acts, name]);
  const turn = (by: 1 | -1): void => { const to = index + by; if (to >= 0 && to < pages.length) toPage(to); };
  const toTable = useCallback((isWanted: boolean) => { setWantsTable(isWanted); if (isWanted) onInWords(false); }, [onInWords]);
  const keys = useKeys(svg, paper, zooming, turn);
  const dragged = useDrag(svg);
  useLooking(hovered, keys.focused);

  useLayoutEffect(() => { svg.current = paper.current?.querySelector<SVGSVGElement>('.drawing > svg') ?? null; });
  usePageOf(svg, study, pages, index);
  const pan = usePan(room);
  const probes = useMemo(() => {
    const [red, black] = meter.isOut ? [meter.red, meter.black] : pointed?.points ?? [];
    return [{ point: red, letter: '+', colour: palette.red }, { point: black, letter: '−', colour: palette.ink }].flatMap(({ point, ...mark }) => (point === undefined ? [] : [{ point, ...mark }]));
  }, [meter, palette, pointed]);
  const lit = useMemo(() => (pointed ? [...pointed.points, ...pointed.subjects] : []), [pointed]);

  return (
    <section className="viewer" aria-label={`Sheet ${drawing.title}`}>
      <ViewTools zooming={zooming} pages={pages} index={index} onPage={toPage} isInWords={isInWords} onInWords={onInWords} isWide={isWide} onWide={onWide} isTable={isTable} onTable={toTable} />
      <p id="sheet-meaning" className="unseen">{drawing.meaning} Arrow keys go from thing to thing, Enter opens its card, Escape leaves, plus and minus zoom. The button Read in words gives the same as text.</p>
      {isLate && <p className="late" role="status">{wanted === name ? 'Working out what the change does …' : `Working out the sheet ${drawingOf(wanted).title} …`}</p>}
      <div className="room" ref={room} data-in-words={isInWords || isTable ? '' : undefined} {...(isInWords || isTable ? {} : pan)}>
        {isTable && !isInWords ? <Suspense fallback={<p className="waiting">Opening the table …</p>}><FailuresView /></Suspense> : isInWords ? <SheetInWords id="sheet-words" title={drawing.title} pages={pages} /> : (
          <div className={isLate ? 'paper stale' : 'paper'} ref={paper} style={{ width: `${zooming.width}px` }} tabIndex={keys.focused ? -1 : 0} role="group" aria-label={`Drawing ${drawing.title}, page ${index + 1} of ${pages.length}`} aria-describedby="sheet-meaning"
            onKeyDown={keys.onKeyDown} onFocus={(event) => keys.onFocus(event.target)} onBlur={keys.onBlur}
            onClick={(event) => { if (event.target instanceof Element) takeHold(event.target, acts); }}
            onPointerOver={(event) => { if (event.pointerType === 'mouse' && event.target instanceof Element) setHovered(event.target.closest(meter.isOut || acts.now().joining !== undefined ? '[data-point]' : '[data-subject],[data-changed]') ?? undefined); }} onPointerLeave={() => setHovered(undefined)}>
            <div className="drawing"><DrawnPage study={study} pages={pages} index={index} next={next} palette={palette} live={live} /></div>
            <Overlay svg={svg} palette={palette} focused={keys.focused} hovered={hovered} selected={selected} probes={probes} lit={lit} drawn={`${study.revision} ${study.sheet.name} ${index} ${zooming.width} ${palette.name}`}>{dragged}</Overlay>
          </div>
        )}
      </div>
    </section>
  );
});

/** What the drawing says, each piece the same object for as long as it says the same. */
function useNewest(study: Study): { readonly study: Study; readonly live: Live; readonly next: string } {
  const changed = useBench('changed'), selected = useBench('selected');
  const next = useBench('next')?.do ?? '';
  const live = useMemo(() => ({ changed, selected }), [changed, selected]);
  return useMemo(() => ({ study, live, next }), [study, live, next]);
}

/** A mouse that takes hold of bare paper moves it; fingers scroll by themselves. */
function usePan(room: React.RefObject<HTMLDivElement | null>): { readonly onPointerDown: (event: PointerEvent) => void } {
  const onPointerDown = useCallback((event: PointerEvent) => {
    const element = room.current;
    if (!element || event.pointerType !== 'mouse' || event.button !== 0 || !(event.target instanceof Element) || event.target.closest('[data-subject],[data-point]')) return;
    const start = { x: event.clientX + element.scrollLeft, y: event.clientY + element.scrollTop };
    const move = (moved: globalThis.PointerEvent): void => { element.scrollTo(start.x - moved.clientX, start.y - moved.clientY); };
    const end = (): void => { removeEventListener('pointermove', move); removeEventListener('pointerup', end); };
    addEventListener('pointermove', move);
    addEventListener('pointerup', end);
  }, [room]);
  return { onPointerDown };
}
