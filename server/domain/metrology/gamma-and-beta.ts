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
export const regularisedBeta = (
  x: number,
  complement: number,
  shape: { readonly a: number; readonly b: number },
): number => {
  const { a, b } = shape;
  if (x <= 0) return 0;
  if (complement <= 0) return 1;
  const front = Math.exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log(complement));
  return x < (a + 1) / (a + b + 2)
    ? (front * betaFraction(x, a, b)) / a
    : 1 - (front * betaFraction(complement, b, a)) / b;
};
