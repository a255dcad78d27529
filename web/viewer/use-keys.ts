/**
 * The drawing by keyboard: one stop for Tab; the arrow keys go from thing to thing, Enter or Space takes hold, Escape leaves.
 */
import { useCallback, useState } from 'react';
import type { KeyboardEvent, RefObject } from 'react';
import { useActs } from '../bench.ts';
import { nearestInDirection } from './nearest-in-direction.ts';
import type { Direction } from './nearest-in-direction.ts';
import { boxOn } from './overlay.tsx';
import { takeHold } from './take-hold.ts';
import type { Zooming } from './use-zoom.ts';

const directions: Readonly<Record<string, Direction>> = { ArrowLeft: 'left', ArrowRight: 'right', ArrowUp: 'up', ArrowDown: 'down' };

export interface DrawingKeys { readonly focused: Element | undefined; readonly onKeyDown: (event: KeyboardEvent) => void; readonly onFocus: (target: Element) => void; readonly onBlur: () => void }

export function useKeys(svg: RefObject<SVGSVGElement | null>, paper: RefObject<HTMLElement | null>, zooming: Zooming, turn: (by: 1 | -1) => void): DrawingKeys {
  const [focused, setFocused] = useState<Element>();
  const acts = useActs();

  const things = useCallback((): SVGElement[] => {
    // while the meter is out or ports are being joined, only points matter
    const { meter, joining } = acts.now();
    const selector = meter.isOut || joining !== undefined ? '[data-point]' : '[data-subject]';
    return [...(svg.current?.querySelectorAll<SVGElement>(selector) ?? [])].filter((element) => element.hasAttribute('tabindex'));
  }, [svg, acts]);

  const onKeyDown = (event: KeyboardEvent): void => {
    const drawing = svg.current;
    if (!drawing || event.altKey || event.metaKey || event.ctrlKey) return;
    const direction = directions[event.key];
    const inside = focused?.isConnected ? focused : undefined;
    if (direction) {
      event.preventDefault();
      const all = things().filter((element) => element !== inside);
      const from = inside ? boxOn(drawing, inside) : { left: 0, right: 0, top: 0, bottom: 0 };
      const next = inside ? nearestInDirection(from, all.map((element) => boxOn(drawing, element)), direction) : firstByPlace(all, drawing);
      const target = next === undefined ? undefined : all[next];
      target?.focus({ preventScroll: true });
      target?.scrollIntoView({ block: 'nearest', inline: 'nearest' });
      return;
    }
    switch (event.key) {
      case 'Enter': case ' ':
        if (inside) { event.preventDefault(); takeHold(inside, acts); }
        return;
      case 'Escape':
        if (inside) { event.preventDefault(); event.stopPropagation(); paper.current?.focus(); }
        return;
      case '+': case '=': event.preventDefault(); zooming.step(1); return;
      case '-': event.preventDefault(); zooming.step(-1); return;
      case '0': event.preventDefault(); zooming.fit(); return;
      case '1': event.preventDefault(); zooming.lifeSize(); return;
      case 'PageDown': event.preventDefault(); turn(1); return;
      case 'PageUp': event.preventDefault(); turn(-1); return;
    }
  };
  return { focused, onKeyDown, onFocus: (target) => setFocused(svg.current?.contains(target) && target !== svg.current ? target : undefined), onBlur: () => setFocused(undefined) };
}

/** Top left first. */
function firstByPlace(all: readonly Element[], drawing: SVGSVGElement): number | undefined {
  let best: { readonly index: number; readonly far: number } | undefined;
  for (const [index, element] of all.entries()) {
    const { left, top } = boxOn(drawing, element);
    const far = left + 2 * top;
    if (!best || far < best.far) best = { index, far };
  }
  return best?.index;
}
