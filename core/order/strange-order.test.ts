/** Impossible cars and broken files give a plan, or say why not: never an exception, never NaN. */
import { describe, expect, it } from 'vitest';
import { words } from '../../catalogue/words.ts';
import { examples } from '../../checks/fixtures/examples.ts';
import { twoStringCar } from '../../checks/fixtures/pack-car.ts';
import { analyse } from '../analyse.ts';
import { printValue } from '../quantity/print-value.ts';
import { seededRandom } from '../solve/random.ts';
import { assemblyPlan } from './assembly-plan.ts';
import type { AssemblyPlan } from './assembly-plan.ts';
import { isBetter } from './best-order.ts';
import { jointTool } from './joint-tool.ts';
import { afterWords, beforeWords, bridgeWords, coverWords, cutWords, storedWords } from './step-words.ts';
import { takeApart } from './take-apart.ts';

function plan(text: string): AssemblyPlan {
  const { car } = analyse(text, words, { only: [] });
  const found = assemblyPlan(car);
  if (found.outcome !== 'planned') return found;
  expect(isBetter(found.own, found.best)).toBe(false);
  expect(found.steps.map(({ joint }) => joint.name).sort()).toEqual(found.battery.live.map(({ name }) => name).sort());
  for (const step of found.steps) {
    const { before, after, touchable, bridge, parallel } = step;
    for (const value of [before ?? 0, after?.voltage ?? 0, touchable, bridge?.voltage ?? 0, bridge?.current ?? 0, bridge?.arcPower ?? 0, parallel?.difference ?? 0, parallel?.flow?.current ?? 0, parallel?.mayDiffer?.difference ?? 0]) expect(Number.isFinite(value), step.joint.name).toBe(true);
    expect(touchable).toBeGreaterThanOrEqual(0);
    for (const said of [beforeWords(step, printValue), afterWords(step, printValue), bridge ? bridgeWords(bridge, printValue) : '', coverWords(step), storedWords(step.stored, printValue), jointTool(car, step).tool]) expect(said).not.toMatch(/NaN|undefined|\[object/);
  }
  for (const step of takeApart(found.steps)) for (const said of Object.values(cutWords(step, printValue))) expect(said).not.toMatch(/NaN|undefined/);
  return found;
}

const van = examples.find(({ name }) => name === 'bakery-van')!.text;

describe('an impossible battery', () => {
  it('that is nothing, or has no runs, has nothing to order', () => {
    for (const text of ['', 'halfshaft: 1\n', van.replace(/^ {2}M\d+:.*\n.*$/gm, '')]) expect(plan(text).outcome).toBe('nothing');
  });
  it('whose module is shorted by a run', () => {
    const found = plan(van.replace('runs:\n', 'runs:\n  X1: { from: M3.pos, to: M3.neg, stock: bar, length: 80 mm }\n'));
    expect(found.outcome).toBe('planned');
    if (found.outcome === 'planned') expect(found.steps.find(({ joint }) => joint.name === 'X1')).toMatchObject({ closesLoop: true });
    if (found.outcome === 'planned') expect(beforeWords(found.steps.find(({ joint }) => joint.name === 'X1')!, printValue)).toMatch(/Closes a loop of 1 module\..*Do not join them like this\.$/);
  });
  it('whose strings are closed to a ring, one of them turned round', () => { expect(plan(twoStringCar.replace('from: B1.pos, to: B2.neg', 'from: B1.pos, to: B2.pos')).outcome).toBe('planned'); });
  it('whose modules lack their cells', () => {
    const found = plan(van.replaceAll('cell: reclaimed', 'cell: gone'));
    expect(['nothing', 'planned']).toContain(found.outcome);
  });
  it('whose run waits for itself', () => { expect(['planned', 'impossible']).toContain(plan(van.replace('H02: {', 'H02: { after: [H02],')).outcome); });
});

describe.each(examples)('$name with broken lines', ({ text }) => {
  const lines = text.split('\n');
  it.each(Array.from({ length: 2 }, (_, seed) => seed))('seed %d', (seed) => {
    const random = seededRandom(seed, 47);
    plan(lines.map((line) => (random() > 0.06 ? line : random() < 0.5 ? '' : line.replace(/\d+/, () => ['0', '-3', '1e30', 'x'][Math.floor(random() * 4)]!))).join('\n'));
  });
});
