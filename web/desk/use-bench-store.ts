/** Hands what the desk holds down to its pieces, so that each hears of what it reads and of nothing else. */
import { useLayoutEffect, useMemo, useRef } from 'react';
import type { Acts, Bench, BenchStore } from '../bench.ts';

/** @param acts  the same object from drawing to drawing */
export function useBenchStore(bench: Bench, acts: Omit<Acts, 'now'>): BenchStore {
  // pieces that are drawn together with the desk find what it holds there already
  const latest = useRef(bench);
  latest.current = bench;
  const hearers = useRef(new Set<() => void>());
  // the others are told before anything is painted
  useLayoutEffect(() => { hearers.current.forEach((hear) => hear()); });
  return useMemo((): BenchStore => ({
    acts: { ...acts, now: () => latest.current },
    subscribe: (hear) => { hearers.current.add(hear); return () => hearers.current.delete(hear); },
  }), [acts]);
}
