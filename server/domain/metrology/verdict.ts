import type { Bounds, DecisionRule, Limits } from './dimension.ts';
import type { Refusal, Side, Verdict } from './finding.ts';
import { neededConformance } from './guard-band.ts';
import type { Interval } from './interval.ts';
import { normalCumulative } from './normal-distribution.ts';

/** What is judged: what lies against each limit, its standard uncertainty and the guard band, base units. */
export type Judged = {
  readonly upper: Interval;
  readonly lower: Interval;
  readonly standard: number;
  readonly guardBand: number;
  readonly rule: DecisionRule;
};

export type Judgement = {
  readonly verdict: Verdict;
  readonly margin: number | null;
  readonly nearestLimit: { readonly side: Side; readonly value: number } | null;
  readonly probabilityPast: { readonly low: number; readonly high: number };
};

type Edges = { readonly low: number | undefined; readonly high: number | undefined };

/** The bounds beyond which a part is worn out: on a side without a service limit the standard bound is the limit. */
export const effectiveLimits = (limits: Limits): Edges => ({
  low: limits.service.low ?? limits.standard.low,
  high: limits.service.high ?? limits.standard.high,
});

const crossed = ({ low, high }: Bounds): boolean => low !== undefined && high !== undefined && low > high;

/** Says what is wrong with limits that contradict themselves or bound nothing; undefined when they can be used. */
export const limitsFault = (limits: Limits, dimension: string): Refusal | undefined => {
  const { standard, service } = limits;
  const { low, high } = effectiveLimits(limits);
  if (low === undefined && high === undefined) return { reason: 'no-limits', dimension };
  const inconsistent = (detail: string): Refusal => ({ reason: 'limits-inconsistent', detail });
  if (crossed(standard)) return inconsistent('the standard range is upside down');
  if (crossed(service)) return inconsistent('the service limits are upside down');
  if (service.high !== undefined && standard.high !== undefined && service.high < standard.high) {
    return inconsistent('the upper service limit lies inside the standard range');
  }
  if (service.low !== undefined && standard.low !== undefined && service.low > standard.low) {
    return inconsistent('the lower service limit lies inside the standard range');
  }
  if (low !== undefined && high !== undefined && low > high) return inconsistent('no value can meet both limits');
  return undefined;
};

/** Chance that the true value is above `edge` when `value` was found with standard uncertainty `standard`. */
const chanceAbove = (value: number, edge: number, standard: number): number => {
  if (value === Number.POSITIVE_INFINITY) return 1;
  if (standard === 0) return value > edge ? 1 : 0;
  return normalCumulative((value - edge) / standard);
};

const chanceBelow = (interval: { readonly value: number; readonly open: boolean }, edge: number, u: number): number => {
  const { value, open } = interval;
  if (u === 0) return value < edge || (open && value === edge) ? 1 : 0;
  return normalCumulative((edge - value) / u);
};

const probabilityPast = (judged: Judged, { low, high }: Edges): { readonly low: number; readonly high: number } => {
  const { upper, lower, standard } = judged;
  const above = (value: number): number => (high === undefined ? 0 : chanceAbove(value, high, standard));
  const below = (value: number, open: boolean): number =>
    low === undefined ? 0 : chanceBelow({ value, open }, low, standard);
  const whole = (sum: number): number => Math.min(1, sum);
  const least = whole(above(upper.low) + below(lower.high, lower.highOpen));
  if (upper !== lower) return { low: least, high: whole(above(upper.high) + below(lower.low, false)) };
  // One quantity can't be past both limits at once: the worst is at one end or the other.
  const atLow = above(upper.low) + below(upper.low, false);
  const openTop = upper.highOpen && high !== undefined && standard === 0 && upper.high === high;
  const atHigh = (openTop ? 0 : above(upper.high)) + below(upper.high, upper.highOpen);
  return { low: least, high: Math.max(least, whole(Math.max(atLow, atHigh))) };
};

const lies = (judged: Judged, { low, high }: Edges): boolean =>
  (high === undefined || judged.upper.high + judged.guardBand <= high) &&
  (low === undefined || judged.lower.low - judged.guardBand >= low);

const liesPast = ({ upper, lower, guardBand }: Judged, { low, high }: Edges): boolean => {
  const highest = lower.high + guardBand;
  return (
    (high !== undefined && upper.low - guardBand > high) ||
    (low !== undefined && (highest < low || (lower.highOpen && highest === low)))
  );
};

const nearest = (judged: Judged, { low, high }: Edges): Pick<Judgement, 'margin' | 'nearestLimit'> => {
  const rooms: { readonly side: Side; readonly value: number; readonly room: number }[] = [];
  if (low !== undefined) rooms.push({ side: 'lower', value: low, room: judged.lower.low - low });
  if (high !== undefined) rooms.push({ side: 'upper', value: high, room: high - judged.upper.high });
  const [first, second] = rooms;
  if (first === undefined) return { margin: null, nearestLimit: null };
  const tighter = second !== undefined && second.room < first.room ? second : first;
  return {
    margin: Number.isFinite(tighter.room) ? tighter.room : null,
    nearestLimit: { side: tighter.side, value: tighter.value },
  };
};

/**
 * Holds a result against its limits. Past: even with the guard band in its favour it lies beyond a limit. Within:
 * with the guard band against it, it lies inside every limit, and with two limits the conformance probability is at
 * least 0.95 (guarded rules; what a smaller stated factor stands for). Within standard: value ± guard band also inside the standard range; being unsure between
 * new and worn makes it within the service limit. Else undecided. An interval counts by its worse end to be within, by
 * its better end to be past. Limits must have passed limitsFault. Sources: ISO 14253-1; JCGM 106 (normal distribution).
 */
export const judge = (judged: Judged, limits: Limits): Judgement => {
  const edges = effectiveLimits(limits);
  const { standard } = limits;
  const past = probabilityPast(judged, edges);
  const twoSided = edges.low !== undefined && edges.high !== undefined;
  const sureEnough = !twoSided || 1 - past.high >= neededConformance(judged.rule);
  const hasStandard = standard.low !== undefined || standard.high !== undefined;
  const verdict = (): Verdict => {
    if (liesPast(judged, edges)) return 'past the limit';
    if (!lies(judged, edges) || !sureEnough) return 'undecided';
    return hasStandard && lies(judged, { low: standard.low, high: standard.high })
      ? 'within standard'
      : 'within service limit';
  };
  return { verdict: verdict(), ...nearest(judged, edges), probabilityPast: past };
};
