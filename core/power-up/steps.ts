/**
 * The whole first power-up, from the build alone: what a car does not have makes no step; what it needs and the file lacks makes a step
 * that says so. Readings with bands are solves of the one network, in the state that the step is in.
 */
import { askNetwork, answerStore } from '../car/ask-network.ts';
import type { Network } from '../car/ask.ts';
import type { Car } from '../car/car.ts';
import { ownerOf } from '../car/metal-graph.ts';
import { remembered } from '../car/remembered.ts';
import type { PreparedCar } from '../car/realise.ts';
import { wireCar } from '../car/wire-car.ts';
import { driveRules } from '../topics/modes/drive-rules.ts';
import { closedContacts } from '../topics/modes/mode-graph.ts';
import { asRead, withDrift } from './as-read.ts';
import { benchSourceSteps } from './bench-source-steps.ts';
import { bandOf, besideNoEffect, spreads, USUAL_DRAWS } from './bands.ts';
import type { Draws } from './bands.ts';
import { coilSteps } from './coil-steps.ts';
import { insulationSteps } from './insulation-steps.ts';
import { lowVoltageSteps } from './low-voltage-steps.ts';
import { elementsAt, nearest, pointsOf, unknownAround } from './near.ts';
import type { Near } from './near.ts';
import { isolationSteps, joinSteps, limitedSourceSteps } from './pack-steps.ts';
import { pedalSteps } from './pedal-steps.ts';
import { peopleFor } from './people.ts';
import type { Crew } from './people.ts';
import { hasLimitedSource, planOf } from './plan.ts';
import type { Plan } from './plan.ts';
import { prepareSteps } from './prepare.ts';
import { proofSteps } from './proof-steps.ts';
import { openVoltage, readMeasure } from './read-measure.ts';
import { prechargeSteps } from './precharge-steps.ts';
import { driveSteps, readySteps } from './running-steps.ts';
import { shutDownSteps } from './shut-down-steps.ts';
import { phases, quantityOf } from './step.ts';
import { standsWords } from './stands.ts';
import type { Limit, Phase, PowerUpStep, StepDraft } from './step.ts';
import { CLASS_A_HIGHEST } from '../physics/voltage-class.ts';

export interface PowerUp {
  readonly steps: readonly PowerUpStep[];
  readonly draws: Draws;
}

/** Whether a reading passes a limit. */
export function isOutside(value: number, { sense, value: limit, to }: Limit): boolean {
  if (sense === 'at_least') return value < limit;
  return value > (sense === 'at_most' ? limit : (to ?? limit)) || (sense === 'between' && value < limit);
}

/** Widest band of an ohmmeter reading that still tells something, high over low. */
const VAGUE = 100;
/** How far around a reading the file is searched for missing values, in elements. */
const AROUND = 60;
/** Above this an element is no wire, contact or fuse [ohm]. */
const OHMS_OF_ELECTRONICS = 10;
/** Share of a reading below which the meter's own resistance does not matter for its spread. */
const UNLOADED = 1e-3;

/**
 * @param prepared  for the draws; undefined leaves the bands to the meters alone
 * @returns the steps in order; none for a car without parts. Never throws on a strange car.
 */
