import { describe, expect, it } from 'vitest';
import { carFromText } from '../../../checks/fixtures/car-from-text.ts';
import { examples } from '../../../checks/fixtures/examples.ts';
import type { Check } from '../../findings/finding.ts';
import { driveRules } from './drive-rules.ts';
import { modes } from './study.ts';

const hauler = examples.find(({ name }) => name === 'orchard-hauler')!.text;
const swapped = (text: string, from: string, to: string): string => {
  if (!text.includes(from)) throw new Error(`${from} is not in the text`);
  return text.replace(from, to);
};
function checksOf(text: string, code: string): readonly Check[] {
  const { car, ask } = carFromText(text);
  return modes.study(car, ask).checks.filter((check) => check.code === `modes.${code}`);
}
const broken = (checks: readonly Check[]): readonly Check[] => checks.filter(({ needs, value, limit }) => needs === undefined && (value ?? 0) < (limit ?? 0));

describe('modes of the orchard hauler', () => {
  it('leave nothing broken as they stand', () => {
    const { car, ask } = carFromText(hauler);
    const { checks } = modes.study(car, ask);
    expect(broken(checks)).toEqual([]);
    expect(checks.length).toBeGreaterThan(30);
  });
  it('asks nothing of a draw that is only for margins', () => {
    const { car, ask } = carFromText(hauler);
    expect(modes.study({ ...car, isForMargins: true }, ask).checks).toEqual([]);
  });
});

describe('a mode that is never entered', () => {
  it('because nothing leads there', () => {
    const found = broken(checksOf(swapped(swapped(hauler, '    from: [precharge]\n', '    from: [lost]\n'), 'modes:\n', 'modes:\n  lost: { from: [hill] }\n'), 'mode-reachable'));
    expect(found.map(({ about }) => about[0])).toEqual(['lost', 'ready', 'drive', 'hill', 'regen']);
  });
});

describe('a need that can never hold where the mode is entered from', () => {
  it('a voltage that is not there yet', () => {
    const [check, ...more] = broken(checksOf(swapped(hauler, "0.95 * V('K_main.in', 'M1.neg')   # precharge done", "1.5 * V('K_main.in', 'M1.neg')"), 'need-possible'));
    expect(more).toEqual([]);
    expect(check).toMatchObject({ about: ['ready'], path: 'modes.ready.needs.0' });
    expect(check!.details!['values']).toMatch(/K_main.out to M1.neg 52\.\d V/);
  });
  it('but not one that a hand can make true, whatever the file sets', () => expect(broken(checksOf(swapped(hauler, "DIRECTION.position == 'neutral'", "DIRECTION.position == 'reverse'"), 'need-possible'))).toEqual([]));
});

describe('what a mode drives', () => {
  it('does not arrive from a controller that sleeps', () => {
    const found = broken(checksOf(swapped(hauler, 'set: { KEY: { position: run }, SEAT: { closed: yes }, SEQ: { on: [inv_wake, k_pre] } }', 'set: { SEAT: { closed: yes }, SEQ: { on: [inv_wake, k_pre] } }'), 'output-driven'));
    expect(found.map(({ about, variant }) => [about[0], variant])).toEqual([['SEQ', 'precharge']]);
  });
  it('closes no contactor without a condition', () => {
    const found = broken(checksOf(hauler.replace(/ {4}needs:\n {6}- V\('K_main.out', 'M1.neg'\).*\n/, ''), 'contact-has-need'));
    expect(found.map(({ about }) => about)).toEqual([['ready', 'K_main']]);
  });
  it('is what the file asserts', () => expect(broken(checksOf(swapped(hauler, "V('DCDC.lv_pos') > voltage('13 V')", "V('DCDC.lv_pos') > voltage('15 V')"), 'assert-holds')).map(({ about }) => about[0])).toEqual(['ready']));
});

describe('the rules of electric propulsion', () => {
  it('count the actions that drive cannot do without', () => {
    expect(checksOf(hauler, 'two-actions-to-drive')[0]).toMatchObject({ value: 3 });
    const one = swapped(swapped(hauler, "[SEAT.closed, KEY.position == 'run', INLET.plugged == false]", "[KEY.position == 'run']"), "[ESTOP.closed, DIRECTION.position == 'neutral', SEAT.closed]", '[ESTOP.closed]');
    const [check] = checksOf(swapped(one, "[DIRECTION.position != 'neutral', SEAT.closed, INLET.plugged == false]", '[INLET.plugged == false]'), 'two-actions-to-drive');
    expect(check).toMatchObject({ value: 1, levelWhenBroken: 'watch' });
  });
  it('refuse drive with the plug in, or say that the file is silent, or that it is not refused', () => {
    expect(checksOf(hauler, 'no-drive-while-plugged')[0]).toMatchObject({ value: 1 });
    const silent = hauler.replaceAll(', INLET.plugged == false', '').replace('INLET.plugged && KEY', 'KEY');
    expect(checksOf(silent, 'no-drive-while-plugged')[0]).toMatchObject({ needs: ['modes.drive.needs'] });
    const wrong = hauler.replaceAll('INLET.plugged == false', '(INLET.plugged || SEAT.closed)');
    expect(checksOf(wrong, 'no-drive-while-plugged')[0]).toMatchObject({ value: 0, about: ['INLET', 'drive', 'hill', 'regen'] });
  });
  it('ask for a lamp', () => expect(broken(checksOf(hauler.replaceAll('k_main, ready]', 'k_main]'), 'drive-indicated')).length).toBe(1));
  it('ask for one switch that ends it', () => {
    expect(checksOf(hauler, 'one-action-off')[0]!.about).toEqual(['drive', 'KEY']);
  });
  it('but no crash switch: nobody stands at it', () => {
    const { car, ask } = carFromText(swapped(hauler, 'ESTOP: { kind: switch,', 'ESTOP: { kind: switch, worked_by: crash,'));
    const named = (rules: readonly { readonly part: string }[]): readonly string[] => rules.map(({ part }) => part);
    const { offBy, stops } = driveRules(car, ask, 'all').results;
    expect([named(offBy), named(stops)]).toEqual([['KEY', 'ESTOP'], ['KEY']]);
  });
  it('are unknown where no mode drives', () => {
    const parked = hauler.replace(/^modes:[\s\S]*$/m, 'modes:\n  off: { meaning: parked }\n');
    expect(checksOf(parked, 'one-action-off')[0]).toMatchObject({ needs: ['modes'] });
  });
});
