import type { Car, CarRun } from './car.ts';
import { remembered } from './remembered.ts';

/** Runs that carry high voltage, in the order of the file. */
export const highVoltageRuns: (car: Car) => readonly CarRun[] = remembered((car: Car) => [...car.runs.values()].filter(({ carries }) => carries === 'high_voltage'));
