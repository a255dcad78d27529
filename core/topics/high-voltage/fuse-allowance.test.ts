import { describe, expect, it } from 'vitest';
import type { ProtectionRole } from '../../part/role.ts';
import { fuseAllowance } from './fuse-allowance.ts';

const fuse = (style: ProtectionRole['style'], celsius: number) => ({
  ambient: celsius + 273.15,
  role: { element: 'link', a: 'in', b: 'out', style, rating: 200, voltageRating: undefined, breakingCapacity: undefined, minimumBreaking: undefined, timeConstantRating: undefined, meltingEnergy: undefined, clearingEnergy: undefined, ambient: undefined } satisfies ProtectionRole,
});

describe('fuseAllowance', () => {
  it('is nothing in air at which a fuse may carry nothing', () => {
    expect(fuseAllowance(fuse('partial_range', 130))).toEqual({ current: 0, varying: 0 });
  });

  it('is 0.8 of the rating for a full-range fuse up to 40 °C, 10 % less at 60 °C', () => {
    expect(fuseAllowance(fuse('full_range', 40)).current).toBeCloseTo(160, 9);
    expect(fuseAllowance(fuse('full_range', 60)).current).toBeCloseTo(144, 9);
  });

  it('follows the published ambient factors of a semiconductor fuse: 0.837 at 60 °C, 0.707 at 80 °C', () => {
    expect(fuseAllowance(fuse('partial_range', 60)).current / 160).toBeCloseTo(0.837, 3);
    expect(fuseAllowance(fuse('partial_range', 80)).varying / 120).toBeCloseTo(0.707, 3);
  });

  it('takes no credit for cold air', () => {
    for (const style of ['full_range', 'partial_range', 'blade'] as const) expect(fuseAllowance(fuse(style, -20)).current).toBeCloseTo(160, 9);
  });

  it('is cautious beside a maker’s derating of a blade fuse: 40 A becomes 34 A at 65 °C and 30 A at 85 °C', () => {
    expect(fuseAllowance(fuse('blade', 65)).current / 200).toBeLessThan(34 / 40);
    expect(fuseAllowance(fuse('blade', 85)).current / 200).toBeLessThan(30 / 40);
  });

  it('is the rating itself for what opens on a command', () => {
    expect(fuseAllowance(fuse('pyrotechnic', 90)).current).toBe(200);
  });
});
