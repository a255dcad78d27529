import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import type { Chances } from './protocol.ts';
import { sampler } from './sampling.ts';
import type { FromSampling, ToSampling } from './sampling-plan.ts';

beforeEach(() => { vi.useFakeTimers(); });
afterEach(() => { vi.useRealTimers(); });

const chances = (draws: number): Chances => ({ draws }) as unknown as Chances;

function setUp() {
  const sent: ToSampling[] = [];
  const told: [string, number][] = [];
  const workers: { onmessage: ((event: MessageEvent<FromSampling>) => void) | null; onerror: ((event: ErrorEvent) => void) | null; isOver: boolean }[] = [];
  const made = sampler(() => {
    const worker = { onmessage: null, onerror: null, isOver: false, postMessage: (message: ToSampling) => { sent.push(message); }, terminate: () => { worker.isOver = true; } } as (typeof workers)[number] & { postMessage: (message: ToSampling) => void; terminate: () => void };
    workers.push(worker);
    return worker;
  }, (text, { draws }) => { told.push([text, draws]); });
  const say = (message: FromSampling): void => workers.at(-1)?.onmessage?.({ data: message } as MessageEvent<FromSampling>);
  return { made, sent, told, workers, say };
}

test('draws for the last of several edits, once it is quiet', () => {
  const { made, sent } = setUp();
  made.restart('a');
  vi.advanceTimersByTime(1499);
  made.restart('b');
  vi.advanceTimersByTime(1499);
  expect(sent).toEqual([]);
  vi.advanceTimersByTime(1);
  expect(sent).toEqual([{ id: expect.any(Number), text: 'b' }]);
});

test('an edit stops the draws at once, and what they say afterwards is not told', () => {
  const { made, sent, told, say } = setUp();
  made.restart('a');
  vi.advanceTimersByTime(1500);
  const { id } = sent[0] as { id: number };
  say({ id, chances: chances(100) });
  made.restart('b');
  expect(sent).toHaveLength(2);
  expect(sent[1]).not.toHaveProperty('text');
  say({ id, chances: chances(200) });
  expect(told).toEqual([['a', 100]]);
});

test('a worker that fails is replaced at the next edit', () => {
  const { made, sent, workers } = setUp();
  made.restart('a');
  vi.advanceTimersByTime(1500);
  workers[0]?.onerror?.({ preventDefault: () => undefined } as ErrorEvent);
  expect(workers[0]?.isOver).toBe(true);
  made.restart('b');
  vi.advanceTimersByTime(1500);
  expect(workers).toHaveLength(2);
  expect(sent.at(-1)).toHaveProperty('text', 'b');
});

test('hands that move put the first draw off, and have a worker that draws wait', () => {
  const { made, sent } = setUp();
  made.restart('a');
  vi.advanceTimersByTime(1000);
  made.wait();
  vi.advanceTimersByTime(1499);
  expect(sent).toEqual([]);
  vi.advanceTimersByTime(1);
  expect(sent).toEqual([{ id: expect.any(Number), text: 'a' }]);
  made.wait();
  expect(sent.at(-1)).toEqual({ wait: 1500 });
  vi.advanceTimersByTime(5000);
  expect(sent).toHaveLength(2);
});
