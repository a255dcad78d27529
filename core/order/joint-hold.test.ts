import { describe, expect, it } from 'vitest';
import { words } from '../../catalogue/words.ts';
import { carFromText } from '../../checks/fixtures/car-from-text.ts';
import { examples } from '../../checks/fixtures/examples.ts';
import { twoStringCar } from '../../checks/fixtures/pack-car.ts';
import { analyse } from '../analyse.ts';
import { openStops } from '../findings/open-stops.ts';
import { printValue } from '../quantity/print-value.ts';
import { assemblyPlan } from './assembly-plan.ts';
import { jointHolds } from './joint-hold.ts';
import { apartWords, cutWords } from './step-words.ts';
import { takeApart } from './take-apart.ts';

const textOf = (name: string): string => examples.find((example) => example.name === name)!.text;
const van = textOf('bakery-van');
function holdsOf(text: string) {
  const { car, findings } = analyse(text, words);
  const plan = assemblyPlan(car);
  if (plan.outcome !== 'planned') throw new Error(plan.outcome);
  return jointHolds(car, plan.steps, openStops(findings));
}

describe('a joint that must not be made', () => {
  it('is each that a finding at STOP names, and no other of the module', () => {
    const holds = holdsOf(van.replace(/^runs:/m, 'runs:\n  L1: { from: M5.pos, to: M6.pos, stock: hv50, length: 0.2 m }'));
    expect([...holds.keys()].sort()).toEqual(['H07', 'L1']);
    expect(holds.get('L1')!.words).toMatch(/^Do not make this joint\. It is held by STOP 1 until that is settled: M6 is short-circuited/);
  });
  it('is one at a fuse that does not bear the pack; strings that only contactors join are put together', () => {
    expect([...holdsOf(textOf('two-string-coupe')).keys()].sort()).toEqual(['F_B5', 'S_F_B']);
  });
  it('is one whose ends stand too far apart, whatever the findings say', () => {
    const { car } = carFromText(twoStringCar.replace('measured_voltage: 45.68 V', 'measured_voltage: 35.68 V'));
    const plan = assemblyPlan(car);
    if (plan.outcome !== 'planned') throw new Error(plan.outcome);
    const closing = plan.steps.find(({ closesLoop }) => closesLoop)!;
    expect([...jointHolds(car, plan.steps, [])]).toMatchObject([[closing.joint.name, { stops: [], words: expect.stringMatching(/^Do not make this joint/) }]]);
  });
  it('is none where all is well', () => expect(holdsOf(van).size).toBe(0));
});

describe('taking apart', () => {
  const { car } = carFromText(van);
  const plan = assemblyPlan(car);
  if (plan.outcome !== 'planned') throw new Error(plan.outcome);
  const [first] = takeApart(plan.steps);
  it('reads across the battery, not across a closed plug, and again once it is apart', () => {
    const { before, after } = cutWords(first!, printValue);
    expect(before).toMatch(/^M7\.pos \(red\) to M1\.neg: \+335 V; 0 A/);
    expect(before).not.toMatch(/SD\.in to SD\.out: 0 V/);
    expect(Math.abs(first!.joinedReads!)).toBeLessThan(first!.joined!.voltage / 10);
    expect(after).toMatch(/^M7\.pos \(red\) to M1\.neg: .*the voltage of before means that it is not apart/);
  });
  it('names the points at every capacitor, and the time without anything active', () => {
    expect(apartWords(car, 80, printValue)).toMatch(/wait 80 s.*reads below 60 V at DU\.pos to DU\.neg, CHG\.pos to CHG\.neg, DCDC\.pos to DCDC\.neg, HEAT\.pos to HEAT\.neg/);
  });
});
