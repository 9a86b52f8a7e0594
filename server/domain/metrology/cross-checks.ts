import { agreementOf, type OwnResult } from './blunders.ts';
import { coverageFactor } from './guard-band.ts';
import type { Instrument, IsoDate } from './instrument.ts';

/** A ring end gap as a feeler showed it, nanometres; high null: the thickest blade went in. */
export type GapInterval = { readonly low: number; readonly high: number | null };

export type TaperCheck = {
  readonly agrees: boolean;
  /** Taper that the two gaps imply, nanometres; an end null: no end. */
  readonly impliedLow: number | null;
  readonly impliedHigh: number | null;
};

const expandedOf = ({ standard, degreesOfFreedom }: OwnResult): number =>
  coverageFactor(degreesOfFreedom ?? null) * standard;

/** Whether a result ± U meets an interval. */
const meets = (found: OwnResult, low: number | null, high: number | null): boolean => {
  const reach = expandedOf(found);
  return (low === null || found.value + reach >= low) && (high === null || found.value - reach <= high);
};

const apart = (
  a: GapInterval,
  b: GapInterval,
  by: number,
): { readonly low: number | null; readonly high: number | null } => ({
  low: b.high === null ? null : (a.low - b.high) / by,
  high: a.high === null ? null : (a.high - b.low) / by,
});

/**
 * Ring gap at the top − ring gap at the bottom = π × taper: holds the taper of the bore gauge (nanometres, with its
 * standard uncertainty) against what the gaps imply. They agree when taper ± U meets the implied interval. Taper is
 * positive when the bore is wider at the top. Source: plain geometry, circumference = π × diameter.
 */
export const gapsAgainstTaper = (
  gaps: { readonly top: GapInterval; readonly bottom: GapInterval },
  taper: OwnResult,
): TaperCheck => {
  const { low, high } = apart(gaps.top, gaps.bottom, Math.PI);
  return { agrees: meets(taper, low, high), impliedLow: low, impliedHigh: high };
};

/**
 * Ring end gap to expect of the same ring after the bore has grown by so many nanometres (honing, boring, wear): each
 * end moves by π × growth. Nanometres, not rounded. Source: plain geometry.
 */
export const gapAfterGrowth = (gap: GapInterval, growth: number): GapInterval => ({
  low: gap.low + Math.PI * growth,
  high: gap.high === null ? null : gap.high + Math.PI * growth,
});

type Implied = {
  readonly agrees: boolean;
  /** What the one measurement says that the other should be; an end null: no end. */
  readonly implied: { readonly low: number | null; readonly high: number | null };
  /** What the other is. */
  readonly found: OwnResult;
};

/** One measurement held against another, an instrument against what it is used for, or work against the part. */
export type BenchCheck =
  | (Implied & { readonly code: 'gap-against-taper' | 'gap-change-against-bore' | 'clearance-against-sizes' })
  | {
      readonly code: 'two-people';
      readonly agrees: boolean;
      readonly people: readonly [string, string];
      readonly difference: number;
      readonly normalisedError: number | null;
    }
  | {
      readonly code: 'instrument-out-of-date';
      readonly agrees: false;
      readonly instrument: string;
      readonly due: IsoDate;
    }
  | {
      readonly code: 'instrument-out-of-range';
      readonly agrees: false;
      readonly instrument: string;
      readonly value: number;
      readonly low: number;
      readonly high: number;
    }
  | {
      readonly code: 'instrument-too-coarse';
      readonly agrees: false;
      readonly instrument: string;
      readonly expanded: number;
      readonly tolerance: number;
    }
  | { readonly code: 'plated-surface'; readonly agrees: false; readonly work: 'bore' | 'hone' };

/** gapsAgainstTaper as a check with its numbers. */
export const taperCheck = (
  gaps: { readonly top: GapInterval; readonly bottom: GapInterval },
  taper: OwnResult,
): BenchCheck => {
  const { agrees, impliedLow, impliedHigh } = gapsAgainstTaper(gaps, taper);
  return { code: 'gap-against-taper', agrees, implied: { low: impliedLow, high: impliedHigh }, found: taper };
};

/**
 * The same ring squared in the bore before and after work: its gap has opened by π × what the bore gauge says that the
 * bore has grown. Nanometres. Source: plain geometry.
 */
export const growthCheck = (
  gaps: { readonly before: GapInterval; readonly after: GapInterval },
  growth: OwnResult,
): BenchCheck => {
  const implied = apart(gaps.after, gaps.before, Math.PI);
  return { code: 'gap-change-against-bore', agrees: meets(growth, implied.low, implied.high), implied, found: growth };
};

/**
 * A clearance taken by feeler against bore − piston by two gauges: the difference ± U must meet the gap. Nanometres;
 * both gauges independent. Source: plain geometry.
 */
export const clearanceCheck = (
  clearance: GapInterval,
  sizes: { readonly bore: OwnResult; readonly piston: OwnResult },
): BenchCheck => {
  const { bore, piston } = sizes;
  const reach = Math.hypot(expandedOf(bore), expandedOf(piston));
  const found = { value: bore.value - piston.value, standard: reach / 2 };
  const implied = { low: clearance.low, high: clearance.high };
  return { code: 'clearance-against-sizes', agrees: meets(found, implied.low, implied.high), implied, found };
};

/** Two people's results of one dimension; see agreementOf. */
export const peopleCheck = (
  one: OwnResult & { readonly name: string },
  other: OwnResult & { readonly name: string },
): BenchCheck => {
  const { agree, difference, normalisedError } = agreementOf(one, other);
  return { code: 'two-people', agrees: agree, people: [one.name, other.name], difference, normalisedError };
};

/**
 * What is wrong with an instrument for what it is about to be used on: out of date, out of its range, or so coarse that
 * even at best U = 2·√(resolution²/12 + MPE²/3) is more than a quarter of the tolerance [common practice, no source].
 * Base units; nothing wrong: empty.
 */
export const instrumentChecks = (
  instrument: Instrument,
  use: { readonly on: IsoDate; readonly value?: number; readonly tolerance?: number },
): readonly BenchCheck[] => {
  const { code, calibrationDue, range, resolution, mpe, blades } = instrument;
  const { on, value, tolerance } = use;
  const checks: BenchCheck[] = [];
  if (calibrationDue !== undefined && on > calibrationDue) {
    checks.push({ code: 'instrument-out-of-date', agrees: false, instrument: code, due: calibrationDue });
  }
  if (range !== undefined && value !== undefined && (value < range.low || value > range.high)) {
    checks.push({
      code: 'instrument-out-of-range',
      agrees: false,
      instrument: code,
      value,
      low: range.low,
      high: range.high,
    });
  }
  const expanded = 2 * Math.hypot(resolution / Math.sqrt(12), mpe / Math.sqrt(3));
  if (blades === undefined && tolerance !== undefined && expanded > tolerance / 4) {
    checks.push({ code: 'instrument-too-coarse', agrees: false, instrument: code, expanded, tolerance });
  }
  return checks;
};

/** A plated surface that is about to be bored or stone-honed to size [common practice, no source]; else undefined. */
export const platedCheck = (plated: boolean, work: string): BenchCheck | undefined =>
  plated && (work === 'bore' || work === 'hone') ? { code: 'plated-surface', agrees: false, work } : undefined;
