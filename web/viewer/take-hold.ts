/** What happens when something on the drawing is taken hold of. */
import type { Acts, Bench } from '../bench.ts';

/** The red lead goes on first; once both are on, the red one moves and the black one stays, as on a bench. */
export function probeAt({ red, black, isOut }: Bench['meter'], point: string): Bench['meter'] {
  if (red === undefined || black !== undefined) return { isOut, red: point, black };
  return { isOut, red, black: point };
}

/** @returns false when there is nothing to take hold of */
export function takeHold(element: Element, acts: Acts): boolean {
  const { meter, joining } = acts.now();
  const point = element.closest('[data-point]')?.getAttribute('data-point');
  if (point != null && meter.isOut) {
    const next = probeAt(meter, point);
    acts.setMeter(next);
    acts.announce(next.red === point ? `Red lead on ${point}.` : `Black lead on ${point}.`);
    return true;
  }
  if (point != null && joining !== undefined) {
    acts.setJoining(point);
    return true;
  }
  const path = element.closest('[data-subject]')?.getAttribute('data-subject');
  if (path == null) return false;
  acts.select(path);
  return true;
}
