import { describe, expect, it } from 'vitest';
import type { Check } from './finding.ts';
import { checkKey, judge, marginOf } from './judge.ts';

const check = (more: Partial<Check>): Check => ({ code: 'mass.total', about: ['vehicle'], sense: 'at_most', quantity: 'mass', ...more });
const level = (more: Partial<Check>, chance?: number): string | undefined => {
  const made = check(more);
  const doubts = chance === undefined ? undefined : new Map([[checkKey(made), { chance, settledBy: [] }]]);
  return judge([made], { places: new Map(), units: 'metric', ...(doubts ? { doubts } : {}) })[0]?.level;
};

describe('a margin', () => {
  it('is not there when something is missing, even if a value is', () => {
    expect(marginOf(check({ value: 1, limit: 2, needs: ['parts.M1.mass'] }))).toBeUndefined();
    expect(marginOf(check({ value: 1 }))).toBeUndefined();
  });
  it('is a share of the limit, positive on the right side', () => {
    expect(marginOf(check({ value: 900, limit: 1000 }))).toBeCloseTo(0.1, 12);
    expect(marginOf(check({ value: 900, limit: 1000, sense: 'at_least' }))).toBeCloseTo(-0.1, 12);
  });
  it('is the distance itself for a limit of zero', () => expect(marginOf(check({ value: 0.3, limit: 0 }))).toBeCloseTo(-0.3, 12));
  it('refuses a number that is none', () => {
    expect(() => marginOf(check({ value: Number.NaN, limit: 1 }))).toThrow('not finite');
    expect(() => marginOf(check({ value: 1, limit: Infinity }))).toThrow('not finite');
  });
});

describe('a level', () => {
  it('is unknown when something is missing', () => expect(level({ needs: ['vehicle.total_rating'] })).toBe('unknown'));
  it('is that of the code when the limit is passed, or milder when the check says so', () => {
    expect(level({ value: 1001, limit: 1000 })).toBe('fix');
    expect(level({ value: 1001, limit: 1000, levelWhenBroken: 'watch' })).toBe('watch');
  });
  it('is watch when only just held', () => {
    expect(level({ value: 990, limit: 1000 })).toBe('watch');
    expect(level({ value: 900, limit: 1000 })).toBe('holds');
  });
  it('is watch when it holds but not surely, and never better than broken for a good chance', () => {
    expect(level({ value: 900, limit: 1000 }, 0.9)).toBe('watch');
    expect(level({ value: 900, limit: 1000 }, 0.99)).toBe('holds');
    expect(level({ value: 1100, limit: 1000 }, 0.99)).toBe('fix');
  });
});

describe('advice beside what holds', () => {
  const advice = (more: Partial<Check>, chance?: number): string | undefined => {
    const made = check(more);
    return judge([made], { places: new Map(), units: 'metric', ...(chance === undefined ? {} : { doubts: new Map([[checkKey(made), { chance, settledBy: [] }]]) }) })[0]?.whatToDo;
  };
  it('says why it is given', () => {
    expect(advice({ value: 990, limit: 1000 })).toMatch(/^It holds with 1 % to spare\. \S/);
    expect(advice({ value: 999, limit: 1000 })).toMatch(/^It holds with less than 1 % to spare\. /);
    expect(advice({ value: 900, limit: 1000 }, 0.9)).toMatch(/^It holds with the numbers as they stand; their tolerances may tip it\. /);
  });
  it('does not where it is broken, and is none where it holds', () => {
    expect(advice({ value: 1100, limit: 1000 })).not.toMatch(/holds/);
    expect(advice({ value: 1100, limit: 1000, levelWhenBroken: 'watch' })).not.toMatch(/holds/);
    expect(advice({ value: 500, limit: 1000 })).toBe('');
  });
});

describe('a finding', () => {
  const places = new Map([['parts.M1', { line: 3, column: 3, offset: 20, end: 22 }], ['vehicle', { line: 9, column: 1, offset: 90, end: 97 }]]);
  it('shows value and limit with enough digits to differ', () => {
    const [finding] = judge([check({ value: 1000.2, limit: 1000 })], { places, units: 'metric' });
    expect(finding?.statement).toContain('1000.2 kg');
    expect(finding?.statement).toContain('1000 kg');
  });
  it('has the place of its path, or of the nearest thing above it', () => {
    expect(judge([check({ value: 1, limit: 2, path: 'parts.M1.mass' })], { places, units: 'metric' })[0]?.place?.line).toBe(3);
    expect(judge([check({ value: 1, limit: 2, about: ['M1'] })], { places, units: 'metric' })[0]?.path).toBe('parts.M1');
    expect(judge([check({ value: 1, limit: 2, path: 'nowhere.at.all' })], { places, units: 'metric' })[0]?.place).toBeUndefined();
  });
  it('comes worst first', () => {
    const levels = judge([check({ value: 1, limit: 2 }), check({ needs: ['x'] }), check({ value: 3, limit: 2 })], { places, units: 'metric' }).map((finding) => finding.level);
    expect(levels).toEqual(['fix', 'unknown', 'holds']);
  });
  it('says what is missing', () => {
    const [finding] = judge([check({ needs: ['vehicle.total_rating'] })], { places, units: 'metric' });
    expect(finding?.statement).toContain('Needs vehicle.total_rating.');
    expect(finding?.whatToDo).toBe('Give vehicle.total_rating.');
  });
  it('prints in the units the builder prefers', () => {
    expect(judge([check({ value: 1000, limit: 2000 })], { places, units: 'imperial' })[0]?.statement).toContain('lb');
  });
  it('refuses a code that the table does not have', () => expect(() => judge([check({ code: 'mass.nonsense' })], { places, units: 'metric' })).toThrow('code table'));
});
