import { describe, expect, it } from 'vitest';
import { carFromText } from '../../checks/fixtures/car-from-text.ts';
import { lowVoltageCar } from '../../checks/fixtures/low-voltage-car.ts';
import { wireCar } from '../car/wire-car.ts';
import { seededRandom } from '../solve/random.ts';
import type { Element } from '../solve/element.ts';
import { solveAtRest } from '../solve/solve-at-rest.ts';
import { stateOf } from './asked-state.ts';
import { answerTest } from './answer-test.ts';
import { faultFinder } from './fault-finder.ts';
import { faultyNetwork } from './fault-change.ts';
import { faultyCar } from './faulty-car.ts';
import { listHypotheses } from './list-hypotheses.ts';
import { play, symptomOf } from './play.ts';
import { readObservation } from './read-observation.ts';
import { ohmsFromScale } from './forecasts.ts';
import { resistancesIn } from './resistances.ts';
import { observationsOf } from './symptoms.ts';

const { car, ask } = carFromText(lowVoltageCar);
const finder = faultFinder(car, ask, 'drive');
const healthy = faultyCar(car, { changes: [], silent: [] });
const hypothesis = (id: string) => finder.hypotheses.find((one) => one.id === id)!;

describe('the list of hypotheses', () => {
  it('names each once, the whole car first and the unlisted last', () => {
    const ids = finder.hypotheses.map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    expect([ids[0], ids.at(-1)]).toEqual(['none', 'unlisted']);
  });
  it('has every run parted, badly joined and chafed, and every failure of every part', () => {
    for (const id of ['r4.open', 'r4.resistive_5', 'r4.to_chassis', 'F1.blown', 'K1.welded', 'G2.painted_or_rusty', 'B.flat', 'VC.main_other_side', 'S.wire_3_open']) expect(finder.hypotheses.some((one) => one.id === id), id).toBe(true);
  });
  it('tells the builder how to see each and how to mend it', () => {
    for (const { id, words, confirm, mend } of finder.hypotheses) expect([words, confirm, mend].every((text) => text.length > 8), id).toBe(true);
  });
  it('suspects what hands have touched, and a little what hangs on it', () => {
    const text = lowVoltageCar.replace('r7: { from: F2.b,', 'r7: { disturbed: [spliced], from: F2.b,');
    const weights = new Map(listHypotheses(carFromText(text).car).map(({ id, weight }) => [id, weight]));
    expect(weights.get('r7.open')! / hypothesis('r7.open').weight).toBeCloseTo(5, 6);
    expect(weights.get('F2.blown')!).toBeGreaterThan(hypothesis('F2.blown').weight);
    expect(weights.get('r5.open')).toBe(hypothesis('r5.open').weight);
  });
});

describe('predictions', () => {
  it('are those of the whole network with the fault in it, in every state and for every sort of fault', () => {
    const random = seededRandom(5);
    const worst: string[] = [];
    for (let n = 0; n < 25; n++) {
      const fault = finder.hypotheses[1 + Math.floor(random() * (finder.hypotheses.length - 2))]!;
      const faulty = faultyCar(car, fault);
      if (faulty.ask.solve(finder.forecasts.predictionsIn(finder.states.asked).way.end).outcome !== 'solved') continue;
      for (let k = 0; k < 12; k++) {
        const { state, look } = finder.tests[Math.floor(random() * finder.tests.length)]!;
        const forecast = finder.forecasts.forecast(state, look, [fault])!;
        const seen = answerTest(finder.forecasts.predictionsIn(state), faulty, state, look, () => 0);
        if (!seen) continue;
        const outcome = finder.forecasts.outcomeOf(seen);
        const isOff = forecast.is === 'value' ? Math.abs((outcome as number) - forecast.means[0]!) > 4 * forecast.spread(forecast.means[0]!) : (forecast.chances[0]! > 0.5) !== outcome;
        if (isOff) worst.push(`${fault.id}: ${JSON.stringify(look)} is ${String(outcome)}, said ${forecast.is === 'value' ? forecast.means[0] : forecast.chances[0]}`);
      }
    }
    expect(worst).toEqual([]);
  });
  it('blow the fuse before a wire that is chafed through', () => {
    const { blown } = finder.forecasts.predictionsIn(finder.states.asked).of(hypothesis('r4.to_chassis'));
    expect(blown).toEqual(['F1.link']);
  });
});

describe('resistances', () => {
  it.each(['conduct', 'block'] as const)('are those of the network solved anew with an ohmmeter in it, electronics that %s', (electronics) => {
    const state = stateOf(finder.states.dead);
    const quick = resistancesIn(car, state, electronics);
    const counts = ({ type }: Element): boolean => electronics === 'conduct' || (type !== 'draw' && type !== 'power');
    for (const id of ['none', 'r8.open', 'r11.resistive_50', 'S2.corroded', 'K1.welded', 'r4.to_chassis', 'VC.fan_other_side']) {
      const { changes } = hypothesis(id);
      for (const [a, b] of [['S2.w2', 'VC.supply'], ['K1.coil_a', 'K1.coil_b'], ['F1.b', 'K1.common'], ['S2.w1', 'VC.supply'], ['K1.common', 'chassis']] as const) {
        const network = faultyNetwork(wireCar(car, state).network, changes);
        const result = solveAtRest({ nodes: network.nodes, elements: [...network.elements.filter(counts), { type: 'source', id: 'ohmmeter', a, b, voltage: 0.2, resistance: 1000 }] });
        if (result.outcome !== 'solved') throw new Error(result.outcome);
        const through = -result.currentOf('ohmmeter');
        const ohms = through > 1e-9 ? 0.2 / through - 1000 : 1e6;
        expect(Math.abs(Math.log((quick.between(a, b, changes)! + 0.3) / (Math.min(1e6, ohms) + 0.3))), `${id} ${a} ${b}: ${quick.between(a, b, changes)} or ${ohms}`).toBeLessThan(0.15);
      }
    }
  });
  it('through electronics may be anything from what they let through to open', () => {
    const look = { is: 'resistance', a: 'S2.w1', b: 'chassis' } as const;
    const forecast = finder.forecasts.forecast(finder.states.dead, look, [hypothesis('none'), hypothesis('VC.supply_shorted')])!;
    if (forecast.is !== 'value') throw new Error(forecast.is);
    expect(ohmsFromScale(forecast.means[0]!)).toBeLessThan(10e3);
    expect(ohmsFromScale(forecast.until![0]!)).toBeGreaterThan(10 * ohmsFromScale(forecast.means[0]!));
    // metal is metal
    expect(forecast.until![1]).toBe(forecast.means[1]);
  });
});

