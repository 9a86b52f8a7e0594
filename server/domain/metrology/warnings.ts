import type { DimensionDefinition } from './dimension.ts';
import type { Uncertainty, Warning } from './finding.ts';
import type { PositionValue } from './gathered-positions.ts';
import { coverageFactor } from './guard-band.ts';
import type { Instrument, IsoDate } from './instrument.ts';
import { expectedLargest } from './normal-distribution.ts';
import { repeatabilityOf } from './uncertainty.ts';
import { effectiveLimits } from './verdict.ts';
import type { WorkedOut } from './working-out.ts';

/** A result too coarse to judge by uses up more than this part of the tolerance [common practice, no source]. */
const coarsestShare = 1 / 4;

const instrumentsOf = (positions: readonly PositionValue[]): readonly Instrument[] => [
  ...new Map(positions.map(({ instrument }) => [instrument.code, instrument])).values(),
];

/**
 * How far, at most, the largest of several readings lies out by chance: E(largest of n) · s / √repeats, when all the
 * places are in truth equal; a range counts both its ends. Source: order statistics of the normal distribution.
 */
export const extremeBias = (
  workedOut: WorkedOut,
  positions: readonly PositionValue[],
): { readonly count: number; readonly expectedExcess: number | null } | undefined => {
  const { pickedFrom, picks, upper } = workedOut;
  const source = upper.terms.find(({ at }) => at.source !== undefined)?.at.source;
  if (pickedFrom < 2 || source === undefined) return undefined;
  const repeatability = repeatabilityOf(source.instrument, positions);
  return {
    count: pickedFrom,
    expectedExcess:
      repeatability === undefined
        ? null
        : (picks * expectedLargest(pickedFrom) * repeatability.sd) / Math.sqrt(source.repeats.length),
  };
};

/** The width within which the verdict must tell: between the limits, else of the standard, else up from nothing. */
export const toleranceOf = (dimension: DimensionDefinition): number | undefined => {
  const { low, high } = effectiveLimits(dimension.limits);
  if (low !== undefined && high !== undefined) return high - low;
  const { method } = dimension;
  const { standard } = dimension.limits;
  if (standard.low !== undefined && standard.high !== undefined) return standard.high - standard.low;
  const startsAtNothing = ['range', 'out-of-round', 'taper', 'interval'].includes(method.type);
  return startsAtNothing && high !== undefined && high > 0 ? high : undefined;
};

/** What the technician should know about a result that was worked out all the same. */
export const warningsOf = (
  dimension: DimensionDefinition,
  result: { readonly workedOut: WorkedOut; readonly uncertainty: Uncertainty },
  circumstances: { readonly positions: readonly PositionValue[]; readonly on: IsoDate },
): readonly Warning[] => {
  const { positions, on } = circumstances;
  const warnings: Warning[] = [];
  const bias = extremeBias(result.workedOut, positions);
  if (bias !== undefined) warnings.push({ code: 'biased-extreme', ...bias });
  const tolerance = toleranceOf(dimension);
  const { standard, effectiveDegreesOfFreedom } = result.uncertainty;
  const expandedUncertainty = coverageFactor(effectiveDegreesOfFreedom) * standard;
  if (tolerance !== undefined && expandedUncertainty > tolerance * coarsestShare) {
    warnings.push({ code: 'too-coarse', expandedUncertainty, tolerance });
  }
  for (const instrument of instrumentsOf(positions)) {
    const { code, calibrationDue } = instrument;
    if (calibrationDue !== undefined && on > calibrationDue) {
      warnings.push({ code: 'out-of-calibration', instrument: code, due: calibrationDue });
    }
    const figures = positions.some(({ source }) => source?.instrument.code === code);
    if (figures && repeatabilityOf(instrument, positions) === undefined) {
      warnings.push({ code: 'repeatability-unknown', instrument: code });
    }
    const settings = new Set(
      positions.flatMap(({ source }) => (source?.instrument.code === code ? [source.settingKey] : [])),
    );
    if (settings.size > 1) warnings.push({ code: 'settings-differ', instrument: code });
  }
  for (const { outsideRange, instrument, position } of positions) {
    if (outsideRange) {
      warnings.push({ code: 'outside-instrument-range', instrument: instrument.code, position: position.code });
    }
  }
  const uncorrected = new Map(
    positions.flatMap((at) => (at.source?.thermalMissing ? [[at.dimension, at.source.thermalMissing] as const] : [])),
  );
  for (const [code, missing] of uncorrected) {
    warnings.push({ code: 'not-corrected-to-20-degrees', dimension: code, missing });
  }
  return warnings;
};
