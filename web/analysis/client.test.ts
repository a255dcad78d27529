import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { analysisClient } from './client.ts';
import { WorkerStopped } from './worker-link.ts';
import type { WorkerLike } from './worker-link.ts';
import type { FromWorker } from './protocol.ts';

interface Asked { readonly id: number; readonly question: string; readonly text: string }

/** A worker that answers when told to. */
function bench() {
  const workers: { readonly asked: Asked[]; answer: (message: FromWorker) => void; crash: () => void; isOver: boolean }[] = [];
  const make = (): WorkerLike => {
    const worker: WorkerLike = { postMessage: (message) => { mine.asked.push(message as Asked); }, terminate: () => { mine.isOver = true; }, onmessage: null, onerror: null };
    const mine = { asked: [] as Asked[], isOver: false, answer: (message: FromWorker) => worker.onmessage?.({ data: message } as MessageEvent<FromWorker>), crash: () => worker.onerror?.({ preventDefault: () => undefined } as ErrorEvent) };
    workers.push(mine);
    return worker;
  };
  const restarts: string[] = [];
  return { workers, restarts, client: analysisClient(make, (why) => restarts.push(why)) };
}
const of = (text: string) => ({ text, sheet: 'cover' as const, choices: { units: { system: 'metric' as const }, state: {} } });

beforeEach(() => { vi.useFakeTimers(); });
afterEach(() => { vi.useRealTimers(); });

describe('the analysis client', () => {
  it('matches answers by number, in whatever order they come', async () => {
    const { workers, client } = bench();
    const [a, b] = [client.ask('findings', { text: 'a' }), client.ask('findings', { text: 'b' })];
    workers[0]?.answer({ id: 2, answer: 'for b' });
    workers[0]?.answer({ id: 1, answer: 'for a' });
    expect(await Promise.all([a, b])).toEqual(['for a', 'for b']);
  });
  it('makes only the newest of the studies that wait', async () => {
    const { workers, client } = bench();
    const studies = ['1', '2', '3'].map((text) => client.study(of(text)));
    workers[0]?.answer({ id: 1, answer: 'study 1' });
    await studies[0];
    await vi.advanceTimersByTimeAsync(0);
    workers[0]?.answer({ id: 2, answer: 'study 3' });
    expect(await Promise.all(studies)).toEqual(['study 1', undefined, 'study 3']);
    expect(workers[0]?.asked.map(({ text }) => text)).toEqual(['1', '3']);
  });
  it('makes the same study once, however often it is asked for, until another is, or until it went wrong', async () => {
    const { workers, client } = bench();
    const [one, two] = [of('1'), of('2')];
    const first = client.study(one);
    expect(client.study({ ...one })).toBe(first);
    workers[0]?.answer({ id: 1, answer: 'study 1' });
    expect(await client.study(one)).toBe('study 1');
    await vi.advanceTimersByTimeAsync(0);
    const wrong = expect(client.study(two)).rejects.toThrow('bad luck');
    workers[0]?.answer({ id: 2, error: 'bad luck' });
    await wrong;
    await vi.advanceTimersByTimeAsync(0);
    for (const [id, asked] of [[3, two], [4, one]] as const) {
      const again = client.study(asked);
      workers[0]?.answer({ id, answer: `study ${id}` });
      expect(await again).toBe(`study ${id}`);
      await vi.advanceTimersByTimeAsync(0);
    }
    expect(workers[0]?.asked.map(({ text }) => text)).toEqual(['1', '2', '2', '1']);
  });
  it('replaces a worker that crashed, tells it, and goes on', async () => {
    const { workers, client, restarts } = bench();
    const lost = client.study(of('1'));
    const refused = expect(lost).rejects.toBeInstanceOf(WorkerStopped);
    workers[0]?.crash();
    await refused;
    expect([workers[0]?.isOver, restarts.length]).toEqual([true, 1]);
    const next = client.study(of('2'));
    workers[1]?.answer({ id: 2, answer: 'study 2' });
    expect(await next).toBe('study 2');
  });
  it('replaces a worker that hangs', async () => {
    const { client, restarts } = bench();
    const refused = expect(client.ask('findings', { text: 'a' })).rejects.toThrow();
    await vi.advanceTimersByTimeAsync(31_000);
    await refused;
    expect(restarts).toEqual(['The analysis took too long and was started anew.']);
  });
  it('passes on what the worker says went wrong', async () => {
    const { workers, client } = bench();
    const asked = client.ask('findings', { text: 'a' });
    workers[0]?.answer({ id: 1, error: 'no such thing' });
    await expect(asked).rejects.toThrow('no such thing');
  });
});
