import { regularisedBeta } from './gamma-and-beta.ts';

/** Degrees of freedom of the two mean squares of a ratio F = above / below. */
export type FisherDegrees = { readonly above: number; readonly below: number };

/**
 * Probability that Fisher's F is at least f by chance: I_x(ν₂/2, ν₁/2) at x = ν₂/(ν₂ + ν₁·f) (Abramowitz & Stegun
 * 26.6.2). 1 for f ≤ 0, 0 for an infinite f. @throws RangeError when a degree of freedom is not positive.
 */
export const fisherUpperTail = (f: number, { above, below }: FisherDegrees): number => {
  if (!(above > 0 && below > 0)) throw new RangeError(`${above} and ${below} degrees of freedom`);
  if (f <= 0) return 1;
  if (f === Number.POSITIVE_INFINITY) return 0;
  const whole = below + above * f;
  return regularisedBeta(below / whole, (above * f) / whole, { a: below / 2, b: above / 2 });
};
