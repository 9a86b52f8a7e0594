import type { QuantityKind } from '#domain/units/quantity.ts';
import type { DecisionRule, MethodType } from './dimension.ts';

/** Raised whenever a formula here changes in a way that can change a finding. */
export const formulaVersion = 2;

export const verdicts = ['within standard', 'within service limit', 'past the limit', 'undecided'] as const;
export type Verdict = (typeof verdicts)[number];

/**
 * A worked-out value in base units, corrected but never rounded.
 * - point: one figure.
 * - interval: the true value lies in [low, high); high null: no upper end.
 * - span: the least and the greatest of a quantity that varies from place to place (a clearance); low is held against
 *   the lower limit, high against the upper. Each end is itself an interval when a feeler took part.
 * - felt: play felt by hand.
 */
export type FindingValue =
  | { readonly type: 'point'; readonly value: number }
  | { readonly type: 'interval'; readonly low: number; readonly high: number | null }
  | { readonly type: 'span'; readonly low: number; readonly high: number | null }
  | { readonly type: 'felt'; readonly present: boolean };

/** Who or what vouches for a line of a budget. */
export type BudgetSource =
  | 'instrument register'
  | 'check of the day'
  | 'gauge study'
  | 'these repeats'
  | 'spec sheet'
  | 'thermometer'
  | 'choice of positions';

/** In what the source itself is counted: base units of the dimension's kind, kelvin, or expansion per kelvin. */
export type BudgetUnit = 'base units' | 'K' | '1/K';

/** One line of an uncertainty budget: contribution = |sensitivity| × standard. */
export type BudgetLine = {
  readonly name: string;
  readonly formula: string;
  readonly source: BudgetSource;
  readonly distribution: 'rectangular' | 'normal' | 't';
  /** Standard uncertainty of the source itself, in `unit`. */
  readonly standard: number;
  readonly unit: BudgetUnit;
  /** Change of the result per unit of the source, all readings that share it taken together. */
  readonly sensitivity: number;
  /** Standard uncertainty that this source brings to the result, base units. */
  readonly contribution: number;
  /** null: taken as certain. */
  readonly degreesOfFreedom: number | null;
  /** How readings share this source, where there are several; null: there is one. */
  readonly correlation: string | null;
};

/** Standard uncertainty of a result, how it is made up, and its effective degrees of freedom (null: unlimited). */
export type Uncertainty = {
  readonly standard: number;
  readonly effectiveDegreesOfFreedom: number | null;
  readonly budget: readonly BudgetLine[];
};

export type Side = 'lower' | 'upper';

export type Warning =
  /** The largest (smallest) of several readings lies too far out by chance; `expectedExcess` at most, base units. */
  | { readonly code: 'biased-extreme'; readonly count: number; readonly expectedExcess: number | null }
  | { readonly code: 'too-coarse'; readonly expandedUncertainty: number; readonly tolerance: number }
  | { readonly code: 'out-of-calibration'; readonly instrument: string; readonly due: string }
  | { readonly code: 'outside-instrument-range'; readonly instrument: string; readonly position: string }
  | { readonly code: 'repeatability-unknown'; readonly instrument: string }
  | { readonly code: 'settings-differ'; readonly instrument: string }
  | {
      readonly code: 'not-corrected-to-20-degrees';
      readonly dimension: string;
      readonly missing: 'temperature' | 'part expansion' | 'instrument expansion';
    };

export type Refusal =
  | { readonly reason: 'unknown-dimension'; readonly dimension: string }
  | { readonly reason: 'missing-positions'; readonly dimension: string; readonly positions: readonly string[] }
  | { readonly reason: 'unknown-position'; readonly dimension: string; readonly position: string }
  | { readonly reason: 'repeated-twice'; readonly position: string; readonly repeat: number }
  | { readonly reason: 'instrument-not-named'; readonly position: string }
  | { readonly reason: 'unknown-instrument'; readonly instrument: string }
  | { readonly reason: 'instruments-mixed'; readonly position: string }
  | {
      readonly reason: 'mixed-kinds';
      readonly what: string;
      readonly expected: QuantityKind;
      readonly found: QuantityKind;
    }
  | { readonly reason: 'empty-interval'; readonly position: string }
  | { readonly reason: 'blade-not-in-set'; readonly position: string; readonly thickness: number }
  | { readonly reason: 'wrong-observation'; readonly position: string; readonly needed: string }
  | { readonly reason: 'positions-do-not-fit'; readonly method: MethodType; readonly needed: string }
  /** It has no readings of its own that another could be worked out from. */
  | { readonly reason: 'operand-is-derived'; readonly dimension: string }
  | { readonly reason: 'goes-in-circles'; readonly dimension: string; readonly through: readonly string[] }
  | { readonly reason: 'nested-too-deep'; readonly dimension: string; readonly most: number }
  | { readonly reason: 'denominator-not-positive'; readonly dimension: string }
  | { readonly reason: 'negative-length'; readonly position: string }
  | { readonly reason: 'not-a-number'; readonly position: string }
  | { readonly reason: 'limits-inconsistent'; readonly detail: string }
  | { readonly reason: 'no-limits'; readonly dimension: string };

/** What was worked out, and what it means against the limits. All figures in base units of `kind`. */
export type Finding = {
  readonly dimension: string;
  readonly kind: QuantityKind;
  readonly value: FindingValue;
  readonly uncertainty: Uncertainty;
  readonly rule: DecisionRule;
  /** What is added and taken away before a limit is met: whole base units, rounded up. */
  readonly guardBand: number;
  readonly verdict: Verdict;
  /** Room left to the nearer limit at worst; negative: past it. null: no end, or nothing measured. */
  readonly margin: number | null;
  /** The limit that `margin` is counted to. */
  readonly nearestLimit: { readonly side: Side; readonly value: number } | null;
  /** Probability of being past a limit; one figure for a point, its least and greatest for an interval. */
  readonly probabilityPast: { readonly low: number; readonly high: number };
  readonly warnings: readonly Warning[];
  readonly formulaVersion: number;
};

export type Refused = { readonly ok: false; readonly refusal: Refusal };

export type Evaluation = { readonly ok: true; readonly finding: Finding } | Refused;
