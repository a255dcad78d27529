/** Every shortcut against whole solves of the faulty network: hypotheses of every sort in every mode of a car with high and low voltage. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { root } from '../../checks/architecture/imports.ts';
import { carFromText } from '../../checks/fixtures/car-from-text.ts';
import { highVoltageCar } from '../../checks/fixtures/high-voltage-car.ts';
import { lowVoltageCar } from '../../checks/fixtures/low-voltage-car.ts';
import type { Car } from '../car/car.ts';
import { seededRandom } from '../solve/random.ts';
import type { RestSolved } from '../solve/rest-result.ts';
import { solveAtRest } from '../solve/solve-at-rest.ts';
import { fusesOf } from './blown-fuses.ts';
import type { Hypothesis } from './hypothesis.ts';
import type { FaultChange } from './fault-change.ts';
import { faultyNetwork } from './fault-change.ts';
import { solverInFull } from './in-full.ts';
import { listHypotheses } from './list-hypotheses.ts';
import { nearFaults } from './near-faults.ts';
import { sightsIn } from './predict-state.ts';
import { thingsOf } from './things.ts';
import { tiedNetwork } from './tied-network.ts';

/** [V]; where a point hangs in the air by its ties alone, a parted resistor of 1e12 ohm in the whole solve is not quite nothing */
const TOLERANCE = 5e-3;

/** @returns what differs, in words */
function compared(car: Car, mode: string, faults: readonly Hypothesis[]): { readonly differ: readonly string[]; readonly count: number } {
  const { network } = tiedNetwork(car, { mode });
  const near = nearFaults(network, fusesOf(car));
  if (!near) return { differ: [`${mode}: no neighbours`], count: 0 };
  const full = solverInFull(network, fusesOf(car));
  const ids = new Set(network.elements.map(({ id }) => id));
  const loose = new Set(network.elements.flatMap((element) => (element.type === 'resistor' && element.resistance >= 1e10 ? [element.a] : [])));
  const differ: string[] = [];
  let count = 0;
  for (const { id, changes } of faults) {
    const real = changes.filter((change) => change.is === 'joined' || ids.has(change.element));
    if (real.length === 0) continue;
    const blown = near.plant(real);
    const volts = new Map(network.nodes.filter((node) => node !== 'chassis').map((node) => [node, near.system.voltageAt(near.system.compiled.nodeIndexOf.get(node)!)]));
    near.mend();
    if (blown === undefined || blown === 'buzzes') continue;
    const largest = Math.max(...volts.values());
    const offFrom = ({ voltageOf }: RestSolved): string | undefined => { for (const [node, value] of volts) if (Math.abs(value - voltageOf(node)) > (loose.has(node) ? 0.02 * largest : TOLERANCE)) return `${node} ${value}, not ${voltageOf(node)}`; return undefined; };
    const whole = full(real);
    // relays followed from the car with nothing wrong, or from all of them down
    const fresh = solveAtRest(faultyNetwork(network, [...real, ...blown.map((element): FaultChange => ({ is: 'open', element }))]));
    if (!whole && fresh.outcome !== 'solved') continue;
    count++;
    const off = whole && JSON.stringify(blown) === JSON.stringify(whole.blown) ? offFrom(whole.result) : `opens ${String(blown)}, not ${String(whole?.blown)}`;
    if (off !== undefined && (fresh.outcome !== 'solved' || offFrom(fresh) !== undefined)) differ.push(`${mode} ${id}: ${off}`);
  }
  return { differ, count };
}

const sample = (car: Car, most: number, seed: number): readonly Hypothesis[] => {
  const all = listHypotheses(car);
  const random = seededRandom(seed);
  return Array.from({ length: most }, () => all[1 + Math.floor(random() * (all.length - 2))]!);
};

describe('faults as neighbours of the solved state', () => {
  it.each([['low voltage', lowVoltageCar, 60], ['high voltage', highVoltageCar, 60]] as const)('are what the whole network says, in every mode: %s', (_, text, most) => {
    const { car } = carFromText(text);
    let count = 0;
    for (const [n, mode] of [...car.modes.keys()].entries()) {
      const found = compared(car, mode, sample(car, most, n + 1));
      expect(found.differ).toEqual([]);
      count += found.count;
    }
    expect(count).toBeGreaterThan(most);
  });
  it('are so for a sample of every demo as well', { timeout: 120_000 }, () => {
    for (const demo of ['bakery-van', 'two-string-coupe', 'orchard-hauler']) {
      const { car } = carFromText(readFileSync(join(root, 'examples', demo, 'build.yaml'), 'utf8'));
      const mode = car.modes.has('drive') ? 'drive' : [...car.modes.keys()].at(-1)!;
      const { differ, count } = compared(car, mode, sample(car, 40, 3));
      // a net with two answers may come to rest in either
      expect(differ.length, differ.join('\n')).toBeLessThanOrEqual(Math.floor(0.03 * count));
      expect(count).toBeGreaterThan(30);
    }
  });
  it('leave the solution as it was when they are mended', () => {
    const { car } = carFromText(highVoltageCar);
    const { network } = tiedNetwork(car, { mode: 'drive' });
    const near = nearFaults(network, fusesOf(car))!;
    const before = [...near.system.x, ...near.system.positions, ...near.system.numbers.resistance, ...near.system.numbers.conductance, ...near.system.numbers.amount];
    for (const { changes } of sample(car, 80, 9)) { near.plant(changes.filter((change) => change.is === 'joined' || near.indexOf(change.element) >= 0)); near.mend(); }
    expect([...near.system.x, ...near.system.positions, ...near.system.numbers.resistance, ...near.system.numbers.conductance, ...near.system.numbers.amount]).toEqual(before);
  });
});

describe('a relay whose coil is parted', () => {
  it('stays open in a mode in which its coil has no current, whatever stands at its two ends', () => {
    for (const text of [lowVoltageCar, highVoltageCar]) {
      const { car, ask } = carFromText(text);
      const watched = { points: ask.points, things: thingsOf(car, ask), runs: [] };
      const relays = listHypotheses(car).filter(({ changes }) => changes.some(({ is }) => is === 'open') && changes.some(({ is }) => is === 'stuck_open'));
      expect(relays.length).toBeGreaterThan(0);
      for (const mode of car.modes.keys()) {
        const { of } = sightsIn(car, { mode }, watched);
        for (const relay of relays) {
          const place = watched.things.findIndex((thing) => thing.what === 'closes' && thing.of === relay.about[0]);
          expect(of(relay)?.does[place], `${relay.id} in ${mode}`).toBe(0);
        }
      }
    }
  });
});
