import type { BoreRule, Method, Position } from './dimension.ts';
import type { Refused } from './finding.ts';
import type { PositionValue } from './gathered-positions.ts';
import {
  type Interval,
  intervalDifference,
  intervalMagnitude,
  intervalMaximum,
  intervalMean,
  intervalMinimum,
  intervalQuotient,
  pointInterval,
} from './interval.ts';

/** One position's part in a result: result = Σ coefficient × position's value. */
export type Term = { readonly coefficient: number; readonly at: PositionValue };

/** A quantity worked out: where it lies, and which positions' errors it carries. */
export type Quantity = { readonly interval: Interval; readonly terms: readonly Term[] };

/** What is held against the upper limit and what against the lower: the same, but for a clearance or several gaps. */
export type WorkedOut = {
  readonly upper: Quantity;
  readonly lower: Quantity;
  /** How many positions an extreme was picked from (1: none picked), and how many such picks at most add up. */
  readonly pickedFrom: number;
  readonly picks: number;
};

type Outcome = { readonly ok: true; readonly workedOut: WorkedOut } | Refused;

const asQuantity = (at: PositionValue): Quantity => ({ interval: at.interval, terms: [{ coefficient: 1, at }] });

const largest = (quantities: readonly Quantity[]): Quantity => {
  const chosen = quantities.reduce((held, next) =>
    next.interval.high > held.interval.high ||
    (next.interval.high === held.interval.high && next.interval.low > held.interval.low)
      ? next
      : held,
  );
  return { interval: intervalMaximum(quantities.map(({ interval }) => interval)), terms: chosen.terms };
};

const smallest = (quantities: readonly Quantity[]): Quantity => {
  const chosen = quantities.reduce((held, next) => (next.interval.low < held.interval.low ? next : held));
  return { interval: intervalMinimum(quantities.map(({ interval }) => interval)), terms: chosen.terms };
};

const difference = (a: Quantity, b: Quantity): Quantity => ({
  interval: intervalDifference(a.interval, b.interval),
  terms: [...a.terms, ...b.terms.map(({ coefficient, at }) => ({ coefficient: -coefficient, at }))],
});

const magnitude = (a: Quantity): Quantity => ({ ...a, interval: intervalMagnitude(a.interval) });

const spread = (quantities: readonly Quantity[]): Quantity => {
  const whole = difference(largest(quantities), smallest(quantities));
  return { ...whole, interval: { ...whole.interval, low: Math.max(0, whole.interval.low) } };
};

const average = (positions: readonly PositionValue[]): Quantity => ({
  interval: intervalMean(positions.map(({ interval }) => interval)),
  terms: positions.map((at) => ({ coefficient: 1 / positions.length, at })),
});

const groupedBy = <K>(
  positions: readonly PositionValue[],
  key: (position: PositionValue) => K,
): ReadonlyMap<K, readonly Quantity[]> => {
  const groups = new Map<K, Quantity[]>();
  for (const position of positions) {
    const group = groups.get(key(position));
    if (group === undefined) groups.set(key(position), [asQuantity(position)]);
    else group.push(asQuantity(position));
  }
  return groups;
};

const levelsOf = (positions: readonly PositionValue[]): readonly (readonly Quantity[])[] =>
  [...groupedBy(positions, ({ position }) => position.level ?? 0)]
    .sort(([a], [b]) => a - b)
    .map(([, quantities]) => quantities);

const axesOf = (positions: readonly PositionValue[]): readonly (readonly Quantity[])[] => [
  ...groupedBy(positions, ({ position }) => position.axis ?? '').values(),
];

/** Out-of-round of a bore: by level, the worst difference between axes; by extremes, max of one axis − min of another. */
const outOfRound = (positions: readonly PositionValue[], rule: BoreRule): Quantity => {
  if (rule === 'per-level') return largest(levelsOf(positions).map(spread));
  const axes = axesOf(positions);
  const ways = axes.flatMap((one) =>
    axes.filter((other) => other !== one).map((other) => difference(largest(one), smallest(other))),
  );
  const widest = largest(ways);
  return { ...widest, interval: { ...widest.interval, low: Math.max(0, widest.interval.low) } };
};

/** Taper of a bore: by level, the worst max − min along an axis; by extremes, max of the top pair − max of the bottom. */
const taper = (positions: readonly PositionValue[], rule: BoreRule): Quantity => {
  if (rule === 'per-level') return largest(axesOf(positions).map(spread));
  const levels = levelsOf(positions);
  const top = levels[0] ?? [];
  const bottom = levels[levels.length - 1] ?? [];
  return magnitude(difference(largest(top), largest(bottom)));
};

/**
 * What positions a method needs, in words, when these are not they; undefined: they fit. A sheet's positions and those
 * that were read are held to the same.
 */
export const positionsNeeded = (positions: readonly Position[], method: Method): string | undefined => {
  const levels = new Set(positions.map(({ level }) => level));
  const axes = new Set(positions.map(({ axis }) => axis));
  switch (method.type) {
    case 'single':
      return positions.length === 1 ? undefined : 'exactly one position';
    case 'range':
      return positions.length >= 2 ? undefined : 'at least two positions';
    case 'out-of-round':
    case 'taper': {
      const placed = positions.every(({ level, axis }) => level !== undefined && axis !== undefined);
      const places = new Set(positions.map(({ level, axis }) => JSON.stringify([level, axis])));
      const enough = method.type === 'taper' ? levels.size >= 2 : axes.size >= 2;
      const complete = places.size === positions.length && positions.length === levels.size * axes.size;
      if (placed && enough && complete) return undefined;
      return method.type === 'taper'
        ? 'every axis at two levels or more, each position with a level and an axis'
        : 'two axes or more at every level, each position with a level and an axis';
    }
    default:
      return undefined;
  }
};

