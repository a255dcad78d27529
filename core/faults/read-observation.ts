/**
 * An observation as a person writes it: `K1.coil_a-chassis=0.2 V`, `F3.a-F3.b=0.4 Ω`, `K_neg.closes=no`, `L_ready.lights=yes`, `reached.ready=no`,
 * `I(L05)=3.2 A`, `F3.blown=yes`, `blown=no`, `falls_back=yes`, `isolation_warning=yes`, `drains=no`. Behind it `@pack_open` where the pack was parted;
 * `±0.5 V` behind a value widens its band.
 */
import type { Car } from '../car/car.ts';
import { nearestName } from '../build/nearest-name.ts';
import { readQuantity } from '../quantity/read-quantity.ts';
import type { AskedState } from './asked-state.ts';
import { hasLowVoltageBattery } from './forecasts.ts';
import type { Look, Observation } from './observation.ts';
import type { OfferedStates } from './offered-states.ts';
import type { Predictions } from './predict.ts';
import type { ThingSort } from './things.ts';

export type ObservationReading = { readonly ok: true; readonly observation: Observation } | { readonly ok: false; /** a sentence */ readonly problem: string };

const wrong = (problem: string): ObservationReading => ({ ok: false, problem });

export function readObservation(text: string, car: Car, states: OfferedStates, predictionsIn: (asked: AskedState) => Predictions): ObservationReading {
  const [said = '', where, ...more] = text.split('@').map((piece) => piece.trim());
  const equals = said.indexOf('=');
  if (equals < 0 || more.length > 0) return wrong(`${text}: expected what was seen and its outcome, such as K1.coil_a-chassis=0.2 V or K1.closes=no.`);
  const [what, value] = [said.slice(0, equals).trim(), said.slice(equals + 1).trim()];
  if (where !== undefined && where !== 'pack_open' && where !== 'asked') return wrong(`${text}: behind @ stands pack_open (the pack is parted) or asked.`);
  if (where === 'pack_open' && !states.packOpen) return wrong(`${text}: this car has no pack that could be parted.`);
  const state = where === 'pack_open' ? states.packOpen! : states.asked;
  const predictions = predictionsIn(state);
  const look = lookOf(what, predictions, car);
  if (typeof look === 'string') return wrong(`${text}: ${look}`);
  if (look.is === 'current') return clamped(text, value, state, look.of);
  if (look.is === 'yes_no') return yesNo(text, value, state, look.look);
  return metered(text, value, state, states, look.a, look.b);
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
    const [a, b] = [what.slice(0, at).trim(), what.slice(at + 1).trim()];
    if (isPoint(a) && isPoint(b)) return a === b ? 'the two points are the same.' : { is: 'points', a, b };
  }
  const [a = '', b = ''] = what.split('-').map((name) => name.trim());
  const lost = [a, b].find((name) => name !== '' && !isPoint(name)) ?? what;
  const near = nearestName(lost, [...placeOf.keys()]);
  return `there is no point ${lost}${near === undefined ? '' : `; did you mean ${near}`}. Two points stand with a dash between: F1.a-chassis.`;
}

function yesNo(text: string, value: string, state: AskedState, look: Extract<Read, { is: 'yes_no' }>['look']): ObservationReading {
  const answer = /^(yes|y|true|ja)$/i.test(value) ? true : /^(no|n|false|nein)$/i.test(value) ? false : undefined;
  return answer === undefined ? wrong(`${text}: expected yes or no.`) : { ok: true, observation: { state, look, value: answer } };
}

function clamped(text: string, value: string, state: AskedState, of: string): ObservationReading {
  const [number = '', spread] = value.split('±').map((piece) => piece.trim());
  const read = readQuantity(number, 'current', 'value');
  if (!read.ok) return wrong(`${text}: the value is not understood: expected amperes, such as 3.2 A.`);
  const band = spread === undefined ? undefined : readQuantity(/[A-Za-z]/.test(spread) ? spread : `${spread} A`, 'current', 'band');
  if (band && (!band.ok || !(band.value.nominal > 0))) return wrong(`${text}: what stands behind ± is not understood.`);
  // which way the clamp is put on is left to the builder
  return { ok: true, observation: { state, look: { is: 'current', of }, value: Math.abs(read.value.nominal), ...(band?.ok ? { band: band.value.nominal } : {}) } };
}

function metered(text: string, value: string, state: AskedState, states: OfferedStates, a: string, b: string): ObservationReading {
  const [number = '', spread] = value.split('±').map((piece) => piece.trim());
  const isOpen = /^(open|ol|infinite|∞)$/i.test(number);
  const isOhms = isOpen || /(Ω|ohms?)$/i.test(number);
  const unit = /[^\d\s.,+-].*$/.exec(number)?.[0] ?? '';
  const read = isOpen ? undefined : readQuantity(number, isOhms ? 'resistance' : 'voltage', 'value');
  if (read && !read.ok) return wrong(`${text}: the value is not understood: expected ${isOhms ? 'ohms' : 'volts'}, such as 12.4 V, 0.3 Ω or open.`);
  const band = spread === undefined ? undefined : readQuantity(/[A-Za-zΩ]/.test(spread) ? spread : `${spread} ${unit}`, isOhms ? 'resistance' : 'voltage', 'band');
  if (band && (!band.ok || !(band.value.nominal > 0))) return wrong(`${text}: what stands behind ± is not understood.`);
  const more = band?.ok ? { band: band.value.nominal } : {};
  const found = read?.ok ? read.value.nominal : Infinity;
  return { ok: true, observation: isOhms ? { state: states.dead, look: { is: 'resistance', a, b }, value: found, ...more } : { state, look: { is: 'voltage', a, b }, value: found, ...more } };
}
