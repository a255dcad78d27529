/** Diagrams laid out by a worker of their own: it takes seconds for a large build, and the worker of the analysis has edits to answer. */
import type { Graph, Placed } from '../../sheets/diagram/graph.ts';
import type { Layouter } from '../../sheets/diagram/lay-out.ts';

export type ToLayout = { readonly id: number; readonly graph: Graph };
export type FromLayout = { readonly id: number; readonly placed: Placed } | { readonly id: number; readonly error: string };

/** The part of a Worker that is used here. */
export interface LayoutWorker { postMessage(message: ToLayout): void; terminate(): void; onmessage: ((event: MessageEvent<FromLayout>) => void) | null; onerror: ((event: ErrorEvent) => void) | null }

/** @returns lays out by a worker that is made when it is first needed, and anew after it has failed; what waited for it then is rejected */
export function layoutsFrom(make: () => LayoutWorker): Layouter {
  let worker: LayoutWorker | undefined;
  let id = 0;
  const waiting = new Map<number, { readonly resolve: (placed: Placed) => void; readonly reject: (error: Error) => void }>();
  const running = (): LayoutWorker => {
    if (worker) return worker;
    worker = make();
    worker.onmessage = ({ data }) => {
      const asked = waiting.get(data.id);
      waiting.delete(data.id);
      if ('placed' in data) asked?.resolve(data.placed);
      else asked?.reject(new Error(data.error));
    };
    worker.onerror = (event) => {
      event.preventDefault();
      worker?.terminate();
      worker = undefined;
      const lost = [...waiting.values()];
      waiting.clear();
      for (const { reject } of lost) reject(new Error('The layout of the diagram stopped. Turn to the sheet again.'));
    };
    return worker;
  };
  return (graph) => new Promise((resolve, reject) => {
    waiting.set(++id, { resolve, reject });
    running().postMessage({ id, graph });
  });
}
