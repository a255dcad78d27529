/** What happens when something on the drawing is taken hold of. */
import type { Bench } from '../bench.ts';

/** The red lead goes on first; once both are on, the red one moves and the black one stays, as on a bench. */
export function probeAt({ red, black, isOut }: Bench['meter'], point: string): Bench['meter'] {
  if (red === undefined || black !== undefined) return { isOut, red: point, black };
  return { isOut, red, black: point };
}

/** @returns false when there is nothing to take hold of */
export function takeHold(element: Element, bench: Bench): boolean {
  const point = element.closest('[data-point]')?.getAttribute('data-point');
  if (point != null && bench.meter.isOut) {
    const next = probeAt(bench.meter, point);
    bench.setMeter(next);
    bench.announce(next.red === point ? `Red lead on ${point}.` : `Black lead on ${point}.`);
    return true;
  }
  if (point != null && bench.joining !== undefined) {
    bench.setJoining(point);
    return true;
  }
  const path = element.closest('[data-subject]')?.getAttribute('data-subject');
  if (path == null) return false;
  bench.select(path);
  return true;
}
