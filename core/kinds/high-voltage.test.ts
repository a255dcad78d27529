/** What the high-voltage kinds do in the network, solved. */
import { describe, expect, it } from 'vitest';
import { benchNetwork, failureCodes, partOnBench, type OnBench } from '../../checks/fixtures/high-voltage-bench.ts';
import type { Element } from '../solve/element.ts';
import type { RestSolved } from '../solve/rest-result.ts';
import { solveAtRest } from '../solve/solve-at-rest.ts';
import { batteryModule } from './battery-module.ts';
import { chargeInlet } from './charge-inlet.ts';
import { charger } from './charger.ts';
import { contactor } from './contactor.ts';
import { dcdc } from './dcdc.ts';
import { hvHeater } from './hv-heater.ts';
import { inverter } from './inverter.ts';
import { isolationMonitor } from './isolation-monitor.ts';
import { junction } from './junction.ts';
import { prechargeConverter } from './precharge-converter.ts';
import { prechargeResistor } from './precharge-resistor.ts';
import { pyroFuse } from './pyro-fuse.ts';
import { serviceDisconnect } from './service-disconnect.ts';

const solved = (...network: Parameters<typeof benchNetwork>): RestSolved => {
  const result = solveAtRest(benchNetwork(...network));
  if (result.outcome !== 'solved') throw new Error(JSON.stringify(result));
  return result;
};
const between = (result: RestSolved, a: string, b: string): number => result.voltageOf(a) - result.voltageOf(b);
const source = (id: string, a: string, b: string, voltage: number, resistance = 0.01): Element => ({ type: 'source', id, a, b, voltage, resistance });
const load = (id: string, a: string, b: string, resistance: number): Element => ({ type: 'resistor', id, a, b, resistance });
const twelve = (part: string): Element => source('12 V', `${part}.supply`, 'chassis', 12);
const ground = (part: string): readonly [string, string] => [`${part}.ground`, 'chassis'];

describe('a battery module', () => {
  const module: OnBench = { name: 'M', kind: batteryModule, fields: { series: 12, parallel: 2, link_resistance: 0.4e-3, insulation_resistance: 1e9 } };
  it('shows cells times cell voltage with nothing connected', () => {
    expect(between(solved([module], []), 'M.pos', 'M.neg')).toBeCloseTo(12 * 3.7, 6);
  });
  it('drops by its cells and links under load', () => {
    // 12 x 1 mΩ / 2 + 0.4 mΩ = 6.4 mΩ
    const result = solved([module], [], [{ type: 'current', id: 'draw', a: 'M.pos', b: 'M.neg', current: 100 }]);
    expect(between(result, 'M.pos', 'M.neg')).toBeCloseTo(44.4 - 0.64, 6);
  });
  it('lies evenly about the chassis through its own insulation', () => {
    const result = solved([module], []);
    expect(result.voltageOf('M.pos')).toBeCloseTo(22.2, 5);
    expect(result.voltageOf('M.neg')).toBeCloseTo(-22.2, 5);
  });
});

