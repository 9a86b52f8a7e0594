import { expectedLargest, normalCumulative, normalDensity } from './normal-distribution.ts';

/** Mean range of `count` independent standard normal values (d₂: 1.128 for two, 1.693 for three). Source: symmetry. */
export const expectedRange = (count: number): number => 2 * expectedLargest(count);

const width = 0.05;
const half = 8;
const grid = Array.from({ length: (2 * half) / width + 1 }, (_, index) => -half + index * width);

/** n (n − 1) ∫ φ(x) φ(x + r) (Φ(x + r) − Φ(x))ⁿ⁻² dx: the density of the range at r. */
const rangeDensity = (count: number, at: (index: number) => number, shift: number): number =>
  count *
  (count - 1) *
  width *
  grid.reduce(
    (sum, x, index) =>
      sum + normalDensity(x) * normalDensity(x + shift * width) * (at(index + shift) - at(index)) ** (count - 2),
    0,
  );

const integrateSquare = (count: number): number => {
  const table = Array.from({ length: 2 * grid.length }, (_, index) => normalCumulative(-half + index * width));
  const at = (index: number): number => table[index] ?? 1;
  return grid.reduce((sum, _, shift) => sum + width * (shift * width) ** 2 * rangeDensity(count, at, shift), 0);
};

// A study asks for the same few counts each time that it is shown.
const integrated = new Map<number, number>();

/**
 * Mean square of the range of `count` independent standard normal values, by the trapezium rule over the density of
 * the range; from two values up. Its root is 1.414 for two, 1.912 for three. Source: order statistics of the normal
 * distribution, any textbook.
 */
export const expectedSquaredRange = (count: number): number => {
  const known = integrated.get(count) ?? integrateSquare(count);
  integrated.set(count, known);
  return known;
};

/**
 * What the mean of `ranges` ranges, each of `count` values, is divided by to tell their standard deviation (d₂*):
 * √(d₂² + (E[R²] − d₂²) / ranges). Source: the mean square of a mean of independent ranges.
 */
export const rangeDivisor = (count: number, ranges: number): number => {
  const mean = expectedRange(count);
  return Math.sqrt(mean ** 2 + (expectedSquaredRange(count) - mean ** 2) / ranges);
};
