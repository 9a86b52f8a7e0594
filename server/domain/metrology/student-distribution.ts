import { normalQuantile } from './normal-distribution.ts';

// Lanczos' approximation, g = 7, nine terms (Numerical Recipes 6.1; coefficients by P. Godfrey) [from memory].
const lanczos = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
  12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
] as const;

/** Natural logarithm of the gamma function, for x > 0. */
export const logGamma = (x: number): number => {
  if (x < 0.5) return Math.log(Math.PI / Math.sin(Math.PI * x)) - logGamma(1 - x);
  const shifted = x - 1;
  const t = shifted + 7.5;
  const sum = lanczos.reduce(
    (total, coefficient, index) => total + (index === 0 ? coefficient : coefficient / (shifted + index)),
    0,
  );
  return 0.5 * Math.log(2 * Math.PI) + (shifted + 0.5) * Math.log(t) - t + Math.log(sum);
};

const tiny = 1e-300;
const away = (value: number): number => (Math.abs(value) < tiny ? tiny : value);

// Continued fraction of the incomplete beta function by Lentz's method (DLMF 8.17.22).
const betaFraction = (x: number, a: number, b: number): number => {
  let c = 1;
  let d = 1 / away(1 - ((a + b) * x) / (a + 1));
  let result = d;
  for (let m = 1; m <= 1000; m += 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / away(1 + even * d);
    c = away(1 + even / c);
    result *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / away(1 + odd * d);
    c = away(1 + odd / c);
    const change = d * c;
    result *= change;
    if (Math.abs(change - 1) < 1e-16) break;
  }
  return result;
};

/** Regularised incomplete beta function I_x(a, b), for 0 ≤ x ≤ 1 and its complement 1 − x, both given for precision. */
const regularisedBeta = (x: number, complement: number, shape: { readonly a: number; readonly b: number }): number => {
  const { a, b } = shape;
  if (x <= 0) return 0;
  if (complement <= 0) return 1;
  const front = Math.exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log(complement));
  return x < (a + 1) / (a + b + 2)
    ? (front * betaFraction(x, a, b)) / a
    : 1 - (front * betaFraction(complement, b, a)) / b;
};

/** Density of Student's t with `dof` degrees of freedom. */
export const studentDensity = (t: number, dof: number): number =>
  Math.exp(
    logGamma((dof + 1) / 2) -
      logGamma(dof / 2) -
      0.5 * Math.log(dof * Math.PI) -
      ((dof + 1) / 2) * Math.log1p((t * t) / dof),
  );

/**
 * Probability that Student's t with `dof` (> 0, need not be whole) degrees of freedom is at most t: half the
 * regularised incomplete beta function at dof / (dof + t²) in the tail (DLMF 8.17, Abramowitz & Stegun 26.7.1).
 */
export const studentCumulative = (t: number, dof: number): number => {
  if (!(dof > 0)) throw new RangeError(`${dof} degrees of freedom`);
  const whole = dof + t * t;
  const tail = 0.5 * regularisedBeta(dof / whole, (t * t) / whole, { a: dof / 2, b: 0.5 });
  return t < 0 ? tail : 1 - tail;
};

/**
 * The t below which Student's t falls with probability p: bisection for a bracket, Newton's steps inside it.
 * @throws RangeError when p is not strictly between 0 and 1 or dof is not positive.
 */
export const studentQuantile = (p: number, dof: number): number => {
  if (!(p > 0 && p < 1)) throw new RangeError(`${p} is no probability with a finite quantile`);
  if (p === 0.5) return 0;
  if (p < 0.5) return -studentQuantile(1 - p, dof);
  const upperTail = 1 - p;
  const excess = (t: number): number => studentCumulative(-t, dof) - upperTail;
  let low = 0;
  let high = Math.max(2, 2 * normalQuantile(p));
  while (excess(high) > 0) {
    low = high;
    high *= 2;
  }
  let t = (low + high) / 2;
  for (let step = 0; step < 200; step += 1) {
    const over = excess(t);
    if (over > 0) low = t;
    else high = t;
    const newton = t + over / studentDensity(t, dof);
    const next = newton > low && newton < high ? newton : (low + high) / 2;
    if (Math.abs(next - t) <= 4e-16 * t) return next;
    t = next;
  }
  return t;
};
