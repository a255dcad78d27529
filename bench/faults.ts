/**
 * Fault finding: how long an answer takes, and how many readings it takes to find planted faults, against three ways of doing without it:
 * readings in random order, readings in the order of the power-up checklist, and halving the way from battery to load.
 *
 * Every strategy is judged by the same Bayes and the same rule to stop, so only the choice of the next reading differs. A fault counts when it shows
 * something from the seat in the mode asked for (a contact, lamp, motor or mode that is otherwise than on the whole car). Answers come
 * from whole solves of the faulty network with a meter's noise, not from the predictions. Singles and pairs are a seeded sample, so that the
 * run stays below five minutes; HALFSHAFT_FAULTS=all plants every single fault and 200 pairs, and tries the baselines on 60 of the singles: that
 * takes the better part of an hour. HALFSHAFT_DEMOS chooses among the demos.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { words } from '../catalogue/words.ts';
import { analyse } from '../core/analyse.ts';
import { metalOf } from '../core/car/metal-graph.ts';
import type { Car } from '../core/car/car.ts';
import type { CandidateTest } from '../core/faults/candidate-tests.ts';
import { faultFinder } from '../core/faults/fault-finder.ts';
import type { FaultFinder } from '../core/faults/fault-finder.ts';
import { faultyCar } from '../core/faults/faulty-car.ts';
import type { FaultyCar } from '../core/faults/faulty-car.ts';
import type { Hypothesis } from '../core/faults/hypothesis.ts';
import { lookKey } from '../core/faults/observation.ts';
import type { Observation } from '../core/faults/observation.ts';
import { pairOf } from '../core/faults/pair-hypotheses.ts';
import { normalNoise, play, symptomOf } from '../core/faults/play.ts';
import type { Played, Strategy } from '../core/faults/play.ts';
import { powerUp } from '../core/power-up/steps.ts';
import { fits } from '../core/solve/compile-network.ts';
import type { Network } from '../core/solve/element.ts';
import { NetworkSystem } from '../core/solve/network-system.ts';
import { seededRandom } from '../core/solve/random.ts';
import type { RestResult } from '../core/solve/rest-result.ts';
import { solveSystem, startingCoils } from '../core/solve/solve-at-rest.ts';
import { medianTime } from './measured.ts';
import type { Measured } from './measured.ts';

const demos = [['bakery-van', 'drive'], ['two-string-coupe', 'drive'], ['orchard-hauler', 'drive']] as const;
const ALL = process.env['HALFSHAFT_FAULTS'] === 'all';
const CHOSEN = process.env['HALFSHAFT_DEMOS']?.split(' ');
const SINGLES = ALL ? Infinity : 30;
const PAIRS = ALL ? 200 : 5;
/** faults that the slow baselines are tried on */
const COMPARED = ALL ? 60 : 8;
/** readings after which a strategy has failed */
const MOST = 40;

