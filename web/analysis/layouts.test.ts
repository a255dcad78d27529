import { expect, test } from 'vitest';
import { layoutsFrom } from './layouts.ts';
import type { ToLayout } from './layouts.ts';
import type { FromWorker } from './protocol.ts';
import type { WorkerLike } from './worker-link.ts';

const graph = { nodes: [], edges: [] };
const placed = (width: number) => ({ width, height: 0, nodes: {}, edges: [] });

function setUp() {
  const workers: (WorkerLike & { readonly sent: ToLayout[]; isOver: boolean })[] = [];
  const layOut = layoutsFrom(() => {
    const sent: ToLayout[] = [];
    const worker = { sent, isOver: false, onmessage: null, onerror: null, postMessage: (message: unknown) => { sent.push(message as ToLayout); }, terminate: () => { worker.isOver = true; } } as (typeof workers)[number];
    workers.push(worker);
    return worker;
  });
  const say = (message: FromWorker): void => workers.at(-1)!.onmessage!({ data: message } as MessageEvent<FromWorker>);
  return { layOut, workers, say };
}

test('answers find who asked, whatever their order, and one worker serves all', async () => {
  const { layOut, workers, say } = setUp();
  const [one, two] = [layOut(graph), layOut(graph)];
  const [first, second] = workers[0]!.sent;
  say({ id: second!.id, answer: placed(2) });
  say({ id: first!.id, answer: placed(1) });
  expect([(await one).width, (await two).width]).toEqual([1, 2]);
  expect(workers).toHaveLength(1);
});

test('what cannot be laid out says why', async () => {
  const { layOut, workers, say } = setUp();
  const asked = layOut(graph);
  say({ id: workers[0]!.sent[0]!.id, error: 'no port of that name' });
  await expect(asked).rejects.toThrow('no port of that name');
});

test('a worker that fails lets those who wait know, and the next one asks another', async () => {
  const { layOut, workers, say } = setUp();
  const lost = layOut(graph);
  workers[0]!.onerror!({ preventDefault: () => undefined } as ErrorEvent);
  await expect(lost).rejects.toThrow('stopped');
  expect(workers[0]!.isOver).toBe(true);
  const next = layOut(graph);
  say({ id: workers[1]!.sent[0]!.id, answer: placed(3) });
  expect((await next).width).toBe(3);
});
