/**
 * The demo builds' own networks, in many states, at rest against a SPICE engine.
 *
 * Source:    ngspice (open source circuit simulator) compiled to WebAssembly, run here; another program, so a comparison, no published value
 * Tolerance: 0.1 % of the largest voltage and of the largest current. The observed worst is printed
 */
import { describe, expect, it } from 'vitest';
import type { State } from '../../core/car/state.ts';
import { wireCar } from '../../core/car/wire-car.ts';
import { carFromText } from '../fixtures/car-from-text.ts';
import { examples } from '../fixtures/examples.ts';
import { compareAtRest } from './against-spice.ts';

describe.each(examples)('$name', ({ name, text }) => {
  const { car } = carFromText(text);
  const modes = [...car.modes.keys()];
  const lastHighVoltageRun = [...car.runs.values()].filter(({ carries }) => carries === 'high_voltage').at(-1)?.name as string;
  const module = [...car.parts.values()].find(({ roles }) => roles.cells !== undefined)?.name as string;
  const states: [string, State][] = [
    ['with nothing asked of anything', {}],
    ...modes.map((mode): [string, State] => [`in mode ${mode}`, { mode }]),
    ['in drive, cold and nearly empty', { mode: 'drive', stateOfCharge: 0.1, cellTemperature: 258.15 }],
    ['in drive, with one high-voltage run not made', { mode: 'drive', without: [lastHighVoltageRun] }],
    ['off, with a wet hand of 5 kΩ between a module and the chassis', { mode: 'off', bridges: [{ a: `${module}.pos`, b: 'chassis', resistance: 5000 }] }],
  ];
  it.each(states)('agrees %s', async (title, state) => {
    const { network } = wireCar(car, state);
    const { worst, node, worstCurrent, element } = await compareAtRest(network);
    console.log(`${name} ${title}: voltages to ${worst.toExponential(1)} (${node}), currents to ${worstCurrent.toExponential(1)} (${element})`);
    expect(worst).toBeLessThan(1e-3);
    expect(worstCurrent).toBeLessThan(1e-3);
  });
});
