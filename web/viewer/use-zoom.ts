/** The paper's size on the desk: buttons, keys, ctrl-wheel, two fingers. The point under the pointer stays where it is. */
import { useCallback, useEffect, useLayoutEffect, useMemo, useRef, useState } from 'react';
import type { RefObject } from 'react';
import { page } from '../../sheets/frame/page-size.ts';
import { LIFE_SIZE, scaleOf, scrollToKeep, zoomed, zoomStep } from './zoom.ts';
import type { Zoom } from './zoom.ts';

export interface Zooming {
  /** [px] */
  readonly width: number;
  readonly zoom: Zoom;
  /** 100 is as large as on A3 paper */
  readonly percent: number;
  readonly step: (direction: 1 | -1) => void;
  readonly fit: () => void;
  readonly lifeSize: () => void;
}

interface Point { readonly x: number; readonly y: number }

export function useZoom(room: RefObject<HTMLDivElement | null>): Zooming {
  const [zoom, setZoom] = useState<Zoom>('fit');
  const [roomWidth, setRoomWidth] = useState(0);
  const scale = scaleOf(zoom, roomWidth);
  const now = useRef(scale);
  const keep = useRef<{ readonly at: Point; readonly before: number } | undefined>(undefined);

  useLayoutEffect(() => {
    const element = room.current;
    if (!element) return undefined;
    const measure = (): void => setRoomWidth(element.clientWidth - parseFloat(getComputedStyle(element).paddingLeft) - parseFloat(getComputedStyle(element).paddingRight));
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => observer.disconnect();
  }, [room]);

  useLayoutEffect(() => {
    const element = room.current;
    now.current = scale;
    if (!element || !keep.current) return;
    const { at, before } = keep.current;
    keep.current = undefined;
    element.scrollLeft = scrollToKeep(element.scrollLeft, at.x, before, scale);
    element.scrollTop = scrollToKeep(element.scrollTop, at.y, before, scale);
  }, [room, scale]);

  const to = useCallback((next: number, at?: Point) => {
    const element = room.current;
    if (!element) return;
    const box = element.getBoundingClientRect();
    keep.current = { at: at ? { x: at.x - box.left, y: at.y - box.top } : { x: box.width / 2, y: box.height / 2 }, before: now.current };
    setZoom(next);
  }, [room]);

  useEffect(() => {
    const element = room.current;
    if (!element) return undefined;
    const wheel = (event: WheelEvent): void => {
      if (!event.ctrlKey && !event.metaKey) return;
      event.preventDefault();
      to(zoomed(now.current, Math.exp(-event.deltaY * (event.deltaMode === 1 ? 0.05 : 0.0025))), { x: event.clientX, y: event.clientY });
    };
    let spread: { readonly distance: number; readonly scale: number } | undefined;
    const touches = (event: TouchEvent): { readonly distance: number; readonly middle: Point } | undefined => {
      const [a, b] = [event.touches[0], event.touches[1]];
      return a && b ? { distance: Math.hypot(a.clientX - b.clientX, a.clientY - b.clientY), middle: { x: (a.clientX + b.clientX) / 2, y: (a.clientY + b.clientY) / 2 } } : undefined;
    };
    const start = (event: TouchEvent): void => { const two = touches(event); spread = two && { distance: two.distance, scale: now.current }; };
    const move = (event: TouchEvent): void => {
      const two = touches(event);
      if (!two || !spread) return;
      event.preventDefault();
      to(zoomed(spread.scale, two.distance / spread.distance), two.middle);
    };
    element.addEventListener('wheel', wheel, { passive: false });
    element.addEventListener('touchstart', start, { passive: true });
    element.addEventListener('touchmove', move, { passive: false });
    return () => { element.removeEventListener('wheel', wheel); element.removeEventListener('touchstart', start); element.removeEventListener('touchmove', move); };
  }, [room, to]);

  return useMemo(() => ({
    zoom, width: scale * page.width, percent: Math.round((scale / LIFE_SIZE) * 100),
    step: (direction: 1 | -1) => to(zoomStep(now.current, direction)),
    fit: () => { keep.current = undefined; setZoom('fit'); },
    lifeSize: () => to(LIFE_SIZE),
  }), [zoom, scale, to]);
}