describe('a conversation', () => {
  it('can be prepared in pieces', () => {
    const fresh = faultFinder(car, ask, 'drive');
    let pieces = 1;
    while (fresh.prepare(50)) pieces++;
    expect(pieces).toBeGreaterThan((fresh.hypotheses.length + fresh.tests.filter(({ state }) => state !== fresh.states.packOpen).length) / 50);
    expect(fresh.prepare(50)).toBe(false);
    expect(fresh.next(fresh.rank([]))).toEqual(finder.next(finder.rank([])));
  });
  it.each(['F2.blown', 'r10.open', 'G2.off', 'VC.output_main_dead', 'r13.resistive_50'])('finds %s', (id) => {
    const fault = hypothesis(id);
    const faulty = faultyCar(car, fault);
    const symptom = symptomOf(finder, faulty, healthy);
    expect(symptom).toBeDefined();
    const played = play(finder, faulty, [fault.cause], symptom!, (ranking) => finder.next(ranking)?.test, () => 0, 20);
    expect(played.isFound, played.verdict.group.map(({ cause }) => cause).join(', ')).toBe(true);
  });
  it('looks for two at once when no single one explains what was seen', () => {
    const [one, other] = [hypothesis('F1.blown'), hypothesis('r12.open')];
    const faulty = faultyCar(car, { changes: [...one.changes, ...other.changes], silent: [] });
    const seen = ([['F1.b', 'chassis'], ['KP.coil_a', 'chassis'], ['F1.a', 'chassis'], ['VC.main', 'chassis'], ['S.w3', 'chassis']] as const).map(([a, b]) => answerTest(finder.forecasts.predictionsIn(finder.states.asked), faulty, finder.states.asked, { is: 'voltage', a, b }, () => 0)!);
    const ranking = finder.rank(seen);
    expect(ranking.withPairs).toBe(true);
    expect(ranking.causes.slice(0, 8).some(({ hypothesis: { about } }) => about.includes('F1') && (about.includes('r12') || about.includes('VC')))).toBe(true);
  });
  it('gives the same answer whatever the order of what was seen', () => {
    const read = (text: string) => { const found = readObservation(text, car, finder.states, finder.forecasts.predictionsIn); if (!found.ok) throw new Error(found.problem); return found.observation; };
    const seen = ['KP.closes=no', 'VC.supply-chassis=12.4 V'].map(read);
    expect(finder.rank(seen).causes[0]!.cause).toBe(finder.rank([...seen].reverse()).causes[0]!.cause);
  });
});

describe('what a person writes', () => {
  const read = (text: string) => readObservation(text, car, finder.states, finder.forecasts.predictionsIn);
  it.each([
    ['K1.coil_a-K1.coil_b=0.2 V', { is: 'voltage', a: 'K1.coil_a', b: 'K1.coil_b' }, 0.2],
    ['F1.a-F1.b=open', { is: 'resistance', a: 'F1.a', b: 'F1.b' }, Infinity],
    ['F1.b-chassis=0.4 Ω', { is: 'resistance', a: 'F1.b', b: 'chassis' }, 0.4],
    ['KP.closes=no', { is: 'thing', what: 'closes', of: 'KP' }, false],
    ['F1.blown=yes', { is: 'blown', of: 'F1' }, true],
  ])('%s', (text, look, value) => expect(read(text)).toMatchObject({ ok: true, observation: { look, value } }));
  it('takes a wider band', () => expect(read('F1.b-chassis=12 V ±0.5 V')).toMatchObject({ ok: true, observation: { band: 0.5 } }));
  it.each([['F1.c-chassis=1 V', 'F1.a'], ['K9.closes=no', 'K1'], ['F1.b-chassis=much', 'volts'], ['F1.b', '='], ['KP.closes=perhaps', 'yes or no'], ['F1.b-chassis=1 V @there', 'pack_open']])('%s is answered with what is meant', (text, hint) => {
    const found = read(text);
    expect(found.ok ? '' : found.problem).toContain(hint);
  });
});

describe('symptoms', () => {
  const predictions = finder.forecasts.predictionsIn(finder.states.asked);
  it('are observations of this car', () => expect(observationsOf(car, 'no_click', predictions).observations).toMatchObject([{ look: { what: 'closes', of: 'KP' }, value: false }]));
  it('say why a car cannot have them', () => {
    const { observations, why } = observationsOf(car, 'charger_does_not_start', predictions);
    expect(observations).toBeUndefined();
    expect(why).toContain('charger');
  });
});
