/** The chosen state, solved once: what an electrical sheet shows, or why it cannot. */
import type { Analysis } from '../../core/analyse.ts';
import { whyFailed } from '../../core/car/ask-network.ts';
import { readState } from '../../core/car/read-state.ts';
import type { StateWords } from '../../core/car/read-state.ts';
import type { RestSolved } from '../../core/solve/rest-result.ts';

export interface StateNow {
  /** `drive`, `everything at rest`, `drive, INV.draw=20 kW, without W1` */
  readonly title: string;
  /** undefined when the state could not be read or solved: then nothing of it is shown */
  readonly solved: RestSolved | undefined;
  /** what is wrong with the words of the state, or with the solve; a sentence each */
  readonly wrong: readonly string[];
}

export function stateNow({ car, ask }: Analysis, words: StateWords): StateNow {
  const title = titleOf(words);
  const reading = readState(words, car);
  if (!reading.ok) return { title, solved: undefined, wrong: [...reading.problems, 'No voltages and currents are shown until the state is put right.'] };
  const result = ask.solve(reading.state);
  if (result.outcome === 'solved') return { title, solved: result, wrong: [] };
  return { title, solved: undefined, wrong: [`This state could not be computed: ${whyFailed(result)}.`, 'No voltages and currents are shown. Change the state, or put right what stands in the findings.'] };
}

function titleOf({ mode, set = [], without = [], failed = [], charge, cells }: StateWords): string {
  return [
    mode ?? 'everything at rest', ...set, ...(without.length > 0 ? [`without ${without.join(', ')}`] : []), ...failed.map((failure) => `failed ${failure}`),
    ...(charge === undefined ? [] : [`charge ${charge}`]), ...(cells === undefined ? [] : [`cells at ${cells}`]),
  ].join(', ');
}

/** Voltage from b to a; undefined when nothing ties the two to each other. */
export function voltageBetween(solved: RestSolved | undefined, a: string, b: string): number | undefined {
  return solved !== undefined && solved.islandOf(a) === solved.islandOf(b) ? solved.voltageOf(a) - solved.voltageOf(b) : undefined;
}

/** Less is rounding and what leaks through insulation and bleed resistors of a meter's size [A]. */
const NO_CURRENT = 1e-5;
/** Less is rounding [V]. */
const NO_VOLTAGE = 1e-4;

export const quiet = (current: number | undefined): number | undefined => (current !== undefined && Math.abs(current) < NO_CURRENT ? 0 : current);
export const still = (voltage: number | undefined): number | undefined => (voltage !== undefined && Math.abs(voltage) < NO_VOLTAGE ? 0 : voltage);