export async function run(root: string): Promise<Measured[]> {
  const measured: Measured[] = [];
  for (const [demo, wanted] of demos) {
    if (CHOSEN && !CHOSEN.includes(demo)) continue;
    const begun = performance.now();
    const solve = solverOfOneCar();
    const plant = (fault: Pick<Hypothesis, 'changes' | 'silent'>): FaultyCar => faultyCar(car, fault, solve);
    const { car, ask } = analyse(readFileSync(join(root, 'examples', demo, 'build.yaml'), 'utf8'), words, { only: [] });
    const mode = car.modes.has(wanted) ? wanted : [...car.modes.keys()].at(-1)!;
    const start = performance.now();
    const finder = faultFinder(car, ask, mode);
    finder.next(finder.rank([]));
    const prepared = performance.now() - start;
    const faults = finder.hypotheses.filter(({ sort }) => sort !== 'none' && sort !== 'unlisted');
    const random = seededRandom(7);
    const healthy = plant({ changes: [], silent: [] });
    const planted = (SINGLES >= faults.length ? faults : Array.from({ length: 3 * SINGLES }, () => faults[Math.floor(random() * faults.length)]!)).flatMap((fault) => {
      const symptom = symptomOf(finder, plant(fault), healthy);
      return symptom ? [{ fault, symptom }] : [];
    }).slice(0, SINGLES);
    const ours: Strategy = (ranking) => finder.next(ranking)?.test;
    const outcome = (strategy: Strategy, some: readonly Planted[]): readonly Outcome[] => some.map(({ fault, symptom }, index) => ({ fault: fault.id, ...play(finder, plant(fault), fault.sort === 'pair' ? fault.cause.split(' + ') .concat(fault.cause) : [fault.cause], symptom, strategy, normalNoise(seededRandom(100 + index)), MOST, solve) }));
    const singles = outcome(ours, planted);
    say(demo, mode, `ours, ${planted.length} single faults that show (of ${faults.length} in the list)`, singles);
    const pairs = pairsOf(faults, plant, finder, healthy, random);
    say(demo, mode, `ours, ${pairs.length} pairs (found: both, or the first of the two to be mended)`, outcome(ours, pairs));
    const compared = planted.slice(0, COMPARED);
    const oursCompared = singles.slice(0, COMPARED);
    const baselines = [
      ['random order', shuffled(finder, 3)], ['power-up checklist order', checklist(car, ask, finder)], ['halving the supply path', halving(car, finder)],
    ] as const;
    const others = baselines.map(([name, strategy]) => { const played = outcome(strategy, compared); say(demo, mode, `${name}, ${compared.length} of them`, played); return { name, played }; });
    console.log(`        ${demo}: ${((performance.now() - begun) / 1000).toFixed(0)} s`);
    const fixed = others[1]!.played;
    const danger = (played: readonly Played[]): number => share(played.flatMap(({ tests }) => tests), ({ danger: grade }) => grade === 'high');
    measured.push(
      { name: `${demo}: mean number of readings`, unit: 'readings', ours: mean(oursCompared), reference: mean(fixed), referenceName: 'the power-up checklist', wanted: 'half at the most', isMet: mean(oursCompared) <= mean(fixed) / 2 },
      { name: `${demo}: share of readings at exposed high voltage`, unit: '%', ours: 100 * danger(singles), reference: 100 * Math.min(...others.map(({ played }) => danger(played))), referenceName: 'the best of the three', wanted: 'no more', isMet: danger(singles) <= Math.min(...others.map(({ played }) => danger(played))) + 1e-9 },
    );
    if (demo !== 'bakery-van') continue;
    const fresh = faultFinder(car, ask, mode);
    const first = performance.now();
    fresh.rank([{ state: fresh.states.asked, look: { is: 'voltage', a: 'VCU.supply', b: 'chassis' }, value: 12.1 }]);
    const cold = performance.now() - first;
    // another reading each time: nothing but the solved states is kept from before
    const readings = finder.tests.flatMap(({ state, look }): Observation[] => (state === finder.states.asked && look.is === 'voltage' ? [{ state, look, value: 12.1, band: 0.1 }] : []));
    let turn = 0;
    const another = (): readonly Observation[] => { const reading = readings[turn % readings.length]!; return [{ ...reading, value: 12.1 + turn++ / 1000 } as Observation]; };
    const ranking = medianTime(() => finder.rank(another()), 20, 3);
    const chosen = medianTime(() => finder.next(finder.rank(another())), 20, 3);
    measured.push(
      { name: `first ranking of ${finder.hypotheses.length} hypotheses, nothing solved before`, ours: cold, reference: prepared, referenceName: 'solving all of them in all offered states, once a mode', wanted: '150 ms at most', isMet: cold <= 150 },
      { name: `ranking of ${finder.hypotheses.length} hypotheses after an observation, states of the mode solved before`, ours: ranking, reference: prepared, referenceName: 'solving all of them in all offered states, once a mode', wanted: '150 ms at most', isMet: ranking <= 150 },
      { name: `choice among ${finder.tests.length} tests for ${finder.hypotheses.length} hypotheses`, ours: chosen, reference: prepared, referenceName: 'solving all of them in all offered states, once a mode', wanted: '300 ms at most', isMet: chosen <= 300 },
    );
  }
  return measured;
}

/** Whole solves of one car: its compiled forms and orders of elimination are kept, its solutions are not. */
function solverOfOneCar(): (network: Network) => RestResult {
  const known: NetworkSystem[] = [];
  return (network) => {
    const like = known.find(({ compiled }) => fits(compiled, network));
    const system = like ? new NetworkSystem(network, like.compiled, like.lu.order) : new NetworkSystem(network);
    const result = solveSystem(system, startingCoils(system, undefined), {});
    if (!like && result.outcome === 'solved') { known.unshift(system); if (known.length > FORMS) known.pop(); }
    return result;
  };
}
const FORMS = 12;

interface Outcome extends Played { readonly fault: string }
interface Planted { readonly fault: Hypothesis; readonly symptom: Observation }

function pairsOf(faults: readonly Hypothesis[], plant: (fault: Hypothesis) => FaultyCar, finder: FaultFinder, healthy: ReturnType<typeof faultyCar>, random: () => number): readonly Planted[] {
  const found: Planted[] = [];
  for (let tries = 0; tries < 20 * PAIRS && found.length < PAIRS; tries++) {
    const [one, other] = [faults[Math.floor(random() * faults.length)]!, faults[Math.floor(random() * faults.length)]!];
    if (one.about[0] === other.about[0]) continue;
    const fault = pairOf(one, other, 1);
    const symptom = symptomOf(finder, plant(fault), healthy);
    if (symptom) found.push({ fault, symptom });
  }
  return found;
}

