/** A running sum that keeps what each addition loses (Neumaier's variant of Kahan's summation). */
export const exactishSum = (values: readonly number[]): number => {
  let sum = 0;
  let lost = 0;
  for (const value of values) {
    const next = sum + value;
    lost += Math.abs(sum) >= Math.abs(value) ? sum - next + value : value - next + sum;
    sum = next;
  }
  return sum + lost;
};

/**
 * Arithmetic mean. Deviations from the first value are summed with compensation, so that many nearly equal large
 * values lose nothing. @throws RangeError on no values.
 */
export const mean = (values: readonly number[]): number => {
  const first = values[0];
  if (first === undefined) throw new RangeError('The mean of nothing');
  if (values.length === 1) return first;
  return first + exactishSum(values.map((value) => value - first)) / values.length;
};

/** Sum of squares about the mean, by the two-pass formula with its correction term (Chan, Golub & LeVeque 1983). */
export const sumOfSquaresAboutMean = (values: readonly number[]): number => {
  const first = values[0];
  if (first === undefined) return 0;
  const shifted = values.map((value) => value - first);
  const centre = exactishSum(shifted) / values.length;
  const deviations = shifted.map((value) => value - centre);
  const leftOver = exactishSum(deviations);
  return exactishSum(deviations.map((deviation) => deviation * deviation)) - (leftOver * leftOver) / values.length;
};

/** Sample standard deviation (n − 1). @throws RangeError on fewer than two values. */
export const standardDeviation = (values: readonly number[]): number => {
  if (values.length < 2) throw new RangeError('A standard deviation needs two values');
  return Math.sqrt(Math.max(0, sumOfSquaresAboutMean(values)) / (values.length - 1));
};

export type PooledScatter = { readonly sd: number; readonly degreesOfFreedom: number };

/** Scatter within groups of repeats, pooled: √(Σ squares / Σ(n − 1)); undefined when no group has a repeat. */
export const pooledScatter = (groups: readonly (readonly number[])[]): PooledScatter | undefined => {
  const degreesOfFreedom = groups.reduce((total, group) => total + Math.max(0, group.length - 1), 0);
  if (degreesOfFreedom === 0) return undefined;
  const squares = exactishSum(groups.map(sumOfSquaresAboutMean));
  return { sd: Math.sqrt(Math.max(0, squares) / degreesOfFreedom), degreesOfFreedom };
};
