/**
 * The arc that a tool draws between two live points of a battery.
 */
import { requireNotNegative, requirePositive } from './argument-rule.ts';

export interface ArcEstimate {
  /** current in the arc [A] */
  readonly current: number;
  /** power in the arc [W] */
  readonly power: number;
}

/**
 * The most power that any arc can draw from a source: where the arc's voltage is half the open voltage.
 *
 * @param voltage  open-circuit voltage [V], >= 0
 * @param resistance  of the source and its leads [ohm], > 0
 * Range:  an upper bound for any arc; below about 60 V the arc barely holds and the metal splash counts more
 * Source: maximum-power method, Doan 2010, NFPA 70E D.5 (I_arc = I_fault / 2). Checked: checks/reference/arc-power.maximum-power.check.ts
 */
export function largestArc(voltage: number, resistance: number): ArcEstimate {
  requireNotNegative({ voltage });
  requirePositive({ resistance });
  const current = voltage / resistance / 2;
  return { current, power: (voltage / 2) * current };
}

/**
 * Heat on a surface at a distance from an open arc of that power [J/m2], spread over a sphere.
 * @param power  [W]   @param time  how long it burns [s]   @param distance  [m], > 0
 * Source: Stokes and Oppenlander 1991 as used by Ammerman 2010 (E = P t / 4 pi d^2). Checked: checks/reference/arc-power.maximum-power.check.ts
 */
export function incidentEnergy(power: number, time: number, distance: number): number {
  requireNotNegative({ power, time });
  requirePositive({ distance });
  return (power * time) / (4 * Math.PI * distance * distance);
}
