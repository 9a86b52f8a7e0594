/** Density of the standard normal distribution at z. */
export const normalDensity = (z: number): number => Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);

// erf x = 2/√π · e^(−x²) · Σ 2ⁿ x^(2n+1) / (1·3·5…(2n+1)): every term positive, so nothing cancels (DLMF 7.6.2).
const errorFunctionSeries = (x: number): number => {
  let term = x;
  let sum = x;
  for (let n = 1; term > sum * 1e-17; n += 1) {
    term *= (2 * x * x) / (2 * n + 1);
    sum += term;
  }
  return (2 / Math.sqrt(Math.PI)) * Math.exp(-x * x) * sum;
};

// erfc x = e^(−x²)/√π · 1/(x + (1/2)/(x + 1/(x + (3/2)/(x + …)))), from the inside out (DLMF 7.9.1).
const complementFraction = (x: number): number => {
  let tail = x;
  for (let n = 120; n >= 1; n -= 1) tail = x + n / 2 / tail;
  return Math.exp(-x * x) / Math.sqrt(Math.PI) / tail;
};

/** 1 − erf(x), with full relative precision in the upper tail. */
export const complementaryErrorFunction = (x: number): number => {
  if (x < 0) return 2 - complementaryErrorFunction(-x);
  return x < 2 ? 1 - errorFunctionSeries(x) : complementFraction(x);
};

/** Probability that a standard normal variable is at most z. Source of the identity: DLMF 7.20(iii). */
export const normalCumulative = (z: number): number => 0.5 * complementaryErrorFunction(-z / Math.SQRT2);

// Abramowitz & Stegun 26.2.23, |error| < 4.5e-4: only where the refinement below begins.
const roughUpperQuantile = (upperTail: number): number => {
  const t = Math.sqrt(-2 * Math.log(upperTail));
  const above = 2.515517 + t * (0.802853 + t * 0.010328);
  const below = 1 + t * (1.432788 + t * (0.189269 + t * 0.001308));
  return t - above / below;
};

/**
 * The z below which a standard normal variable falls with probability p. Rough start, then Halley's iteration on the
 * cumulative function in the smaller tail. p = 0 and 1 give −∞ and ∞. @throws RangeError when p is not within 0 to 1.
 */
export const normalQuantile = (p: number): number => {
  if (!(p >= 0 && p <= 1)) throw new RangeError(`${p} is no probability`);
  if (p === 0) return Number.NEGATIVE_INFINITY;
  if (p > 0.5) return p === 1 ? Number.POSITIVE_INFINITY : -normalQuantile(1 - p);
  let z = -roughUpperQuantile(p);
  for (let step = 0; step < 4; step += 1) {
    const excess = (normalCumulative(z) - p) / normalDensity(z);
    z -= excess / (1 + (z * excess) / 2);
  }
  return z;
};

const integratedLargest = (count: number): number => {
  const half = 10;
  const steps = 2000;
  const width = (2 * half) / steps;
  let sum = 0;
  for (let index = 0; index <= steps; index += 1) {
    const z = -half + index * width;
    const weight = index === 0 || index === steps ? 1 : index % 2 === 1 ? 4 : 2;
    sum += weight * z * count * normalDensity(z) * normalCumulative(z) ** (count - 1);
  }
  return (sum * width) / 3;
};

// A finding asks for the same few counts again and again; the integral takes thousands of exponentials.
const integrated = new Map<number, number>();

/**
 * Expected largest of `count` independent standard normal values (0.5642 for two, 0.8463 for three), by Simpson's rule
 * over z·n·φ(z)·Φ(z)ⁿ⁻¹. How far the largest of several readings lies out by chance, in standard deviations.
 */
export const expectedLargest = (count: number): number => {
  const known = integrated.get(count) ?? integratedLargest(count);
  integrated.set(count, known);
  return known;
};
