import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { handsOn } from './hands.ts';

beforeEach(() => { vi.useFakeTimers(); });
afterEach(() => { vi.useRealTimers(); });

test('hands that never moved have rested, those that move again are waited for again', async () => {
  const target = new EventTarget();
  const { rested } = handsOn(target);
  await rested(1000);
  target.dispatchEvent(new Event('keydown'));
  let isOver = false;
  void rested(1000).then(() => { isOver = true; });
  await vi.advanceTimersByTimeAsync(900);
  target.dispatchEvent(new Event('input'));
  await vi.advanceTimersByTimeAsync(900);
  expect(isOver).toBe(false);
  await vi.advanceTimersByTimeAsync(101);
  expect(isOver).toBe(true);
});

test('tells of every touch until it is taken back', () => {
  const target = new EventTarget();
  const hear = vi.fn();
  const takeBack = handsOn(target).onMove(hear);
  target.dispatchEvent(new Event('pointerdown'));
  target.dispatchEvent(new Event('keydown'));
  takeBack();
  target.dispatchEvent(new Event('keydown'));
  expect(hear).toHaveBeenCalledTimes(2);
});
