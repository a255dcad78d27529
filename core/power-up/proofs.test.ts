import { describe, expect, it } from 'vitest';
import { carFromText } from '../../checks/fixtures/car-from-text.ts';
import { examples } from '../../checks/fixtures/examples.ts';
import { besideNoEffect, isApart } from './bands.ts';
import { disconnectsOut } from './stands.ts';
import { passiveWait, roundedUp } from './passive-wait.ts';
import { readMeasure } from './read-measure.ts';
import { asRead } from './as-read.ts';
import type { PowerUpStep } from './step.ts';
import { powerUp } from './steps.ts';

const textOf = (name: string): string => examples.find((example) => example.name === name)!.text;
const of = (text: string) => { const made = carFromText(text); const { car, ask } = asRead(made.car, made.ask); return { car, ask, steps: powerUp(made.car, made.ask, undefined).steps }; };
const find = (steps: readonly PowerUpStep[], id: string): PowerUpStep => { const step = steps.find((one) => one.id === id); if (!step) throw new Error(`no ${id} in ${steps.map((one) => one.id).join(' ')}`); return step; };
const van = textOf('bakery-van');

describe.each(examples)('proofs of $name', ({ text }) => {
  const { car, ask, steps } = of(text);
  it('have a right reading that no car gives in which the thing does not work', () => {
    let counted = 0;
    for (const { id, noEffect, predicted, instrument } of steps) {
      if (noEffect === undefined || !predicted) continue;
      counted++;
      expect(isApart(predicted.nominal, noEffect, instrument!), id).toBe(true);
      expect(noEffect < predicted.low || noEffect > predicted.high, id).toBe(true);
    }
    expect(counted).toBeGreaterThan(15);
  });
  it('never print a refusal that a dead pack would show too', () => {
    for (const { id, phase, measure, state, noEffect } of steps) {
      if (phase !== 'proof' || !measure || !state || noEffect === undefined || Math.abs(noEffect) < 1) continue;
      // the way back reads a dead car on purpose
      if (/split|opened|back/.test(id)) continue;
      expect(Object.values(disconnectsOut(car)).length === 0 || !Object.keys(disconnectsOut(car)).every((name) => state.set?.[name]?.['pulled'] === true) || id.startsWith('proof.interlock'), id).toBe(true);
    }
  });
  it('find the disconnects where the step before has left them, or move them themselves', () => {
    const outs = Object.keys(disconnectsOut(car));
    let out = true;
    for (const { id, phase, state, action } of steps.filter((one) => ['join', 'isolation', 'precharge', 'ready', 'charge', 'drive', 'shut_down', 'proof'].includes(one.phase))) {
      if (!state || outs.length === 0) continue;
      const now = outs.every((name) => state.set?.[name]?.[car.parts.get(name)!.roles.disconnect!.outSetting] === true);
      if (now !== out && !(phase === 'join' && id.startsWith('join.unknown'))) expect(action, id).toMatch(now ? new RegExp(`${outs[0]!}.* out`) : new RegExp(`${outs[0]!}.* in`));
      out = now;
    }
    expect(steps.length === 0 || outs.length === 0 || out).toBe(true);
    expect(ask.points.length).toBeGreaterThan(0);
  });
});

