/**
 * Random numbers that a seed decides: the same seed and stream give the same numbers on every machine and in every worker.
 *
 * Source: xoshiro128** 1.1 of D. Blackman and S. Vigna (2018), filled from the seed by a 32-bit mixing function (from memory).
 * Checked: core/solve/random.test.ts (first outputs by hand, moments)
 */

/** Four 32-bit words, not all zero. */
export type RandomState = Uint32Array;

/** A state from a seed and a stream number; different streams of a seed are independent for all practical purposes. */
export function randomState(seed: number, stream = 0): RandomState {
  if (!Number.isFinite(seed) || !Number.isFinite(stream)) throw new Error('a seed and a stream must be finite numbers');
  const state = new Uint32Array(4);
  const high = Math.floor(seed / 4294967296) >>> 0;
  let mix = ((seed >>> 0) ^ Math.imul(high, 0x85ebca6b) ^ Math.imul((stream + 1) >>> 0, 0xc2b2ae35)) >>> 0;
  for (let n = 0; n < 4; n++) {
    mix = (mix + 0x9e3779b9) >>> 0;
    let z = mix;
    z = Math.imul(z ^ (z >>> 16), 0x21f0aaad);
    z = Math.imul(z ^ (z >>> 15), 0x735a2d97);
    state[n] = (z ^ (z >>> 15)) >>> 0;
  }
  if (state.every((word) => word === 0)) state[0] = 1;
  return state;
}

/** The next 32 random bits; moves the state on. */
export function nextBits(state: RandomState): number {
  const s1 = state[1]!;
  const turned = Math.imul(s1, 5);
  const bits = Math.imul((turned << 7) | (turned >>> 25), 9) >>> 0;
  const shifted = s1 << 9;
  state[2]! ^= state[0]!;
  state[3]! ^= s1;
  state[1]! ^= state[2]!;
  state[0]! ^= state[3]!;
  state[2]! ^= shifted;
  state[3] = (state[3]! << 11) | (state[3]! >>> 21);
  return bits;
}

/** A number in [0, 1) with 53 random bits; moves the state on. */
export function nextNumber(state: RandomState): number {
  const high = nextBits(state) >>> 5;
  const low = nextBits(state) >>> 6;
  return (high * 67108864 + low) / 9007199254740992;
}

/** The numbers that `nextNumber` gives from a state, which stays as it is: for those who want a million of them. */
export function fastNumbers(state: RandomState): () => number {
  let s0 = state[0]! | 0, s1 = state[1]! | 0, s2 = state[2]! | 0, s3 = state[3]! | 0;
  const bits = (): number => {
    const turned = Math.imul(s1, 5);
    const found = Math.imul((turned << 7) | (turned >>> 25), 9) >>> 0;
    const shifted = s1 << 9;
    s2 ^= s0;
    s3 ^= s1;
    s1 ^= s2;
    s0 ^= s3;
    s2 ^= shifted;
    s3 = (s3 << 11) | (s3 >>> 21);
    return found;
  };
  return () => ((bits() >>> 5) * 67108864 + (bits() >>> 6)) / 9007199254740992;
}

/**
 * A source of numbers in [0, 1).
 *
 * @param seed    any finite number
 * @param stream  one source for each independent purpose
 */
export function seededRandom(seed: number, stream = 0): () => number {
  const state = randomState(seed, stream);
  return () => nextNumber(state);
}
