/**
 * The first power-up: the whole procedure with all bands, against the same readings got the plain way: the network of each step wired and
 * solved from nothing, once for the values of the file and once for each draw. What wrong readings mean is timed beside it.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { words } from '../catalogue/words.ts';
import { analyse } from '../core/analyse.ts';
import { realise } from '../core/car/realise.ts';
import type { Car } from '../core/car/car.ts';
import { wireCar } from '../core/car/wire-car.ts';
import { drawTable } from '../core/chance/draw-table.ts';
import { USUAL_DRAWS } from '../core/power-up/bands.ts';
import { causeFinder } from '../core/power-up/causes.ts';
import type { PowerUpStep } from '../core/power-up/step.ts';
import { powerUp } from '../core/power-up/steps.ts';
import { solveAtRest } from '../core/solve/solve-at-rest.ts';
import { medianTime } from './measured.ts';
import type { Measured } from './measured.ts';

const demos = ['bakery-van', 'two-string-coupe', 'orchard-hauler'] as const;
const TIMES = 7, WARM = 2;

export async function run(root: string): Promise<Measured[]> {
  return demos.flatMap((demo): Measured[] => {
    const text = readFileSync(join(root, 'examples', demo, 'build.yaml'), 'utf8');
    // a procedure remembers nothing of the one before: each has a car of its own
    const cars = Array.from({ length: TIMES + WARM + 1 }, () => analyse(text, words, { only: [] }));
    const { car, ask, prepared } = cars.pop()!;
    let turn = 0;
    const first = performance.now();
    const { steps } = powerUp(car, ask, prepared);
    const cold = performance.now() - first;
    const ours = medianTime(() => { const one = cars[turn++]!; return powerUp(one.car, one.ask, one.prepared); }, TIMES, WARM);
    const start = performance.now();
    const table = drawTable([...prepared.build.quantities.values()], USUAL_DRAWS.count, USUAL_DRAWS.seed);
    solveAll(car, steps);
    for (let draw = 0; draw < USUAL_DRAWS.count; draw++) solveAll(realise(prepared, table.valueOf(draw), { isForMargins: true }), steps);
    const reference = performance.now() - start;
    const holds = steps.filter(({ isHoldPoint }) => isHoldPoint);
    const causes = medianTime(() => { const finder = causeFinder(car, ask); return holds.map((step) => finder.causesOf(step)); }, 3, 1);
    console.log(`        ${demo}: ${steps.length} steps, the first time in this process ${cold.toFixed(0)} ms; what a wrong reading means at ${holds.length} hold points ${causes.toFixed(0)} ms more`);
    return [{ name: `${demo}: power-up procedure with all bands, ${steps.length} steps`, ours, reference, referenceName: 'each reading of each draw solved from nothing', wanted: '1 s at most', isMet: ours <= 1000 }];
  });
}

function solveAll(car: Car, steps: readonly PowerUpStep[]): void {
  for (const { state = {}, measure, predicted } of steps) {
    if (!predicted || !measure || measure.is === 'time') continue;
    const bridges = measure.is === 'voltage' ? [...(state.bridges ?? []), { a: measure.a, b: measure.b, resistance: 10e6 }] : state.bridges ?? [];
    solveAtRest(wireCar(car, { ...state, bridges }).network);
  }
}