const fits = (positions: readonly PositionValue[], method: Method): string | undefined => {
  if (method.type === 'interval' && positions.some(({ source }) => source !== undefined)) return 'feeler intervals';
  return positionsNeeded(
    positions.map(({ position }) => position),
    method,
  );
};

const both = (quantity: Quantity, pickedFrom = 1, picks = 1): Outcome => ({
  ok: true,
  workedOut: { upper: quantity, lower: quantity, pickedFrom, picks },
});

/**
 * Works a result out of one dimension's positions by a method; base units, intervals carried through, nothing rounded.
 * Source: plain geometry; the two bore rules are the two that manuals use [common practice]. Refuses positions that don't fit the method. Not for
 * what works on other dimensions (workOutDifference, workOutRatio), 'stated' and 'felt'.
 */
export const workOut = (positions: readonly PositionValue[], method: Method): Outcome => {
  const needed = fits(positions, method);
  if (needed !== undefined) {
    return { ok: false, refusal: { reason: 'positions-do-not-fit', method: method.type, needed } };
  }
  const quantities = positions.map(asQuantity);
  switch (method.type) {
    case 'single':
      return both(smallest(quantities));
    case 'maximum':
    case 'size':
      return both(largest(quantities), positions.length);
    case 'minimum':
      return both(smallest(quantities), positions.length);
    case 'range':
      return both(spread(quantities), positions.length, 2);
    case 'mean':
      return both(average(positions));
    case 'out-of-round':
      return both(outOfRound(positions, method.rule), positions.length, 2);
    case 'taper':
      return both(taper(positions, method.rule), positions.length, 2);
    case 'interval':
      return {
        ok: true,
        workedOut: { upper: largest(quantities), lower: smallest(quantities), pickedFrom: 1, picks: 1 },
      };
    case 'difference':
    case 'ratio':
    case 'stated':
    case 'felt':
      return { ok: false, refusal: { reason: 'positions-do-not-fit', method: method.type, needed: 'another way' } };
  }
};

/** A figure that nothing was read for. */
export const statedFigure = (value: number): WorkedOut => {
  const quantity: Quantity = { interval: pointInterval(value), terms: [] };
  return { upper: quantity, lower: quantity, pickedFrom: 1, picks: 1 };
};

/**
 * What one dimension's positions bring to a difference or a ratio: the largest for one limit and the smallest for the
 * other, since the parts meet at every place; a mean by its mean; a range, an out-of-round or a taper as it comes out.
 */
export const workOutAsOperand = (positions: readonly PositionValue[], method: Method): Outcome => {
  switch (method.type) {
    case 'mean':
    case 'range':
    case 'out-of-round':
    case 'taper':
      return workOut(positions, method);
    default: {
      const outcome = workOut(positions, method);
      if (!outcome.ok) return outcome;
      const quantities = positions.map(asQuantity);
      return {
        ok: true,
        workedOut: {
          upper: largest(quantities),
          lower: smallest(quantities),
          pickedFrom: positions.length,
          picks: 1,
        },
      };
    }
  }
};

const together = (a: WorkedOut, b: WorkedOut): Pick<WorkedOut, 'pickedFrom' | 'picks'> => ({
  pickedFrom: Math.max(a.pickedFrom, b.pickedFrom),
  picks: Math.max(a.picks, b.picks),
});

/**
 * Minuend − subtrahend: the largest difference for the upper limit (largest minuend − smallest subtrahend), the
 * smallest for the lower.
 */
export const workOutDifference = (minuend: WorkedOut, subtrahend: WorkedOut): WorkedOut => ({
  upper: difference(minuend.upper, subtrahend.lower),
  lower: difference(minuend.lower, subtrahend.upper),
  ...together(minuend, subtrahend),
});

const middleOf = ({ low, high }: Interval): number => (Number.isFinite(high) ? (low + high) / 2 : low);

const sameReading = (a: PositionValue, b: PositionValue): boolean =>
  a.dimension === b.dimension && a.position.code === b.position.code;

const quotient = (above: Quantity, below: Quantity, scale: number): Quantity => {
  const [numerator, denominator] = [middleOf(above.interval), middleOf(below.interval)];
  const terms: { coefficient: number; readonly at: PositionValue }[] = above.terms.map(({ coefficient, at }) => ({
    coefficient: (coefficient * scale) / denominator,
    at,
  }));
  for (const { coefficient, at } of below.terms) {
    const weight = (-coefficient * scale * numerator) / denominator ** 2;
    // A reading above and below the line acts on both at once.
    const shared = terms.find((term) => sameReading(term.at, at));
    if (shared === undefined) terms.push({ coefficient: weight, at });
    else shared.coefficient += weight;
  }
  return { interval: intervalQuotient(above.interval, below.interval, scale), terms };
};

/**
 * scale · numerator / denominator, first order in the errors: the largest for the upper limit, the smallest for the
 * lower. undefined when the denominator may be nothing or less.
 */
export const workOutRatio = (numerator: WorkedOut, denominator: WorkedOut, scale: number): WorkedOut | undefined => {
  if (denominator.lower.interval.low <= 0) return undefined;
  // The smaller denominator makes a quotient larger, unless it is below nothing.
  const over = (above: Quantity, positive: Quantity, negative: Quantity): Quantity =>
    quotient(above, middleOf(above.interval) >= 0 ? positive : negative, scale);
  return {
    upper: over(numerator.upper, denominator.lower, denominator.upper),
    lower: over(numerator.lower, denominator.upper, denominator.lower),
    ...together(numerator, denominator),
  };
};
