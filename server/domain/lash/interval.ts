import { type Nanometres, nanometres } from '#domain/units/quantity.ts';

/**
 * A length known only by its bounds, [low, high): the thickest blade that went in, and the thinnest that did not.
 * `high` null: even the thickest blade went in. A length keyed as one number has low = high.
 */
export interface LengthInterval {
  readonly low: Nanometres;
  readonly high: Nanometres | null;
}

/** A range that a sheet allows; both ends belong to it. */
export interface AllowedRange {
  readonly low: Nanometres;
  readonly high: Nanometres;
}

/** How an interval stands to a range: wholly inside, partly, or not at all. */
export type RangeStanding = 'guaranteed' | 'possible' | 'out';

/** Whether a length of which only an interval is known lies in a range. */
export function standingIn(interval: LengthInterval, range: AllowedRange): RangeStanding {
  const { low, high } = interval;
  if (low >= range.low && high !== null && high <= range.high) return 'guaranteed';
  const reachesUp = high === null || high > range.low || (high === low && high === range.low);
  return low <= range.high && reachesUp ? 'possible' : 'out';
}

/**
 * Whether the middle of an interval lies in a range: of a length that is as likely in one part of its interval as in
 * another, the larger half of the chance then lies on the right side of each end. Ends may be further apart than the range.
 */
export const middleIn = ({ low, high }: LengthInterval, range: AllowedRange): boolean =>
  high !== null && low + high >= 2 * range.low && low + high <= 2 * range.high;

/** The interval moved by a length and widened by `spread` (≥ 0) at either end, all in nm. */
export function shifted(interval: LengthInterval, by: number, spread: number): LengthInterval {
  return {
    low: nanometres(interval.low + by - spread),
    high: interval.high === null ? null : nanometres(interval.high + by + spread),
  };
}
