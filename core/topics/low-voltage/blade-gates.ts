/**
 * How a plug-in or bolted-strip fuse is bound to behave: what it must carry for a time, what must open it within a time.
 *
 * For bolted strips (midi, mega) no table was at hand: they are taken as slow as the large blade where they must open
 * and as quick as the ordinary blade where they must hold, which errs to the cautious side both times.
 */
import type { ProtectionRole } from '../../part/role.ts';
import type { BladeFuse } from '../../physics/fuse-gates.ts';
import { bladeOpeningTime, bladeRows } from '../../physics/fuse-gates.ts';

type Form = NonNullable<ProtectionRole['form']>;

const whenOpening: Readonly<Record<Form, BladeFuse>> = { mini: 'regular', blade: 'regular', maxi: 'maxi', midi: 'maxi', mega: 'maxi' };
const whenHolding: Readonly<Record<Form, BladeFuse>> = { mini: 'regular', blade: 'regular', maxi: 'maxi', midi: 'regular', mega: 'regular' };

/**
 * Largest current that it must carry for a time [A].
 * @param time  [s]; beyond 100 h the current carried for 100 h
 * Source: [iso-8820-3] gates, as `bladeRows`
 */
export function carriesFor(form: Form, rating: number, time: number): number {
  const rows = bladeRows[whenHolding[form]];
  const holds = rows.filter(({ shortest }) => shortest >= time).at(-1) ?? rows[0]!;
  return holds.ratio * rating;
}

/**
 * Least current that must open it within a time [A]; undefined when the gates promise no opening that quick.
 * Source: as `carriesFor`
 */
export function opensAbove(form: Form, rating: number, time: number): number | undefined {
  const row = bladeRows[whenOpening[form]].find(({ longest }) => longest !== undefined && longest <= time);
  return row && row.ratio * rating;
}

/**
 * Most I²t that it lets through at a fault current: current squared times the longest time of its gate. Above the last gate the
 * element melts before heat can leave, so I²t grows no further. Below the first current that must open it, the longest time of
 * all gates counts.
 * @returns [A2.s]
 * Source: as `carriesFor`; constant I²t of short times, [fuse-maker-guides]
 */
export function letsThrough(form: Form, rating: number, current: number): number {
  const blade = whenOpening[form];
  const rows = bladeRows[blade];
  const counted = Math.min(current, rows.at(-1)!.ratio * rating);
  const time = bladeOpeningTime(blade, rating, counted).atMost ?? rows.find(({ longest }) => longest !== undefined)!.longest!;
  return counted ** 2 * time;
}
