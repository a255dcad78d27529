import { describe, expect, it } from 'vitest';
import { analysed } from '../../checks/fixtures/analysed.ts';
import { examples } from '../../checks/fixtures/examples.ts';
import { heldSteps, SETTLE_STEP } from './held-steps.ts';
import { powerUp } from './steps.ts';
import type { PowerUpStep } from './step.ts';

const textOf = (name: string): string => examples.find((example) => example.name === name)!.text;
const stepsOf = (text: string): readonly PowerUpStep[] => { const { car, ask, findings } = analysed(text); return heldSteps(car, powerUp(car, ask, undefined).steps, findings); };
const van = textOf('bakery-van');

describe('a procedure under findings at STOP', () => {
  const shorted = stepsOf(van.replace(/^runs:/m, 'runs:\n  L1: { from: M5.pos, to: M6.pos, stock: hv50, length: 0.2 m }'));
  it('names them first, with what to do, as a hold point', () => {
    expect(shorted[0]).toMatchObject({ id: SETTLE_STEP, isHoldPoint: true });
    expect(shorted[0]!.cautions[0]).toMatch(/^STOP 1: M6 is short-circuited through L1, H07\. Do not make that joint/);
  });
  it('does not join a pack with a shorted module, and gives no instruction for it', () => {
    for (const id of ['join.H06', 'join.voltage.M1']) {
      const step = shorted.find((one) => one.id === id)!;
      expect(step.heldBy!.map(({ code }) => code)).toEqual(['pack.module-not-shorted']);
      expect(step).toMatchObject({ isHoldPoint: true, measure: undefined, instrument: undefined, expect: '', cautions: [] });
      expect(step.action).not.toMatch(/join, torque|Push|Read between/);
    }
  });
  it('holds what is wrong in one mode in that mode alone', () => {
    expect(shorted.find(({ id }) => id === 'charge.charge.current')!.heldBy!.map(({ code }) => code)).toEqual(['pack.charge-voltage']);
    expect(shorted.find(({ id }) => id === 'limited-source.BENCH.rise.50')!.heldBy).toBeUndefined();
  });
  it('never holds the way back to a dead car', () => {
    for (const steps of [shorted, stepsOf(textOf('two-string-coupe'))]) for (const { id, heldBy } of steps) if (/split|restored|\.back$|opened|^shut-down/.test(id)) expect(heldBy, id).toBeUndefined();
  });
  it('of the coupé: the joint of its weak fuse, precharge, both strings’ contacts; the voltages of the strings are read all the same', () => {
    const held = new Map(stepsOf(textOf('two-string-coupe')).flatMap(({ id, heldBy }) => (heldBy ? [[id, heldBy.map(({ code }) => code)] as const] : [])));
    expect(held.get(SETTLE_STEP)).toHaveLength(6);
    expect(held.get('join.S_F_B')).toEqual(['high-voltage.fuse-voltage-rating']);
    expect(held.get('precharge.precharge.link')).toContain('high-voltage.precharge-finishes');
    for (const contact of ['K_A_pos', 'K_A_neg', 'K_B_pos', 'K_B_neg']) expect(held.get(`ready.contact.${contact}`)).toContain('pack.joining-current');
    for (const id of ['join.S_F_A', 'join.voltage.A1', 'join.strings.A1.B1', 'insulation.HEAT']) expect(held.has(id), id).toBe(false);
  });
  it('is the same without them', () => {
    const { car, ask, findings } = analysed(van);
    const { steps } = powerUp(car, ask, undefined);
    expect(findings.some(({ level }) => level === 'stop')).toBe(false);
    expect(heldSteps(car, steps, findings)).toBe(steps);
  });
}, 60_000);