describe('a contactor', () => {
  const coiled = (fields = {}, settings = {}): OnBench => ({ name: 'K', kind: contactor, fields: { coil_voltage: 12, coil_current: 0.5, ...fields }, settings });
  const feed = (voltage: number): Element => source('feed', 'K.coil_a', 'K.coil_b', voltage, 0);
  const contactAt = (voltage: number, fields = {}): string => solved([coiled(fields)], [['K.coil_b', 'chassis'], ['K.in', 'chassis']], [feed(voltage)]).stateOf('K.contact');
  it('is open without coil voltage', () => expect(contactAt(0)).toBe('open'));
  it('closes from the share of its coil voltage that the handbook gives', () => expect([contactAt(8.9), contactAt(9.1)]).toEqual(['open', 'closed']));
  it('closes from its own stated voltage instead, when there is one', () => expect([contactAt(6.9, { pick_up: 7 }), contactAt(7.1, { pick_up: 7 })]).toEqual(['open', 'closed']));
  it('takes its coil current at its rated voltage', () => expect(solved([coiled()], [['K.coil_b', 'chassis']], [feed(12)]).currentOf('K.coil')).toBeCloseTo(0.5, 9));
  it('takes the same power at any voltage with an economiser, and its pull-in current while it closes', () => {
    const economised = { economiser: true, coil_current: 0.13, pull_in_current: 3.8 };
    expect(solved([coiled(economised)], [['K.coil_b', 'chassis']], [feed(10)]).currentOf('K.coil')).toBeCloseTo(0.156, 6);
    expect(solved([coiled(economised, { pulling_in: true })], [['K.coil_b', 'chassis']], [feed(12)]).currentOf('K.coil')).toBeCloseTo(3.8, 6);
  });
  it('is a short for the coil circuit when its diode is connected the wrong way round', () => {
    const wrong = solved([coiled({ suppression: 'diode' })], [['K.coil_b', 'chassis']], [source('feed', 'K.coil_a', 'K.coil_b', -12, 0.1)]);
    expect(Math.abs(wrong.currentOf('feed'))).toBeGreaterThan(50);
    expect(wrong.stateOf('K.contact')).toBe('open');
  });
  it('moves its auxiliary contact with the main one', () => {
    const result = solved([coiled({ auxiliary: true })], [['K.coil_b', 'chassis'], ['K.aux_a', 'chassis'], ['K.in', 'chassis']], [feed(12)]);
    expect([result.stateOf('K.contact'), result.stateOf('K.auxiliary')]).toEqual(['closed', 'closed']);
  });
  it('has an auxiliary failure only when it has an auxiliary contact', () => {
    expect(failureCodes(coiled())).not.toContain('auxiliary_open');
    expect(failureCodes(coiled({ auxiliary: true }))).toContain('auxiliary_open');
  });
});

describe('a precharge resistor', () => {
  it('puts its resistance between its ends only while its coil is fed', () => {
    const part: OnBench = { name: 'P', kind: prechargeResistor, fields: { resistance: 100, contact_resistance: 0.01, coil_voltage: 12 } };
    const current = (coil: number): number => solved([part], [['P.coil_b', 'chassis'], ['P.out', 'chassis']], [source('coil feed', 'P.coil_a', 'P.coil_b', coil, 0), source('pack', 'P.in', 'chassis', 400, 0)]).currentOf('P.resistor');
    // 400 V and 100 Ω: 4.0 A at the start of precharge (example 1 of the reference notes)
    expect(current(12)).toBeCloseTo(4, 3);
    expect(current(0)).toBeCloseTo(0, 9);
  });
});

describe('a precharge converter', () => {
  const part: OnBench = { name: 'C', kind: prechargeConverter, fields: { output_voltage: 360, output_current: 0.5, output_power: 100, efficiency: 0.8, output_resistance: 1, insulation_resistance: 1e9, idle_power: 1 } };
  it('gives nothing until 12 V is at its enable', () => {
    const result = solved([part], [ground('C')], [twelve('C'), load('link', 'C.pos', 'C.neg', 1e6), load('enable wire off', 'C.enable', 'C.ground', 1e6)]);
    expect(between(result, 'C.pos', 'C.neg')).toBeCloseTo(0, 6);
  });
  it('holds its voltage when enabled, and pays for the power with its efficiency', () => {
    const result = solved([part], [ground('C'), ['C.enable', 'C.supply']], [twelve('C'), load('link', 'C.pos', 'C.neg', 3600)]);
    expect(between(result, 'C.pos', 'C.neg')).toBeCloseTo(359.9, 1);
    // 360 V² / 3600 Ω = 36 W; input (360 V x 0.1 A) / 0.8 + 1 W
    expect(result.currentOf('C.converter:in') * between(result, 'C.supply', 'C.ground')).toBeCloseTo(46, 0);
  });
});