const keysOf = (done: readonly Observation[]): ReadonlySet<string> => new Set(done.map(({ state, look }) => lookKey(state, look)));
const firstLeft = (order: readonly CandidateTest[], done: readonly Observation[]): CandidateTest | undefined => { const keys = keysOf(done); return order.find(({ state, look }) => !keys.has(lookKey(state, look))); };

function shuffled(finder: FaultFinder, seed: number): Strategy {
  const random = seededRandom(seed);
  const order = finder.tests.map((test) => ({ test, at: random() })).sort((a, b) => a.at - b.at).map(({ test }) => test);
  return (_, __, done) => firstLeft(order, done);
}

/** Readings of the procedure in its order; then what it does not have, as the file has it. */
function checklist(car: Car, ask: Parameters<typeof powerUp>[1], finder: FaultFinder): Strategy {
  const steps = powerUp(car, ask, undefined).steps.flatMap(({ measure }) => (measure?.is === 'voltage' || measure?.is === 'resistance' ? [measure] : []));
  const ranked = finder.tests.map((test, index) => {
    const { look } = test;
    const place = look.is === 'voltage' || look.is === 'resistance' ? steps.findIndex((step) => step.is === look.is && ((step.a === look.a && step.b === look.b) || (step.a === look.b && step.b === look.a) || (look.b === 'chassis' && [step.a, step.b].includes(look.a)))) : -1;
    return { test, place: place < 0 ? 1e6 + index : place };
  }).sort((a, b) => a.place - b.place);
  return (_, __, done) => firstLeft(ranked.map(({ test }) => test), done);
}

/** Volts in the middle of the metal between the battery and what fails, then in the middle of the half that is left. */
function halving(car: Car, finder: FaultFinder): Strategy {
  const battery = [...car.parts.values()].find(({ roles }) => roles.lowVoltageBattery);
  const metal = metalOf(car);
  const fallback = shuffled(finder, 5);
  return (ranking, symptom, done) => {
    const part = symptom.look.is === 'thing' ? car.parts.get(symptom.look.of) : undefined;
    const feeds = part?.roles.switching?.find(({ coil }) => coil)?.coil ?? part?.roles.consumers?.[0];
    const role = battery?.roles.lowVoltageBattery;
    if (part && feeds && battery && role) {
      const way = [...(metal.path(battery.names.of(role.positive), part.names.of(feeds.positive))?.nodes ?? []), ...(metal.path(part.names.of(feeds.negative), battery.names.of(role.negative))?.nodes ?? [])];
      const read = new Map(done.flatMap(({ look, value }) => (look.is === 'voltage' && look.b === 'chassis' ? [[look.a, value as number] as const] : [])));
      let [low, high] = [0, way.length - 1];
      for (const [index, node] of way.entries()) { const volts = read.get(node); if (volts === undefined) continue; if (volts > 9) low = Math.max(low, index); else high = Math.min(high, index); }
      const middle = way.map((node, index) => ({ node, off: Math.abs(index - (low + high) / 2), index })).filter(({ index }) => index > low && index < high).sort((a, b) => a.off - b.off);
      for (const { node } of middle) {
        const test = finder.tests.find(({ look, state }) => state === finder.states.asked && look.is === 'voltage' && look.a === node && look.b === 'chassis');
        if (test && !keysOf(done).has(lookKey(test.state, test.look))) return test;
      }
    }
    return fallback(ranking, symptom, done);
  };
}

/** A strategy that did not find it counts with all the readings allowed. */
const countOf = ({ isFound, tests }: Played): number => (isFound ? tests.length : MOST);
const mean = (played: readonly Played[]): number => played.reduce((sum, one) => sum + countOf(one), 0) / Math.max(1, played.length);
const share = <T>(list: readonly T[], is: (one: T) => boolean): number => (list.length === 0 ? 0 : list.filter(is).length / list.length);

function say(demo: string, mode: string, what: string, played: readonly Outcome[]): void {
  const counts = played.map(countOf).sort((a, b) => a - b);
  const tests = played.flatMap((one) => one.tests);
  console.log(`        ${demo}, ${mode}: ${what}: ${Math.round(100 * share(played, ({ isFound }) => isFound))} % found or narrowed to a group, ${mean(played).toFixed(1)} readings on average, 95 % within ${counts[Math.floor(0.95 * (counts.length - 1))] ?? 0}, ${(100 * share(tests, ({ danger }) => danger === 'high')).toFixed(1)} % of them at exposed high voltage`);
  const missed = played.filter(({ isFound }) => !isFound).map(({ fault }) => fault);
  if (what.startsWith('ours') && missed.length > 0) console.log(`          not found: ${missed.join(', ')}`);
}
