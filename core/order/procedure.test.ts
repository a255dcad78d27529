import { describe, expect, it } from 'vitest';
import { words } from '../../catalogue/words.ts';
import { examples } from '../../checks/fixtures/examples.ts';
import { analyse } from '../analyse.ts';
import { batteryJoints } from './battery-joints.ts';
import { bestOrder, measureOrder } from './best-order.ts';
import { procedure } from './procedure.ts';

const { car, ask } = analyse(examples.find(({ name }) => name === 'bakery-van')!.text, words, { only: [] });
const battery = batteryJoints(car);

describe('the joints of the van', () => {
  it('are those that the cells reach while contactors are open; the rest is dead', () => {
    expect(battery.live.map(({ name }) => name)).toEqual(['H01', 'H02', 'H03', 'H04', 'H05a', 'H05', 'H06', 'H07', 'H08', 'H10', 'H11', 'H13', 'SD']);
    expect(battery.dead.map(({ name }) => name)).toContain('H21');
    expect(battery.unknown).toEqual([]);
  });
  it('start with seven modules apart: no joint, no more than one module to touch', () => {
    const { steps } = measureOrder(battery.problem, [0]);
    // twelve cells of 4.2 V
    expect(steps[0]!.touchable).toBeCloseTo(50.4, 9);
  });
});

describe('the procedure of the van', () => {
  const best = bestOrder(battery.problem);
  if (best.outcome !== 'found') throw new Error('impossible');
  const order = best.order.steps.map(({ joint }) => joint);
  const steps = procedure(car, ask, battery, order);
  it('ends at the disconnect, with the whole pack of 84 cells to touch', () => {
    expect(steps.at(-1)!.joint.name).toBe('SD');
    expect(steps.at(-1)!.touchable).toBeCloseTo(84 * 4.2, 9);
    expect(steps.at(-1)).toMatchObject({ voltageClass: 'B', gloves: '00' });
  });
  it('touches in each step what the order was chosen for', () => expect(steps.map(({ touchable }) => touchable)).toEqual(best.order.steps.map(({ touchable }) => touchable)));
  it('closes no loop in a single string, and reads next to nothing between ends that are not joined yet', () => {
    for (const { closesLoop, before, touchable } of steps) {
      expect(closesLoop).toBe(false);
      // what insulation lets through
      expect(Math.abs(before!)).toBeLessThan(0.05 * touchable);
    }
  });
  it('asks for no gloves while only single modules can be touched', () => expect(steps.filter(({ voltageClass }) => voltageClass === 'A').every(({ gloves, touchable }) => gloves === undefined && touchable <= 60)).toBe(true));
  it('knows what a tool across a module would draw: its voltage over its resistance', () => {
    const { a, b, current, arcPower } = steps[0]!.bridge!;
    const seen = ask.thevenin({ without: [...car.runs.keys()], withoutLoads: true }, a, b);
    if (seen.outcome !== 'solved') throw new Error(seen.outcome);
    expect(current).toBeCloseTo(Math.abs(seen.voltage) / seen.resistance, 3);
    expect(arcPower).toBeCloseTo((seen.voltage ** 2 / seen.resistance) / 4, 3);
  });
});