describe('a service disconnect', () => {
  const part = (settings = {}): OnBench => ({ name: 'D', kind: serviceDisconnect, fields: { fuse_rating: 350, interlock: true, voltage_rating: 450 }, settings });
  const states = (settings = {}): string[] => {
    const result = solved([part(settings)], [['D.in', 'chassis'], ['D.hvil_in', 'chassis']]);
    return [result.stateOf('D.blade'), result.stateOf('D.interlock')];
  };
  it('opens pole and interlock together when pulled', () => {
    expect(states()).toEqual(['closed', 'closed']);
    expect(states({ pulled: true })).toEqual(['open', 'open']);
  });
  it('counts a fuse of unknown style as partial range with an unknown least breaking current', () => {
    expect(serviceDisconnect.roles(partOnBench(part())).protection).toMatchObject([{ style: 'partial_range', minimumBreaking: undefined, rating: 350 }]);
  });
  it('protects nothing without a fuse inside', () => {
    expect(serviceDisconnect.roles(partOnBench({ name: 'D', kind: serviceDisconnect, fields: {} }))).not.toHaveProperty('protection');
  });
});

describe('a pyrotechnic disconnect', () => {
  it('is open once it has fired', () => {
    const state = (settings = {}): string => solved([{ name: 'Y', kind: pyroFuse, fields: {}, settings }], [['Y.in', 'chassis']]).stateOf('Y.link');
    expect([state(), state({ fired: true })]).toEqual(['closed', 'open']);
  });
});

describe('a junction bar', () => {
  it('may have a single stud', () => expect(junction.ports({ studs: 1 } as never)).toHaveLength(1));
  it('joins all its studs', () => {
    const result = solved([{ name: 'J', kind: junction, fields: { studs: 4, bar_resistance: 20e-6 } }], [['J.stud_4', 'chassis']], [{ type: 'current', id: 'feed', a: 'chassis', b: 'J.stud_1', current: 100 }]);
    expect(between(result, 'J.stud_1', 'J.stud_4')).toBeCloseTo(100 * 3 * 20e-6, 8);
  });
});

describe('an insulation monitor', () => {
  const part = (fields = {}, settings = {}): OnBench => ({ name: 'I', kind: isolationMonitor, fields: { internal_resistance: 1e6, alarm_contact: true, ...fields }, settings });
  it('puts its own resistance from each pole to the chassis, through its frame wire', () => {
    const result = solved([part()], [ground('I'), ['I.frame', 'chassis']], [source('pack', 'I.pos', 'I.neg', 400), twelve('I')]);
    expect([result.voltageOf('I.pos'), result.voltageOf('I.neg')].map((v) => Math.round(v))).toEqual([200, -200]);
    expect(result.stateOf('I.alarm_relay')).toBe('closed');
  });
  it('opens its alarm contact when it is not fed, and when it warns', () => {
    const unfed = solved([part()], [ground('I'), ['I.frame', 'chassis'], ['I.alarm_a', 'chassis']], [load('no feed', 'I.supply', 'I.ground', 1e3)]);
    expect(unfed.stateOf('I.alarm_relay')).toBe('open');
    expect(solved([part({}, { alarm: true })], [ground('I'), ['I.alarm_a', 'chassis']], [twelve('I')]).stateOf('I.alarm_contact')).toBe('open');
  });
});

describe('an inverter', () => {
  const fields = { link_capacitance: 1e-3, maximum_voltage: 400, minimum_voltage: 200, insulation_resistance: 1e9 };
  const part = (more = {}, settings = {}): OnBench => ({ name: 'V', kind: inverter, fields: { ...fields, ...more }, settings });
  const pack = source('pack', 'V.pos', 'V.neg', 350, 0);
  it('takes nothing from the high voltage at rest but its insulation', () => {
    expect(Math.abs(solved([part()], [ground('V')], [pack, twelve('V')]).currentOf('pack'))).toBeLessThan(1e-6);
  });
  it('takes the power that is asked of it, and gives it back when that is negative', () => {
    expect(solved([part({}, { draw: 35e3 })], [ground('V')], [pack, twelve('V')]).currentOf('V.stage')).toBeCloseTo(100, 6);
    expect(solved([part({}, { draw: -7e3 })], [ground('V')], [pack, twelve('V')]).currentOf('V.stage')).toBeCloseTo(-20, 6);
  });
  it('has the discharge resistor that reaches 60 V in the stated time', () => {
    // reference notes: 400 V, 1 mF, 2.64 kΩ -> 5 s to 60 V (computed there from t = RC ln(U/60))
    const result = solved([part({ active_discharge_time: 5 }, { discharge: true })], [ground('V')], [pack, twelve('V')]);
    expect(350 / result.currentOf('V.discharge')).toBeCloseTo(2636, -1);
  });
  it('sleeps until its enable is fed, when it has one', () => {
    const asleep = solved([part({ enable_input: true, sleep_current: 3e-4, supply_power: 15 })], [ground('V')], [twelve('V'), load('enable wire off', 'V.enable', 'V.ground', 1e6)]);
    expect(asleep.currentOf('12 V') === 0 ? 0 : Math.abs(asleep.currentOf('12 V'))).toBeCloseTo(3e-4, 7);
    const awake = solved([part({ enable_input: true, sleep_current: 3e-4, supply_power: 15 })], [ground('V'), ['V.enable', 'V.supply']], [twelve('V')]);
    expect(Math.abs(awake.currentOf('12 V'))).toBeCloseTo(15 / 12, 1);
  });
  it('hands over what is not known as unknown', () => {
    expect(inverter.roles(partOnBench(part())).traction).toEqual({ continuousCurrent: undefined, peakCurrent: undefined, peakPower: undefined });
    expect(inverter.roles(partOnBench(part())).dcLink).toMatchObject({ bleeder: undefined, activeDischarge: undefined });
  });
});

