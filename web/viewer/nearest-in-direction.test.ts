import { describe, expect, it } from 'vitest';
import { nearestInDirection } from './nearest-in-direction.ts';
import type { Box } from './nearest-in-direction.ts';

const at = (x: number, y: number): Box => ({ left: x - 1, right: x + 1, top: y - 1, bottom: y + 1 });

describe('the nearest thing in a direction', () => {
  const boxes = [at(10, 0), at(20, 0), at(8, 9), at(0, -30), at(-5, 0)];
  it('is the one straight ahead rather than a closer one askew', () => expect(nearestInDirection(at(0, 0), boxes, 'right')).toBe(0));
  it('is never behind', () => {
    expect(nearestInDirection(at(0, 0), boxes, 'left')).toBe(4);
    expect(nearestInDirection(at(0, 0), boxes, 'up')).toBe(3);
    expect(nearestInDirection(at(0, -30), boxes, 'up')).toBeUndefined();
  });
  it('is never the thing itself', () => expect(nearestInDirection(at(10, 0), boxes, 'right')).toBe(1));
});
