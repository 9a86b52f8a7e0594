/** Standard range and service limits in the dimension's unit; an absent end means none is given on that side. */
export type LimitFacts = {
  readonly standard?: readonly [low: number | null, high: number | null];
  readonly lower?: number | null;
  readonly upper?: number | null;
};

/** A value with its guard band, or what a feeler gauge tells: the thickest blade that goes, the thinnest that doesn't. */
export type StripReading =
  | { readonly kind: 'value'; readonly value: number; readonly guard: number }
  | { readonly kind: 'interval'; readonly goes: number | null; readonly doesNot: number | null };

export type LimitAxis = {
  readonly low: number;
  readonly high: number;
  /** A reading too wild for any useful scale is drawn as an arrow at this end. */
  readonly offScale: 'low' | 'high' | null;
};

/** Room beside the outermost mark, as a part of the span of all marks. */
const ROOM = 0.25;
/** How far, in spans, the axis follows a wild reading. */
const FOLLOW = 1.5;

const known = (values: readonly (number | null | undefined)[]): number[] =>
  values.filter((value): value is number => value !== null && value !== undefined && Number.isFinite(value));

/** A limit that is no number is no limit: it's neither drawn nor said. */
export function soundLimits(facts: LimitFacts): LimitFacts {
  const sound = (end: number | null | undefined) =>
    end !== null && end !== undefined && Number.isFinite(end) ? end : null;
  const limits = { lower: sound(facts.lower), upper: sound(facts.upper) };
  return facts.standard === undefined
    ? limits
    : { ...limits, standard: [sound(facts.standard[0]), sound(facts.standard[1])] };
}

function extent(reading: StripReading | null): number[] {
  if (reading === null) return [];
  if (reading.kind === 'interval') return known([reading.goes, reading.doesNot]);
  const guard = Number.isFinite(reading.guard) ? reading.guard : 0;
  return known([reading.value - guard, reading.value + guard]);
}

/** Without two marks to span, the scale is set by the one mark and the readings. */
function spanOf(marks: readonly number[], readings: readonly number[]): number {
  const span = Math.max(...marks) - Math.min(...marks);
  if (span > 0) return span;
  const all = [...marks, ...readings];
  const wider = Math.max(...all) - Math.min(...all);
  if (wider > 0 && Number.isFinite(wider * 4)) return wider;
  const size = Math.abs(all[0] ?? 0);
  return size > 0 ? size / 10 : 1;
}

/** A lone upper limit of a clearance or a runout is read from nought; one beside a large size isn't. */
function withZero(marks: readonly number[], readings: readonly number[]): readonly number[] {
  const [mark] = marks;
  if (marks.length !== 1 || mark === undefined || mark <= 0) return marks;
  return readings.every((value) => value >= 0 && value < mark * 0.9) ? [0, mark] : marks;
}

/**
 * Ends of a strip's axis: the span of standard and limits plus a quarter at each end, widened so that the reading and
 * the earlier ones have their place, but never so far that the limits shrink to a dot.
 */
export function limitAxis(facts: LimitFacts, reading: StripReading | null, earlier: readonly number[] = []): LimitAxis {
  const read = extent(reading);
  const given = known([...(facts.standard ?? []), facts.lower, facts.upper]);
  const marks = withZero(given.length > 0 ? given : read.length > 0 ? read : [0], read);
  const span = spanOf(marks, [...read, ...known(earlier)]);
  const [first, last] = [Math.min(...marks), Math.max(...marks)];
  const [lowest, highest] = [first - span * FOLLOW, last + span * FOLLOW];
  const placed = [...read, ...known(earlier)].filter((value) => value >= lowest && value <= highest);
  const nearZero = first >= 0 && read.every((value) => value >= 0);
  const low = Math.min(first - span * ROOM, ...placed.map((value) => value - span * 0.06));
  const high = Math.max(last + span * ROOM, ...placed.map((value) => value + span * 0.06));
  const offScale = read.some((value) => value > highest) ? 'high' : read.some((value) => value < lowest) ? 'low' : null;
  return { low: nearZero ? Math.max(low, 0) : low, high, offScale };
}
