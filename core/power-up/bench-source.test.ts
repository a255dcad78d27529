import { describe, expect, it } from 'vitest';
import { carFromText } from '../../checks/fixtures/car-from-text.ts';
import { examples } from '../../checks/fixtures/examples.ts';
import { massEntries } from '../topics/mass/masses.ts';
import { oneTwoFive } from './bench-settings.ts';
import { causeFinder } from './causes.ts';
import type { PowerUpStep } from './step.ts';
import { powerUp } from './steps.ts';

const textOf = (name: string): string => examples.find((example) => example.name === name)!.text;
const van = textOf('bakery-van');
const source = /^ {2}BENCH:.*\n.*\n/m.exec(van)![0];
const withSource = (line: string): string => van.replace(source, line);

function blockOf(text: string): readonly PowerUpStep[] {
  const { car, ask } = carFromText(text);
  return powerUp(car, ask, undefined).steps.filter(({ phase }) => phase === 'limited_source');
}
const step = (steps: readonly PowerUpStep[], id: string): PowerUpStep => {
  const found = steps.find((one) => one.id === `limited-source.${id}`);
  if (!found) throw new Error(`no step ${id}; there are ${steps.map((one) => one.id).join(' ')}`);
  return found;
};

describe('the bench source of the van', () => {
  const { car, ask } = carFromText(van);
  const all = powerUp(car, ask, undefined).steps;
  const steps = all.filter(({ phase }) => phase === 'limited_source');
  it('comes before the pack is joined, and the pack is open in every state of it', () => {
    expect(all.indexOf(steps.at(-1)!)).toBeLessThan(all.findIndex(({ phase }) => phase === 'join'));
    for (const { state, id } of steps) expect(state?.without, id).toContain('H06');
  });
  it('is set below the border of class A first, then to what every part on the bus bears, with little power', () => {
    const set = steps.flatMap(({ state }) => { const one = state?.set?.['BENCH']; return one ? [one as { voltage: number; current: number }] : []; });
    const levels = [...new Set(set.map(({ voltage }) => voltage))];
    expect(levels).toEqual([50, 350, 0]);
    for (const { voltage, current } of set) { expect(current).toBeLessThanOrEqual(0.5); expect(voltage * current).toBeLessThanOrEqual(50); }
  });
  it('brings its voltage to every capacitor on the bus, and to the far side of each contact once that closes', () => {
    for (const link of ['DU', 'CHG', 'DCDC', 'HEAT']) expect(step(steps, `BENCH.at.350.${link}`).predicted!.nominal).toBeCloseTo(350, 0);
    expect(step(steps, 'BENCH.contact.K_neg').predicted!.nominal).toBeCloseTo(-350, 0);
    expect(step(steps, 'BENCH.contact.K_pos').predicted!.nominal).toBeCloseTo(350, 0);
  });
  it('leaves the converter asleep where it would take more than the source gives', () => {
    expect(step(steps, 'BENCH.contact.K_pos').state!.without).toContain('K17');
    expect(step(steps, 'BENCH.contact.K_neg').state!.without).not.toContain('K17');
  });
  it('shows bleeder, monitor and leaks as what still flows', () => {
    const drawn = step(steps, 'BENCH.remains').predicted!.nominal;
    // the bleeder alone takes 350 V / 47 kΩ
    expect(drawn).toBeGreaterThan(350 / 47e3);
    expect(drawn).toBeLessThan(1.1 * (350 / 47e3));
  });
  it('reads the isolation that its own terminals and the leaks of the bus make', () => {
    const ohms = (port: string): number => car.parts.get('BENCH')!.fields[port] as number;
    expect(step(steps, 'BENCH.isolation.result').predicted!.nominal).toBeLessThan(ohms('insulation_resistance') / 2);
    expect(step(steps, 'BENCH.isolation.result').willFail).toBe(false);
  });
  it('ends below 60 V', () => expect(step(steps, 'BENCH.off')).toMatchObject({ isHoldPoint: true, willFail: false, limit: { value: 60 } }));
  it('names what a wrong reading means: a link whose fuse is out, a source that is off', () => {
    const finder = causeFinder(car, ask);
    expect(finder.causesOf(step(steps, 'BENCH.at.350.DCDC'))).toContainEqual(expect.objectContaining({ part: 'F_dcdc' }));
    expect(finder.causesOf(step(steps, 'BENCH.set'))).toContainEqual(expect.objectContaining({ part: 'BENCH', failure: 'output_off' }));
  });
  it('weighs nothing in the vehicle and is not missed there', () => expect(massEntries(car).filter(({ name }) => name === 'BENCH')).toEqual([]));
});

describe('another source', () => {
  it('that stops at 40 V makes one stage, and no isolation reading', () => {
    const steps = blockOf(withSource('  BENCH: { kind: bench_source, maximum_voltage: 40 V label, maximum_current: 5 A label }\n'));
    expect(steps.filter(({ id }) => id.includes('.rise.')).map(({ id }) => id)).toEqual(['limited-source.BENCH.rise.40']);
    expect(steps.filter(({ id }) => id.includes('.isolation.') || id.endsWith('.empty'))).toEqual([]);
    expect(steps.find(({ id }) => id.endsWith('.DU'))!.measure).toMatchObject({ a: 'DU.pos', b: 'DU.neg' });
  });
  it('tied to earth spoils the isolation reading, and the step says so', () => {
    const steps = blockOf(withSource(source.replace('maximum_power', 'earthed: yes, maximum_power')));
    expect(step(steps, 'BENCH.isolation.result')).toMatchObject({ willFail: true });
    expect(step(steps, 'BENCH.set').cautions.join()).toContain('earth');
  });
  it('whose limit is below what the bus takes never fills it: no time, and a voltage that stays low', () => {
    const steps = blockOf(withSource(source.replace('maximum_current: 0.5 A', 'maximum_current: 2 mA')));
    expect(step(steps, 'BENCH.rise.350').predicted).toBeUndefined();
    expect(step(steps, 'BENCH.at.350.DU').predicted!.nominal).toBeLessThan(120);
  });
  it('without its values makes one step that names them', () => {
    const steps = blockOf(withSource('  BENCH: { kind: bench_source, maximum_current: 0.5 A label }\n'));
    expect(steps.map(({ unknown }) => unknown)).toEqual([['parts.BENCH.maximum_voltage']]);
  });
  it('that a build does not have makes one line of what is lost', () => {
    const [only, ...more] = blockOf(withSource(''));
    expect(more).toEqual([]);
    expect(only).toMatchObject({ id: 'limited-source.none', isHoldPoint: false });
    expect(only!.expect).toMatch(/What is lost: .* kA into a short/);
  });
});

describe('settings that a knob finds again', () => {
  it.each([[0.031, 0.05, 0.02], [0.05, 0.05, 0.05], [7, 10, 5], [1e-3, 1e-3, 1e-3]])('%d', (value, up, down) => {
    expect(oneTwoFive(value, 'up')).toBeCloseTo(up, 12);
    expect(oneTwoFive(value, 'down')).toBeCloseTo(down, 12);
  });
});