describe('the proofs of the van', () => {
  const { car, ask, steps } = of(van);
  it('have the disconnect in, and say so', () => {
    const ids = steps.map(({ id }) => id);
    expect(ids.indexOf('proof.joined')).toBe(ids.indexOf('shut-down.split') + 1);
    expect(find(steps, 'proof.action.BRAKE.closed').stands).toBe('mode standby; SD in');
    expect(find(steps, 'shut-down.split').stands).toBe('mode off; SD out');
  });
  it('read 0 V where the pack would be read if nothing refused', () => {
    for (const id of ['proof.action.BRAKE.closed', 'proof.action.KEY.position', 'proof.plug.INLET', 'proof.interlock.IL_floor']) expect(find(steps, id).noEffect, id).toBeGreaterThan(300);
  });
  it('read the loop of a disconnect at a coil, because the bus is dead with it out', () => {
    const only = of(van.replace(/^ {2}IL_\w+:.*\n(?: {6,}.*\n)*/gm, ''));
    const proof = only.steps.find(({ id }) => id === 'proof.interlock.SD');
    if (proof?.measure) expect(proof.measure).not.toMatchObject({ a: 'DU.pos' });
    for (const { id, measure, noEffect } of only.steps) if (id === 'proof.interlock.SD' && measure) expect(Math.abs(noEffect!)).toBeGreaterThan(5);
  });
  it('take hands inside only with the pack split, waited for and read dead: each a hold point', () => {
    for (const id of ['shut-down.split', 'proof.interlock.IL_floor.opened', 'proof.interlock.IL_floor.back', 'precharge.wires-off', 'precharge.restored', 'proof.split']) {
      const step = find(steps, id);
      expect(step).toMatchObject({ isHoldPoint: true, isWayBack: true, state: { set: { SD: { pulled: true } } } });
      expect(step.action).toContain('Wait 80 s: with nothing active working the bleeders alone take 75.1 s');
      expect(step.predicted, id).toBeDefined();
    }
  });
  it('name the wire that keeps the main contactor open in precharge, and put it back', () => {
    const [off, link, on] = ['precharge.wires-off', 'precharge.precharge.link', 'precharge.restored'].map((id) => find(steps, id));
    expect(off!.action).toMatch(/take off C05 at S_coil\.w2, which keeps K_pos open/);
    expect(link!.state!.without).toEqual(['C05']);
    expect(on!.action).toContain('C05 on at S_coil.w2 again');
  });
  it('find one welded contact, which the bus alone does not show', () => {
    const dead = find(steps, 'join.bus-dead.DU');
    const welded = { ...dead.state, failures: [{ part: 'K_pos', failure: 'welded' }] };
    expect(Math.abs(readMeasure(car, ask, welded, dead.measure!)!)).toBeLessThan(1);
    const weld = find(steps, 'join.weld.K_pos');
    expect(readMeasure(car, ask, welded, weld.measure!)).toBeGreaterThan(weld.predicted!.high);
  });
});

describe('strings in parallel', () => {
  const { steps } = of(textOf('two-string-coupe'));
  it('are predicted by what was read at their modules', () => {
    const [a, b] = ['join.voltage.A1', 'join.voltage.B1'].map((id) => find(steps, id).predicted!);
    expect(a!.nominal).toBeCloseTo(376.95, 1);
    expect(b!.nominal).toBeCloseTo(360.65, 1);
    expect(b!.high).toBeLessThan(a!.low);
  });
  it('are compared before the contacts of both close, against what they may differ by', () => {
    const step = find(steps, 'join.strings.A1.B1');
    expect(step).toMatchObject({ isHoldPoint: true, willFail: true, measure: { is: 'difference' } });
    expect(step.predicted!.nominal).toBeCloseTo(16.3, 1);
    expect(step.limit!.to).toBeCloseTo(9.1, 0);
    expect(steps.indexOf(step)).toBeLessThan(steps.findIndex(({ id }) => id.startsWith('ready.contact')));
  });
  it('are not said to be closed by a voltage that the other string holds up', () => {
    const even = of(textOf('two-string-coupe').replace(/measured_voltage: [\d.]+ V/g, 'measured_voltage: 46.9 V'));
    const step = find(even.steps, 'ready.contact.K_A_pos');
    expect(step.measure).not.toMatchObject({ a: 'K_A_pos.in' });
    expect(step.noEffect).toBe(0);
  });
});

describe('waiting times', () => {
  it('count without anything active, rounded up', () => {
    const { car, ask } = carFromText(van);
    const wait = passiveWait(car, ask);
    if (wait.is !== 'bleeders') throw new Error(wait.is);
    expect(wait.time).toBeGreaterThan(70);
    expect(wait.wait).toBe(80);
    const sleepy = carFromText(van.replace(', active_discharge_time: 3 s ±1 estimate', ''));
    expect(passiveWait(sleepy.car, sleepy.ask)).toEqual(wait);
  });
  it('are none where nothing empties the capacitors: the meter decides', () => {
    const { car, ask } = carFromText(textOf('two-string-coupe'));
    expect(passiveWait(car, ask).is).toBe('leaks');
  });
  it.each([[0.4, 1], [9.2, 10], [10.1, 15], [75.1, 80], [120, 120], [121, 180]])('%d s as %d s', (time, said) => expect(roundedUp(time)).toBe(said));
});

describe('a band beside what no effect would read', () => {
  const meter = { name: '', category: undefined, share: 0, fixed: 0.2 };
  it('ends before it', () => expect(besideNoEffect({ nominal: 18, low: -2.3, high: 21.4 }, 0, meter)).toEqual({ nominal: 18, low: 0.4, high: 21.4 }));
  it('is none where the meter cannot tell them apart', () => expect(besideNoEffect({ nominal: 0.3, low: 0, high: 1 }, 0, meter)).toBeUndefined());
});
