/**
 * Every measurement and look that the build offers. What each costs and what to mind depends on how the car stands: `standing.ts`.
 */
import type { Car, CarPart } from '../car/car.ts';
import { CLASS_A_HIGHEST } from '../physics/voltage-class.ts';
import type { AskedState } from './asked-state.ts';
import { clampable } from './clamp.ts';
import { NOTHING_WRONG } from './hypothesis.ts';
import { deadPairs } from './dead-points.ts';
import { capital } from './fault-words.ts';
import type { Look } from './observation.ts';
import type { OfferedStates } from './offered-states.ts';
import type { Predictions } from './predict.ts';
import { gloveWords } from './standing.ts';
import type { AsItStands, Bare } from './standing.ts';
import { questionOf } from './things.ts';

export interface OfferedTest extends Bare {
  readonly look: Look;
  /** what to do, as a phrase: `volts from A to B` */
  readonly words: string;
}

export interface CandidateTest extends OfferedTest, AsItStands {}

const MINUTES = { ask: 0.5, volts: 2, clamp: 3, ohms: 4, insideBox: 4, highVolts: 12, deadHigh: 12 };

/** @param floats  nothing ties this point down in the car as it should be: what a meter shows there tells little, and it is not offered */
export function offeredTests(car: Car, states: OfferedStates, predictionsIn: (asked: AskedState) => Predictions, packVoltage: number, floats: (point: string) => boolean): readonly OfferedTest[] {
  const asked = predictionsIn(states.asked);
  const ends = new Set([...car.runs.values()].flatMap(({ from, to }) => [from, to]));
  const tests: OfferedTest[] = [...looks(car, asked, states.asked)];
  const voltage = (state: AskedState, a: string, b: string): void => { if (floats(a) || (b !== 'chassis' && floats(b))) return; tests.push(voltageTest(car, state, asked, packVoltage, a, b)); };
  const low = [...car.parts.values()].filter(({ missing }) => missing.length === 0).flatMap((part) => pointsOf(part, ends, asked).map((point) => ({ part, point })));
  const live = [states.asked, states.disconnected, states.isJointLast ? states.packOpen : undefined].filter((state) => state !== undefined);
  for (const state of live) {
    for (const { point } of low) voltage(state, point, 'chassis');
    for (const part of car.parts.values()) for (const [a, b] of [...feedsOf(part), ...sourcesOf(part)]) if (!asked.isHigh(a) && !asked.isHigh(b)) voltage(state, a, b);
  }
  for (const state of live) tests.push(...clampTests(car, state, predictionsIn(state), packVoltage));
  for (const [a, b] of highPairs(car, asked)) voltage(states.asked, a, b);
  for (const [a, b] of ohmPairs(car, asked, ends)) tests.push(ohmTest(states.dead, a, b, packVoltage, false));
  if (states.disconnected) for (const [a, b] of deadPairs(car, states.dead, asked.isHigh)) tests.push(ohmTest(states.dead, a, b, packVoltage, true));
  return tests;
}

/** Points of a part on the 12 V side that a probe reaches. */
function pointsOf(part: CarPart, ends: ReadonlySet<string>, { placeOf, isHigh }: Predictions): readonly string[] {
  const ports = part.ports.filter(({ carries }) => carries !== 'high_voltage').map(({ name }) => part.names.of(name)).filter((point) => ends.has(point));
  return ports.filter((point) => placeOf.has(point) && !isHigh(point));
}

/** What is fed: across a coil or a consumer. Across an open contact or a blown fuse, or a lamp that is a diode, the meter itself decides what it shows. */
function feedsOf({ names, roles, missing }: CarPart): readonly (readonly [string, string])[] {
  if (missing.length > 0 || roles.indicator) return [];
  const at = (a: string, b: string): readonly [string, string] => [names.of(a), names.of(b)];
  return [...(roles.switching ?? []).flatMap(({ coil }) => (coil ? [at(coil.positive, coil.negative)] : [])), ...(roles.consumers ?? []).map(({ positive, negative }) => at(positive, negative))];
}

/** For the ohmmeter: contacts and fuses as well. */
function pairsOf(part: CarPart): readonly (readonly [string, string])[] {
  const { names, roles, missing } = part;
  if (missing.length > 0) return [];
  const at = (a: string, b: string): readonly [string, string] => [names.of(a), names.of(b)];
  return [
    ...feedsOf(part),
    ...(roles.switching ?? []).flatMap(({ by, a, b }) => (by === 'electronics' ? [] : [at(a, b)])),
    ...(roles.protection ?? []).map(({ a, b }) => at(a, b)),
  ];
}

/** Across what feeds the 12 V side: for the voltmeter only. */
function sourcesOf({ names, roles }: CarPart): readonly (readonly [string, string])[] {
  return [roles.lowVoltageBattery, roles.lowVoltageSupply].flatMap((role) => (role ? [[names.of(role.positive), names.of(role.negative)] as const] : []));
}

/** Between the poles of whatever has both, and the poles of capacitors against the chassis. What lies across an open contact is seen through insulation only: not offered. */
function highPairs(car: Car, { isHigh, placeOf }: Predictions): readonly (readonly [string, string])[] {

    const found: (readonly [string, string])[] = [];
  for (const { ports, names, roles } of car.parts.values()) {
    const high = ports.filter(({ carries }) => carries === 'high_voltage').map((port) => ({ port, node: names.of(port.name) })).filter(({ node }) => placeOf.has(node) && isHigh(node));
    const positive = high.find(({ port }) => port.pole === 'positive'), minus = high.find(({ port }) => port.pole === 'negative');
    if (positive && minus) found.push([positive.node, minus.node]);
    if (roles.dcLink) for (const { node } of high) found.push([node, 'chassis']);
  }
  return found;
}

