/** In which mode a symptom is one. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { root } from '../../checks/architecture/imports.ts';
import { carFromText } from '../../checks/fixtures/car-from-text.ts';
import { lowVoltageCar } from '../../checks/fixtures/low-voltage-car.ts';
import { askedMode, finderOf } from './finder-of.ts';
import { hear } from './hear.ts';
import { modeOf, offeredSymptoms } from './symptom-modes.ts';

const { car, ask } = carFromText(readFileSync(join(root, 'examples', 'bakery-van', 'build.yaml'), 'utf8'));

describe('a symptom', () => {
  it('is said of the mode in which the sound car does the thing', { timeout: 60_000 }, () => {
    expect(askedMode(car, undefined, ask, ['charger_does_not_start'])).toBe('charge');
    expect(askedMode(car, undefined, ask, ['contactors_drop'])).toBe('ready');
    expect(askedMode(car, undefined, ask, ['battery_dies'])).toBe('off');
    expect(askedMode(car, undefined, ask, ['no_torque'])).toBe('drive');
    expect(askedMode(car, undefined, ask, ['no_click', 'charger_does_not_start'])).toBe('charge');
    expect(askedMode(car, 'ready', ask, ['charger_does_not_start'])).toBe('ready');
    expect(askedMode(car, undefined, ask, ['nonsense'])).toBe('drive');
    const offered = offeredSymptoms(car, ask);
    expect(offered.every(({ mode, why }) => (mode === undefined) === (why !== ''))).toBe(true);
  });
  it('that is so with nothing wrong is told as that, with the mode to ask for', () => {
    const heard = hear({ is: 'symptom', text: 'charger_does_not_start' }, car, finderOf(car, ask, 'drive'));
    expect(heard.ok ? '' : heard.problem).toMatch(/with nothing wrong.*mode charge/);
    const parked = hear({ is: 'symptom', text: 'battery_dies' }, car, finderOf(car, ask, 'drive'));
    expect(parked.ok ? '' : parked.problem).toMatch(/parked.*mode off/);
  });
  it('of a motor that is asked for little is not explained by a sound car', () => {
    const finder = finderOf(car, ask, 'drive');
    const heard = hear({ is: 'symptom', text: 'no_torque' }, car, finder);
    if (!heard.ok) throw new Error(heard.problem);
    const { causes } = finder.rank(heard.taken.observations);
    const place = causes.findIndex(({ hypothesis: { sort } }) => sort === 'none');
    expect(causes[place]!.chance).toBeLessThan(0.2 * causes.find(({ hypothesis: { sort } }) => sort !== 'none' && sort !== 'unlisted')!.chance);
  });
  it('that no mode shows says why', () => {
    const bench = carFromText(lowVoltageCar);
    expect(modeOf(bench.car, bench.ask, 'charger_does_not_start')).toMatchObject({ mode: undefined });
    expect(modeOf(bench.car, bench.ask, 'charger_does_not_start').why).toMatch(/charger/);
  });
});

describe('a blown fuse', () => {
  it('is what a fault did, not the fault, when all that is known is that one blows', () => {
    const finder = finderOf(car, ask, 'drive');
    const heard = hear({ is: 'symptom', text: 'fuse_blows' }, car, finder);
    if (!heard.ok) throw new Error(heard.problem);
    const { causes } = finder.rank(heard.taken.observations);
    const fuses = causes.slice(0, 40).filter(({ hypothesis: { about, changes } }) => changes.every(({ is }) => is === 'open') && car.parts.get(about[0] ?? '')?.roles.protection);
    expect(fuses).toEqual([]);
  });
});
