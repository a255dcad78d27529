/**
 * Open-circuit voltage of a cell from its state of charge, and back.
 *
 * A curve is a list of points, state of charge and voltage both rising from 0 to 1; between points it is straight,
 * because the open data set it comes from is a piecewise-linear fit.
 */

export type VoltageCurve = readonly (readonly number[])[];

export type CellVoltage =
  | { readonly outcome: 'voltage'; readonly voltage: number; /** rise of voltage per unit of charge [V] */ readonly slope: number }
  /** state of charge not in 0..1 */
  | { readonly outcome: 'outside'; readonly lowest: number; readonly highest: number };

/**
 * Open-circuit voltage of a rested cell.
 *
 * @param curve          rows [state of charge, voltage V, …]
 * @param stateOfCharge  [1], 0..1
 * @returns voltage [V] and slope [V], or `outside`: a charge beyond the curve is an error, never held or extended
 * Errors:  throws when the curve does not rise or has fewer than two points
 * Source:  [piecewise-ocv-open-data] for the curves; straight interpolation
 * Checked: checks/reference/cells.open-data.check.ts
 */
export function cellVoltage(curve: VoltageCurve, stateOfCharge: number): CellVoltage {
  const points = checkedCurve(curve);
  const lowest = points[0]![0];
  const highest = points[points.length - 1]![0];
  if (!(stateOfCharge >= lowest && stateOfCharge <= highest)) return { outcome: 'outside', lowest, highest };
  const index = Math.max(1, points.findIndex(([charge]) => charge >= stateOfCharge));
  const [charge0, voltage0] = points[index - 1]!;
  const [charge1, voltage1] = points[index]!;
  const slope = (voltage1 - voltage0) / (charge1 - charge0);
  // from the nearer end, so that a point of the curve comes back exactly
  const voltage = stateOfCharge - charge0 < charge1 - stateOfCharge ? voltage0 + slope * (stateOfCharge - charge0) : voltage1 - slope * (charge1 - stateOfCharge);
  return { outcome: 'voltage', voltage, slope };
}

export type CellCharge =
  | { readonly outcome: 'charge'; readonly stateOfCharge: number; /** charge per volt at this point [1/V]: what a millivolt of meter error is worth */ readonly perVolt: number }
  | { readonly outcome: 'outside'; readonly lowest: number; readonly highest: number };

/**
 * State of charge of a rested cell from its voltage.
 *
 * @param voltage  [V]
 * @returns charge [1] and its sensitivity, or `outside` with the voltages of the curve's ends
 * Source, Checked: as `cellVoltage`
 */
export function cellCharge(curve: VoltageCurve, voltage: number): CellCharge {
  const points = checkedCurve(curve);
  const lowest = points[0]![1];
  const highest = points[points.length - 1]![1];
  if (!(voltage >= lowest && voltage <= highest)) return { outcome: 'outside', lowest, highest };
  const index = Math.max(1, points.findIndex(([, level]) => level >= voltage));
  const [charge0, voltage0] = points[index - 1]!;
  const [charge1, voltage1] = points[index]!;
  const perVolt = (charge1 - charge0) / (voltage1 - voltage0);
  const stateOfCharge = voltage - voltage0 < voltage1 - voltage ? charge0 + perVolt * (voltage - voltage0) : charge1 - perVolt * (voltage1 - voltage);
  return { outcome: 'charge', stateOfCharge, perVolt };
}

function checkedCurve(curve: VoltageCurve): readonly (readonly [number, number])[] {
  if (curve.length < 2) throw new RangeError('a voltage curve needs at least two points');
  return curve.map((row, index) => {
    const charge = row[0] ?? Number.NaN;
    const voltage = row[1] ?? Number.NaN;
    const before = index === 0 ? undefined : curve[index - 1];
    if (!(Number.isFinite(charge) && Number.isFinite(voltage)) || (before !== undefined && !(charge > before[0]! && voltage > before[1]!))) {
      throw new RangeError(`a voltage curve must rise from point to point; point ${index} does not`);
    }
    return [charge, voltage] as const;
  });
}
