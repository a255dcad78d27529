/** How many pulses a fuse outlives. */
import { requireNotNegative, requirePositive } from './argument-rule.ts';

/** Published points: number of pulses, and the share of the fuse's nominal melting I²t that one pulse may have. */
export const pulseLife: readonly (readonly [pulses: number, share: number])[] = [[100, 0.48], [1000, 0.38], [10_000, 0.29], [100_000, 0.22]];

export type PulseShare = { readonly outcome: 'share'; readonly share: number } | { readonly outcome: 'outside_table'; readonly lowest: number; readonly highest: number };

/**
 * Share of a fuse's nominal melting I²t that each of a number of pulses may have.
 *
 * @param pulses  over the fuse's life
 * @returns share [1], straight between published points over the logarithm of the number; fewer than 100 pulses count as 100;
 *          `outside_table` above 100 000
 * Range:   at least 10 s between pulses, so that the fuse cools
 * Source:  [fuse-maker-guides] chart 2, pulse cycle withstand
 * Checked: checks/reference/fuse-factors.fuse-maker-guides.check.ts
 */
export function pulseShare(pulses: number): PulseShare {
  requirePositive({ pulses });
  const first = pulseLife[0]!;
  const last = pulseLife[pulseLife.length - 1]!;
  if (pulses > last[0]) return { outcome: 'outside_table', lowest: first[0], highest: last[0] };
  if (pulses <= first[0]) return { outcome: 'share', share: first[1] };
  const index = pulseLife.findIndex(([count]) => count >= pulses);
  const [countLow, shareLow] = pulseLife[index - 1]!;
  const [countHigh, shareHigh] = pulseLife[index]!;
  return { outcome: 'share', share: shareLow + (shareHigh - shareLow) * (Math.log(pulses / countLow) / Math.log(countHigh / countLow)) };
}

export type PulsesOutlived =
  | { readonly outcome: 'pulses'; readonly pulses: number }
  /** lighter than the last published point: at least `atLeast` pulses */
  | { readonly outcome: 'more_than_table'; readonly atLeast: number }
  /** heavier than the first published point: fewer than `fewerThan` pulses, perhaps one */
  | { readonly outcome: 'fewer_than_table'; readonly fewerThan: number };

/**
 * Number of pulses of a given I²t that a fuse outlives.
 *
 * @param heating        I²t of one pulse [A2.s]
 * @param meltingEnergy  nominal melting I²t of the fuse [A2.s]
 * Source, Checked: as `pulseShare`
 */
export function pulsesOutlived(heating: number, meltingEnergy: number): PulsesOutlived {
  requireNotNegative({ heating });
  requirePositive({ meltingEnergy });
  const share = heating / meltingEnergy;
  const first = pulseLife[0]!;
  const last = pulseLife[pulseLife.length - 1]!;
  if (share > first[1]) return { outcome: 'fewer_than_table', fewerThan: first[0] };
  if (share < last[1]) return { outcome: 'more_than_table', atLeast: last[0] };
  const index = Math.max(1, pulseLife.findIndex(([, published]) => published <= share));
  const [countLow, shareLow] = pulseLife[index - 1]!;
  const [countHigh, shareHigh] = pulseLife[index]!;
  return { outcome: 'pulses', pulses: countLow * (countHigh / countLow) ** ((share - shareLow) / (shareHigh - shareLow)) };
}

/**
 * Current of an overload that a fuse outlives, from the current that melts it after the same time.
 *
 * Occasional overloads (fewer than about one a day, from memory) may come nearer than ones that repeat.
 *
 * @param meltingCurrent  current that melts the fuse in the overload's time, from the maker's curve [A]
 * @returns [A]; factors 0.6 (repeated) and 0.8 (occasional) as printed on one 1000 V sheet: other fuses have their own
 * Source:  [fuse-maker-guides] appendix a: B2 and Cf3
 * Checked: checks/reference/fuse-factors.fuse-maker-guides.check.ts
 */
export function fuseOverloadCurrent(meltingCurrent: number, comes: 'repeatedly' | 'occasionally'): number {
  requireNotNegative({ meltingCurrent });
  return meltingCurrent * (comes === 'repeatedly' ? 0.6 : 0.8);
}
