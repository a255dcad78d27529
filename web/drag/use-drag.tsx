/**
 * Moving a part on the drawing: with the pointer, or taken up with M and moved with the arrow keys. What is moved is shown as a
 * frame over the sheet; the file changes when it is put down, as one step.
 */
import { useEffect, useState } from 'react';
import type { ReactNode, RefObject } from 'react';
import { page } from '../../sheets/frame/page-size.ts';
import { moveInView } from '../../sheets/layout/views.ts';
import { useActs, useBench } from '../bench.ts';
import type { Acts } from '../bench.ts';
import { Ghost } from './ghost.tsx';
import { further, heldStill, inWords, nameOf, putDown, snapped, takenFrom } from './taken.ts';
import type { Taken } from './taken.ts';

/** Grid of a drag and step of an arrow key [m]; with Alt held the grid is finer. */
const SNAP = 0.01;
const FINE = 0.001;
const FAR = 0.05;
/** held still for so long, it may be about to be put down [ms] */
const STILL = 60;
/** the pointer must go this far before a press becomes a drag [px] */
const SLACK = 4;

/** @returns the frame of what is being moved, to be drawn over the sheet */
export function useDrag(svg: RefObject<SVGSVGElement | null>): ReactNode {
  const [taken, setTaken] = useState<Taken>();
  const [drawing, setDrawing] = useState<SVGSVGElement | null>(null);
  const acts = useActs();
  const palette = useBench('palette'), { units } = useBench('choices');
  useEffect(() => { if (svg.current !== drawing) setDrawing(svg.current); });
  useEffect(() => (drawing ? listen(drawing, acts, setTaken) : undefined), [drawing, acts]);
  return taken ? <Ghost taken={taken} palette={palette} words={inWords(taken.moved, units)} /> : null;
}

/** @returns what takes the listeners away again */
function listen(drawing: SVGSVGElement, acts: Acts, show: (taken: Taken | undefined) => void): () => void {
  let now: Taken | undefined;
  let still: ReturnType<typeof setTimeout> | undefined;
  const take = (next: Taken | undefined): void => {
    now = next;
    show(next);
    clearTimeout(still);
    if (next) still = setTimeout(() => heldStill(next, acts), STILL);
  };
  const drop = (): void => {
    const last = now;
    take(undefined);
    if (last) void putDown(last, acts);
  };
  const cancel = (): void => { if (now) acts.announce('Put back where it was.'); take(undefined); };
  const unlisten = [byPointer(drawing, acts, take, drop, cancel), byKeys(drawing, acts, () => now, take, drop, cancel)];
  return () => { for (const end of unlisten) end(); };
}

type Take = (next: Taken | undefined) => void;

function byPointer(drawing: SVGSVGElement, acts: Acts, take: Take, drop: () => void, cancel: () => void): () => void {
  let press: { readonly x: number; readonly y: number; readonly start: Taken; isMoving: boolean } | undefined;
  const down = (event: PointerEvent): void => {
    const { meter, joining, selected } = acts.now();
    if (event.button !== 0 || meter.isOut || joining !== undefined) return;
    const start = event.target instanceof Element ? takenFrom(event.target, drawing, 'pointer') : undefined;
    if (!start) return;
    // a finger scrolls the paper, and moves a part only when its card is open
    if (event.pointerType === 'touch' && selected?.split('.').slice(0, 2).join('.') !== start.path) return;
    drop();
    press = { x: event.clientX, y: event.clientY, start, isMoving: false };
    addEventListener('pointermove', move);
    addEventListener('pointerup', up);
    addEventListener('pointercancel', stop);
    addEventListener('keydown', escape, true);
  };
  const move = (event: PointerEvent): void => {
    if (!press) return;
    const [dx, dy] = [event.clientX - press.x, event.clientY - press.y];
    if (!press.isMoving && Math.hypot(dx, dy) < SLACK) return;
    press.isMoving = true;
    event.preventDefault();
    const perPixel = page.width / drawing.getBoundingClientRect().width;
    const { start } = press;
    take({ ...start, moved: snapped(moveInView(start.view, start.scale, dx * perPixel, dy * perPixel), event.altKey ? FINE : SNAP) });
  };
  const release = (): void => {
    press = undefined;
    removeEventListener('pointermove', move);
    removeEventListener('pointerup', up);
    removeEventListener('pointercancel', stop);
    removeEventListener('keydown', escape, true);
  };
  const up = (): void => {
    const wasMoving = press?.isMoving === true;
    release();
    if (!wasMoving) return;
    swallowClick();
    drop();
  };
  const stop = (): void => { release(); cancel(); };
  const escape = (event: KeyboardEvent): void => {
    if (event.key !== 'Escape') return;
    event.stopPropagation();
    event.preventDefault();
    if (press?.isMoving) addEventListener('pointerup', swallowClick, { once: true });
    stop();
  };
  const hold = (event: TouchEvent): void => { if (press) event.preventDefault(); };
  drawing.addEventListener('pointerdown', down);
  drawing.addEventListener('touchmove', hold, { passive: false });
  return () => { release(); drawing.removeEventListener('pointerdown', down); drawing.removeEventListener('touchmove', hold); };
}

/** The click that follows a drag is its end, not a wish to open the card. */
function swallowClick(): void {
  const swallow = (event: MouseEvent): void => { event.stopPropagation(); event.preventDefault(); };
  addEventListener('click', swallow, { capture: true, once: true });
  setTimeout(() => removeEventListener('click', swallow, true), 0);
}

/** Across and down on the paper. */
const directions: Readonly<Record<string, readonly [number, number]>> = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

function byKeys(drawing: SVGSVGElement, acts: Acts, held: () => Taken | undefined, take: Take, drop: () => void, cancel: () => void): () => void {
  const isUp = (): boolean => held()?.by === 'keys';
  const takeUp = (event: KeyboardEvent): boolean => {
    if (event.key.toLowerCase() !== 'm' || event.ctrlKey || event.metaKey || event.altKey) return false;
    const start = event.target instanceof Element ? takenFrom(event.target, drawing, 'keys') : undefined;
    if (!start) return false;
    take(start);
    acts.announce(`${nameOf(start.path)} taken up. Arrow keys move it by 10 mm, with Shift by 1 mm, with Control by 50 mm. Enter puts it down, Escape puts it back.`);
    return true;
  };
  const move = (event: KeyboardEvent): boolean => {
    const [direction, now] = [directions[event.key], held()];
    if (!direction || !now) return false;
    const mm = ((event.ctrlKey ? FAR : event.shiftKey ? FINE : SNAP) * 1000) / now.scale;
    const moved = further(now.moved, moveInView(now.view, now.scale, direction[0] * mm, direction[1] * mm));
    take({ ...now, moved });
    acts.announce(inWords(moved, acts.now().choices.units));
    return true;
  };
  const end = (event: KeyboardEvent): boolean => {
    if (event.key === 'Escape') cancel();
    else if (event.key === 'Enter' || event.key === ' ' || event.key.toLowerCase() === 'm') drop();
    else return false;
    return true;
  };
  const keys = (event: KeyboardEvent): void => {
    if (isUp() ? !move(event) && !end(event) : !takeUp(event)) return;
    event.preventDefault();
    event.stopPropagation();
  };
  const left = (event: FocusEvent): void => {
    if (isUp() && !(event.relatedTarget instanceof Node && drawing.contains(event.relatedTarget))) drop();
  };
  drawing.addEventListener('keydown', keys, true);
  drawing.addEventListener('focusout', left);
  return () => { drawing.removeEventListener('keydown', keys, true); drawing.removeEventListener('focusout', left); };
}