/** Runs from end to end, across what conducts at rest, and points to the body. */
function ohmPairs(car: Car, { isHigh }: Predictions, ends: ReadonlySet<string>): readonly (readonly [string, string])[] {
  const runs = [...car.runs.values()].filter(({ from, to, carries }) => carries !== 'high_voltage' && !isHigh(from) && !isHigh(to)).map(({ from, to }) => [from, to] as const);
  const across = [...car.parts.values()].flatMap(pairsOf).filter(([a, b]) => ends.has(a) && ends.has(b) && !isHigh(a) && !isHigh(b));
  const bus = [...car.parts.values()].filter(({ ports }) => ports.some(({ name }) => name === 'can_h')).map(({ names }) => [names.of('can_h'), names.of('can_l')] as const);
  const body = [...car.parts.values()].flatMap(({ names, roles }) => [...(roles.protection ?? []).map(({ b }) => names.of(b)), ...(roles.consumers ?? []).map(({ positive }) => names.of(positive))]).filter((point) => ends.has(point) && !isHigh(point)).map((point) => [point, 'chassis'] as const);
  const keys = new Set<string>();
  return [...runs, ...across, ...bus, ...body].filter(([a, b]) => { const key = `${a} ${b}`; if (a === b || keys.has(key)) return false; keys.add(key); return true; });
}

function looks(car: Car, predictions: Predictions, state: AskedState): readonly OfferedTest[] {
  const { watched, way } = predictions;
  const plain = (look: Look, words: string): OfferedTest => ({ state, look, words, at: 'seat', minutes: MINUTES.ask, precautions: [] });
  return [
    ...watched.things.flatMap((thing) => { const question = questionOf(car, thing); return question === undefined ? [] : [plain({ is: 'thing', what: thing.what, of: thing.of }, `ask for it and look or listen: ${question}?`)]; }),
    ...way.steps.map(({ to }) => plain({ is: 'reached', mode: to }, `does the car reach mode ${to}${meaningOf(car, to)}?`)),
  ];
}

function meaningOf(car: Car, mode: string): string {
  const meaning = car.build.modes.get(mode)?.meaning;
  return meaning === undefined || meaning === '' ? '' : ` (${meaning})`;
}

function voltageTest(car: Car, state: AskedState, { isHigh }: Predictions, packVoltage: number, a: string, b: string): OfferedTest {
  const look: Look = { is: 'voltage', a, b };
  const hasPack = packVoltage > CLASS_A_HIGHEST;
  const words = `volts from ${a} to ${b === 'chassis' ? 'clean metal of the body' : b}`;
  if (isHigh(a) || isHigh(b)) return { state, look, words, at: 'high', minutes: MINUTES.highVolts, precautions: hasPack ? highPrecautions(packVoltage) : ['A short here welds and burns: insulated tools, eyes protected.'] };
  const isInBox = [a, b].some((point) => car.parts.get(point.split('.')[0]!)?.kind.family === 'high_voltage');
  return { state, look, words, at: isInBox ? 'box' : 'low', minutes: MINUTES.volts + (isInBox ? MINUTES.insideBox : 0), precautions: isInBox && hasPack ? ['This plug sits beside high voltage: read it at the 12 V plug, not inside the box.'] : [] };
}

/** Runs that carry something with nothing wrong: where it is missing, or is more, a clamp shows it. [A] */
const WORTH_A_CLAMP = 1;

function clampTests(car: Car, state: AskedState, predictions: Predictions, packVoltage: number): readonly OfferedTest[] {
  const healthy = predictions.of(NOTHING_WRONG).sight;
  const hasPack = packVoltage > CLASS_A_HIGHEST;
  return clampable(car).flatMap((name): OfferedTest[] => {
    const run = car.runs.get(name)!;
    const isHigh = predictions.isHigh(run.from) || predictions.isHigh(run.to);
    const amps = healthy?.amps[predictions.watched.runs.indexOf(name)] ?? 0;
    if (state.without.includes(name) || !(Math.abs(amps) >= WORTH_A_CLAMP)) return [];
    return [{
      state, look: { is: 'current', of: name }, words: `current in ${name} (${run.from} to ${run.to}), clamp for direct current around this one alone`, at: isHigh ? 'cable' : 'low', minutes: MINUTES.clamp,
      precautions: [
        'Set the clamp to zero beside the wire first.',
        ...(isHigh && hasPack ? ['High-voltage cable: round its whole insulation only, clamp of category III for this voltage, every cover stays on, nothing is unplugged.'] : []),
      ],
    }];
  });
}

function highPrecautions(packVoltage: number): readonly string[] {
  return [
    `${capital(gloveWords(packVoltage))}, face shield, one hand; a second person at the disconnect.`,
    'Meter and leads of category III for this voltage, tried on a known source before and after.',
  ];
}

/** @param isHigh  at what carries high voltage when the car is on */
function ohmTest(state: AskedState, a: string, b: string, packVoltage: number, isHigh: boolean): OfferedTest {
  return {
    state, look: { is: 'resistance', a, b }, words: `ohms from ${a} to ${b === 'chassis' ? 'clean metal of the body' : b}`, at: isHigh ? 'high' : 'low', minutes: isHigh ? MINUTES.deadHigh : MINUTES.ohms,
    precautions: isHigh && packVoltage > CLASS_A_HIGHEST ? [`${highPrecautions(packVoltage)[0]!} So until both poles have read 0 V against each other and against the body; a hard leak shows on this meter, a soft one on an insulation tester alone.`] : [],
  };
}
