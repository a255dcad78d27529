import { describe, expect, it } from 'vitest';
import { carOf } from '../../../checks/fixtures/high-voltage-car.ts';
import { converterCar, edited, prechargeCar, studied } from '../../../checks/fixtures/precharge-car.ts';
import { studyPrecharge } from './precharge.ts';

const study = (text: string) => studied(studyPrecharge, text);
const first = (text: string) => study(text).results.precharges[0]!;
/** The heater asks for its power while the capacitors fill. */
const heating = (power: string, text = prechargeCar) => edited(text, ['SR: { closed: yes } } }', `SR: { closed: yes }, HT: { power: ${power} } } }`]);

describe('precharge of strange cars', () => {
  it('says nothing about a car without parts', () => {
    const { car, ask } = carOf('halfshaft: 1\nname: t\n');
    expect(studyPrecharge(car, ask)).toEqual({ results: { precharges: [], closings: [], neverLive: [] }, checks: [] });
  });

  it('says nothing of capacitors where there are no cells', () => {
    const { car, ask } = carOf('halfshaft: 1\nname: t\nparts:\n  INV: { kind: inverter, link_capacitance: 0.8 mF, maximum_voltage: 450 V }\n');
    expect(studyPrecharge(car, ask).checks).toEqual([]);
  });

  it('says which capacitor no mode connects', () => {
    const { results, find } = study(edited(prechargeCar, ['  W1: { from: JP.stud_2, to: INV.pos, stock: thick, length: 2 m }\n', '']));
    expect(results.neverLive).toEqual(['INV']);
    expect(find('link-reached', 'INV').level).toBe('fix');
    expect(find('link-reached', 'DC').level).toBe('holds');
  });

  it('bears a pack that is shorted on itself', () => {
    const { car, ask } = carOf(edited(prechargeCar, ['  R9:', '  SHORT: { from: M1.neg, to: M4.pos, stock: bar, length: 80 mm }\n  R9:']));
    expect(() => studyPrecharge(car, ask)).not.toThrow();
  });

  it('bears a car without modes', () => {
    const { car, ask } = carOf(prechargeCar.slice(0, prechargeCar.indexOf('modes:')));
    expect(studyPrecharge(car, ask).results.neverLive).toEqual(['INV', 'DC', 'HT']);
  });
});

