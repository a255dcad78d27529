/** What a builder with a meter would find on a car with a fault in it: for the bench and the checks. */
import type { RestResult } from '../solve/rest-result.ts';
import { solveAtRest } from '../solve/solve-at-rest.ts';
import type { Network } from '../solve/element.ts';
import { stateOf } from './asked-state.ts';
import type { AskedState, Way } from './asked-state.ts';
import type { FaultyCar } from './faulty-car.ts';
import type { Look, Observation } from './observation.ts';
import type { Thing } from './things.ts';

/** Ohmmeter: source and inner resistance, low enough to open no diode. */
const OHMS = { id: 'ohmmeter', voltage: 0.2, resistance: 1000 };
/** Readings above this are written down as open [ohm]. */
const OPEN = 1e6;

/** Of the predictions of a state only the way to it and its things are used. @param noise  standard normal numbers @returns undefined: the network has no answer */
export function answerTest({ way, watched: { things } }: { readonly way: Way; readonly watched: { readonly things: readonly Thing[] } }, faulty: FaultyCar, state: AskedState, look: Look, noise: () => number, solve: (network: Network) => RestResult = solveAtRest): Observation | undefined {
  if (look.is === 'resistance') {
    const network = faulty.networkIn(stateOf({ ...state, mode: undefined }));
    const result = solve({ nodes: network.nodes, elements: [...network.elements, { type: 'source', a: look.a, b: look.b, ...OHMS }] });
    if (result.outcome !== 'solved') return undefined;
    const through = -result.currentOf(OHMS.id);
    const ohms = through > 1e-12 ? OHMS.voltage / through - OHMS.resistance : Infinity;
    return { state, look, value: ohms > OPEN ? Infinity : Math.max(0, ohms * (1 + 0.005 * noise()) + 0.1 * Math.abs(noise())) };
  }
  const gone = faulty.goes(way);
  if (look.is === 'voltage') {
    const read = faulty.ask.meter(gone.state, look.a, look.b);
    if (read.outcome !== 'reads') return undefined;
    return { state, look, value: read.voltage * (1 + 0.0025 * noise()) + 0.01 * noise() };
  }
  const result = faulty.ask.solve(gone.state);
  if (result.outcome !== 'solved') return undefined;
  switch (look.is) {
    case 'current': return { state, look, value: Math.abs(Math.abs(result.currentOf(look.of)) * (1 + 0.005 * noise()) + 0.03 * noise()) };
    case 'thing': {
      const thing = things.find(({ what, of }) => what === look.what && of === look.of);
      return thing && { state, look, value: does(thing, result) };
    }
    case 'reached': {
      const step = way.steps.findIndex(({ to }) => to === look.mode);
      return { state, look, value: gone.reached > step || (gone.fellBack && gone.reached === step) };
    }
    case 'falls_back': return { state, look, value: gone.fellBack };
    case 'blown': return { state, look, value: look.of === undefined ? faulty.blown().length > 0 : faulty.blown().some((element) => element.startsWith(`${look.of!}.`)) };
    case 'isolation_warning':
    case 'drains': return undefined;
  }
}

function does({ what, elements, least }: Thing, result: RestResult & { readonly outcome: 'solved' }): boolean {
  return elements.some((element) => (what === 'closes' ? result.stateOf(element) === 'closed' : Math.abs(result.currentOf(element)) >= least));
}
