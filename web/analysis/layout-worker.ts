/** The worker that lays out diagrams, one after the other. */
import { layOutHere } from '../../sheets/diagram/lay-out.ts';
import type { FromLayout, ToLayout } from './layouts.ts';

self.addEventListener('message', ({ data: { id, graph } }: MessageEvent<ToLayout>) => {
  const say = (message: FromLayout): void => self.postMessage(message);
  layOutHere(graph).then((placed) => say({ id, placed }), (error: unknown) => say({ id, error: error instanceof Error ? error.message : String(error) }));
});