describe('precharge through a resistor', () => {
  it('finds the mode, the part and all capacitors on the same poles', () => {
    expect(first(prechargeCar)).toMatchObject({ mode: 'precharge', by: 'PR', kind: 'resistor', links: ['INV', 'DC', 'HT'] });
  });

  it('takes as long as R C ln 20 to 95 %, with the resistance of pack and wiring in R', () => {
    const { resistance, capacitance, timeToFull } = first(prechargeCar);
    expect(resistance).toBeGreaterThan(60);
    expect(resistance).toBeLessThan(60.3);
    // the 47 kΩ bleeder lowers the end voltage and the time constant by the same share
    const share = 47_000 / (47_000 + resistance!);
    expect(timeToFull! / (resistance! * capacitance * share * -Math.log(1 - 0.95 / share))).toBeCloseTo(1, 3);
  });

  it('tells the bleeder from the precharge resistor', () => {
    const bare = first(edited(prechargeCar, ['bleeder: 47 kΩ, ', '']));
    const bled = first(edited(prechargeCar, ['bleeder: 47 kΩ', 'bleeder: 600 Ω']));
    expect(bled.resistance! / bare.resistance!).toBeCloseTo(1, 3);
    expect(bled.endVoltage / bled.packVoltage).toBeCloseTo(600 / 660.1, 3);
  });

  it('puts half C V² into the resistor and begins with V/R', () => {
    const { resistorEnergy, peakCurrent, capacitance, packVoltage, resistance } = first(prechargeCar);
    expect(packVoltage).toBeCloseTo(403.2, 6);
    expect(resistorEnergy! / ((capacitance * packVoltage ** 2) / 2)).toBeCloseTo(1, 2);
    expect(peakCurrent).toBeCloseTo(packVoltage / resistance!, 9);
  });

  it('gives a curve that rises to where it comes to rest, with falling current', () => {
    const { curve, endVoltage } = first(prechargeCar);
    expect(curve[0]).toMatchObject({ time: 0, voltage: 0 });
    for (let k = 1; k < curve.length; k++) {
      expect(curve[k]!.time).toBeGreaterThan(curve[k - 1]!.time);
      expect(curve[k]!.current).toBeLessThan(curve[k - 1]!.current);
    }
    expect(curve.at(-1)!.voltage / endVoltage).toBeCloseTo(0.995, 6);
  });

  it('holds, breaks and is unknown by the time that the mode lasts', () => {
    expect(study(prechargeCar).find('precharge-in-time').level).toBe('holds');
    const late = study(edited(prechargeCar, ['lasts: 250 ms', 'lasts: 60 ms'])).find('precharge-in-time');
    expect(late.level).toBe('fix');
    expect(late.value).toBeGreaterThan(late.limit!);
    const open = study(edited(prechargeCar, ['lasts: 250 ms, ', '']));
    expect(open.find('precharge-in-time')).toMatchObject({ level: 'unknown', needs: ['modes.precharge.lasts'] });
    expect(open.find('inrush-current', 'KP')).toMatchObject({ level: 'unknown', needs: ['modes.precharge.lasts'] });
    // the energy of a start is then counted to 95 %
    expect(open.find('precharge-resistor-pulse').level).toBe('holds');
  });

  it('never finishes while a heater draws more than the resistor lets through', () => {
    const { results, find } = study(heating('2 kW'));
    expect(results.precharges[0]).toMatchObject({ timeToFull: undefined, loads: { power: 2000, parts: ['HT'] } });
    expect(find('precharge-finishes')).toMatchObject({ level: 'stop' });
    expect(find('precharge-finishes').statement).toContain('HT draws');
    expect(find('precharge-in-time').statement).toContain('it never gets there');
  });

  it('finishes lower beside a load that only takes a little, and lowest with an empty pack', () => {
    const light = study(heating('20 W'));
    const bare = study(prechargeCar).find('precharge-finishes').value!;
    expect(light.find('precharge-finishes').level).toBe('holds');
    expect(light.find('precharge-finishes').value!).toBeLessThan(bare);
    const { endVoltage, packVoltage } = light.results.precharges[0]!;
    expect(light.find('precharge-finishes').value!).toBeLessThan(endVoltage / packVoltage);
  });

  it('never finishes while a DC-DC converter that starts by itself feeds the 12 V side', () => {
    const text = edited(prechargeCar, ['started_by: message', 'started_by: high_voltage'], ['  C13:', '  D1: { from: DC.lv_pos, to: B12.pos, stock: lv, length: 1 m }\n  D2: { from: DC.lv_neg, to: B12.neg, stock: lv, length: 1 m }\n  C13:']);
    const { results, find } = study(text);
    expect(results.precharges[0]!.loads).toMatchObject({ knee: 200, parts: ['DC'] });
    expect(results.precharges[0]!.loads.power).toBeGreaterThan(50);
    // an empty pack has less to give: there it ends lowest
    expect(find('precharge-finishes')).toMatchObject({ level: 'stop' });
    const asleep = first(prechargeCar);
    expect(asleep.loads.parts).toEqual([]);
  });

  it('names a heater that draws as a resistor', () => {
    const text = edited(heating('500 W'), ['behaves: constant_power', 'behaves: resistance']);
    const { results, find } = study(text);
    expect(results.precharges[0]!.loads).toMatchObject({ power: 0, parts: ['HT'] });
    // 350²/500 ohm beside the 60
    expect(results.precharges[0]!.endVoltage / results.precharges[0]!.packVoltage).toBeCloseTo(245 / 305.1, 2);
    expect(find('precharge-finishes')).toMatchObject({ level: 'stop' });
    expect(find('precharge-finishes').statement).toContain('HT draws');
  });

  it('counts the same heat in closed form as by integration', () => {
    const closed = first(edited(prechargeCar, ['bleeder: 47 kΩ', 'bleeder: 2 kΩ']));
    // a load of a thousandth of a watt takes the other way
    const integrated = first(heating('1 mW', edited(prechargeCar, ['bleeder: 47 kΩ', 'bleeder: 2 kΩ'])));
    expect(integrated.loads.power).toBeGreaterThan(0);
    expect(integrated.resistorEnergy! / closed.resistorEnergy!).toBeCloseTo(1, 3);
  });

  it('knows nothing of a pack whose cells are not known, and says what it needs', () => {
    const { car, ask } = carOf(edited(prechargeCar, ['capacity: 60 Ah, resistance: 0.9 mΩ', 'resistance: 0.9 mΩ']));
    const { checks } = studyPrecharge(car, ask);
    expect(checks.map(({ code, needs }) => [code, needs])).toEqual([1, 2, 3].map(() => ['high-voltage.link-reached', ['cells.used.capacity']]));
  });

  it('comes to rest at the voltage where the resistor gives what the load takes', () => {
    const { endVoltage, packVoltage, resistance } = first(edited(heating('50 W'), ['bleeder: 47 kΩ, ', '']));
    expect(((packVoltage - endVoltage) / resistance!) * endVoltage).toBeCloseTo(50, 0);
  });

  it('judges pulse energy, mean power and relay current against what is declared', () => {
    const weak = study(edited(prechargeCar, ['pulse_energy: 250 J, continuous_power: 100 W, rating: 10 A, making_current: 20 A', 'pulse_energy: 50 J, continuous_power: 10 W, making_current: 5 A']));
    for (const code of ['precharge-resistor-pulse', 'precharge-resistor-mean-power', 'precharge-relay-current']) expect(weak.find(code).level, code).toBe('fix');
    const silent = study(edited(prechargeCar, ['pulse_energy: 250 J, continuous_power: 100 W, rating: 10 A, making_current: 20 A, ', '']));
    expect(silent.find('precharge-resistor-pulse')).toMatchObject({ level: 'unknown', needs: ['parts.PR.pulse_energy'] });
    expect(silent.find('precharge-resistor-mean-power')).toMatchObject({ level: 'unknown', needs: ['parts.PR.continuous_power'] });
    expect(silent.find('precharge-relay-current')).toMatchObject({ level: 'unknown', needs: ['parts.PR.making_current'] });
    const strong = study(prechargeCar);
    for (const code of ['precharge-resistor-pulse', 'precharge-resistor-mean-power', 'precharge-relay-current']) expect(strong.find(code).level, code).toBe('holds');
  });

  it('bears a start into a short for as long as the mode lasts, or must be fixed', () => {
    const short = (pulse: string) => study(edited(prechargeCar, [/pulse_energy: [^,]+, /.exec(prechargeCar)![0], pulse])).find('precharge-resistor-short', 'PR');
    // 403.2 V across 60 Ω for 250 ms: 677 J
    expect(short('pulse_energy: 700 J, ').level).toBe('holds');
    expect(short('pulse_energy: 600 J, ').level).toBe('fix');
    expect(short('')).toMatchObject({ level: 'unknown', needs: ['parts.PR.pulse_energy'] });
  });

  it('counts three starts in ten seconds unless the mode says how often it may come', () => {
    const usual = study(prechargeCar).find('precharge-resistor-mean-power').value!;
    const slow = study(edited(prechargeCar, ['lasts: 250 ms', 'lasts: 250 ms, every: 20 s'])).find('precharge-resistor-mean-power').value!;
    expect(usual / slow).toBeCloseTo(6, 6);
  });
});

