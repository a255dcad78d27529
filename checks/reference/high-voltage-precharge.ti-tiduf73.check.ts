/**
 * Precharge of a whole car from its text: TI TIDUF73 equations 1, 2 and 4 (50 ohm and 2.0 mF: five time constants in 0.5 s; energy
 * C V²/2), and the resistor maker's mean power of three starts in 10 s. Read from the project's reference notes, section 5.
 * Grade: equations and sizing published.
 *
 * Tolerances: the car has a pack and wiring of about 0.1 ohm beside the 50 (0.2 % of the time constant), an insulation of megohms and
 * two small capacitors of 11 µF together (0.6 % of 2 mF, taken into account); so 1 % of what is left, 0.5 % of energies.
 */
import { describe, expect, it } from 'vitest';
import { studyPrecharge } from '../../core/topics/high-voltage/precharge.ts';
import { edited, prechargeCar, studied } from '../fixtures/precharge-car.ts';

const text = edited(prechargeCar, ['resistance: 60 Ω', 'resistance: 50 Ω'], ['link_capacitance: 0.8 mF, bleeder: 47 kΩ', 'link_capacitance: 1.989 mF'], ['lasts: 250 ms', 'lasts: 500 ms']);
const [precharge] = studied(studyPrecharge, text).results.precharges;

describe('TI TIDUF73 through the network of a car', () => {
  it('is a circuit of 2.0 mF', () => expect(precharge!.capacitance).toBeCloseTo(2e-3, 6));
  it('equations 1 and 2: after 0.5 s e^-5 of the voltage is left', () => {
    expect(precharge!.residual! / precharge!.packVoltage / Math.exp(-5)).toBeGreaterThan(0.99);
    expect(precharge!.residual! / precharge!.packVoltage / Math.exp(-5)).toBeLessThan(1.02);
  });
  it('equation 4: C V²/2 in the resistor', () => expect(precharge!.resistorEnergy! / (1e-3 * precharge!.packVoltage ** 2)).toBeCloseTo(1, 2));
  it('maker: mean power of three starts in 10 s is 0.3 of the energy', () => {
    expect(studied(studyPrecharge, text).find('precharge-resistor-mean-power').value! / precharge!.resistorEnergy!).toBeCloseTo(0.3, 9);
  });
});
