/**
 * Time limits of the discharge step: 60 V within 5 s where something discharges actively (IEC 60204-1 6.2.4, a rule for machines, as in the
 * project's reference notes, section 5); 120 s for bleeders alone (makers' practice for road vehicles, LV 123, from memory).
 * The predicted time against R C ln(V/60), closed form.
 */
import { describe, expect, it } from 'vitest';
import { powerUp } from '../../core/power-up/steps.ts';
import { carFromText } from '../fixtures/car-from-text.ts';
import { examples } from '../fixtures/examples.ts';

const stepOf = (name: string, change: (text: string) => string = (text) => text) => {
  const { car, ask } = carFromText(change(examples.find((one) => one.name === name)!.text));
  return { car, step: powerUp(car, ask, undefined).steps.find(({ id }) => id === 'shut-down.discharge')! };
};

describe('below 60 V after switching off', () => {
  it('within 5 s where a part discharges itself', () => expect(stepOf('bakery-van').step.limit).toMatchObject({ sense: 'at_most', value: 5 }));
  it('within 120 s where only bleeders do it', () => expect(stepOf('bakery-van', (text) => text.replace(', active_discharge_time: 3 s ±1 estimate', '')).step.limit).toMatchObject({ sense: 'at_most', value: 120 }));
  it('takes R C ln(V/60) through the bleeders of all links side by side', () => {
    const { car, step } = stepOf('bakery-van', (text) => text.replace(', active_discharge_time: 3 s ±1 estimate', ''));
    const { measure } = step;
    if (measure?.is !== 'time') throw new Error('no time step');
    const links = measure.links.map((name) => car.parts.get(name)!.roles.dcLink!);
    const capacitance = links.reduce((sum, link) => sum + link.capacitance, 0);
    const conductance = links.reduce((sum, { bleeder }) => sum + (bleeder === undefined ? 0 : 1 / bleeder), 0);
    const { car: same } = stepOf('bakery-van');
    expect(same.parts.size).toBe(car.parts.size);
    // 336 V pack at 80 % charge; the exact voltage is the step's own, so only its logarithm's share is open
    const expected = (capacitance / conductance) * Math.log(335.8 / 60);
    expect(Math.abs(step.predicted!.nominal / expected - 1)).toBeLessThan(0.005);
  });
  it('asks no time of a class A bus', () => expect(stepOf('orchard-hauler').step).toBeUndefined());
});
