import { describe, expect, it } from 'vitest';
import { words } from '../../catalogue/words.ts';
import { examples } from '../../checks/fixtures/examples.ts';
import { carFromText } from '../../checks/fixtures/car-from-text.ts';
import { twoStringCar } from '../../checks/fixtures/pack-car.ts';
import { analyse } from '../analyse.ts';
import type { State } from '../car/state.ts';
import { batteryJoints } from './battery-joints.ts';
import { bestOrder, measureOrder } from './best-order.ts';
import { assemblyPlan } from './assembly-plan.ts';
import { contactMeetings } from '../topics/pack/contact-meeting.ts';
import { printValue } from '../quantity/print-value.ts';
import type { PackResults } from '../topics/pack/study.ts';
import { contactWords } from './step-words.ts';
import { procedure } from './procedure.ts';
import { takeApart } from './take-apart.ts';

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
  const steps = procedure(car, battery, order);
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
    const { a, b, voltage, current, arcPower } = steps[0]!.bridge!;
    const seen = ask.thevenin({ without: [...car.runs.keys()], withoutLoads: true }, a, b);
    if (seen.outcome !== 'solved') throw new Error(seen.outcome);
    expect(voltage).toBeCloseTo(12 * 4.2, 9);
    expect(current).toBeCloseTo(voltage / seen.resistance, 3);
    expect(arcPower).toBeCloseTo((voltage ** 2 / seen.resistance) / 4, 3);
  });
  it('reads in each state what the network of that state alone reads, where no module was read', () => {
    const unread = analyse(examples.find(({ name }) => name === 'bakery-van')!.text.replace(/ measured_voltage: [^,]*,/g, ''), words, { only: [] });
    const [all, ask] = [battery.live, unread.ask];
    procedure(unread.car, batteryJoints(unread.car), order).forEach(({ joint, before, after }, at) => {
      const state = (made: number): State => { const out = order.slice(made).map((index) => all[index]!); return { without: out.filter(({ is }) => is === 'run').map(({ name }) => name), set: Object.fromEntries(out.filter(({ is }) => is === 'disconnect').map(({ name }) => [name, { pulled: true }])) }; };
      const alone = ask.meter(state(at), joint.a, joint.b);
      if (alone.outcome !== 'reads') throw new Error(alone.why);
      expect(before).toBeCloseTo(alone.voltage, 6);
      const across = after && ask.meter(state(at + 1), after.a, after.b);
      if (across?.outcome === 'reads') expect(after!.voltage).toBeCloseTo(across.voltage, 6);
    });
    expect(steps.at(-1)!.after).toMatchObject({ a: expect.stringMatching(/\.(pos|in|out)$/), voltage: expect.any(Number) as number });
  });
  it('takes for each module what the builder read there', () => {
    const read = new Map(battery.readings.map(({ module, voltage }) => [module, voltage!]));
    const all = [...read.values()].reduce((sum, volts) => sum + volts, 0);
    expect(all).not.toBeCloseTo(84 * car.parts.get('M1')!.cell!.voltage, 1);
    // leaks and the meter take a few millivolts
    expect(steps.at(-1)!.after!.voltage).toBeCloseTo(all, 1);
  });
  it('is never worse than the order of the file, and backwards passes through the same states', () => {
    const plan = assemblyPlan(car);
    if (plan.outcome !== 'planned') throw new Error(plan.outcome);
    expect(plan.best.sum).toBeLessThan(plan.own.sum);
    expect(plan.best.stepsInClassB).toBeLessThanOrEqual(plan.own.stepsInClassB);
    expect(plan.own.steps.map(({ joint }) => battery.live[joint]!.name)).toEqual(battery.live.map(({ name }) => name));
    const apart = takeApart(plan.steps);
    expect(apart[0]!.joint.name).toBe('SD');
    apart.forEach(({ touchableBefore }, at) => { if (at > 0) expect(touchableBefore).toBe(apart[at - 1]!.touchable); });
    expect(apart.at(-1)!.touchable).toBeCloseTo(50.4, 9);
  });
});

