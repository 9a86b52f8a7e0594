import type { Side } from './finding.ts';
import { mean } from './sample-statistics.ts';
import { fitStraightLine, type StraightLine } from './straight-line.ts';
import type { WearPoint } from './wear.ts';

/** Wear of one engine's fitted part, base units an hour, with the standard error of the slope. */
export type EngineRate = {
  readonly engine: string;
  readonly rate: number;
  readonly error: number;
  readonly points: number;
};

export type FamilyRates = {
  /** Slowest first. */
  readonly rates: readonly EngineRate[];
  readonly median: number;
  readonly quartiles: { readonly lower: number; readonly upper: number };
  readonly mean: number;
};

/** Where one engine's rate sits among the others of its family. */
export type RateStanding = {
  readonly own: EngineRate;
  readonly family: FamilyRates;
  /** Share of the others that wear more slowly, ties counted half. */
  readonly quantile: number;
  /**
   * usual: between the quartiles, or its own error reaches them; fast, slow: outside them even so; odd: further out
   * than one and a half times what lies between the quartiles (Tukey's fence).
   */
  readonly standing: 'slow' | 'usual' | 'fast' | 'odd';
};

/** Fewer others than this say nothing of a family [common practice, no source]. */
export const fewestOthers = 4;

/**
 * A quantile of values in ascending order, by linear interpolation between order statistics (definition 7 of Hyndman &
 * Fan 1996). @throws RangeError on no values or a share outside 0 to 1.
 */
export const quantileOf = (ascending: readonly number[], share: number): number => {
  if (ascending.length === 0 || !(share >= 0 && share <= 1))
    throw new RangeError(`Quantile ${share} of ${ascending.length}`);
  const place = share * (ascending.length - 1);
  const below = ascending[Math.floor(place)] ?? Number.NaN;
  const above = ascending[Math.ceil(place)] ?? below;
  return below + (place - Math.floor(place)) * (above - below);
};

/** One engine's rate from its line. */
export const rateOf = (engine: string, { slope, slopeError, count }: StraightLine): EngineRate => ({
  engine,
  rate: slope,
  error: slopeError,
  points: count,
});

/** Rates of all engines with a line; those with fewer than three points, or all at one hour, have none. */
export const ratesOf = (engines: ReadonlyMap<string, readonly WearPoint[]>): readonly EngineRate[] =>
  [...engines].flatMap(([engine, points]) => {
    const fit = fitStraightLine(points.map(({ hours: x, value: y }) => ({ x, y })));
    return fit.ok ? [rateOf(engine, fit.line)] : [];
  });

/** The side that most of a family wears towards: a piston gets smaller where a bore gets bigger. None: upper. */
export const sideOfWear = (rates: readonly EngineRate[]): Side =>
  rates.length > 0 && familyRates(rates).median < 0 ? 'lower' : 'upper';

/** Median and quartiles of a family's rates. @throws RangeError on none. */
export const familyRates = (rates: readonly EngineRate[]): FamilyRates => {
  const sorted = rates.toSorted((a, b) => a.rate - b.rate);
  const values = sorted.map(({ rate }) => rate);
  return {
    rates: sorted,
    median: quantileOf(values, 0.5),
    quartiles: { lower: quantileOf(values, 0.25), upper: quantileOf(values, 0.75) },
    mean: mean(values),
  };
};

const standingOf = (own: EngineRate, { quartiles }: FamilyRates, side: Side): RateStanding['standing'] => {
  const { lower, upper } = quartiles;
  const fence = 1.5 * (upper - lower);
  // Two standard errors are given to the engine: its own line may be as far off.
  const [least, most] = [own.rate - 2 * own.error, own.rate + 2 * own.error];
  if (least > upper + fence || most < lower - fence) return 'odd';
  if (least > upper) return side === 'upper' ? 'fast' : 'slow';
  if (most < lower) return side === 'upper' ? 'slow' : 'fast';
  return 'usual';
};

/**
 * Where an engine's wear rate sits among the others of its family; undefined when fewer than four others have a line.
 * `side` is the limit that the dimension wears towards: of two falling ones the lower rate is the faster wear.
 * Source: order statistics; Tukey's fences.
 */
export const rateAmong = (own: EngineRate, others: readonly EngineRate[], side: Side): RateStanding | undefined => {
  const rest = others.filter(({ engine }) => engine !== own.engine);
  if (rest.length < fewestOthers) return undefined;
  const family = familyRates(rest);
  const slower = rest.filter(({ rate }) => (side === 'upper' ? rate < own.rate : rate > own.rate)).length;
  const equal = rest.filter(({ rate }) => rate === own.rate).length;
  return { own, family, quantile: (slower + equal / 2) / rest.length, standing: standingOf(own, family, side) };
};

/** A standing in words; `perHundredHours` writes a rate given per hour. */
export const rateWords = (found: RateStanding, perHundredHours: (perHour: number) => string): string => {
  const { own, family, quantile, standing } = found;
  const among = `${perHundredHours(own.rate)} in 100 hours; ${family.rates.length} others of the family: median ${perHundredHours(family.median)}, the middle half ${perHundredHours(family.quartiles.lower)} to ${perHundredHours(family.quartiles.upper)}`;
  const place = `${Math.round(100 * quantile)} of 100 wear more slowly`;
  switch (standing) {
    case 'usual':
      return `Wears as its family does: ${among}.`;
    case 'slow':
      return `Wears more slowly than its family: ${among}.`;
    case 'fast':
      return `Wears faster than its family, ${place}: ${among}. Look at air filter, oil and fit.`;
    case 'odd':
      return `Wears unlike any of its family, ${place}: ${among}. Check the readings first, then the engine.`;
  }
};
