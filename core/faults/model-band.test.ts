import { describe, expect, it } from 'vitest';
import { carFromText } from '../../checks/fixtures/car-from-text.ts';
import { lowVoltageCar } from '../../checks/fixtures/low-voltage-car.ts';
import { fusesOf } from './blown-fuses.ts';
import { forecasts } from './forecasts.ts';
import { deviantsIn, modelBand } from './model-band.ts';
import { nearFaults } from './near-faults.ts';
import { tiedNetwork } from './tied-network.ts';
import { solveAtRest } from '../solve/solve-at-rest.ts';

const { car, ask } = carFromText(lowVoltageCar);
const { network } = tiedNetwork(car, { mode: 'drive' });
const near = nearFaults(network, fusesOf(car))!;
const deviants = deviantsIn(car, 'drive');
const pairs = [['F1.a', 'chassis'], ['KP.coil_a', 'KP.coil_b'], ['VC.supply', 'VC.ground'], ['B.pos', 'B.neg']] as const;

describe('the band of the model', () => {
  it('is the root of the squares of what each quantity does alone, whole networks solved with each one standard deviation off', () => {
    const band = modelBand(near.system, deviants);
    const whole = solveAtRest(network);
    if (whole.outcome !== 'solved') throw new Error(whole.outcome);
    expect(deviants.length).toBeGreaterThan(10);
    for (const [a, b] of pairs) {
      let sum = 0;
      for (const { elements } of deviants) {
        const other = new Map(elements.map((element) => [element.id, element]));
        const moved = solveAtRest({ nodes: network.nodes, elements: network.elements.map((element) => other.get(element.id) ?? element) });
        if (moved.outcome !== 'solved') throw new Error(moved.outcome);
        sum += (moved.voltageOf(a) - moved.voltageOf(b) - (whole.voltageOf(a) - whole.voltageOf(b))) ** 2;
      }
      expect(band(a, b)!, `${a} ${b}`).toBeGreaterThan(0.95 * Math.sqrt(sum) - 1e-4);
      expect(band(a, b)!, `${a} ${b}`).toBeLessThan(1.05 * Math.sqrt(sum) + 1e-4);
    }
  });
  it('widens with a tolerance of the file and narrows with a measurement', () => {
    const spreadAt = (text: string): number => {
      const one = carFromText(text);
      const forecast = forecasts(one.car, one.ask, { mode: 'drive', without: [] }).forecast({ mode: 'drive', without: [] }, { is: 'voltage', a: 'F1.a', b: 'chassis' }, [])!;
      return forecast.is === 'value' ? forecast.spread(13.7) : NaN;
    };
    expect(lowVoltageCar).toContain('output_voltage: 13.8 V');
    const given = (spread: string): string => lowVoltageCar.replace('output_voltage: 13.8 V', `output_voltage: 13.8 V ±${spread}`);
    expect(spreadAt(given('0.8 V'))).toBeGreaterThan(2 * spreadAt(given('0.05 V')));
  });
  it('is not known for a point that the network does not have', () => expect(modelBand(near.system, deviants)('B.nothing', 'chassis')).toBeUndefined());
});
