/**
 * How the car stands while somebody looks for a fault: what has been parted so far, and whether what was seen forbids to switch the high voltage on
 * again. From it what a test costs now, how dangerous it is, and what to mind.
 *
 * Minutes, with danger priced in, are our choice: what puts the high voltage on costs more than what does not, exposed high voltage far more, and
 * a bolted joint of the pack is live work. Setting a state up counts once: what is parted stays parted.
 */
import { gloveClassFor } from '../physics/glove-class.ts';
import { CLASS_A_HIGHEST } from '../physics/voltage-class.ts';
import type { Car } from '../car/car.ts';
import { keyOfState } from './asked-state.ts';
import type { AskedState } from './asked-state.ts';
import type { Observation } from './observation.ts';
import type { OfferedStates } from './offered-states.ts';

/** `high`: hands with probes at points of voltage class B, a pack joint undone, or high voltage put on a leak or a short; `near`: high voltage on, or possible, and nobody at it. */
export type Danger = 'none' | 'near' | 'high';

/** What a car in a mode can do to people. */
export interface Hazards {
  /** highest voltage of the pack [V] */
  readonly packVoltage: number;
  /** asking for the mode puts the pack's voltage on the car */
  readonly energises: boolean;
  /** what turns the wheels is awake in it */
  readonly mayMove: boolean;
  readonly disconnects: readonly string[];
  /** buttons that the driver opens the contactors with */
  readonly stops: readonly string[];
}

export type Warning = 'leak' | 'fuse';

export interface Standing {
  /** one of the offered states: as the last observation left it */
  readonly at: AskedState;
  /** what was seen that forbids to switch the high voltage on before everything else is looked at */
  readonly warning: Warning | undefined;
}

/** What danger is priced at: minutes are multiplied. */
const PRICE: Readonly<Record<Danger, number>> = { none: 1, near: 1.6, high: 25 };
/** [min] */
const SET_UP = { disconnect: 3, battery: 2, joint: 25, mode: 0 };

/** @param observations  in the order in which they were made: the last one says how the car stands */
export function standingAfter(observations: readonly Observation[], car: Car, states: OfferedStates): Standing {
  const at = observations.at(-1)?.state ?? states.asked;
  return { at: [states.asked, states.disconnected, states.packOpen, states.dead].find((state) => state !== undefined && isSame(state, at)) ?? at, warning: warningIn(observations, car) };
}

const isSame = (one: AskedState, other: AskedState): boolean => one === other || keyOfState(one) === keyOfState(other);

function warningIn(observations: readonly Observation[], car: Car): Warning | undefined {
  const last = (is: 'isolation_warning' | 'blown', of?: string): boolean | undefined => observations.findLast(({ look }) => look.is === is && (look.is !== 'blown' || look.of === of))?.value as boolean | undefined;
  if (last('isolation_warning') === true) return 'leak';
  const seen = [...new Set(observations.flatMap(({ look }) => (look.is === 'blown' && look.of !== undefined ? [look.of] : [])))].filter((name) => last('blown', name) === true);
  if (seen.some((name) => car.parts.get(name)?.kind.family === 'high_voltage')) return 'fuse';
  // some fuse, and nobody has said that it is one of the 12 V side
  return last('blown') === true && seen.length === 0 ? 'fuse' : undefined;
}

export interface Bare {
  readonly state: AskedState;
  /** without danger and setting up [min] */
  readonly minutes: number;
  /** where hands are: at the controls, at 12 V points, at 12 V points inside a high-voltage part, around a high-voltage cable, at high-voltage points */
  readonly at: 'seat' | 'low' | 'box' | 'cable' | 'high';
  /** of the look itself */
  readonly precautions: readonly string[];
}

export interface AsItStands { /** [min], danger and setting up included */ readonly cost: number; readonly danger: Danger; readonly precautions: readonly string[] }

/** What a test costs as the car stands now. */
export function priceOf(bare: Bare, { at, warning }: Standing, states: OfferedStates, hazards: Hazards): Pick<AsItStands, 'cost' | 'danger'> {
  const { state } = bare;
  const isParted = state === states.disconnected || state === states.packOpen || (state === states.dead && (states.disconnected !== undefined || states.packOpen?.without.every((joint) => state.without.includes(joint)) === true));
  const own = ownDanger(bare, isParted, warning, states, hazards);
  const move = moveFrom(at, state, states, hazards);
  return {
    danger: worse(own, move.danger),
    cost: bare.minutes * PRICE[own] * (bare.at === 'box' && own === 'near' ? 2 : 1) * (bare.at === 'cable' ? 2 : 1) + move.minutes * PRICE[move.danger],
  };
}

export function asItStands(bare: Bare, standing: Standing, states: OfferedStates, hazards: Hazards): AsItStands {
  return { ...priceOf(bare, standing, states, hazards), precautions: [...statePrecautions(bare.state, standing, states, hazards), ...bare.precautions] };
}

