import { expect, it } from 'vitest';
import { words } from '../../catalogue/words.ts';
import { examples } from '../../checks/fixtures/examples.ts';
import { analyse } from '../analyse.ts';
import { procedureOf } from './procedures.ts';

const van = examples.find(({ name }) => name === 'bakery-van')!.text;
const shorted = analyse(van.replace(/^runs:/m, 'runs:\n  L1: { from: M5.pos, to: M6.pos, stock: hv50, length: 0.2 m }'), words);

it('the guided assembly begins with the findings at STOP, and makes no joint that they are about', () => {
  const { steps, headings } = procedureOf('assembly', shorted, []);
  expect(headings).toHaveLength(steps.length);
  expect(steps[0]).toMatchObject({ id: 'assembly.settle', isHoldPoint: true });
  expect(steps[0]!.cautions[0]).toMatch(/^STOP 1: M6 is short-circuited through L1, H07/);
  for (const id of ['assembly.L1.after', 'assembly.H07.after']) expect(steps.find((step) => step.id === id)).toMatchObject({ measure: undefined, isHoldPoint: true, action: expect.stringMatching(/^Do not make this joint/) });
  expect(steps.find(({ id }) => id === 'assembly.L1.before')!.measure).toBeDefined();
  expect(steps.filter(({ heldBy }) => heldBy).map(({ id }) => id).sort()).toEqual(['assembly.H07.after', 'assembly.L1.after', 'assembly.settle']);
});
it('the guided power-up does too', () => {
  const { steps } = procedureOf('power-up', shorted, []);
  expect(steps[0]!.id).toBe('prepare.settle');
  expect(steps.find(({ id }) => id === 'join.H06')!.action).toMatch(/^Do not do this step/);
});
