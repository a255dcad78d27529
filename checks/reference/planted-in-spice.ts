/**
 * A car with a planted fault whose every reading a SPICE engine gives, played to the end of a conversation: for the checks.
 *
 * Contacts stand in its netlist as our solver leaves them, and which fuse has blown follows from its currents as ours gives them: every voltage,
 * every current of a clamp and every ohm is the engine's, with the noise of a meter on top.
 */
import { answerTest } from '../../core/faults/answer-test.ts';
import type { CandidateTest } from '../../core/faults/candidate-tests.ts';
import { faultFinder } from '../../core/faults/fault-finder.ts';
import type { FaultFinder } from '../../core/faults/fault-finder.ts';
import { faultyCar } from '../../core/faults/faulty-car.ts';
import type { FaultyCar } from '../../core/faults/faulty-car.ts';
import type { Hypothesis } from '../../core/faults/hypothesis.ts';
import type { Observation } from '../../core/faults/observation.ts';
import { normalNoise } from '../../core/faults/play.ts';
import type { Element, Network } from '../../core/solve/element.ts';
import { seededRandom } from '../../core/solve/random.ts';
import { solveAtRest } from '../../core/solve/solve-at-rest.ts';
import { spiceNetlist } from '../../core/solve/spice-netlist.ts';
import { carFromText } from '../fixtures/car-from-text.ts';
import { runSpice } from './against-spice.ts';

const MOST = 40;
const METER = 10e6;

/** Volts between two nodes of a network, by the engine; undefined where it finds no operating point. */
async function volts(network: Network, a: string, b: string): Promise<number | undefined> {
  const ours = solveAtRest(network);
  const { text, nodeNames } = spiceNetlist(network, { kind: 'op' }, ours.outcome === 'solved' ? { near: ours.voltageOf } : {});
  const found = await runSpice(text).catch(() => undefined);
  if (!found) return undefined;
  const at = (name: string): number => (nodeNames.get(name) === '0' ? 0 : (found.get(`v(${nodeNames.get(name)!})`)?.at(-1) ?? 0));
  return at(a) - at(b);
}

async function answer(finder: FaultFinder, faulty: FaultyCar, test: Pick<CandidateTest, 'state' | 'look'>, noise: () => number): Promise<Observation | undefined> {
  const { state, look } = test;
  const predictions = finder.forecasts.predictionsIn(state);
  if (look.is === 'voltage') {
    const gone = faulty.goes(predictions.way);
    faulty.ask.solve(gone.state);
    const network = faulty.networkIn(gone.state);
    const meter: Element = { type: 'resistor', id: 'voltmeter', a: look.a, b: look.b, resistance: METER };
    const read = await volts({ nodes: network.nodes, elements: [...network.elements, meter] }, look.a, look.b);
    return read === undefined ? undefined : { state, look, value: read * (1 + 0.0025 * noise()) + 0.01 * noise() };
  }
  if (look.is === 'resistance') {
    const network = faulty.networkIn({ without: state.without });
    const meter: Element = { type: 'source', id: 'ohmmeter', a: look.a, b: look.b, voltage: 0.2, resistance: 1000 };
    const read = await volts({ nodes: network.nodes, elements: [...network.elements, meter] }, look.a, look.b);
    if (read === undefined) return undefined;
    const ohms = read >= 0.1999 ? Infinity : (1000 * read) / (0.2 - read);
    return { state, look, value: Math.max(0, ohms * (1 + 0.005 * noise()) + 0.1 * Math.abs(noise())) };
  }
  if (look.is === 'current') {
    const gone = faulty.goes(predictions.way);
    faulty.ask.solve(gone.state);
    const network = faulty.networkIn(gone.state);
    const run = network.elements.find(({ id }) => id === look.of);
    if (run?.type !== 'resistor') return { state, look, value: Math.abs(0.03 * noise()) };
    const across = await volts(network, run.a, run.b);
    return across === undefined ? undefined : { state, look, value: Math.abs((Math.abs(across) / run.resistance) * (1 + 0.005 * noise()) + 0.03 * noise()) };
  }
  return answerTest(predictions, faulty, state, look, noise);
}

/** The first reading or look in which the fault shows, away from exposed high voltage; undefined: it shows in none. */
function showsIn(finder: FaultFinder, fault: Hypothesis): CandidateTest | undefined {
  const [whole] = finder.hypotheses;
  return finder.tests.find(({ state, look, danger }) => {
    if (danger === 'high') return false;
    const forecast = finder.forecasts.forecast(state, look, [whole!, fault]);
    if (!forecast) return false;
    if (forecast.is === 'yes_no') return Math.abs(forecast.chances[0]! - forecast.chances[1]!) > 0.5;
    return Math.abs(forecast.means[0]! - forecast.means[1]!) > 8 * Math.max(forecast.spread(forecast.means[0]!), forecast.spread(forecast.means[1]!));
  });
}

async function isFound(finder: FaultFinder, faulty: FaultyCar, fault: Hypothesis, first: CandidateTest, noise: () => number): Promise<{ readonly why: string; readonly readings: number } | undefined> {
  const observations: Observation[] = [];
  let test: Pick<CandidateTest, 'state' | 'look'> | undefined = first;
  for (let count = 0; count < MOST && test; count++) {
    const seen = await answer(finder, faulty, test, noise);
    if (!seen) return undefined;
    observations.push(seen);
    const ranking = finder.rank(observations);
    const verdict = finder.verdict(ranking);
    if (verdict.isSettled) return { why: verdict.group.some(({ cause }) => cause === fault.cause) ? '' : `${fault.id}: named ${verdict.group.slice(0, 3).map(({ cause }) => cause).join(', ')}`, readings: count + 1 };
    test = finder.next(ranking)?.test;
  }
  return { why: `${fault.id}: not settled`, readings: MOST };
}

export interface PlantedFaults { readonly count: number; readonly missed: readonly string[]; /** faults without an answer of the engine */ readonly silent: number; readonly readings: number }

/** Plants a seeded sample of the single faults that show away from exposed high voltage. @param most  faults at the most */
export async function plantInSpice(text: string, mode: string, most: number, seed: number): Promise<PlantedFaults> {
  const { car, ask } = carFromText(text);
  const finder = faultFinder(car, ask, mode);
  const random = seededRandom(seed);
  const noise = normalNoise(seededRandom(seed + 1));
  const missed: string[] = [];
  let count = 0, silent = 0, readings = 0;
  for (let tries = 0; tries < 10 * most && count < most; tries++) {
    const fault = finder.hypotheses[1 + Math.floor(random() * (finder.hypotheses.length - 2))]!;
    const first = showsIn(finder, fault);
    const faulty = faultyCar(car, fault);
    if (!first || faulty.ask.solve(finder.forecasts.predictionsIn(finder.states.asked).way.end).outcome !== 'solved') continue;
    const found = await isFound(finder, faulty, fault, first, noise);
    if (found === undefined) { silent++; continue; }
    count++;
    readings += found.readings;
    if (found.why !== '') missed.push(found.why);
  }
  return { count, missed, silent, readings };
}
