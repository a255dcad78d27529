/**
 * What builders say when the car does nothing, as observations of this build in a mode that was asked for.
 */
import type { Car } from '../car/car.ts';
import { coilContacts, startModes } from '../topics/modes/mode-graph.ts';
import { hasLowVoltageBattery } from './forecasts.ts';
import type { AskedState } from './asked-state.ts';
import { NOTHING_WRONG } from './hypothesis.ts';
import type { Look, Observation } from './observation.ts';
import type { Predictions } from './predict.ts';
import { questionOf } from './things.ts';

export const symptoms = {
  no_click: 'no contactor clicks',
  precharge_never_ends: 'precharge begins and never ends',
  contactors_drop: 'the contactors close and drop again after a second',
  no_torque: 'drive is shown, and no torque comes',
  fuse_blows: 'a fuse blows',
  isolation_warning: 'the isolation warning stands',
  battery_dies: 'the 12 V battery is empty in the morning',
  pump_always_on: 'a pump or fan runs all the time',
  charger_does_not_start: 'the charger does not start',
} as const;
export type Symptom = keyof typeof symptoms;

export interface SymptomReading {
  /** undefined: this car, or this mode, cannot show the symptom */
  readonly observations: readonly Observation[] | undefined;
  /** why it cannot, as a sentence */
  readonly why: string;
}

/**
 * @param predictions  of the mode that was asked for
 * @param of           part that the symptom is about, where it needs one (the pump)
 */
export function observationsOf(car: Car, symptom: Symptom, predictions: Predictions, of?: string): SymptomReading {
  const { asked, way, watched } = predictions;
  const healthy = predictions.of(NOTHING_WRONG);
  const high = new Set(coilContacts(car).map(({ part }) => part));
  const closing = watched.things.filter(({ what, of: part }, index) => what === 'closes' && high.has(part) && healthy.sight?.does[index] === 1).map(({ of: part }) => part);
  const said = (look: Look, value: boolean, state: AskedState = asked): Observation => ({ state, look, value } as Observation);
  const given = (...observations: Observation[]): SymptomReading => ({ observations, why: '' });
  const cannot = (why: string): SymptomReading => ({ observations: undefined, why });
  const thing = (what: 'gives' | 'runs', part: string | undefined, value: boolean): Observation | undefined => (part !== undefined && watched.things.some((one) => one.what === what && one.of === part) ? said({ is: 'thing', what, of: part }, value) : undefined);
  switch (symptom) {
    case 'no_click': return closing.length === 0 ? cannot(`Mode ${asked.mode ?? '(none)'} closes no contactor even when all is well; ask for one that does.`) : given(...closing.map((part) => said({ is: 'thing', what: 'closes', of: part }, false)));
    case 'precharge_never_ends': {
      const step = way.steps.findIndex(({ to }) => closesPrecharge(car, to));
      const next = way.steps[step + 1];
      return step < 0 || !next ? cannot('The way to this mode has no precharge and a mode after it.') : given(said({ is: 'reached', mode: way.steps[step]!.to }, true), said({ is: 'reached', mode: next.to }, false));
    }
    case 'contactors_drop': return way.asserts.length === 0 ? cannot(`Mode ${asked.mode ?? '(none)'} asserts nothing, so the file does not say what would end it.`) : given(said({ is: 'falls_back' }, true));
    case 'no_torque': {
      const mover = [...car.parts.values()].find(({ roles }) => roles.traction);
      const seen = thing('gives', mover?.name, false);
      return seen && asked.mode !== undefined && way.steps.length > 0 ? given(said({ is: 'reached', mode: asked.mode }, true), seen) : cannot('Ask for a mode in which the motor takes power.');
    }
    case 'fuse_blows': return given(said({ is: 'blown', of }, true));
    case 'isolation_warning': return given(said({ is: 'isolation_warning' }, true));
    case 'battery_dies':
      if (!hasLowVoltageBattery(car)) return cannot('The file has no 12 V battery with a run at its positive post.');
      return asked.mode === undefined || startModes(car).includes(asked.mode) ? given(said({ is: 'drains' }, true)) : cannot(`Mode ${asked.mode} is none that the car is parked in.`);
    case 'pump_always_on': {
      const runner = of ?? watched.things.find(({ what, of: part }, index) => what === 'runs' && healthy.sight?.does[index] === 0 && questionOf(car, { what, of: part }) !== undefined && car.parts.get(part)?.kind.observables.some(({ sense }) => sense === 'hear'))?.of;
      const seen = thing('runs', runner, true);
      return seen ? given(seen) : cannot('Name the pump or fan that runs, and a mode in which it should not.');
    }
    case 'charger_does_not_start': {
      const charger = of ?? [...car.parts.values()].find(({ roles }) => roles.feedsPack)?.name;
      const seen = thing('gives', charger, false);
      return seen ? given(seen) : cannot('Ask for a mode in which the charger charges.');
    }
  }
}

/** A mode in which a precharge resistor's contact, or a precharge converter, is at work and the main contacts are not all. */
function closesPrecharge(car: Car, mode: string): boolean {
  const set = car.modes.get(mode)?.set ?? {};
  const words = Object.values(set).flatMap((settings) => Object.values(settings).flatMap((value) => (Array.isArray(value) ? value as string[] : [])));
  const coils = [...car.parts.values()].flatMap(({ names, roles }) => (roles.prechargeResistor ? (roles.switching ?? []).flatMap(({ coil }) => (coil ? [names.of(coil.positive), names.of(coil.negative)] : [])) : []));
  const converters = [...car.parts.values()].filter(({ roles }) => roles.prechargeConverter).map(({ name }) => name);
  if (converters.some((name) => Object.values(set[name] ?? {}).some((value) => value === true))) return true;
  const driven = [...car.parts.values()].flatMap(({ name, roles }) => (roles.switching ?? []).filter(({ by, a, b }) => by === 'electronics' && (words.includes(a) || words.includes(b))).flatMap(({ a, b }) => [`${name}.${a}`, `${name}.${b}`]));
  return [...car.runs.values()].some(({ from, to }) => (driven.includes(from) && coils.includes(to)) || (driven.includes(to) && coils.includes(from)));
}

