/** Drawn values counted into bins of one width from `low` to `high`; what lies further out is counted beside them. */
export type Histogram = {
  readonly low: number;
  readonly high: number;
  readonly counts: readonly number[];
  readonly below: number;
  readonly above: number;
};

const bins = 40;
/** So much of the values is left out at each end, else a few far ones would press all others into one bin. */
const leftOut = 0.0005;

/** Counts ascending values into bins. Values that are all alike fill one bin of no width. */
export const histogramOf = (sorted: Float64Array): Histogram => {
  const last = sorted.length - 1;
  const low = sorted[Math.floor(leftOut * last)] ?? Number.NaN;
  const high = sorted[last - Math.floor(leftOut * last)] ?? Number.NaN;
  if (!(low < high)) return { low, high, counts: [sorted.length], below: 0, above: 0 };
  const counts = new Array<number>(bins).fill(0);
  let [below, above] = [0, 0];
  for (const value of sorted) {
    if (value < low) below += 1;
    else if (value > high) above += 1;
    else {
      const bin = Math.min(bins - 1, Math.floor(((value - low) / (high - low)) * bins));
      counts[bin] = (counts[bin] ?? 0) + 1;
    }
  }
  return { low, high, counts, below, above };
};
