/**
 * Time until a source that holds its current brings capacitors with a resistance beside them to a voltage: C dV/dt = I - V/R, so
 * t = -R C ln(1 - V/(I R)); without a resistance C V/I.
 *
 * @param current      [A], > 0
 * @param capacitance  [F]
 * @param resistance   [ohm]; Infinity: nothing beside them
 * @param voltage      [V], >= 0; below the source's own, where it still limits
 * @returns [s]; undefined: the resistance takes all the current before
 * Source:  charge of a capacitor at constant current, closed form
 * Checked: checks/reference/power-up-bench-source.closed-form.check.ts, and there against the SPICE engine
 */
export function chargeTime(current: number, capacitance: number, resistance: number, voltage: number): number | undefined {
  if (!Number.isFinite(resistance)) return (capacitance * voltage) / current;
  const share = voltage / (current * resistance);
  return share >= 1 ? undefined : -resistance * capacitance * Math.log1p(-share);
}
