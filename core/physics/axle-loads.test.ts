import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { axleLoads, gravityHeight, loadTransfer } from './axle-loads.ts';

const weighed = { front: 600, rear: 400, rightShare: 0.5 };

describe('axleLoads', () => {
  it('are the weighed ones when nothing changes', () => {
    expect(axleLoads(weighed, [], 2.5, 1.5)).toMatchObject({ outcome: 'loads', front: 600, rear: 400, left: 500, right: 500, total: 1000, x: 1, y: 0 });
  });
  it('say no_mass when everything was taken out', () => {
    expect(axleLoads(weighed, [{ mass: -1000, x: 1, y: 0 }], 2.5, 1.5)).toEqual({ outcome: 'no_mass', total: 0 });
  });
  it('put a mass over an axle on that axle alone, and one behind the rear axle lifts the front', () => {
    expect(axleLoads(weighed, [{ mass: 50, x: 2.5, y: 0 }], 2.5, 1.5)).toMatchObject({ front: 600, rear: 450 });
    const behind = axleLoads(weighed, [{ mass: 50, x: 3, y: 0 }], 2.5, 1.5);
    expect(behind.outcome === 'loads' && behind.front).toBeCloseTo(590, 9);
  });
  it('put a mass over the right wheels on the right side', () => {
    const found = axleLoads(weighed, [{ mass: 50, x: 0, y: 0.75 }], 2.5, 1.5);
    expect(found).toMatchObject({ left: 500, right: 550 });
  });
  it('keep force and both moments in balance for any changes', () => {
    const mass = fc.record({ mass: fc.double({ min: -50, max: 200, noNaN: true }), x: fc.double({ min: -1, max: 4, noNaN: true }), y: fc.double({ min: -1, max: 1, noNaN: true }) });
    fc.assert(fc.property(fc.array(mass, { maxLength: 8 }), (changes) => {
      const found = axleLoads({ front: 600, rear: 400, rightShare: 0.52 }, changes, 2.5, 1.5);
      if (found.outcome !== 'loads') return;
      expect(found.front + found.rear).toBeCloseTo(found.total, 9);
      expect(found.left + found.right).toBeCloseTo(found.total, 9);
      expect(found.rear * 2.5).toBeCloseTo(found.total * found.x, 6);
      expect(((found.right - found.left) * 1.5) / 2).toBeCloseTo(found.total * found.y, 6);
    }));
  });
});

describe('gravityHeight', () => {
  it('is the wheel radius when raising moves no load', () => {
    expect(gravityHeight({ front: 600, rear: 600, onScale: 'front', raisedReading: 600, lift: 0.5, wheelbase: 2.5, wheelRadius: 0.3 }).height).toBe(0.3);
  });
  it('refuses a lift as long as the wheelbase', () => {
    expect(() => gravityHeight({ front: 1, rear: 1, onScale: 'rear', raisedReading: 1, lift: 2.5, wheelbase: 2.5, wheelRadius: 0.3 })).toThrow('below the wheelbase');
  });
});

describe('loadTransfer', () => {
  it('turns round with the direction', () => {
    expect(loadTransfer(1000, -3, 0.5, 2.5)).toBe(-600);
  });
});
