/**
 * Where a value lies, base units: low ≤ value ≤ high, or value < high when `highOpen` (a feeler that did not go in).
 * A point has low = high. high may be Infinity.
 */
export type Interval = { readonly low: number; readonly high: number; readonly highOpen: boolean };

/** Doubles within a millionth of a base unit of a whole number are that number: float noise never decides a verdict. */
export const snapped = (value: number): number => {
  const whole = Math.round(value);
  return Math.abs(value - whole) < 1e-6 ? whole : value;
};

export const pointInterval = (value: number): Interval => {
  const exact = snapped(value);
  return { low: exact, high: exact, highOpen: false };
};

/** The smallest interval that holds all of them. @throws RangeError on none. */
export const hull = (intervals: readonly Interval[]): Interval => {
  const first = intervals[0];
  if (first === undefined) throw new RangeError('The hull of nothing');
  return intervals.slice(1).reduce(
    (held, next) => ({
      low: Math.min(held.low, next.low),
      high: Math.max(held.high, next.high),
      highOpen:
        held.high === next.high ? held.highOpen && next.highOpen : (held.high > next.high ? held : next).highOpen,
    }),
    first,
  );
};

/** Where a − b lies. */
export const intervalDifference = (a: Interval, b: Interval): Interval => ({
  low: snapped(a.low - b.high),
  high: snapped(a.high - b.low),
  highOpen: a.highOpen,
});

/** Where scale · a / b lies, for b above nothing. @throws RangeError when b reaches nothing or below. */
export const intervalQuotient = (a: Interval, b: Interval, scale: number): Interval => {
  if (b.low <= 0) throw new RangeError('A quotient by what may be nothing');
  const by = (above: number, below: number): number =>
    Number.isFinite(above) ? snapped((scale * above) / below) : above;
  return {
    low: Math.min(by(a.low, b.low), by(a.low, b.high)),
    high: Math.max(by(a.high, b.low), by(a.high, b.high)),
    highOpen: a.highOpen,
  };
};

/** Where |a| lies. */
export const intervalMagnitude = (a: Interval): Interval => {
  if (a.low >= 0) return a;
  if (a.high <= 0) return { low: -a.high, high: -a.low, highOpen: false };
  return { low: 0, high: Math.max(-a.low, a.high), highOpen: a.high > -a.low && a.highOpen };
};

/** Where the mean of values in these intervals lies. @throws RangeError on none. */
export const intervalMean = (intervals: readonly Interval[]): Interval => {
  if (intervals.length === 0) throw new RangeError('The mean of nothing');
  return {
    low: snapped(intervals.reduce((sum, { low }) => sum + low, 0) / intervals.length),
    high: snapped(intervals.reduce((sum, { high }) => sum + high, 0) / intervals.length),
    highOpen: intervals.some(({ highOpen }) => highOpen),
  };
};

/** Where the largest of values in these intervals lies. @throws RangeError on none. */
export const intervalMaximum = (intervals: readonly Interval[]): Interval => {
  const whole = hull(intervals);
  return { ...whole, low: Math.max(...intervals.map(({ low }) => low)) };
};

/** Where the smallest of values in these intervals lies. @throws RangeError on none. */
export const intervalMinimum = (intervals: readonly Interval[]): Interval => {
  const high = Math.min(...intervals.map((interval) => interval.high));
  return {
    low: hull(intervals).low,
    high,
    highOpen: intervals.some((interval) => interval.high === high && interval.highOpen),
  };
};
