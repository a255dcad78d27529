/**
 * BS 7671 table 4F2A, flexible cables, two single cores touching, 30 °C air, conductor 90 °C (60 K rise), with its ambient
 * factors; and table 4E1A method G (spaced). Read from the project's reference notes, section 1, which saw them on suppliers' pages.
 * Grade: published value. The free-air model itself (IEC 60287-2-1 constants) is from memory; its row in the notes is closed form.
 *
 * Tolerances:
 * - two touching cables: model times 0.88 must meet the table within 3 %; 0.88 was chosen from the published ratio
 *   0.88 .. 0.90, so this shows that one factor serves all sizes, not that it is right elsewhere;
 * - ambient factors: 0.01 above and 0.07 below; the table is sqrt((90 - Ta)/60) printed to two digits, while still air takes
 *   heat with the rise to the power 1.25, so the model falls faster near the limit. Largest found: 0.066 below, at 75 °C (cautious side);
 * - 4E1A spaced flat cables: class 2 conductors, other diameters: within 4 %; different cables, so this is luck as well as physics.
 *
 * Known bad and kept out: the 115 °C of the silicone row is misprinted 150; the two-core and three-core columns slip from 35 mm² on.
 */
import { describe, expect, it } from 'vitest';
import { steadyCableCurrent, steadyCableTemperature, coveringThermalResistance, type CableInAir } from '../../core/physics/cable-heating.ts';
import { resistancePerLength20 } from '../../core/physics/conductor-resistance.ts';
import { groupingFactor } from '../../core/physics/grouping.ts';

/** BS 638-4 type 0361TQ: outside diameter and covering [mm]. */
const sizes: Readonly<Record<number, readonly [number, number]>> = { 16: [9.7, 2], 25: [11.2, 2], 35: [12.4, 2], 50: [14.3, 2.2], 70: [16.3, 2.4], 95: [18.6, 2.6], 120: [20.3, 2.8] };

function weldingCable(area: number): CableInAir {
  const [outside, covering] = sizes[area]!;
  return { resistance20: resistancePerLength20({ area: area * 1e-6, material: 'copper' }), material: 'copper', conductorDiameter: (outside - 2 * covering) * 1e-3, outsideDiameter: outside * 1e-3, thermalResistivity: 5 };
}
const kelvin = (celsius: number): number => celsius + 273.15;

describe('BS 7671 table 4F2A, two touching flexible cables', () => {
  const pair = groupingFactor(2);
  if (pair.outcome !== 'factor') throw new Error('two cables are in the table');
  for (const [area, current] of [[35, 200], [50, 250], [70, 310], [95, 369], [120, 432]] as const) {
    it(`${area} mm²: ${current} A`, () => {
      const computed = steadyCableCurrent(weldingCable(area), kelvin(90), kelvin(30)) * pair.factor;
      expect(Math.abs(computed / current - 1)).toBeLessThan(0.03);
    });
  }
});

describe('BS 7671 table 4F2A, ambient factors', () => {
  const cable = weldingCable(35);
  const at = (conductor: number, ambient: number): number => steadyCableCurrent(cable, kelvin(conductor), kelvin(ambient));
  for (const [celsius, factor] of [[35, 0.95], [40, 0.91], [45, 0.86], [50, 0.82], [55, 0.76], [60, 0.7], [65, 0.64], [70, 0.57], [75, 0.5], [80, 0.4], [85, 0.28]] as const) {
    it(`90 °C cable in ${celsius} °C air: ${factor}; the model is at most 0.01 above and at most 0.07 below`, () => {
      const difference = at(90, celsius) / at(90, 30) - factor;
      expect(difference).toBeLessThan(0.01);
      expect(difference).toBeGreaterThan(-0.07);
      expect(Math.abs(Math.sqrt((90 - celsius) / 60) - factor)).toBeLessThan(0.011);
    });
  }
  for (const [celsius, factor] of [[95, 0.96], [100, 0.91], [105, 0.86], [110, 0.81], [115, 0.76], [120, 0.7], [125, 0.64], [130, 0.57], [135, 0.5], [140, 0.4], [145, 0.28]] as const) {
    it(`silicone cable (conductor at 150 °C) in ${celsius} °C air: ${factor}`, () => {
      const difference = at(150, celsius) / at(150, 90) - factor;
      expect(difference).toBeLessThan(0.01);
      expect(difference).toBeGreaterThan(-0.07);
    });
  }
  it('the same 4F2A currents at 90 °C air and a conductor at 150 °C: model within 10 % of the 30/90 °C current', () => {
    expect(Math.abs(at(150, 90) / at(90, 30) - 1)).toBeLessThan(0.1);
  });
});

describe('BS 7671 table 4E1A method G, spaced horizontal (class 2 XLPE, other diameters)', () => {
  for (const [area, current] of [[25, 182], [35, 226], [50, 275], [70, 353]] as const) {
    it(`${area} mm²: ${current} A within 4 %`, () => {
      expect(Math.abs(steadyCableCurrent(weldingCable(area), kelvin(90), kelvin(30)) / current - 1)).toBeLessThan(0.04);
    });
  }
});

describe('IEC 60287-2-1 free-air model, rows of the notes (closed form)', () => {
  // the notes print whole amperes: tolerance 0.6 A
  const areas = [16, 25, 35, 50, 70, 95, 120];
  for (const [ambient, conductor, row] of [[30, 90, [135, 179, 222, 279, 348, 419, 487]], [40, 125, [158, 210, 260, 326, 406, 489, 569]], [90, 150, [124, 165, 204, 256, 319, 384, 447]], [60, 120, [129, 172, 213, 267, 333, 400, 466]]] as const) {
    it(`${ambient} °C air, ${conductor} °C conductor`, () => {
      areas.forEach((area, index) => expect(Math.abs(steadyCableCurrent(weldingCable(area), kelvin(conductor), kelvin(ambient)) - row[index]!)).toBeLessThan(0.6));
    });
  }
  it('detail at 35 mm²: 222 A, surface rise 49.2 K, 34.8 W/m, covering 0.310 K.m/W', () => {
    const found = steadyCableTemperature(weldingCable(35), 222.14, kelvin(30));
    expect(found.outcome).toBe('steady');
    if (found.outcome !== 'steady') return;
    expect(found.conductor - kelvin(90)).toBeCloseTo(0, 1);
    expect(found.surface - kelvin(30)).toBeCloseTo(49.2, 1);
    expect(found.heat).toBeCloseTo(34.8, 0);
    expect(coveringThermalResistance(weldingCable(35))).toBeCloseTo(0.31, 3);
  });
});