describe('closing the main contactor', () => {
  it('closes onto what precharge left, through the contactor that bridges the resistor only', () => {
    const { results, find, checks } = study(prechargeCar);
    const [closing] = results.closings;
    expect(closing).toMatchObject({ from: 'precharge', to: 'drive', notPrecharged: [] });
    expect(closing!.difference).toBeCloseTo(results.precharges[0]!.residual!, 6);
    // half of C dV² is left in the loop
    expect(closing!.inrush!.energy).toBeCloseTo((0.000811 * closing!.difference! ** 2) / 2, 9);
    expect(find('inrush-current', 'KP').level).toBe('holds');
    expect(checks.filter(({ code }) => code === 'high-voltage.inrush-current')).toHaveLength(1);
  });

  it('stops a car that closes onto empty capacitors', () => {
    const { find } = study(edited(prechargeCar, ['drive: { from: [precharge]', 'drive: { from: [rest]']));
    const present = find('precharge-present');
    expect(present).toMatchObject({ level: 'stop', value: expect.closeTo((0.000811 * 403.2 ** 2) / 2, 6) });
    expect(find('inrush-current', 'KP').level).toBe('fix');
    expect(find('inrush-current', 'KP').value!).toBeGreaterThan(650);
  });

  it('takes a car without precharge and without `from` as closing from everything off', () => {
    const text = edited(prechargeCar, ['  precharge: { from: [rest], lasts: 250 ms, set: { SN: { closed: yes }, SR: { closed: yes } } }\n', ''], ['drive: { from: [precharge], ', 'drive: { ']);
    const { results, find } = study(text);
    expect(results.precharges).toEqual([]);
    expect(results.closings[0]).toMatchObject({ from: undefined, to: 'drive', notPrecharged: ['INV', 'DC', 'HT'] });
    expect(find('precharge-present').level).toBe('stop');
  });

  it('finds the precharge mode by itself when the file does not say what comes before', () => {
    expect(study(edited(prechargeCar, ['drive: { from: [precharge], ', 'drive: { '])).results.closings[0]).toMatchObject({ from: 'precharge', notPrecharged: [] });
  });

  it('gives each branch fuse the rush of its own link, and the contactor that of all', () => {
    // a second branch behind a fuse of its own beside the large link
    const text = edited(prechargeCar, ['drive: { from: [precharge]', 'drive: { from: [rest]'], ['  W3: { from: JP.stud_3, to: DC.pos,', '  WF: { from: JP.stud_3, to: F2.in, stock: bar, length: 60 mm }\n  W3: { from: F2.out, to: DC.pos,'],
      ['  F1: {', '  F2: { kind: hv_fuse, rating: 20 A, style: full_range, voltage_rating: 500 V, melting_energy: 300 A²s }\n  F1: {']);
    const { checks } = study(text);
    const about = checks.filter(({ code }) => code === 'high-voltage.inrush-fuse').map(({ about: [part], value }) => [part, value] as const);
    const [main] = about.filter(([part]) => part === 'F1');
    const others = about.filter(([part]) => part !== 'F1');
    expect(main![1]!).toBeGreaterThan(0);
    expect(others.length).toBeGreaterThan(0);
    // a branch has 1 or 10 µF of 811 µF
    for (const [, value] of others) expect(value!).toBeLessThan(main![1]! / 20);
  });

  it('lets a small input capacitor be closed onto directly', () => {
    const { find } = study(edited(prechargeCar, ['drive: { from: [precharge]', 'drive: { from: [rest]'], ['link_capacitance: 0.8 mF', 'link_capacitance: 5 µF']));
    expect(find('precharge-present').level).toBe('holds');
  });

  it('judges the pulse through the fuse, and needs its melting energy', () => {
    expect(study(prechargeCar).find('inrush-fuse', 'F1').level).toBe('holds');
    expect(study(edited(prechargeCar, ['melting_energy: 15 kA²s, ', ''])).find('inrush-fuse', 'F1')).toMatchObject({ level: 'unknown', needs: ['parts.F1.melting_energy'] });
    const direct = edited(prechargeCar, ['drive: { from: [precharge]', 'drive: { from: [rest]'], ['melting_energy: 15 kA²s', 'melting_energy: 1 kA²s']);
    expect(study(direct).find('inrush-fuse', 'F1').level).toBe('fix');
  });

  it('needs the making current of the contactor', () => {
    const text = edited(prechargeCar, ['KP: { kind: contactor, rating: 250 A, voltage_rating: 900 V, breaking_current: 2000 A, making_current: 650 A', 'KP: { kind: contactor, rating: 250 A, voltage_rating: 900 V, breaking_current: 2000 A']);
    expect(study(text).find('inrush-current', 'KP')).toMatchObject({ level: 'unknown', needs: ['parts.KP.making_current'] });
  });
});

