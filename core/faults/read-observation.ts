/**
 * An observation as a person writes it: `K1.coil_a-chassis=0.2 V`, `F3.a-F3.b=0.4 Ω`, `K_neg.closes=no`, `L_ready.lights=yes`, `reached.ready=no`,
 * `I(L05)=3.2 A`, `F3.blown=yes`, `blown=no`, `falls_back=yes`, `isolation_warning=yes`, `drains=no`. Behind it `@disconnect_out` where the service disconnect
 * was out, `@pack_open` where a joint of the pack was off; `±0.5 V` behind a value widens its band. The body is `chassis`, or as people call it.
 */
import type { Car } from '../car/car.ts';
import { pointNamed } from '../car/point-named.ts';
import { nearestName } from '../build/nearest-name.ts';
import { readQuantity } from '../quantity/read-quantity.ts';
import type { AskedState } from './asked-state.ts';
import { hasLowVoltageBattery } from './forecasts.ts';
import type { Look, Observation } from './observation.ts';
import type { OfferedStates } from './offered-states.ts';
import type { Predictions } from './predict.ts';
import type { ThingSort } from './things.ts';

export type ObservationReading = { readonly ok: true; readonly observation: Observation } | { readonly ok: false; /** a sentence */ readonly problem: string };

export function readObservation(text: string, car: Car, states: OfferedStates, predictionsIn: (asked: AskedState) => Predictions): ObservationReading {
  const [said = '', where, ...more] = text.split('@').map((piece) => piece.trim());
  const wrong = (problem: string): ObservationReading => ({ ok: false, problem });
  const equals = said.indexOf('=');
  if (equals < 0 || more.length > 0) return wrong(`${text}: expected what was seen and its outcome, such as K1.coil_a-chassis=0.2 V or K1.closes=no.`);
  const [what, value] = [said.slice(0, equals).trim(), said.slice(equals + 1).trim()];
  if (where !== undefined && where !== 'pack_open' && where !== 'disconnect_out' && where !== 'asked') return wrong(`${text}: behind @ stands disconnect_out (the service disconnect is out), pack_open (a joint of the pack is off) or asked.`);
  if (where === 'disconnect_out' && !states.disconnected) return wrong(`${text}: this car has no service disconnect in each string.`);
  if (where === 'pack_open' && !states.packOpen) return wrong(`${text}: this car has no pack that could be parted.`);
  const state = where === 'pack_open' ? states.packOpen! : where === 'disconnect_out' ? states.disconnected! : states.asked;
  const predictions = predictionsIn(state);
  const look = lookOf(what, predictions, car);
  if (typeof look === 'string') return wrong(`${what}: ${look}`);
  if (look.is === 'current') return clamped(value, state, look.of);
  if (look.is === 'yes_no') return yesNo(value, state, look.look);
  return metered(value, state, states, look.a, look.b);
}

type Read = { readonly is: 'current'; readonly of: string } | { readonly is: 'points'; readonly a: string; readonly b: string } | { readonly is: 'yes_no'; readonly look: Exclude<Look, { is: 'voltage' | 'resistance' | 'current' }> };

function lookOf(what: string, { placeOf, watched, way }: Predictions, car: Car): Read | string {
  const yes = (look: Extract<Read, { is: 'yes_no' }>['look']): Read => ({ is: 'yes_no', look });
  if (what === 'drains' && !hasLowVoltageBattery(car)) return 'the file has no 12 V battery with a run at its positive post.';
  if (what === 'falls_back' || what === 'isolation_warning' || what === 'drains') return yes({ is: what });
  const clamp = /^I\(\s*(.+?)\s*\)$/.exec(what)?.[1];
  if (clamp !== undefined) {
    const near = nearestName(clamp, [...car.runs.keys()]);
    return watched.runs.includes(clamp) ? { is: 'current', of: clamp } : `${car.runs.has(clamp) ? `no clamp fits around ${clamp}` : `there is no run ${clamp}`}${near === undefined || near === clamp ? '' : `; did you mean ${near}`}.`;
  }
  if (what === 'blown') return yes({ is: 'blown', of: undefined });
  const dot = what.indexOf('.');
  const [first, last] = dot < 0 ? ['', ''] : [what.slice(0, dot), what.slice(dot + 1)];
  if (first === 'reached') {
    const modes = way.steps.map(({ to }) => to);
    return modes.includes(last) ? yes({ is: 'reached', mode: last }) : `mode ${last} is not on the way; there are ${modes.join(', ') || 'none'}.`;
  }
  if (last === 'blown') return car.parts.get(first)?.roles.protection ? yes({ is: 'blown', of: first }) : `${first} is no fuse.`;
  if (last === 'closes' || last === 'lights' || last === 'runs' || last === 'gives') {
    const things = watched.things.filter((thing) => thing.what === (last as ThingSort)).map(({ of }) => of);
    if (things.includes(first)) return yes({ is: 'thing', what: last, of: first });
    const near = nearestName(first, things);
    return `nothing called ${first} ${last}${near === undefined ? '' : `; did you mean ${near}`}${things.length > 0 && things.length < 16 ? ` (there are ${things.join(', ')})` : ''}.`;
  }
  const isPoint = (name: string): boolean => placeOf.has(name);
  for (let at = what.indexOf('-'); at >= 0; at = what.indexOf('-', at + 1)) {
    const [a, b] = [pointNamed(what.slice(0, at), isPoint), pointNamed(what.slice(at + 1), isPoint)];
    if (isPoint(a) && isPoint(b)) return a === b ? 'the two points are the same.' : { is: 'points', a, b };
  }
  const [a = '', b = ''] = what.split('-').map((name) => pointNamed(name, isPoint));
  const lost = [a, b].find((name) => name !== '' && !isPoint(name)) ?? what;
  const near = nearestName(lost, [...placeOf.keys()]);
  return `there is no point ${lost}${near === undefined ? '' : `; did you mean ${near}`}. Two points stand with a dash between: F1.a-chassis.`;
}

