import { describe, expect, it } from 'vitest';
import { carFromText } from '../../checks/fixtures/car-from-text.ts';
import { highVoltageCar } from '../../checks/fixtures/high-voltage-car.ts';
import { wireCar } from '../car/wire-car.ts';
import { fusesAtRisk, fusesOf } from './blown-fuses.ts';
import type { FaultChange } from './fault-change.ts';

const { car } = carFromText(highVoltageCar);
const atRisk = fusesAtRisk(wireCar(car, { mode: 'drive' }).network);
const fuses = [...fusesOf(car).keys()];
const of = (change: FaultChange): readonly string[] => { const may = atRisk([change]); return may === undefined ? [] : fuses.filter(may); };

describe('fuses that a fault may open', () => {
  it('lie on the side that a short touches', () => {
    expect(fuses.length).toBeGreaterThan(1);
    expect(of({ is: 'joined', id: 'x', a: 'INV.pos', b: 'INV.neg', resistance: 0.01 })).toEqual(fuses);
    expect(of({ is: 'joined', id: 'x', a: 'S1.b1', b: 'chassis', resistance: 0.01 })).toEqual([]);
    expect(of({ is: 'joined', id: 'x', a: 'INV.pos', b: 'chassis', resistance: 0.01 })).toEqual(fuses);
  });
  it('are none where nothing more can flow', () => {
    expect(of({ is: 'open', element: 'R6' })).toEqual([]);
    expect(of({ is: 'resistive', element: 'R6', more: 5 })).toEqual([]);
    expect(of({ is: 'joined', id: 'x', a: 'INV.pos', b: 'INV.neg', resistance: 20e3 })).toEqual([]);
  });
});
