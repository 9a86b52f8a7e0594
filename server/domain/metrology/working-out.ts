import type { BoreRule, Method } from './dimension.ts';
import type { Refused } from './finding.ts';
import type { PositionValue } from './gathered-positions.ts';
import {
  type Interval,
  intervalDifference,
  intervalMagnitude,
  intervalMaximum,
  intervalMean,
  intervalMinimum,
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

const fits = (positions: readonly PositionValue[], method: Method): string | undefined => {
  const levels = groupedBy(positions, ({ position }) => position.level);
  const axes = groupedBy(positions, ({ position }) => position.axis);
  switch (method.type) {
    case 'single':
      return positions.length === 1 ? undefined : 'exactly one position';
    case 'range':
      return positions.length >= 2 ? undefined : 'at least two positions';
    case 'out-of-round':
    case 'taper': {
      const placed = positions.every(({ position }) => position.level !== undefined && position.axis !== undefined);
      const enough = method.type === 'taper' ? levels.size >= 2 : axes.size >= 2;
      const complete = positions.length === levels.size * axes.size;
      if (placed && enough && complete) return undefined;
      return method.type === 'taper'
        ? 'every axis at two levels or more, each position with a level and an axis'
        : 'two axes or more at every level, each position with a level and an axis';
    }
    case 'interval':
      return positions.every(({ source }) => source === undefined) ? undefined : 'feeler intervals';
    default:
      return undefined;
  }
};

const both = (quantity: Quantity, pickedFrom = 1, picks = 1): Outcome => ({
  ok: true,
  workedOut: { upper: quantity, lower: quantity, pickedFrom, picks },
});

/**
 * Works a result out of one dimension's positions by a method; base units, intervals carried through, nothing rounded.
 * Source: plain geometry; the two bore rules are the two that manuals use [common practice]. Refuses positions that don't fit the method. Not for
 * 'difference' (see workOutDifference) and 'felt'.
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
    case 'felt':
      return { ok: false, refusal: { reason: 'positions-do-not-fit', method: method.type, needed: 'another way' } };
  }
};

export type Operand = { readonly method: Method; readonly positions: readonly PositionValue[] };

const ends = ({ method, positions }: Operand): { readonly most: Quantity; readonly least: Quantity } => {
  if (method.type === 'mean') return { most: average(positions), least: average(positions) };
  const quantities = positions.map(asQuantity);
  return { most: largest(quantities), least: smallest(quantities) };
};

/**
 * Minuend − subtrahend of two dimensions' positions: the largest difference for the upper limit (largest minuend −
 * smallest subtrahend), the smallest for the lower. A dimension whose method is 'mean' enters by its mean.
 */
export const workOutDifference = (minuend: Operand, subtrahend: Operand): WorkedOut => {
  const above = ends(minuend);
  const below = ends(subtrahend);
  const pickedFrom = [minuend, subtrahend].map(({ method, positions }) =>
    method.type === 'mean' ? 1 : positions.length,
  );
  return {
    upper: difference(above.most, below.least),
    lower: difference(above.least, below.most),
    pickedFrom: Math.max(...pickedFrom),
    picks: 1,
  };
};
