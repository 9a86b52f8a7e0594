import { type Print, roundedDifference } from '#contracts/figures.ts';
import type { AverageAndRange, StudyResult } from '#contracts/gauge-studies.ts';
import { rangeRows, shareRows, varianceRows } from '#contracts/study-figures.ts';
import { type GaugeStudy, gaugeStudyOf } from '#domain/metrology/gauge-study.ts';
import { averageAndRangeSentence, studySentence } from '#domain/metrology/gauge-study-words.ts';
import { unitCodeOf } from '#domain/units/unit-table.ts';
import type { StandingReading, StudyRow } from './study-queries.ts';

export type WorkedStudy = GaugeStudy & { readonly ok: true };

export const wantedOf = ({ parts, trials, people }: StudyRow): number => parts * trials * people.length;

/** A study worked out; undefined until every combination was read. */
export function workedOut(row: StudyRow, readings: readonly StandingReading[]): WorkedStudy | undefined {
  if (readings.length < wantedOf(row)) return undefined;
  const worked = gaugeStudyOf(
    readings.map(({ part, personId: person, trial, value }) => ({
      part: String(part),
      person,
      trial: String(trial),
      value,
    })),
    row.tolerance === null ? {} : { tolerance: row.tolerance },
  );
  return worked.ok ? worked : undefined;
}

const sourceName = <Source extends string>(source: Source | 'interaction') =>
  source === 'interaction' ? ('part × person' as const) : source;

function averageAndRangeOn(worked: WorkedStudy, print: Print): AverageAndRange {
  const { meanRange, distinct } = worked.averageAndRange;
  return {
    shares: rangeRows(worked).map(({ sd, ...row }) => ({ ...row, standardDeviation: roundedDifference(sd, print) })),
    meanRange: roundedDifference(meanRange, print),
    distinctCategories: distinct?.categories ?? null,
    words: averageAndRangeSentence(worked),
  };
}

/** What a study found, in the gauge's unit; the gauge itself stands first. */
export function studyResultOf(worked: WorkedStudy, row: StudyRow): StudyResult {
  const print: Print = { unit: unitCodeOf(row.unit), decimals: row.decimals + 2 };
  const shares = shareRows(worked).toSorted((a, b) => Number(b.source === 'gauge') - Number(a.source === 'gauge'));
  return {
    method: 'analysis of variance',
    anova: varianceRows(worked, print.unit).map((line) => ({ ...line, source: sourceName(line.source) })),
    pooled: worked.anova.pooled,
    poolingAlpha: worked.anova.poolingAlpha,
    shares: shares.map(({ source, sd, contribution, ofStudyVariation, ofTolerance }) => ({
      source: sourceName(source),
      standardDeviation: roundedDifference(sd, print),
      contribution,
      ofStudyVariation,
      ofTolerance,
    })),
    distinctCategories: worked.distinct?.categories ?? null,
    repeatability: roundedDifference(worked.repeatability.sd, print),
    degreesOfFreedom: worked.repeatability.degreesOfFreedom ?? 0,
    standing: worked.standing,
    words: studySentence(worked),
    averageAndRange: averageAndRangeOn(worked, print),
  };
}
