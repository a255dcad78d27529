import { fastNumbers, randomState } from './random.ts';

/**
 * Latin hypercube: `count` points in the unit cube of `dimensions` in which every one of the `count` equal shares of each axis is used once.
 * One axis depends on the seed and its own number only, so an axis more does not move the others.
 *
 * @returns for each dimension its `count` coordinates in (0, 1)
 * Source:  McKay, Beckman and Conover, Technometrics 21 (1979) (from memory)
 * Checked: core/solve/random.test.ts
 */
export function latinHypercube(count: number, dimensions: number, seed: number): Float64Array[] {
  if (!Number.isInteger(count) || count < 1) throw new Error(`a Latin hypercube needs a whole number of points >= 1, got ${count}`);
  if (!Number.isInteger(dimensions) || dimensions < 0) throw new Error(`a Latin hypercube needs a whole number of dimensions >= 0, got ${dimensions}`);
  const axes: Float64Array[] = [];
  for (let dimension = 0; dimension < dimensions; dimension++) {
    const next = fastNumbers(randomState(seed, dimension));
    const shares = new Float64Array(count);
    for (let share = 0; share < count; share++) shares[share] = share;
    for (let last = count - 1; last > 0; last--) {
      const other = Math.floor(next() * (last + 1));
      const kept = shares[last]!;
      shares[last] = shares[other]!;
      shares[other] = kept;
    }
    for (let point = 0; point < count; point++) shares[point] = Math.max((shares[point]! + next()) / count, Number.MIN_VALUE);
    axes.push(shares);
  }
  return axes;
}
