/**
 * Areas and diameters of American wire gauge sizes.
 *
 * Source:  ASTM B258, standard nominal diameters and cross-sectional areas of AWG sizes of solid round wires.
 *          Diameters in inch and areas in kcmil from memory of its table; areas in mm² read from the project's reference
 *          notes (computed there, agreeing with a second public table to three digits).
 * Grade:   published value (inch, kcmil; from memory), comparison (mm²).
 * Limits:  half of the last printed digit. The standard rounds the diameter first (to 0.1 mil) and takes the area of the
 *          rounded one, so its kcmil may stand one part in a thousand from the exact formula: limit 0.15 %.
 */
import { describe, expect, it } from 'vitest';
import { readQuantity } from '../../core/quantity/read-quantity.ts';
import { areaOfWireGauge, nameOfWireGauge, wireGaugeOfArea } from '../../core/quantity/wire-gauge.ts';

/** gauge, diameter [in], area [kcmil] */
const table: readonly (readonly [string, number, number])[] = [
  ['4/0', 0.4600, 211.6], ['3/0', 0.4096, 167.8], ['2/0', 0.3648, 133.1], ['1/0', 0.3249, 105.6], ['1', 0.2893, 83.69], ['2', 0.2576, 66.36], ['3', 0.2294, 52.62], ['4', 0.2043, 41.74],
  ['6', 0.1620, 26.24], ['8', 0.1285, 16.51], ['10', 0.1019, 10.38], ['12', 0.0808, 6.53], ['14', 0.0641, 4.11], ['16', 0.0508, 2.58], ['18', 0.0403, 1.62], ['20', 0.0320, 1.02], ['36', 0.0050, 0.025],
];
/** gauge, area [mm²] */
const notes: readonly (readonly [string, number])[] = [
  ['4/0', 107.2], ['3/0', 85.0], ['2/0', 67.4], ['1/0', 53.5], ['2', 33.6], ['4', 21.2], ['6', 13.3], ['8', 8.37], ['10', 5.26], ['12', 3.31], ['14', 2.08], ['16', 1.31], ['18', 0.823], ['20', 0.518],
];
const area = (gauge: string): number => {
  const reading = readQuantity(`${gauge} AWG`, 'area', 'check');
  if (!reading.ok) throw new Error(reading.problem.expected);
  return reading.value.nominal;
};
const halfDigit = (value: number): number => 0.5 * 10 ** -((String(value).split('.')[1] ?? '').length);

describe('AWG after ASTM B258', () => {
  it.each(table)('%s AWG has a diameter of %d in and an area of %d kcmil', (gauge, diameter, kcmil) => {
    expect(Math.abs(2 * Math.sqrt(area(gauge) / Math.PI) / 0.0254 - diameter)).toBeLessThanOrEqual(0.00005001);
    const exact = area(gauge) / ((Math.PI / 4) * 0.0254e-3 ** 2 * 1000);
    expect(Math.abs(exact - kcmil)).toBeLessThanOrEqual(Math.max(halfDigit(kcmil), 1.5e-3 * kcmil) * 1.0001);
  });
  it.each(notes)('%s AWG has an area of %d mm²', (gauge, square) => {
    const digits = square >= 100 ? 1 : square >= 10 ? 1 : square >= 1 ? 2 : 3;
    expect(Math.abs(area(gauge) * 1e6 - square)).toBeLessThanOrEqual(0.5 * 10 ** -digits * 1.0001);
  });
  it('halves the area every three sizes, nearly: 92^(6/39) is 2.005', () => expect(areaOfWireGauge(10) / areaOfWireGauge(13)).toBeCloseTo(2.005, 3));
  it('finds the gauge of each area again', () => {
    for (let gauge = -3; gauge <= 56; gauge++) expect(wireGaugeOfArea(areaOfWireGauge(gauge))).toBeCloseTo(gauge, 9);
    expect(nameOfWireGauge(-3)).toBe('4/0');
    expect(nameOfWireGauge(0)).toBe('1/0');
    expect(nameOfWireGauge(1)).toBe('1');
  });
});
