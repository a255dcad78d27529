/**
 * To what a bench source is set: how high, and with how little current. High enough to try the bus at the voltage that it will bear; a
 * limit that lets the capacitors fill in about ten seconds and holds the bus against its bleeders and leaks, and no more power than warms
 * what is wrong.
 */
import type { Network } from '../car/ask.ts';
import type { Car, CarPart } from '../car/car.ts';
import type { State } from '../car/state.ts';
import type { BenchSourceRole } from '../part/role.ts';
import { CLASS_A_HIGHEST } from '../physics/voltage-class.ts';
import { linksOf, voltageBetween } from './plan.ts';
import type { Plan } from './plan.ts';

/** First stage: what does not shock [V]; below the border of class A by a margin that any meter sees. */
const FIRST_STAGE = 50;
/** The capacitors fill in about so long: slow enough to watch, short enough to wait [s]; our choice. */
const FILL_TIME = 10;
/** The limit is at least so many times what flows at the end. */
const ABOVE_END = 3;
/** Most that the source may give [W]; our choice: what is wrong gets warm and does not burn at once. */
const MOST_POWER = 50;
/** A clip on a stud or pin [ohm]; common practice, no source. */
const CLIP = 0.01;

export interface BenchSource {
  readonly part: CarPart;
  readonly role: BenchSourceRole;
  /** points of the car that its clips hold */
  readonly positive: string; readonly negative: string;
  /** what its clips lay across */
  readonly clips: NonNullable<State['bridges']>;
  /** voltages that it is set to, one after the other [V]; the last is the highest */
  readonly stages: readonly number[];
  /** its limit [A] */
  readonly current: number;
  /** what flows at the last stage when the capacitors are full [A] */
  readonly endCurrent: number;
  /** capacitors that it fills, its own left out */
  readonly links: ReturnType<typeof linksOf>;
  /** those and its own [F] */
  readonly capacitance: number;
}

/** Clipped on and set, on top of a state. */
export function fedBy({ part, role, clips }: Pick<BenchSource, 'part' | 'role' | 'clips'>, state: State, voltage: number, current: number): State {
  return { ...state, set: { ...state.set, [part.name]: { [role.voltageSetting]: voltage, [role.currentSetting]: current } }, bridges: clips };
}

/** @returns undefined when the car has no point to clip it to, or nothing may be put there */
export function benchSourceOf(plan: Plan, part: CarPart, rest: State): BenchSource | undefined {
  const { car, ask, packVoltage } = plan;
  const role = part.roles.benchSource;
  const [largest] = linksOf(car);
  const positive = role?.clipPositive ?? largest?.positive, negative = role?.clipNegative ?? largest?.negative;
  if (!role || positive === undefined || negative === undefined || positive === negative) return undefined;
  const clips = [{ a: part.names.of(role.positive), b: positive, resistance: CLIP }, { a: part.names.of(role.negative), b: negative, resistance: CLIP }];
  const some = { part, role, clips };
  const links = linksOf(car).filter((link) => voltageBetween(ask, fedBy(some, rest, 1, role.maximumCurrent), link.positive, link.negative) > 0.5);
  const most = Math.min(role.maximumVoltage, packVoltage, ...links.map((link) => link.part.roles.dcLink!.maximumVoltage ?? Infinity));
  const top = most >= 100 ? 5 * Math.floor(most / 5) : Math.floor(most);
  if (top < 1) return undefined;
  const stages = top > CLASS_A_HIGHEST ? [FIRST_STAGE, top] : [top];
  const capacitance = role.outputCapacitance + links.reduce((sum, link) => sum + link.capacitance, 0);
  const endCurrent = currentFrom(ask, part, role, fedBy(some, rest, top, role.maximumCurrent)) ?? 0;
  const allowed = Math.min(role.maximumCurrent, MOST_POWER / top, (role.maximumPower ?? Infinity) / top);
  const current = Math.min(oneTwoFive(Math.max((capacitance * top) / FILL_TIME, ABOVE_END * endCurrent), 'up'), oneTwoFive(allowed, 'down'));
  return { part, role, positive, negative, clips, stages, current, endCurrent, links, capacitance };
}

/** What it gives in a state [A]; undefined: the state has no solution. */
export function currentFrom(ask: Network, { names }: CarPart, { element }: BenchSourceRole, state: State): number | undefined {
  const solved = ask.solve(state);
  return solved.outcome === 'solved' ? solved.currentOf(names.of(element)) : undefined;
}

/** 1, 2, 5, 10, …: settings that a knob finds again. @param value > 0 */
export function oneTwoFive(value: number, rounding: 'up' | 'down'): number {
  const decade = 10 ** Math.floor(Math.log10(value));
  const steps = [1, 2, 5, 10].map((step) => step * decade);
  return (rounding === 'up' ? steps.find((step) => step >= value * (1 - 1e-9)) : [...steps].reverse().find((step) => step <= value * (1 + 1e-9)))!;
}

/** A bench source of the file whose values are not all there. */
export const incompleteSources = (car: Car): readonly CarPart[] => [...car.parts.values()].filter(({ kind, roles, missing }) => kind.standsBeside === true && roles.benchSource === undefined && missing.length > 0);