export function powerUp(given: Car, network: Network, prepared: PreparedCar | undefined, draws: Draws = USUAL_DRAWS): PowerUp {
  const { car, ask } = asRead(given, network);
  const plan = planOf(car, ask);
  const drafts = draftSteps(plan);
  const wires = elementsAt(wireCar(car, {}).network.elements);
  const crew = crewOf(plan);
  const read = drafts.map(({ state = {}, measure }) => (measure === undefined ? undefined : readMeasure(car, ask, state, measure)));
  const known = drafts.map(({ measure }) => {
    if (measure === undefined) return { own: [], around: [] };
    const points = pointsOf(measure, car);
    return unknownAround(car, points, nearest(wires, points, AROUND));
  });
  const asked = drafts.flatMap(({ state = {}, bandState, measure, instrument, noEffect }, index) => {
    const value = read[index];
    if (measure === undefined || value === undefined || known[index]!.own.length > 0) return [];
    const open = measure.is === 'voltage' ? openVoltage(ask, state, measure.a, measure.b) : undefined;
    const isUnloaded = open !== undefined && Math.abs(open - value) < UNLOADED * Math.max(1, Math.abs(value));
    // what is dead is dead in every draw
    return isUnloaded && Math.abs(value) < (instrument?.fixed ?? 0) ? [] : [{ index, state: bandState ?? state, measure, isUnloaded, ...(noEffect === undefined || instrument === undefined ? {} : { noEffect: { reading: noEffect, instrument } }) }];
  });
  const found = prepared && draws.count >= 2 ? spreads(prepared, asked, draws) : [];
  const spread = new Map(asked.map(({ index }, place) => [index, found[place]]));
  const steps = drafts.map((draft, index): PowerUpStep => {
    const { measure, instrument, state, bandState: _, noEffect: __, ...rest } = draft;
    const [value, around] = [read[index], known[index]!];
    const spreadBand = measure === undefined || instrument === undefined || value === undefined ? undefined : bandOf(value, spread.get(index), measure.is === 'voltage' ? withDrift(instrument, value, plan.packVoltage, car !== given) : instrument, measure.is !== 'voltage' && measure.is !== 'current' && measure.is !== 'difference');
    const { noEffect } = draft;
    // what is read whether or not the thing works is no pass
    const band = spreadBand === undefined || noEffect === undefined ? spreadBand : besideNoEffect(spreadBand, noEffect, instrument!);
    const provesNothing = spreadBand !== undefined && band === undefined;
    // electronics seen through an ohmmeter: known only by their order of magnitude
    const isVague = measure?.is === 'resistance' && band !== undefined && band.high > VAGUE * Math.max(band.low, instrument?.fixed ?? 0, 1e-3);
    const isPredicted = !isVague && !provesNothing && measure !== undefined && instrument !== undefined && value !== undefined && around.own.length === 0;
    return {
      ...rest, state, measure, instrument, expect: draft.expect ?? '', ...standing(plan, draft), limit: draft.limit, cautions: draft.cautions ?? [], lost: draft.lost ?? [], ...(draft.suspects === undefined ? {} : { suspects: draft.suspects }), ...(draft.noEffect === undefined ? {} : { noEffect: draft.noEffect }),
      quantity: measure && quantityOf(measure),
      predicted: isPredicted ? band : undefined,
      willFail: isPredicted && draft.limit !== undefined && isOutside(value, draft.limit),
      hazard: draft.hazard === 'class_b' && plan.packVoltage <= CLASS_A_HIGHEST && !draft.about.some((name) => car.parts.get(name)?.roles.mains) ? 'class_a' : draft.hazard,
      notPredicted: measure === undefined || isPredicted ? undefined : provesNothing ? 'with the numbers of the file the meter would show the same if it did not work' : isVague ? `the file knows it only by its order of magnitude${betweenWords(car, nearest(wires, pointsOf(measure, car), AROUND))}` : around.own.length > 0 ? 'values are missing' : measure.is === 'resistance' ? 'nothing joins the two points' : measure.is === 'time' ? 'with these values it never gets there' : 'the network has no answer in this state',
      unknown: [...new Set([...(draft.unknown ?? []), ...around.own, ...around.around])],
      people: peopleFor(draft.hazard, draft.phase, crew),
    };
  });
  return { steps, draws };
}

function standing(plan: Plan, { state, phase, hazard }: StepDraft): Pick<PowerUpStep, 'stands' | 'isCalm'> {
  const stands = standsWords(plan, state, phase);
  const isCalm = state !== undefined && hazard !== 'moving' && phase !== 'limited_source' && !(state.mode !== undefined && hasLimitedSource(plan.car, plan.ask, state.mode)) && closedContacts(plan.car, plan.ask, state)?.length === 0;
  return { ...(stands === undefined ? {} : { stands }), ...(isCalm ? { isCalm } : {}) };
}

/** Parts on which a vague resistance rests: the nearest with more than a few ohms in them. */
function betweenWords(car: Car, near: readonly Near[]): string {
  const parts = [...new Set(near.flatMap(({ element }) => ('resistance' in element && element.resistance > OHMS_OF_ELECTRONICS ? [ownerOf(element.id)] : [])))].filter((name) => car.parts.has(name)).slice(0, 4);
  return parts.length === 0 ? '' : `; it rests on ${parts.join(', ')}`;
}

/** The same, kept with the car: the sheet and the guided power-up ask for one procedure. */
export const powerUpOnce = remembered(function powerUpOnce(car: Car, ask: Network, prepared: PreparedCar | undefined): PowerUp { return powerUp(car, ask, prepared); });

/** The same for somebody who has only the car of a build: with a network of its own. */
export function powerUpOf(car: Car, prepared: PreparedCar | undefined, draws: Draws = USUAL_DRAWS): PowerUp {
  return powerUp(car, askNetwork(car, answerStore()), prepared, draws);
}

function draftSteps(plan: Plan): readonly StepDraft[] {
  if (plan.car.parts.size === 0) return [];
  const all = [
    ...prepareSteps(plan), ...insulationSteps(plan), ...lowVoltageSteps(plan), ...pedalSteps(plan), ...coilSteps(plan), ...benchSourceSteps(plan), ...limitedSourceSteps(plan),
    ...joinSteps(plan), ...isolationSteps(plan), ...prechargeSteps(plan), ...readySteps(plan), ...driveSteps(plan), ...shutDownSteps(plan), ...proofSteps(plan),
  ];
  const order = Object.keys(phases) as Phase[];
  return order.flatMap((phase) => all.filter((step) => step.phase === phase));
}

function crewOf({ car, ask, packVoltage, disconnects }: Plan): Crew {
  return { packVoltage, disconnects: disconnects.map(({ name }) => name), stops: driveRules(car, ask, 'all').results.stops.map(({ part }) => part) };
}
