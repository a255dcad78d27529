/** Chances of the text as it stands: drawn while the builder thinks, finer with every step, begun anew after every edit. */
import { useEffect, useRef, useState } from 'react';
import type { Bench } from '../bench.ts';
import type { Hands } from '../people/hands.ts';
import type { Chances } from './protocol.ts';
import type { FromSampling, ToSampling } from './sampling-plan.ts';

/** from the last edit to the first draw [ms] */
const QUIET = 1500;

/** The part of a Worker that is used here. */
export interface SamplingWorker { postMessage(message: ToSampling): void; terminate(): void; onmessage: ((event: MessageEvent<FromSampling>) => void) | null; onerror: ((event: ErrorEvent) => void) | null }

export interface Sampler {
  /** Draws for this text after a while without another one; what was being drawn is dropped at once. */
  readonly restart: (text: string) => void;
  readonly stop: () => void;
  /** The builder's hands move: draws wait until they have rested, and go on where they were. */
  readonly wait: () => void;
  readonly close: () => void;
}

/** @param told  is given the chances of the text last asked for, and of no other */
export function sampler(make: () => SamplingWorker, told: (text: string, chances: Chances) => void): Sampler {
  let worker: SamplingWorker | undefined;
  let id = 0;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let asked = '';
  let next: (() => void) | undefined;
  const later = (): void => { clearTimeout(timer); if (next) timer = setTimeout(next, QUIET); };
  const stop = (): void => {
    next = undefined;
    later();
    id++;
    worker?.postMessage({ id });
  };
  return {
    stop,
    restart: (text) => {
      stop();
      next = () => {
        next = undefined;
        asked = text;
        if (!worker) {
          worker = make();
          worker.onmessage = ({ data }) => { if (data.id === id && 'chances' in data) told(asked, data.chances); };
          // without the worker there are no chances; the next edit tries again
          worker.onerror = (event) => { event.preventDefault(); worker?.terminate(); worker = undefined; };
        }
        worker.postMessage({ id, text });
      };
      later();
    },
    wait: () => { later(); worker?.postMessage({ wait: QUIET }); },
    close: () => { clearTimeout(timer); worker?.terminate(); worker = undefined; },
  };
}

/** Chances of the text of `study`; undefined until the first step of its draws is made. */
export function useChances({ text, study, isStale }: Pick<Bench, 'text' | 'study' | 'isStale'>, hands: Hands): Chances | undefined {
  const [known, setKnown] = useState<{ readonly text: string; readonly chances: Chances }>();
  const running = useRef<Sampler>(undefined);
  useEffect(() => {
    const made = sampler(() => new Worker(new URL('./sampling-worker.ts', import.meta.url), { type: 'module', name: 'draws' }), (of, chances) => setKnown({ text: of, chances }));
    running.current = made;
    const deaf = hands.onMove(made.wait);
    return () => { running.current = undefined; deaf(); made.close(); };
  }, [hands]);
  const isReady = study !== undefined && !isStale && !study.isEmpty;
  useEffect(() => {
    if (isReady) running.current?.restart(text);
    else running.current?.stop();
  }, [text, isReady]);
  return known?.text === text && !isStale ? known.chances : undefined;
}
