import type { StudyTable } from './gauge-study-table.ts';
import { expectedRange, rangeDivisor } from './normal-range.ts';
import { mean } from './sample-statistics.ts';

/** What part of the variation a source has by its range; shares are of 1. */
export type RangeShare = {
  readonly sd: number;
  readonly ofStudyVariation: number;
  /** 6 standard deviations over the tolerance; null without one. */
  readonly ofTolerance: number | null;
};

export type RangeSource = 'gauge' | 'repeatability' | 'reproducibility' | 'part' | 'total';

export type AverageAndRange = {
  readonly shares: Readonly<Record<RangeSource, RangeShare>>;
  /** Mean difference between the largest and the least reading of one part by one person. */
  readonly meanRange: number;
  /** √2 · σ(part) / σ(gauge), cut to a whole number too; null: no scatter. */
  readonly distinct: { readonly exact: number; readonly categories: number } | null;
};

const rangeOf = (values: readonly number[]): number => Math.max(...values) - Math.min(...values);

/** The manual's table gives the plain d₂ once more than 15 ranges are averaged. */
const manyRanges = 15;

/**
 * Gauge repeatability and reproducibility by the average-and-range method: every scatter from the difference between
 * the largest and the least of a few figures, over what that difference is on average for a standard deviation of 1.
 * What people and parts do to each other is not told apart. Any unit; the tolerance is a width. Source: AIAG
 * measurement systems analysis, the form of the method [from memory]; its constants K₁ to K₃ are worked out here.
 */
export const averageAndRangeOf = ({ cells }: StudyTable, tolerance?: number): AverageAndRange => {
  const [parts, people, trials] = [cells.length, cells[0]?.length ?? 0, cells[0]?.[0]?.length ?? 0];
  const ranges = cells.flat().map(rangeOf);
  const meanRange = mean(ranges);
  const divisor = ranges.length > manyRanges ? expectedRange(trials) : rangeDivisor(trials, ranges.length);
  const repeatability = meanRange / divisor;
  const personMeans = Array.from({ length: people }, (_, person) => mean(cells.flatMap((row) => row[person] ?? [])));
  const between = people < 2 ? 0 : rangeOf(personMeans) / rangeDivisor(people, 1);
  const reproducibility = Math.sqrt(Math.max(0, between ** 2 - repeatability ** 2 / (parts * trials)));
  const gauge = Math.hypot(repeatability, reproducibility);
  const part = rangeOf(cells.map((row) => mean(row.flat()))) / rangeDivisor(parts, 1);
  const total = Math.hypot(gauge, part);
  const share = (sd: number): RangeShare => ({
    sd,
    ofStudyVariation: total === 0 ? 0 : sd / total,
    ofTolerance: tolerance === undefined ? null : (6 * sd) / tolerance,
  });
  const exact = (Math.SQRT2 * part) / gauge;
  return {
    shares: {
      gauge: share(gauge),
      repeatability: share(repeatability),
      reproducibility: share(reproducibility),
      part: share(part),
      total: share(total),
    },
    meanRange,
    distinct: gauge === 0 ? null : { exact, categories: Math.floor(exact + 1e-9) },
  };
};
