/**
 * Resistance of a CAN bus that is powered down: 120 Ω at each end, 60 Ω between the wires; 108 to 132 Ω each is permitted, so 54 to 66 Ω.
 *
 * Source:  ISO 11898-2 as seen in device manuals (the project's reference notes, section 11)
 * Grade:   published values; the parallel of two resistors is closed form
 * Tolerance: half an ohm for wires and receivers
 */
import { describe, expect, it } from 'vitest';
import { powerUp } from '../../core/power-up/steps.ts';
import { carFromText } from '../fixtures/car-from-text.ts';
import { examples } from '../fixtures/examples.ts';

const hauler = examples.find(({ name }) => name === 'orchard-hauler')!.text;
const resistance = (text: string) => {
  const { car, ask } = carFromText(text);
  return powerUp(car, ask, undefined).steps.find(({ id }) => id.startsWith('low-voltage.bus-resistance'))!;
};

describe('ISO 11898-2: resistance between CAN high and CAN low', () => {
  it.each(examples)('is 60 Ω on the bus of $name', ({ text }) => expect(Math.abs(resistance(text).predicted!.nominal - 60)).toBeLessThan(0.5));
  it('is 120 Ω with one termination, and that is outside the limit', () => {
    const one = resistance(hauler.replace('    can_termination: yes\n', ''));
    expect(Math.abs(one.predicted!.nominal - 120)).toBeLessThan(1);
    expect(one.willFail).toBe(true);
  });
  it('has the limits of two permitted terminations side by side', () => expect(resistance(hauler).limit).toMatchObject({ value: 108 / 2, to: 132 / 2 }));
});
