import { describe, expect, it } from 'vitest';
import { carFromText } from '../../checks/fixtures/car-from-text.ts';
import { examples } from '../../checks/fixtures/examples.ts';
import { causeFinder } from './causes.ts';
import { phases } from './step.ts';
import type { PowerUpStep } from './step.ts';
import { powerUp } from './steps.ts';

const textOf = (name: string): string => examples.find((example) => example.name === name)!.text;
const hauler = textOf('orchard-hauler');

function stepsOf(text: string): readonly PowerUpStep[] {
  const { car, ask } = carFromText(text);
  return powerUp(car, ask, undefined).steps;
}
const step = (steps: readonly PowerUpStep[], id: string): PowerUpStep => {
  const found = steps.find((one) => one.id === id);
  if (!found) throw new Error(`no step ${id}; there are ${steps.map((one) => one.id).join(' ')}`);
  return found;
};
const swapped = (text: string, from: string | RegExp, to: string): string => {
  const changed = text.replace(from, to);
  if (changed === text) throw new Error(`${from} is not in the text`);
  return changed;
};

describe('the steps of the orchard hauler', () => {
  const steps = stepsOf(hauler);
  it('have names of their own and come phase by phase', () => {
    expect(new Set(steps.map(({ id }) => id)).size).toBe(steps.length);
    const order = Object.keys(phases);
    const found = steps.map(({ phase }) => order.indexOf(phase));
    expect(found).toEqual([...found].sort((a, b) => a - b));
  });
  it('keep their names when a number changes and when a part is added', () => {
    const edited = swapped(hauler, 'resistance: 22 Ω', 'resistance: 27 Ω');
    expect(stepsOf(edited).map(({ id }) => id)).toEqual(steps.map(({ id }) => id));
    const more = swapped(hauler, '  T_can:', '  HORN: { kind: load, current: 4 A label }\n  T_can:');
    const ids = new Set(stepsOf(more).map(({ id }) => id));
    expect(steps.filter(({ id }) => !ids.has(id))).toEqual([]);
  });
  it('ask for no insulation test and no isolation of a pack in voltage class A', () => {
    expect(steps.filter(({ phase }) => phase === 'insulation' || phase === 'isolation')).toEqual([]);
    expect(steps.filter(({ hazard, phase }) => hazard === 'class_b' && phase !== 'charge')).toEqual([]);
  });
  it('read the pack’s voltage on the link in the end of precharge and in ready', () => {
    const pack = step(steps, 'join.voltage.M1').predicted!.nominal;
    expect(pack).toBeGreaterThan(50);
    expect(step(steps, 'precharge.precharge.link').predicted!.nominal / pack).toBeGreaterThan(0.95);
    expect(step(steps, 'ready.link.INV').predicted!.nominal / pack).toBeGreaterThan(0.999);
    expect(Math.abs(step(steps, 'ready.contact.K_main').predicted!.nominal)).toBeLessThan(0.01);
  });
  it('prove the stop button on the coils before the pack is joined', () => {
    const stop = step(steps, 'coils.release.ESTOP');
    expect(stop).toMatchObject({ lost: ['K_main'], isHoldPoint: true, state: { without: ['P03'] } });
    expect(stop.predicted!.nominal).toBeLessThan(stop.limit!.value);
  });
  it('turn the wheels both ways', () => expect(step(steps, 'drive.direction.DIRECTION.reverse').state!.set).toMatchObject({ DIRECTION: { position: 'reverse' } }));
  it('try each action left out, the plug, and what the file does not show', () => {
    expect(step(steps, 'proof.action.SEAT.closed').expect).toContain('SEAT.closed');
    expect(step(steps, 'proof.plug.INLET').expect).toContain('“INLET.plugged == false”');
    expect(step(steps, 'proof.pedal-tracks').unknown).not.toEqual([]);
  });
});

describe('what a car does not have', () => {
  it('makes no step: without a battery pack only the 12 V side is left', () => {
    const parts = hauler.replace(/^ {2}(M\d|SD|F_batt|K_main|PRE|INV|DCDC|CHG|INLET|J_pos|J_neg|F_dcdc|F_chg):.*\n(?: {8,}.*\n)*/gm, '');
    const found = new Set(stepsOf(parts).map(({ phase }) => phase));
    expect([...found].sort()).toEqual(['low_voltage']);
  });
  it('makes none at all of an empty file', () => expect(stepsOf('halfshaft: 1\nname: t\n')).toEqual([]));
});