describe('a DC-DC converter', () => {
  const fields = { output_voltage: 14, output_current: 100, output_resistance: 2e-3, efficiency: 0.9, idle_power: 15, maximum_voltage: 450, minimum_voltage: 200, insulation_resistance: 1e8 };
  const part = (started_by: string, settings = {}): OnBench => ({ name: 'D', kind: dcdc, fields: { ...fields, started_by }, settings });
  const pack = source('pack', 'D.pos', 'D.neg', 350, 0);
  const battery = source('battery', 'D.lv_pos', 'D.lv_neg', 12.4, 0.01);
  const grounded: readonly (readonly [string, string])[] = [['D.lv_neg', 'chassis']];
  it('feeds the 12 V side whenever there is high voltage, when that is all it needs', () => {
    const result = solved([part('high_voltage')], grounded, [pack, load('lamps', 'D.lv_pos', 'D.lv_neg', 0.28)]);
    // 14 V / (0.28 Ω + 2 mΩ)
    expect(result.currentOf('D.converter')).toBeCloseTo(14 / 0.282, 3);
    expect(result.currentOf('D.converter:in') * 350).toBeCloseTo((between(result, 'D.lv_pos', 'D.lv_neg') * result.currentOf('D.converter')) / 0.9 + 15, 0);
  });
  it('gives no more than its current limit', () => {
    expect(solved([part('high_voltage')], grounded, [pack, load('lamps', 'D.lv_pos', 'D.lv_neg', 0.05)]).currentOf('D.converter')).toBeCloseTo(100, 6);
  });
  it('does not run below its lowest voltage', () => {
    expect(solved([part('high_voltage')], grounded, [source('pack', 'D.pos', 'D.neg', 150, 0), load('lamps', 'D.lv_pos', 'D.lv_neg', 1)]).currentOf('D.converter')).toBeCloseTo(0, 9);
  });
  it('waits for its message, and for 12 V on its own output', () => {
    expect(solved([part('message')], grounded, [pack, battery]).currentOf('D.converter')).toBeCloseTo(0, 9);
    expect(solved([part('message', { on: true })], grounded, [pack, battery]).currentOf('D.converter')).toBeGreaterThan(50);
    expect(solved([part('message', { on: true })], grounded, [pack, load('dead battery', 'D.lv_pos', 'D.lv_neg', 10)]).currentOf('D.converter')).toBeCloseTo(0, 9);
  });
  it('waits for 12 V at its enable, when it has one', () => {
    expect(solved([part('wire')], grounded, [pack, battery]).currentOf('D.converter')).toBeCloseTo(0, 9);
    expect(solved([part('wire')], [...grounded, ['D.enable', 'D.lv_pos']], [pack, battery]).currentOf('D.converter')).toBeGreaterThan(50);
  });
});

