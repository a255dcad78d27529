/**
 * Area of the solid round wire of a gauge number, and back. `2/0` is gauge -1, `4/0` is gauge -3.
 *
 * @param gauge  -3 (4/0) to 56 for the sizes of the standard; the formula itself is smooth
 * @returns area [m2]; a stranded conductor sold under the same gauge may differ by some per cent
 * Errors:  throws if the gauge is not finite
 * Source:  ASTM B258, diameter = 0.005 in x 92^((36 - gauge)/39)
 * Checked: checks/reference/awg.astm-b258.check.ts
 */
export function areaOfWireGauge(gauge: number): number {
  if (!Number.isFinite(gauge)) throw new RangeError('a wire gauge must be a finite number');
  const diameter = diameterOfGauge36 * 92 ** ((36 - gauge) / 39);
  return (Math.PI / 4) * diameter * diameter;
}

/** Gauge number, broken where the area lies between two sizes, of a round wire of `area` [m2], > 0. */
export function wireGaugeOfArea(area: number): number {
  if (!(area > 0) || !Number.isFinite(area)) throw new RangeError('a wire gauge needs an area above zero');
  const diameter = Math.sqrt((4 / Math.PI) * area);
  return 36 - (39 * Math.log(diameter / diameterOfGauge36)) / Math.log(92);
}

/** True for the sizes that the standard has: whole numbers from 4/0 (-3) to 56. */
export function isWireGauge(gauge: number): boolean {
  return Number.isInteger(gauge) && gauge >= -3 && gauge <= 56;
}

/** How the trade writes a gauge: `4/0` … `1/0`, then `1`, `2`, … */
export function nameOfWireGauge(gauge: number): string {
  return gauge <= 0 ? `${1 - gauge}/0` : String(gauge);
}

/** 0.005 in, exact by definition [m] */
const diameterOfGauge36 = 0.005 * 0.0254;