function ownDanger({ state, at }: Bare, isParted: boolean, warning: Warning | undefined, states: OfferedStates, { packVoltage, energises }: Hazards): Danger {
  if (!(packVoltage > CLASS_A_HIGHEST)) return 'none';
  if (state === states.dead) return at === 'high' ? 'near' : isParted ? 'none' : 'near';
  if (at === 'high') return 'high';
  if (isParted) return 'none';
  if (energises && warning !== undefined) return 'high';
  return at === 'seat' && !energises ? 'none' : 'near';
}

/** What it takes to bring the car from one state into another. */
function moveFrom(from: AskedState, to: AskedState, states: OfferedStates, { packVoltage }: Hazards): { readonly minutes: number; readonly danger: Danger } {
  if (isSame(from, to)) return { minutes: 0, danger: 'none' };
  const isBolted = ({ without }: AskedState): boolean => states.packOpen?.without.some((joint) => without.includes(joint)) === true;
  const isOff = (state: AskedState): boolean => isSame(state, states.dead);
  const isOut = (state: AskedState): boolean => states.disconnected !== undefined && (isSame(state, states.disconnected) || isOff(state));
  // a joint that is off stays off for everything but the car in one piece
  const isJoint = isBolted(to) ? !isBolted(from) : isBolted(from) && isSame(to, states.asked);
  if (isJoint) return { minutes: SET_UP.joint, danger: packVoltage > CLASS_A_HIGHEST ? 'high' : 'none' };
  return { minutes: (isOut(from) === isOut(to) ? 0 : SET_UP.disconnect) + (isOff(from) === isOff(to) ? 0 : SET_UP.battery), danger: 'none' };
}

const GRADES: readonly Danger[] = ['none', 'near', 'high'];
const worse = (one: Danger, other: Danger): Danger => (GRADES.indexOf(one) > GRADES.indexOf(other) ? one : other);

/** What to mind while the car is in a state, whatever is looked at. */
export function statePrecautions(state: AskedState, { at, warning }: Standing, states: OfferedStates, hazards: Hazards): readonly string[] {
  const { packVoltage, energises, mayMove, disconnects, stops } = hazards;
  const isHigh = packVoltage > CLASS_A_HIGHEST;
  const names = disconnects.join(' and ');
  if (state === states.dead) return [disconnects.length > 0 && isHigh ? `The capacitors need their time after ${names} ${disconnects.length === 1 ? 'is' : 'are'} out: the meter decides, not the clock.` : '', 'First volts on the same two points: they must read 0 V.'].filter((text) => text !== '');
  if (state === states.disconnected) return isHigh ? [`Switch off, then pull ${names} and keep ${disconnects.length === 1 ? 'it' : 'them'} on you. What lies inside the pack is live all the same: its covers stay on.`, ...(states.opensLoop ? ['The interlock loop is open with it: no contactor closes.'] : [])] : [];
  if (state === states.packOpen) {
    const joints = state.without.join(' and ');
    if (at === state) return isHigh ? [`${joints} ${state.without.length === 1 ? 'stays' : 'stay'} off, ends covered.`] : [];
    return [
      isHigh
        ? `A last resort: undoing ${joints} is live work, up to ${Math.ceil(packVoltage / 10) * 10} V between what comes apart. ${disconnects.length > 0 ? `${names} out first; ` : 'Everything off first; '}${gloveWords(packVoltage)}, face shield, insulated tool; a second person who can help. Cover each end before the next one is touched.`
        : `Undoing ${joints}: a short here welds and burns. Insulated tool, eyes protected, each end covered.`,
      ...(states.opensLoop ? [`Then ${names} in again for the interlock contact alone.`] : []),
    ];
  }
  if (!isHigh) return mayMove ? [WHEELS] : [];
  if (!energises) return ['The pack is joined: every high-voltage cover stays on.'];
  return [
    ...(warning === undefined ? [] : [notAgain(warning, disconnects)]),
    `Asking for it puts up to ${Math.ceil(packVoltage / 10) * 10} V on the car: every high-voltage cover on, nobody touches the car but at 12 V points.`,
    `A second person ${secondPerson(disconnects, stops)}, eyes on the first.`,
    ...(mayMove ? [WHEELS] : []),
  ];
}

const WHEELS = 'Driven wheels off the ground on stands, nobody before, behind or under the car: it may move.';

function notAgain(warning: Warning, disconnects: readonly string[]): string {
  const first = `first everything that can be measured ${disconnects.length > 0 ? `with ${disconnects.join(' and ')} out, or ` : ''}dead`;
  return warning === 'leak' ? `A leak is warned of: not again before it is found; ${first}.` : `A fuse has blown, and it may be one of the high voltage: no new fuse and not again before what it blew on is found; ${first}.`;
}

function secondPerson(disconnects: readonly string[], stops: readonly string[]): string {
  const places = [...(stops.length > 0 ? [`at what opens the contactors (${stops.join(', ')})`] : []), ...(disconnects.length > 0 ? [`beside ${disconnects.join(' or ')}`] : [])];
  return places.length > 0 ? places.join(', or ') : 'at the 12 V battery, a hand on what parts it';
}

export const gloveWords = (packVoltage: number): string => { const gloves = gloveClassFor(packVoltage)?.name; return gloves === undefined ? 'insulating gloves for this voltage' : `insulating gloves of class ${gloves} at least`; };
