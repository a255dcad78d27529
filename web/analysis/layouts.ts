/** Diagrams laid out by a worker of their own: it takes seconds for a large build, and the worker of the analysis has edits to answer. */
import type { Graph, Placed } from '../../sheets/diagram/graph.ts';
import type { Layouter } from '../../sheets/diagram/lay-out.ts';
import { workerLink } from './worker-link.ts';
import type { WorkerLike } from './worker-link.ts';

export type ToLayout = { readonly id: number; readonly graph: Graph };

/** A large build on a slow machine may take half a minute [ms]. */
const LONGEST = 180_000;

/** @returns lays out by a worker that is made when it is first needed, and anew after it has failed; what waited for it then is rejected */
export function layoutsFrom(make: () => WorkerLike): Layouter {
  const link = workerLink(make, { stopped: 'The layout of the diagram stopped. Turn to the sheet again.', hung: 'The layout of the diagram took too long. Turn to the sheet again.' }, LONGEST);
  return (graph) => link.ask({ graph }) as Promise<Placed>;
}