describe('what a car needs and the file lacks', () => {
  it('is named: a value that the reading rests on', () => {
    const steps = stepsOf(swapped(hauler, 'internal_resistance: 14 mΩ ±25 % estimate', 'note: "x"').replace('kind: battery_12v, chemistry: agm, nominal_voltage: 12 V label', 'kind: battery_12v, chemistry: agm'));
    expect(step(steps, 'low-voltage.battery').unknown).toEqual(['parts.B12.nominal_voltage']);
  });
  it('is named: a module without its count of cells', () => {
    const steps = stepsOf(swapped(textOf('bakery-van'), 'M3: { kind: battery_module, cell: reclaimed, series: 12,', 'M3: { kind: battery_module, cell: reclaimed,'));
    expect(step(steps, 'join.unknown').unknown).toContain('parts.M3.series');
    expect(step(steps, 'insulation.M3').unknown).toEqual(['parts.M3.series']);
  });
  it('is named: conditions on the way to drive', () => {
    const silent = hauler.replace(/^ {4}(needs|needs_in_words):.*\n/gm, '').replace(/^ {6}- V\(.*\n/gm, '');
    expect(step(stepsOf(silent), 'proof.plug.INLET').unknown).toEqual(['modes.drive.needs']);
    expect(step(stepsOf(silent), 'proof.actions').unknown).toEqual(['modes.drive.needs']);
  });
});

describe('the wet heater of the coupé', () => {
  it('is met before the drive, by the three readings, and the file itself says so', () => {
    const steps = stepsOf(textOf('two-string-coupe'));
    expect(step(steps, 'insulation.HEAT')).toMatchObject({ willFail: true });
    const result = step(steps, 'isolation.bus.ready.result');
    expect(result).toMatchObject({ willFail: true, isHoldPoint: true });
    expect(steps.indexOf(result)).toBeLessThan(steps.findIndex(({ phase }) => phase === 'drive'));
  });
  it('and the converter lifts the bus before the pack is joined', () => {
    const steps = stepsOf(textOf('two-string-coupe'));
    expect(step(steps, 'limited-source.precharge').state!.without).toEqual(['S_F_A', 'S_F_B']);
    // mistake 3: the heater eats what it gives
    expect(step(steps, 'limited-source.precharge').predicted!.nominal).toBeLessThan(100);
  });
});

describe('what a wrong reading means', () => {
  const { car, ask } = carFromText(hauler);
  const steps = powerUp(car, ask, undefined).steps;
  const finder = causeFinder(car, ask);
  const causes = (id: string) => finder.causesOf(step(steps, id));
  it('comes from the failures that parts declare, solved', () => {
    expect(causes('coils.release.ESTOP')).toContainEqual(expect.objectContaining({ part: 'ESTOP', failure: 'contact_1_stuck_closed' }));
    expect(causes('low-voltage.fuse.F_coil')[0]).toMatchObject({ part: 'F_coil', failure: 'blown', reads: 0 });
    expect(causes('low-voltage.bus-resistance.INV').map(({ reads }) => Math.round(reads ?? 0))).toContainEqual(120);
  });
  it('of a bus resistance is each mistake of its terminations, solved: 120 Ω, 40 Ω, a short, none', () => {
    const reads = new Map(causes('low-voltage.bus-resistance.INV').map(({ part, failure, reads: ohms }) => [`${part} ${failure}`, ohms]));
    expect(reads.get('T_can termination_missing')).toBeGreaterThan(115);
    expect(reads.get('SEQ termination_missing')).toBeGreaterThan(115);
    expect(reads.get('INV termination_too_many')).toBeCloseTo(40, 0);
    expect(reads.get('INV bus_wires_touch')).toBeLessThan(1);
    expect(reads.get('SEQ no_termination')).toBeGreaterThan(1000);
  });
  it('finds what keeps a coil held although the way is opened far from it', () => {
    const far = carFromText(textOf('bakery-van'));
    const all = powerUp(far.car, far.ask, undefined).steps;
    expect(causeFinder(far.car, far.ask).causesOf(step(all, 'coils.release.SD'))).toContainEqual(expect.objectContaining({ part: 'R_hvil', side: 'high' }));
  });
  it('never lists one that would read right', () => {
    for (const one of steps.filter(({ predicted }) => predicted)) {
      for (const { reads } of finder.causesOf(one)) if (reads !== undefined) expect(reads < one.predicted!.low || reads > one.predicted!.high).toBe(true);
    }
  });
});
