/** The worker that lays out diagrams, one after the other. */
import { layOutHere } from '../../sheets/diagram/lay-out.ts';
import type { ToLayout } from './layouts.ts';
import type { FromWorker } from './protocol.ts';

self.addEventListener('message', ({ data: { id, graph } }: MessageEvent<ToLayout>) => {
  const say = (message: FromWorker): void => self.postMessage(message);
  layOutHere(graph).then((answer) => say({ id, answer }), (error: unknown) => say({ id, error: error instanceof Error ? error.message : String(error) }));
});
