/**
 * Voltage of a low-voltage battery that has rested, from its state of charge.
 *
 * @param chemistry      flooded or AGM lead-acid, or lithium iron phosphate
 * @param stateOfCharge  [1], 0..1; outside it the value at the nearer end counts
 * @param seriesCells    cells in series (6 in a 12 V lead-acid battery)
 * @returns terminal voltage with no current [V]
 * Range:   25 °C, rested six hours or more after charging; the surface charge just after charging is not in it
 * Source:  flooded: open-circuit voltage table of the project's reference notes, section 9 (five points, published);
 *          AGM: same section, from memory; lithium iron phosphate: open data, C/32 piecewise-linear knots, section 10
 * Checked: core/kinds/battery-12v.test.ts
 */
export type LowVoltageChemistry = 'flooded' | 'agm' | 'lfp';

export function restVoltage(chemistry: LowVoltageChemistry, stateOfCharge: number, seriesCells: number): number {
  return interpolate(knots[chemistry], Math.min(1, Math.max(0, stateOfCharge))) * seriesCells;
}

/** Cells in series for a nominal voltage [V]: 2 V a lead-acid cell, 3.2 V a lithium iron phosphate cell. */
export function seriesCellsFor(chemistry: LowVoltageChemistry, nominalVoltage: number): number {
  return Math.max(1, Math.round(nominalVoltage / (chemistry === 'lfp' ? 3.2 : 2)));
}

/** State of charge [1] and volts of one cell. */
const knots: Readonly<Record<LowVoltageChemistry, readonly (readonly [number, number])[]>> = {
  flooded: [[0, 11.6 / 6], [0.25, 12.0 / 6], [0.5, 12.2 / 6], [0.75, 12.4 / 6], [1, 12.6 / 6]],
  agm: [[0, 11.6 / 6], [0.225, 11.95 / 6], [0.5, 12.2 / 6], [1, 12.825 / 6]],
  lfp: [[0, 2.0102], [0.0033, 2.4177], [0.0117, 2.7405], [0.0267, 2.9299], [0.0534, 3.0872], [0.0885, 3.1942],
    [0.2972, 3.2772], [0.9833, 3.3511], [0.995, 3.418], [1, 3.5981]],
};

function interpolate(points: readonly (readonly [number, number])[], x: number): number {
  for (let i = 1; i < points.length; i += 1) {
    const [x0, y0] = points[i - 1]!;
    const [x1, y1] = points[i]!;
    if (x <= x1) return y0 + (y1 - y0) * (x - x0) / (x1 - x0);
  }
  return points[points.length - 1]![1];
}
