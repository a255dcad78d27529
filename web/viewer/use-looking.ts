/** A changed number counts as looked at when the pointer rests on it, or the focus does, for a moment. */
import { useEffect, useRef } from 'react';
import type { Bench } from '../bench.ts';

/** [ms] */
const MOMENT = 700;

export function useLooking(bench: Pick<Bench, 'lookedAt'>, ...at: readonly (Element | undefined)[]): void {
  const looked = useRef(bench.lookedAt);
  looked.current = bench.lookedAt;
  const keys = [...new Set(at.flatMap((element) => keysAt(element)))].join('\n');
  useEffect(() => {
    if (keys === '') return undefined;
    const timer = setTimeout(() => looked.current(keys.split('\n')), MOMENT);
    return () => clearTimeout(timer);
  }, [keys]);
}

/** The number itself, or the numbers within what has the focus. */
function keysAt(element: Element | undefined): string[] {
  if (!element?.isConnected) return [];
  const around = element.closest('[data-changed]');
  const within = around ? [around] : [...element.querySelectorAll('[data-changed]')];
  return within.map((one) => one.getAttribute('data-key')).filter((key) => key !== null);
}
