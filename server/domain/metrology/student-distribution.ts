import { logGamma, regularisedBeta } from './gamma-and-beta.ts';
import { normalQuantile } from './normal-distribution.ts';

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
