/** Values that take their time, so that what matters more is on the screen first. */
import { useEffect, useState } from 'react';

/**
 * The value before, until a frame with everything else has been painted; then the newest.
 * Of values that follow each other faster than frames, only the last is taken.
 */
export function useAfterPaint<T>(newest: T): T {
  const [taken, take] = useState(newest);
  useEffect(() => {
    if (taken === newest) return undefined;
    let timer: ReturnType<typeof setTimeout> | undefined;
    // a frame is painted after its callbacks have run: what is put off from there comes after it
    const frame = requestAnimationFrame(() => { timer = setTimeout(() => take(() => newest)); });
    return () => { cancelAnimationFrame(frame); clearTimeout(timer); };
  }, [taken, newest]);
  return taken;
}

/** True when the condition has lasted for so long [ms]: what is over at once is not worth telling. */
export function useLasting(condition: boolean, long: number): boolean {
  const [hasLasted, setLasted] = useState(false);
  useEffect(() => {
    if (!condition) { setLasted(false); return undefined; }
    const timer = setTimeout(() => setLasted(true), long);
    return () => clearTimeout(timer);
  }, [condition, long]);
  return hasLasted && condition;
}
