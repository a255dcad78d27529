/**
 * The operating points the low-voltage side is judged at: the car at rest, and every mode.
 */
import type { Network } from '../../car/ask.ts';
import type { Car } from '../../car/car.ts';
import { whyFailed } from '../../car/ask-network.ts';
import type { RestSolved } from '../../solve/rest-result.ts';

/** How the state in which nothing is asked of anything is called in results. */
export const AT_REST = 'rest';

export interface ModePoint {
  /** name of the mode, or `rest` */
  readonly mode: string;
  readonly solved: RestSolved;
  /** how long the mode may last [s]; undefined: for good */
  readonly lasts: number | undefined;
  /** highest terminal voltage of a battery or DC-DC [V]; 0 without one */
  readonly bus: number;
}

export interface ModePoints {
  readonly points: readonly ModePoint[];
  /** the state at rest; undefined when it could not be solved */
  readonly rest: ModePoint | undefined;
  readonly failed: readonly { readonly mode: string; readonly why: string }[];
}

/** Positive and negative points of everything that feeds the low-voltage side. */
export interface SourceEnds { readonly part: string; readonly positive: string; readonly negative: string; readonly element: string; /** [A]; undefined: a battery */ readonly currentLimit: number | undefined }

export function sourceEnds(car: Car): SourceEnds[] {
  return [...car.parts.values()].flatMap(({ name, names, roles }): SourceEnds[] => {
    const of = (role: { positive: string; negative: string; element: string }, currentLimit: number | undefined): SourceEnds =>
      ({ part: name, positive: names.of(role.positive), negative: names.of(role.negative), element: names.of(role.element), currentLimit });
    return [...(roles.lowVoltageBattery ? [of(roles.lowVoltageBattery, undefined)] : []), ...(roles.lowVoltageSupply ? [of(roles.lowVoltageSupply, roles.lowVoltageSupply.currentLimit)] : [])];
  });
}

/** The state at rest and every mode, each solved once. */
export function modePoints(car: Car, ask: Network, sources: readonly SourceEnds[]): ModePoints {
  const points: ModePoint[] = [];
  const failed: { mode: string; why: string }[] = [];
  const states = [{ mode: AT_REST, state: {}, lasts: undefined as number | undefined }, ...[...car.modes.values()].map(({ name, lasts }) => ({ mode: name, state: { mode: name }, lasts }))];
  for (const { mode, state, lasts } of states) {
    const solved = ask.solve(state);
    if (solved.outcome !== 'solved') failed.push({ mode, why: whyFailed(solved) });
    else points.push({ mode, solved, lasts, bus: sources.reduce((most, { positive, negative }) => Math.max(most, voltageAcross(solved, positive, negative) ?? 0), 0) });
  }
  return { points, rest: points.find(({ mode }) => mode === AT_REST), failed };
}

/** Voltage between two points; undefined when nothing ties them to each other, so that no voltage is defined. */
export function voltageAcross(solved: RestSolved, a: string, b: string): number | undefined {
  return solved.islandOf(a) === solved.islandOf(b) ? solved.voltageOf(a) - solved.voltageOf(b) : undefined;
}
