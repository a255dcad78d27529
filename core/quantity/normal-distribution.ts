/**
 * Value below which a standard normal variable stays with probability `p`.
 *
 * @param p  0 < p < 1
 * Errors:  throws if p is outside
 * Source:  M. J. Wichura, Algorithm AS 241 (PPND16), Applied Statistics 37 (1988); relative accuracy about 1e-16.
 *          Coefficients from memory, proved by the round trip through `normalProbability`, which shares nothing with them.
 * Checked: normal-distribution.test.ts
 */
export function normalQuantile(p: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError('a normal quantile needs a probability above 0 and below 1');
  const q = p - 0.5;
  if (Math.abs(q) <= 0.425) {
    const r = 0.180625 - q * q;
    return (q * polynomial(r, centreNumerator)) / polynomial(r, centreDenominator);
  }
  const r = Math.sqrt(-Math.log(q < 0 ? p : 1 - p));
  const size = r <= 5
    ? polynomial(r - 1.6, middleNumerator) / polynomial(r - 1.6, middleDenominator)
    : polynomial(r - 5, tailNumerator) / polynomial(r - 5, tailDenominator);
  return q < 0 ? -size : size;
}

/**
 * Probability that a standard normal variable stays below `z`.
 *
 * Source: power series of the error function near the centre, continued fraction of Laplace in the tails
 *         (Abramowitz and Stegun 26.2.11 and 26.2.14, from memory)
 */
export function normalProbability(z: number): number {
  if (Number.isNaN(z)) throw new RangeError('a normal probability needs a number');
  if (z < -38.5) return 0;
  if (z > 38.5) return 1;
  const density = Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);
  const size = Math.abs(z);
  if (size < 3) {
    let term = z;
    let sum = z;
    for (let odd = 3; Math.abs(term) > 1e-17 * Math.abs(sum); odd += 2) { term *= (z * z) / odd; sum += term; }
    return 0.5 + density * sum;
  }
  let fraction = size;
  for (let k = 60; k >= 1; k--) fraction = size + k / fraction;
  const tail = density / fraction;
  return z < 0 ? tail : 1 - tail;
}

/** coefficients from the constant upwards */
function polynomial(x: number, coefficients: readonly number[]): number {
  let sum = 0;
  for (let i = coefficients.length - 1; i >= 0; i--) sum = sum * x + coefficients[i]!;
  return sum;
}

const centreNumerator = [3.3871328727963666080, 133.14166789178437745, 1971.5909503065514427, 13731.693765509461125, 45921.953931549871457, 67265.770927008700853, 33430.575583588128105, 2509.0809287301226727];
const centreDenominator = [1, 42.313330701600911252, 687.18700749205790830, 5394.1960214247511077, 21213.794301586595867, 39307.895800092710610, 28729.085735721942674, 5226.4952788528545610];
const middleNumerator = [1.42343711074968357734, 4.63033784615654529590, 5.76949722146069140550, 3.64784832476320460504, 1.27045825245236838258, 0.241780725177450611770, 0.0227238449892691845833, 7.74545014278341407640e-4];
const middleDenominator = [1, 2.05319162663775882187, 1.67638483018380384940, 0.689767334985100004550, 0.148103976427480074590, 0.0151986665636164571966, 5.47593808499534494600e-4, 1.05075007164441684324e-9];
const tailNumerator = [6.65790464350110377720, 5.46378491116411436990, 1.78482653991729133580, 0.296560571828504891230, 0.0265321895265761230930, 1.24266094738807843860e-3, 2.71155556874348757815e-5, 2.01033439929228813265e-7];
const tailDenominator = [1, 0.599832206555887937690, 0.136929880922735805310, 0.0148753612908506148525, 7.86869131145613259100e-4, 1.84631831751005468180e-5, 1.42151175831644588870e-7, 2.04426310338993978564e-15];