describe('a charger behind an inlet', () => {
  const car = (asked = {}, plugged = {}): [OnBench[], [string, string][], Element[]] => [
    [
      { name: 'S', kind: chargeInlet, fields: { type: 'type_2' }, settings: plugged },
      { name: 'O', kind: charger, fields: { output_current: 20, output_power: 6600, maximum_voltage: 420, efficiency: 0.93, idle_power: 20, insulation_resistance: 1e9 }, settings: asked },
    ],
    [['S.l', 'O.l'], ['S.n', 'O.n'], ['S.pe', 'chassis'], ['O.pe', 'S.pe'], ['S.pilot', 'O.pilot'], ['O.ground', 'chassis']],
    [source('pack', 'O.pos', 'O.neg', 350, 0.05), twelve('O')],
  ];
  it('does nothing unplugged, even when asked', () => {
    const [parts, leads, extra] = car({ current: 16 });
    const result = solved(parts, leads, [...extra, load('meter of 10 MΩ', 'S.pilot', 'S.pe', 10e6)]);
    expect(result.currentOf('O.output_l')).toBeCloseTo(0, 6);
    expect(between(result, 'S.pilot', 'S.pe')).toBeCloseTo(0, 6);
  });
  it('shows the station 9 V when plugged and 6 V when charging', () => {
    // IEC 61851-1 Annex A; with a 0.7 V diode the reference notes compute 8.98 V and 5.99 V
    expect(between(solved(...car({}, { plugged: true })), 'S.pilot', 'S.pe')).toBeCloseTo(8.98, 1);
    expect(between(solved(...car({ current: 8 }, { plugged: true })), 'S.pilot', 'S.pe')).toBeCloseTo(5.99, 1);
  });
  it('pushes the asked current into the pack and takes the power for it from the station', () => {
    const result = solved(...car({ current: 10 }, { plugged: true }));
    expect(result.currentOf('O.output_l')).toBeCloseTo(10, 3);
    // 350.5 V x 10 A / 0.93 + 20 W at about 225 V
    expect(result.currentOf('O.output_l:in')).toBeCloseTo((350.5 * 10 / 0.93 + 20) / between(result, 'O.l', 'O.n'), 1);
  });
  it('keeps to its power limit when that comes first', () => {
    const result = solved(...car({ power: 3300 }, { plugged: true }));
    expect(result.currentOf('O.output_l') * between(result, 'O.pos', 'O.neg')).toBeCloseTo(3300, 0);
  });
  it('stops at its voltage limit', () => {
    expect(solved(...car({ current: 10, voltage: 340 }, { plugged: true })).currentOf('O.output_l')).toBeCloseTo(0, 6);
  });
  it('codes the cable as IEC 61851-1 Table B.2 says', () => {
    const ohms = (cable_rating: number): number => {
      const result = solved([{ name: 'S', kind: chargeInlet, fields: { type: 'type_2' }, settings: { plugged: true, cable_rating } }], [['S.pe', 'chassis']], [{ type: 'current', id: 'ohmmeter', a: 'chassis', b: 'S.proximity', current: 1e-3 }]);
      return between(result, 'S.proximity', 'S.pe') / 1e-3;
    };
    expect([13, 20, 32, 63].map((rating) => Math.round(ohms(rating)))).toEqual([1500, 680, 220, 100]);
  });
});

describe('a heater', () => {
  const part = (behaves: string, power?: number): OnBench => ({ name: 'H', kind: hvHeater, fields: { rated_power: 5000, rated_voltage: 350, behaves, maximum_voltage: 450, minimum_voltage: 200, insulation_resistance: 1e9 }, settings: power === undefined ? {} : { power } });
  const taken = (behaves: string, power: number | undefined, voltage: number): number =>
    Math.abs(solved([part(behaves, power)], [ground('H')], [source('pack', 'H.pos', 'H.neg', voltage, 0), twelve('H')]).currentOf('pack')) * voltage;
  it('takes nothing when nothing is asked', () => expect(taken('resistance', undefined, 350)).toBeLessThan(0.01));
  it('follows the square of the voltage as a resistance and holds its power otherwise', () => {
    expect(taken('resistance', 2000, 280)).toBeCloseTo(2000 * 0.64, 1);
    expect(taken('constant_power', 2000, 280)).toBeCloseTo(2000, 1);
  });
  it('never takes more than its rated power', () => expect(taken('constant_power', 9000, 350)).toBeCloseTo(5000, 1));
});
