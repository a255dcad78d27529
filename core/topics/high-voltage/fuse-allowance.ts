/** What a fuse may carry for good where it sits. */
import { cautiousFuseThermal, fuseAmbientFactor, generalFuseAmbientFactor } from '../../physics/fuse-derating.ts';
import type { Protection } from './fuse-in-fault.ts';

/** Share of its rating that a fuse carries for good without ageing [1]: 0.75 .. 0.8 is the usual design factor (fuse maker rule, from memory). */
const STEADY_FACTOR = 0.8;
/** The same for a load that swings, printed on the sheet of a semiconductor fuse for 1000 V DC (factor A2). */
const VARYING_FACTOR = 0.6;
/** Ambient at which a blade fuse has its rating [K]: 20 °C (maker's sheet of a 40 A fuse). */
const BLADE_REFERENCE = 293.15;

export interface FuseAllowance {
  /** steady load [A]; 0 when the air is so hot that it may carry nothing */
  readonly current: number;
  /** rms of a load that swings [A] */
  readonly varying: number;
}

/**
 * Current that a fuse may carry for good: rating x ambient factor x load factor, by style.
 *
 * Partial range (semiconductor type): sqrt((130 °C - ambient)/100 K), 0.8 steady, 0.6 swinging.
 * Full range: 0.5 % less per kelvin above 40 °C, 0.8. Blade: sqrt((130 °C - ambient)/110 K), 0.8.
 * What opens on a command has no element to age: its rating.
 *
 * Source: as `fuse-derating.ts`; load factors [fuse-maker-guides]
 */
export function fuseAllowance({ role, ambient }: Pick<Protection, 'role' | 'ambient'>): FuseAllowance {
  const { rating, style } = role;
  switch (style) {
    case 'pyrotechnic': return { current: rating, varying: rating };
    case 'full_range': return both(rating * generalFuseAmbientFactor(ambient), STEADY_FACTOR, STEADY_FACTOR);
    case 'partial_range': return both(rating * Math.min(1, fuseAmbientFactor(ambient)), STEADY_FACTOR, VARYING_FACTOR);
    case 'blade': return both(rating * Math.min(1, fuseAmbientFactor(ambient, { limit: cautiousFuseThermal.limit, reference: BLADE_REFERENCE })), STEADY_FACTOR, STEADY_FACTOR);
  }
}

const both = (here: number, steady: number, varying: number): FuseAllowance => ({ current: here * steady, varying: here * varying });
