import { describe, expect, it } from 'vitest';
import { carFromText } from '../../checks/fixtures/car-from-text.ts';
import { mainsCar } from '../../checks/fixtures/mains-car.ts';
import { replaced, twoStringCar } from '../../checks/fixtures/pack-car.ts';
import { mainsRuns, mainsSide } from './mains-runs.ts';
import { rolesIn } from './roles-in.ts';

const car = (...edits: readonly (readonly [string, string])[]) => carFromText(replaced(mainsCar, ...edits)).car;

describe('the mains side of a car', () => {
  it('is empty without inlet and charger', () => {
    expect(mainsSide(carFromText(twoStringCar).car)).toMatchObject({ voltage: 0, runs: new Map(), nodes: new Set() });
    expect(mainsSide(carFromText('').car).voltage).toBe(0);
  });

  it('is the line and the neutral, and neither the battery’s runs nor the protective conductor', () => {
    expect(Object.fromEntries(mainsRuns(car()))).toEqual({ A1: 230, A2: 230 });
  });

  it('goes on behind a stud, and has the voltage of the station in the modes', () => {
    const spliced = car(['  G: {', '  S: { kind: stud }\n  G: {'], ['A1: { from: INLET.l, to: CHG.l, stock: ac, length: 1 m }', 'A1: { from: INLET.l, to: S.stud, stock: ac, length: 1 m }\n  A1b: { from: S.stud, to: CHG.l, stock: ac, length: 1 m }'], ['plugged: yes', 'plugged: yes, station_voltage: 240 V']);
    expect(Object.fromEntries(mainsRuns(spliced))).toEqual({ A1: 240, A1b: 240, A2: 240 });
  });

  it('counts line to line with three phases', () => {
    expect(mainsSide(car(['type: type_2, rating', 'type: type_2, phases: 3, rating'])).voltage).toBeCloseTo(398.4, 1);
  });
});

describe('roles with the settings of a mode', () => {
  it('say what a charger is set to, and at rest that it is off', () => {
    const whole = car();
    const part = whole.parts.get('CHG')!;
    expect(part.roles.feedsPack).toMatchObject({ isOn: false, voltage: 430 });
    expect(rolesIn(whole, part, 'charge').feedsPack).toMatchObject({ isOn: true, voltage: 398 });
    expect(rolesIn(whole, part, 'off')).toBe(part.roles);
  });
});