describe('the link itself', () => {
  it('stops a reversed inverter', () => {
    const { find } = study(edited(prechargeCar, ['to: INV.pos', 'to: INV.x'], ['to: INV.neg', 'to: INV.pos'], ['to: INV.x', 'to: INV.neg']));
    expect(find('link-polarity', 'INV')).toMatchObject({ level: 'stop' });
    expect(find('link-polarity', 'INV').value!).toBeLessThan(-300);
    expect(find('link-polarity', 'DC').level).toBe('holds');
  });
});

describe('precharge by a converter', () => {
  it('fills at constant current, then at constant power', () => {
    const result = first(converterCar);
    expect(result).toMatchObject({ kind: 'converter', by: 'PC', links: ['INV', 'DC', 'HT'] });
    // without a bleeder: C V1/I to V1 = P/I, then C (V² - V1²)/(2 P); the bleeder takes a little
    const [corner, target] = [100 / 0.6, 0.95 * 403.2];
    const bare = (0.000811 * corner) / 0.6 + (0.000811 * (target ** 2 - corner ** 2)) / 200;
    expect(result.timeToFull! / bare).toBeGreaterThan(1);
    expect(result.timeToFull! / bare).toBeLessThan(1.03);
    expect(result.supplyEnergy!).toBeGreaterThan((0.000811 * target ** 2) / 2 / 0.85);
  });

  it('holds the 12 V side, or not', () => {
    expect(study(converterCar).find('precharge-supply-sag').level).toBe('holds');
    const thin = study(edited(converterCar, ['C14: { from: B12.pos, to: PC.supply, stock: lv, length: 1 m }', 'C14: { from: B12.pos, to: PC.supply, stock: lv, length: 20 m }'])).find('precharge-supply-sag');
    expect(thin.level).toBe('fix');
    // V = Vth - R P/V
    const result = first(edited(converterCar, ['C14: { from: B12.pos, to: PC.supply, stock: lv, length: 1 m }', 'C14: { from: B12.pos, to: PC.supply, stock: lv, length: 20 m }']));
    expect(result.supplyVoltage! * result.supplyCurrent!).toBeCloseTo(100 / 0.85, 6);
  });

  it('finishes too low when it is set too low, and never when a load takes its power', () => {
    expect(study(converterCar).find('precharge-finishes').level).toBe('holds');
    expect(study(edited(converterCar, ['output_voltage: 403 V', 'output_voltage: 300 V'])).find('precharge-finishes').level).toBe('stop');
    const loaded = study(edited(converterCar, ['SR: { closed: yes } } }', 'SR: { closed: yes }, HT: { power: 300 W } } }']));
    expect(loaded.find('precharge-finishes').level).toBe('stop');
    expect(loaded.results.precharges[0]!.timeToFull).toBeUndefined();
  });

  it('follows the voltage that the mode tells it', () => {
    expect(first(edited(converterCar, ['SR: { closed: yes } } }', 'SR: { closed: yes }, PC: { voltage: 350 V } } }'])).endVoltage).toBeCloseTo(350, 0);
  });

  it('stops exchanged output wires', () => {
    const { find } = study(edited(converterCar, ['from: PC.pos, to: INV.pos', 'from: PC.pos, to: INV.x'], ['from: PC.neg, to: INV.neg', 'from: PC.neg, to: INV.pos'], ['to: INV.x', 'to: INV.neg']));
    expect(find('precharge-polarity', 'PC')).toMatchObject({ level: 'stop' });
    expect(find('precharge-finishes').level).toBe('stop');
    expect(study(converterCar).find('precharge-polarity', 'PC').level).toBe('holds');
  });
});
