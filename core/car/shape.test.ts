import { describe, expect, it } from 'vitest';
import { carFromText } from '../../checks/fixtures/car-from-text.ts';
import { examples } from '../../checks/fixtures/examples.ts';
import { highVoltageCar } from '../../checks/fixtures/high-voltage-car.ts';
import { lowVoltageCar } from '../../checks/fixtures/low-voltage-car.ts';
import { mainsCar } from '../../checks/fixtures/mains-car.ts';
import { converterCar } from '../../checks/fixtures/precharge-car.ts';
import { drawFrom } from '../quantity/spread.ts';
import type { Car } from './car.ts';
import { realise } from './realise.ts';
import { remembered } from './remembered.ts';
import { byShape, shapeOf } from './shape.ts';

/** Roles with every number made the same: what is left is what a shape promises. */
const rolesIn = (car: Car): unknown => JSON.parse(JSON.stringify([...car.parts.values()].map(({ name, roles }) => [name, roles]), (_, value: unknown) => (typeof value === 'number' ? 0 : value)));

describe('the shape of a car', () => {
  it('has the same roles with the same names in every draw', () => {
    for (const text of [highVoltageCar, lowVoltageCar, mainsCar, converterCar, ...examples.map((example) => example.text)]) {
      const { prepared, car } = carFromText(text);
      for (const u of [1e-6, 0.1, 0.9, 1 - 1e-6]) {
        const draw = realise(prepared, (quantity) => drawFrom(quantity, u));
        if (shapeOf(draw) === shapeOf(car)) expect(rolesIn(draw)).toEqual(rolesIn(car));
      }
    }
  });

  it('is another when a draw leaves a part without what it needs, and for a copy', () => {
    const { prepared, car } = carFromText(highVoltageCar);
    const hot = realise(prepared, (quantity) => (quantity.path.endsWith('cell_temperature') ? 5000 : quantity.nominal));
    expect(shapeOf(realise(prepared, (quantity) => quantity.high))).toBe(shapeOf(car));
    expect(shapeOf(hot)).not.toBe(shapeOf(car));
    expect(shapeOf({ ...car })).not.toBe(shapeOf(car));
  });

  it('is asked once for what rests on it', () => {
    const { prepared, car } = carFromText(highVoltageCar);
    let asked = 0;
    const parts = byShape(({ parts: all }) => { asked++; return [...all.keys()]; });
    expect(parts(realise(prepared, (quantity) => quantity.low))).toBe(parts(car));
    expect(asked).toBe(1);
  });
});

describe('what is remembered', () => {
  it('stays with its owner and does not go over to a copy', () => {
    let made = 0;
    const number = remembered((_: object, add: number) => { made++; return made + add; });
    const owner = { a: 1 };
    expect([number(owner, 10), number(owner, 10), number({ ...owner }, 10)]).toEqual([11, 11, 12]);
    expect(Object.keys(owner)).toEqual(['a']);
  });
});
