/** What a test costs and what to mind, as the car stands: after a warning, with the pack parted, and at the beginning. */
import { describe, expect, it } from 'vitest';
import { carFromText } from '../../checks/fixtures/car-from-text.ts';
import { highVoltageCar } from '../../checks/fixtures/high-voltage-car.ts';
import { lowVoltageCar } from '../../checks/fixtures/low-voltage-car.ts';
import { faultFinder } from './fault-finder.ts';
import type { FaultFinder } from './fault-finder.ts';
import { askedStateWords, dangerWords, whereWords } from './fault-words.ts';
import type { Look, Observation } from './observation.ts';

const finderIn = (text: string, mode = 'drive'): FaultFinder => { const { car, ask } = carFromText(text); return faultFinder(car, ask, mode); };
const plain = finderIn(highVoltageCar);
/** the disconnect carries a contact of the loop, and the coils hang on it */
const looped = finderIn(highVoltageCar.replace('fuse_rating: 350 A,', 'interlock: yes, fuse_rating: 350 A,'));
const none = finderIn(highVoltageCar.replace(/^ {2}MSD:.*\n/m, '').replace(/^ {2}R2:.*\n {2}R3:.*\n/m, '  R2: { from: M2.pos, to: M3.neg, stock: bar, length: 300 mm }\n'));
const volts = (finder: FaultFinder, state: keyof FaultFinder['states'], a: string, value = 12): Observation => ({ state: finder.states[state] as Observation['state'], look: { is: 'voltage', a, b: 'chassis' }, value } as Observation);
const asked = (finder: FaultFinder, look: Look, value: boolean): Observation => ({ state: finder.states.asked, look, value } as Observation);
const leak = (finder: FaultFinder): Observation => asked(finder, { is: 'isolation_warning' }, true);
const testsIn = (finder: FaultFinder, state: keyof FaultFinder['states'], seen: readonly Observation[]) => finder.tests.filter((test) => test.state === finder.states[state]).map((test) => finder.afterwards(test, seen));

describe('a test that needs a mode asked for', () => {
  it('says who stands where, and that the wheels are clear', () => {
    for (const { precautions, words } of testsIn(plain, 'asked', [])) {
      const said = precautions.join(' ');
      expect(said, words).toMatch(/second person/);
      expect(said, words).toMatch(/nobody touches/);
      expect(said, words).toMatch(/wheels off the ground.*nobody before, behind or under/i);
    }
  });
  it('says nothing of wheels where nothing can turn them, nor of high voltage in a mode that puts none on', () => {
    const parked = finderIn(lowVoltageCar, 'off');
    const said = testsIn(parked, 'asked', []).filter(({ at }) => at !== 'high').flatMap(({ precautions }) => precautions).join(' ');
    expect(said).not.toMatch(/wheels|second person/);
    expect(said).toMatch(/cover/);
  });
  it.each<readonly [string, (finder: FaultFinder) => Observation, RegExp]>([
    ['a leak is warned of', leak, /leak.*not again/i],
    ['a fuse blows', (finder) => asked(finder, { is: 'blown', of: undefined }, true), /fuse.*not again/i],
    ['a high-voltage fuse has blown', (finder) => asked(finder, { is: 'blown', of: 'F1' }, true), /fuse.*not again/i],
  ])('is dangerous and comes last while %s', (_, warning, words) => {
    const seen = [warning(plain)];
    for (const { danger, precautions } of testsIn(plain, 'asked', seen)) { expect(danger).toBe('high'); expect(precautions.join(' ')).toMatch(words); }
    for (const state of ['disconnected', 'dead'] as const) for (const { danger } of testsIn(plain, state, seen)) expect(danger).not.toBe('high');
    const next = plain.next(plain.rank(seen))!;
    expect(next.test.danger).not.toBe('high');
    expect(next.test.state).not.toBe(plain.states.asked);
  });
  it('may be made again once the warning is gone, or the fuse is known to be one of the 12 V side', () => {
    const { car, ask } = carFromText(lowVoltageCar);
    const finder = faultFinder(car, ask, 'drive');
    const worst = (seen: readonly Observation[]) => new Set(testsIn(finder, 'asked', seen).filter(({ at }) => at === 'low').map(({ danger }) => danger));
    expect(worst([leak(finder)])).toEqual(new Set(['high']));
    expect(worst([leak(finder), asked(finder, { is: 'isolation_warning' }, false)])).toEqual(new Set(['near']));
    expect(worst([asked(finder, { is: 'blown', of: undefined }, true)])).toEqual(new Set(['high']));
    expect(worst([asked(finder, { is: 'blown', of: undefined }, true), asked(finder, { is: 'blown', of: 'F2' }, true)])).toEqual(new Set(['near']));
  });
});

describe('parting the pack', () => {
  it('is done by the service disconnect: nobody undoes a joint for what it shows as well', () => {
    expect(askedStateWords(plain.states.disconnected!, plain.states)).toMatch(/MSD out/);
    expect(plain.tests.some(({ state }) => state === plain.states.packOpen)).toBe(false);
    expect(plain.states.dead.without.every((run) => !plain.states.packOpen!.without.includes(run))).toBe(true);
    expect(testsIn(plain, 'disconnected', [])[0]!.danger).toBe('none');
  });
  it('at a bolted joint is live work with its voltage and gloves, and counts once', () => {
    const [first] = testsIn(looped, 'packOpen', []);
    expect(first!.danger).toBe('high');
    expect(first!.precautions.join(' ')).toMatch(/up to \d{3} V.*gloves.*second person/);
    expect(dangerWords(first!, looped.states)).toMatch(/joint/);
    const inside = finderOfSame(looped, first!.look);
    expect(first!.cost).toBeGreaterThan(100 * inside);
    const [then] = testsIn(looped, 'packOpen', [volts(looped, 'packOpen', 'KP.coil_a')]);
    expect(then!.danger).toBe('none');
    expect(then!.cost).toBeLessThan(10);
    expect(then!.precautions.join(' ')).toMatch(/stays off/);
    // to put it together again is live work too
    expect(testsIn(looped, 'asked', [volts(looped, 'packOpen', 'KP.coil_a')])[0]!.danger).toBe('high');
  });
  it('is never the next step while anything else tells more, and a joint is all there is without a disconnect', () => {
    const seen = [{ ...asked(looped, { is: 'thing', what: 'closes', of: 'KP' }, false) }];
    expect(looped.next(looped.rank(seen))!.test.state).not.toBe(looped.states.packOpen);
    expect(none.states.disconnected).toBeUndefined();
    expect(none.tests.some(({ state }) => state === none.states.packOpen)).toBe(true);
    expect(none.next(none.rank([asked(none, { is: 'thing', what: 'closes', of: 'KP' }, false)]))!.test.state).not.toBe(none.states.packOpen);
  });
  it('is counted once: what is out stays out', () => {
    const cost = (seen: readonly Observation[]): number => testsIn(plain, 'disconnected', seen).find(({ look }) => look.is === 'voltage' && look.a === 'KP.coil_a')!.cost;
    expect(cost([volts(plain, 'disconnected', 'S1.a1')])).toBeLessThan(cost([]));
    expect(whereWords(plain.states.disconnected!, plain.states)).toBe('@disconnect_out');
  });
});

/** Minutes of the same look without danger and setting up. */
function finderOfSame(finder: FaultFinder, look: Look): number { return finder.tests.find((test) => test.look === look || JSON.stringify(test.look) === JSON.stringify(look))!.minutes / 2; }