describe('strings that runs lay in parallel', () => {
  const { car: parallel } = carFromText(twoStringCar);
  const plan = assemblyPlan(parallel);
  if (plan.outcome !== 'planned') throw new Error(plan.outcome);
  const closing = plan.steps.filter(({ closesLoop }) => closesLoop);
  it('are closed by one joint, and that one knows what will flow', () => {
    expect(closing).toHaveLength(1);
    const { parallel: joined } = closing[0]!;
    // four modules of 20 mV each
    expect(Math.abs(joined!.difference)).toBeCloseTo(0.08, 6);
    expect(joined!.differenceFrom).toBe('readings');
    expect([...joined!.loop.modules].map(({ name }) => name).sort()).toEqual(['A1', 'A2', 'A3', 'A4', 'B1', 'B2', 'B3', 'B4']);
    // 96 cells of a milliohm, and a little metal
    expect(Math.abs(joined!.difference) / joined!.flow!.current).toBeGreaterThan(0.096);
    expect(Math.abs(joined!.difference) / joined!.flow!.current).toBeLessThan(0.12);
  });
  it('may differ by what drives the charge current of the cells through the loop', () => {
    const { mayDiffer, flow, difference } = closing[0]!.parallel!;
    expect(mayDiffer).toMatchObject({ by: 'cells', current: 60 });
    expect(mayDiffer!.difference).toBeCloseTo(60 * (Math.abs(difference) / flow!.current), 6);
  });
  it('say by which number they were compared when a module was not read', () => {
    const { car: unread } = carFromText(twoStringCar.replace('measured_voltage: 45.68 V', 'parallel: 1'));
    const other = assemblyPlan(unread);
    if (other.outcome !== 'planned') throw new Error(other.outcome);
    const at = other.steps.find(({ closesLoop }) => closesLoop)!.parallel!;
    expect(at.differenceFrom).toBe('computed');
    expect(Math.abs(at.difference)).toBeLessThan(1e-6);
  });
});

describe('strings that contactors lay in parallel', () => {
  const { car: coupe } = analyse(examples.find(({ name }) => name === 'two-string-coupe')!.text, words, { only: [] });
  const [meeting, ...more] = contactMeetings(coupe);
  it('meet when the last contact closes, each two of them once; no joint closes a loop', () => {
    expect(more).toEqual([]);
    expect(meeting).toMatchObject({ strings: ['A1', 'B1'], contacts: expect.arrayContaining(['K_A_pos', 'K_A_neg', 'K_B_pos', 'K_B_neg']) });
    const plan = assemblyPlan(coupe);
    if (plan.outcome !== 'planned') throw new Error(plan.outcome);
    expect(plan.steps.some(({ closesLoop }) => closesLoop)).toBe(false);
  });
  it('by the sums of what was read, through both strings and all that lies between', () => {
    const { difference, differenceFrom, flow, mayDiffer, loop } = meeting!.parallel;
    // 376.95 V less 360.65 V
    expect(difference).toBeCloseTo(16.3, 6);
    expect(differenceFrom).toBe('readings');
    expect(loop.modules).toHaveLength(16);
    expect(loop.fuses.map(({ name }) => name).sort()).toEqual(['F_A', 'F_B']);
    // 192 cells of 0.6 mΩ, and some metal
    const resistance = difference / flow!.current;
    expect(resistance).toBeGreaterThan(192 * 0.5e-3);
    expect(resistance).toBeLessThan(192 * 0.6e-3 * 1.6);
    expect(flow!.heat).toBeCloseTo((difference * flow!.current * flow!.timeConstant) / 2, 3);
    expect(mayDiffer).toMatchObject({ by: 'cells', current: 63 });
    expect(mayDiffer!.difference).toBeCloseTo(63 * resistance, 6);
  });
  it('agree with what the pack’s own finding works out', () => {
    const { results } = analyse(examples.find(({ name }) => name === 'two-string-coupe')!.text, words, { only: ['pack'] });
    const [joining] = (results.pack as PackResults).joinings;
    expect(meeting!.parallel.flow!.current).toBeCloseTo(joining!.equalising!.current, 1);
    expect(meeting!.parallel.flow!.heat / joining!.equalising!.heat).toBeCloseTo(1, 2);
  });
  it('say which modules to read first where the difference is not known', () => {
    const { car: unread } = analyse(examples.find(({ name }) => name === 'two-string-coupe')!.text.replace(' measured_voltage: 45.30 V ±0.02 measured,', ''), words, { only: [] });
    expect(contactMeetings(unread)[0]!.notRead).toEqual(['B2']);
    expect(contactWords(contactMeetings(unread)[0]!, printValue)).toMatch(/read B2 first\. Close them at 9\.\d+ V apart or less\.$/);
  });
  it('are none where there is one string, or a joint closes the loop', () => {
    expect(contactMeetings(car)).toEqual([]);
    expect(contactMeetings(carFromText(twoStringCar).car)).toEqual([]);
  });
});

describe('a battery that cannot be put together', () => {
  it('names the runs that wait for each other', () => {
    const { car: stuck } = carFromText(twoStringCar.replace('RA1: {', 'RA1: { after: [RA4],').replace('RA4: {', 'RA4: { after: [RA1],'));
    // the disconnects wait for all
    expect(assemblyPlan(stuck)).toMatchObject({ outcome: 'impossible', joints: ['RA1', 'RA4', 'DA', 'DB'] });
  });
  it('has nothing to order without cells', () => expect(assemblyPlan(carFromText('halfshaft: 1\nname: new\n').car).outcome).toBe('nothing'));
});
