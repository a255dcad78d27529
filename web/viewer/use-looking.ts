/** A changed number counts as looked at when the pointer rests on it, or the focus does, for a moment. */
import { useEffect, useRef } from 'react';
import { useActs } from '../bench.ts';

/** [ms] */
const MOMENT = 700;

export function useLooking(...at: readonly (Element | undefined)[]): void {
  const { lookedAt } = useActs();
  const rests = useRef<{ readonly on: string; readonly timer: ReturnType<typeof setTimeout> | undefined }>({ on: '', timer: undefined });
  // once it is drawn: a mark may have come under what has the focus already
  useEffect(() => {
    const keys = [...new Set(at.flatMap((element) => keysAt(element)))];
    const on = keys.join('\n');
    if (on === rests.current.on) return;
    clearTimeout(rests.current.timer);
    rests.current = { on, timer: on === '' ? undefined : setTimeout(() => lookedAt(keys), MOMENT) };
  });
  useEffect(() => () => clearTimeout(rests.current.timer), []);
}

/** The number itself, or the numbers within what has the focus. */
function keysAt(element: Element | undefined): string[] {
  if (!element?.isConnected) return [];
  const around = element.closest('[data-changed]');
  const within = around ? [around] : [...element.querySelectorAll('[data-changed]')];
  return within.map((one) => one.getAttribute('data-key')).filter((key) => key !== null);
}
