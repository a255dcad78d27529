/**
 * Limits that standards set for how long a fuse takes at a current. A real fuse lies between them; which one is not known.
 */
import { requireNotNegative, requirePositive } from './argument-rule.ts';

/** Time within which a fuse opens at a current; undefined: no limit is set on that side. */
export interface OpeningTime {
  /** it carries the current at least this long [s] */
  readonly atLeast: number | undefined;
  /** it opens within this time [s] */
  readonly atMost: number | undefined;
}

export type BladeFuse = 'regular' | 'maxi';

/**
 * Limits of the opening time of a blade fuse at a current.
 *
 * Between published multiples the limits of the neighbours are taken (a fuse never opens later at a higher current):
 * the longest time of the next lower multiple, the shortest of the next higher one.
 *
 * @param current  [A]
 * @param rating   [A]
 * @returns limits [s]; above the last multiple no shortest time is set
 * Source:  [iso-8820-3] table of opening times; regular blade: 160 % and 200 % seen, the rest from memory; maxi: a maker's 40 A sheet
 * Checked: checks/reference/fuse-factors.fuse-maker-guides.check.ts
 */
export function bladeOpeningTime(blade: BladeFuse, rating: number, current: number): OpeningTime {
  requirePositive({ rating });
  requireNotNegative({ current });
  const ratio = current / rating;
  const rows = bladeRows[blade];
  const lower = rows.filter((row) => row.ratio <= ratio * (1 + 1e-9)).at(-1);
  const higher = rows.find((row) => row.ratio >= ratio * (1 - 1e-9));
  return { atLeast: higher?.shortest, atMost: lower?.longest };
}

/** Published multiples of the rating with the shortest and longest opening time [s]. */
export const bladeRows: Readonly<Record<BladeFuse, readonly { readonly ratio: number; readonly shortest: number; readonly longest: number | undefined }[]>> = {
  regular: [
    { ratio: 1.1, shortest: 360_000, longest: undefined },
    { ratio: 1.35, shortest: 0.75, longest: 600 },
    { ratio: 1.6, shortest: 0.25, longest: 50 },
    { ratio: 2, shortest: 0.15, longest: 5 },
    { ratio: 3.5, shortest: 0.04, longest: 0.5 },
    { ratio: 6, shortest: 0.02, longest: 0.1 },
  ],
  maxi: [
    { ratio: 1, shortest: 360_000, longest: undefined },
    { ratio: 1.35, shortest: 60, longest: 1800 },
    { ratio: 2, shortest: 2, longest: 50 },
    { ratio: 3.5, shortest: 0.2, longest: 7 },
    { ratio: 6, shortest: 0.04, longest: 1 },
  ],
};

/**
 * Conventional currents of a full-range (gG) fuse: what it must carry, and what must open it, within the conventional time.
 *
 * @param rating  [A], 16 or more
 * @returns currents [A] and time [s]; undefined below 16 A, where the table differs
 * Source:  [iec-60269-1] table 2: 1.25 and 1.6 times; 1 h up to 63 A, 2 h to 160, 3 h to 400, 4 h above; from memory
 */
export function conventionalCurrents(rating: number): { readonly carries: number; readonly opensAt: number; readonly time: number } | undefined {
  requirePositive({ rating });
  if (rating < 16) return undefined;
  const hours = rating <= 63 ? 1 : rating <= 160 ? 2 : rating <= 400 ? 3 : 4;
  return { carries: 1.25 * rating, opensAt: 1.6 * rating, time: hours * 3600 };
}

/** Gates of gG fuses [A]: carries 10 s, opens within 5 s, carries 0.1 s, opens within 0.1 s. [iec-60269-1] table 3, from memory. */
export const generalFuseGates: readonly { readonly rating: number; readonly carries10s: number; readonly opens5s: number; readonly carriesTenth: number; readonly opensTenth: number }[] = [
  { rating: 16, carries10s: 33, opens5s: 65, carriesTenth: 85, opensTenth: 150 },
  { rating: 32, carries10s: 75, opens5s: 150, carriesTenth: 200, opensTenth: 350 },
  { rating: 63, carries10s: 160, opens5s: 320, carriesTenth: 450, opensTenth: 820 },
  { rating: 100, carries10s: 290, opens5s: 580, carriesTenth: 820, opensTenth: 1450 },
  { rating: 160, carries10s: 460, opens5s: 950, carriesTenth: 1450, opensTenth: 2590 },
  { rating: 250, carries10s: 750, opens5s: 1650, carriesTenth: 2590, opensTenth: 4500 },
  { rating: 400, carries10s: 1420, opens5s: 2840, carriesTenth: 4500, opensTenth: 8060 },
];

/**
 * Currents that surely open a full-range (gG) fuse of any rating within 5 s and within 0.1 s: of the next larger size of the table,
 * above 400 A the multiples of the 400 A row.
 *
 * @param rating  [A]
 * @returns [A]
 * Source:  as `generalFuseGates`
 */
export function surelyOpens(rating: number): { readonly within5s: number; readonly withinTenth: number } {
  requirePositive({ rating });
  const last = generalFuseGates[generalFuseGates.length - 1]!;
  const gate = generalFuseGates.find((row) => row.rating >= rating);
  const scale = gate ? 1 : rating / last.rating;
  return { within5s: (gate ?? last).opens5s * scale, withinTenth: (gate ?? last).opensTenth * scale };
}

/**
 * Limits of the opening time of a full-range (gG) fuse at a current.
 *
 * @returns limits [s]; undefined when the rating has no row in the gate table
 * Source:  [iec-60269-1] tables 2 and 3, from memory
 */
export function generalFuseOpeningTime(rating: number, current: number): OpeningTime | undefined {
  requireNotNegative({ current });
  const gate = generalFuseGates.find((row) => row.rating === rating);
  const conventional = conventionalCurrents(rating);
  if (gate === undefined || conventional === undefined) return undefined;
  const atMost = current >= gate.opensTenth ? 0.1 : current >= gate.opens5s ? 5 : current >= conventional.opensAt ? conventional.time : undefined;
  const atLeast = current <= conventional.carries ? conventional.time : current <= gate.carries10s ? 10 : current <= gate.carriesTenth ? 0.1 : undefined;
  return { atLeast, atMost };
}