function yesNo(value: string, state: AskedState, look: Extract<Read, { is: 'yes_no' }>['look']): ObservationReading {
  const answer = /^(yes|y|true|ja)$/i.test(value) ? true : /^(no|n|false|nein)$/i.test(value) ? false : undefined;
  return answer === undefined ? { ok: false, problem: `${value === '' ? 'Nothing' : value}: expected yes or no.` } : { ok: true, observation: { state, look, value: answer } };
}

function clamped(value: string, state: AskedState, of: string): ObservationReading {
  const read = withBand(value, 'current');
  if (!read.ok) return read;
  // which way the clamp is put on is left to the builder
  return { ok: true, observation: { state, look: { is: 'current', of }, value: Math.abs(read.value), ...read.more } };
}

function metered(value: string, state: AskedState, states: OfferedStates, a: string, b: string): ObservationReading {
  const isOpen = /^(open|ol|infinite|∞)$/i.test(value.split('±')[0]!.trim());
  const isOhms = isOpen || /(Ω|ohms?)\s*(±.*)?$/i.test(value);
  const read = withBand(value, isOhms ? 'resistance' : 'voltage', isOpen);
  if (!read.ok) return read;
  return { ok: true, observation: isOhms ? { state: states.dead, look: { is: 'resistance', a, b }, value: read.value, ...read.more } : { state, look: { is: 'voltage', a, b }, value: read.value, ...read.more } };
}

type Valued = { readonly ok: true; readonly value: number; readonly more: { readonly band?: number } } | { readonly ok: false; readonly problem: string };

const EXPECTED = { current: { names: 'amperes, such as 3.2 A', unit: 'A' }, voltage: { names: 'volts, such as 12.4 V, or ohms, such as 0.3 Ω, or open', unit: 'V' }, resistance: { names: 'ohms, such as 0.3 Ω, or open', unit: 'Ω' } } as const;

/** A number with its unit, and perhaps a band. */
function withBand(value: string, quantity: keyof typeof EXPECTED, isOpen = false): Valued {
  const [number = '', spread] = value.split('±').map((piece) => piece.trim());
  const { names, unit } = EXPECTED[quantity];
  if (!isOpen && /^[-+]?\d+([.,]\d+)?$/.test(number)) return { ok: false, problem: `${number} has no unit: write ${number.replace(',', '.')} ${unit}${quantity === 'voltage' ? `, or ${number.replace(',', '.')} Ω if it is ohms` : ''}.` };
  const read = isOpen ? undefined : readQuantity(number, quantity, 'value');
  if (read && !read.ok) return { ok: false, problem: `${number === '' ? 'Nothing' : number}: the value is not understood: expected ${names}.` };
  const band = spread === undefined ? undefined : readQuantity(/[A-Za-zΩ]/.test(spread) ? spread : `${spread} ${/[^\d\s.,+-].*$/.exec(number)?.[0] ?? unit}`, quantity, 'band');
  if (band && (!band.ok || !(band.value.nominal > 0))) return { ok: false, problem: `${spread ?? ''}: what stands behind ± is not understood.` };
  return { ok: true, value: read?.ok ? read.value.nominal : Infinity, more: band?.ok ? { band: band.value.nominal } : {} };
}
