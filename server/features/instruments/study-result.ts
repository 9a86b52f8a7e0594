import { type Print, roundedDifference } from '#contracts/figures.ts';
import type { StudyResult } from '#contracts/gauge-studies.ts';
import { type GaugeStudy, gaugeStudyOf, type StudyShare, type TestedLine } from '#domain/metrology/gauge-study.ts';
import type { VarianceLine } from '#domain/metrology/one-way-anova.ts';
import { unitCodeOf, unitOf } from '#domain/units/unit-table.ts';
import type { StandingReading, StudyRow } from './study-queries.ts';

type Worked = Extract<GaugeStudy, { ok: true }>;
type Source = StudyResult['anova'][number]['source'];

const finite = (value: number): number | null => (Number.isFinite(value) ? value : null);

function anovaOnWire({ anova }: Worked, perUnit: number): StudyResult['anova'] {
  const line = (source: Source, { degreesOfFreedom, sumOfSquares, meanSquare }: VarianceLine, test?: TestedLine) => ({
    source,
    degreesOfFreedom,
    sumOfSquares: sumOfSquares / perUnit ** 2,
    meanSquare: meanSquare / perUnit ** 2,
    f: test === undefined ? null : finite(test.f),
    pValue: test === undefined ? null : finite(test.pValue),
  });
  const { part, person, interaction, repeatability, total } = anova;
  return [
    line('part', part, part),
    ...(person === null ? [] : [line('person', person, person)]),
    ...(interaction === null ? [] : [line('part × person', interaction, interaction)]),
    line('repeatability', repeatability),
    line('total', total),
  ];
}

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;

function wordsOf(worked: Worked): string {
  const { gauge } = worked.shares;
  const of =
    gauge.ofTolerance === null
      ? `${percent(gauge.ofStudyVariation)} of the variation seen`
      : `${percent(gauge.ofTolerance)} of the tolerance`;
  const told = { fit: 'It is fit for this.', 'may do': 'It may do for this.', 'not fit': 'It is not fit for this.' };
  return `Gauge and people together take ${of}. ${told[worked.standing]}`;
}

/** What a study found; undefined until every combination was read. */
export function studyResultOf(row: StudyRow, readings: readonly StandingReading[]): StudyResult | undefined {
  if (readings.length < row.parts * row.trials * row.people.length) return undefined;
  const worked = gaugeStudyOf(
    readings.map(({ part, personId, trial, value }) => ({
      part: String(part),
      person: personId,
      trial: String(trial),
      value,
    })),
    row.tolerance === null ? {} : { tolerance: row.tolerance },
  );
  if (!worked.ok) return undefined;
  const print: Print = { unit: unitCodeOf(row.unit), decimals: row.decimals + 2 };
  const { numerator, denominator } = unitOf(print.unit);
  const share = (source: StudyResult['shares'][number]['source'], of: StudyShare) => ({
    source,
    standardDeviation: roundedDifference(of.sd, print),
    contribution: of.contribution,
    ofStudyVariation: of.ofStudyVariation,
    ofTolerance: of.ofTolerance,
  });
  const { shares } = worked;
  return {
    anova: anovaOnWire(worked, Number(numerator) / Number(denominator)),
    pooled: worked.anova.pooled,
    poolingAlpha: worked.anova.poolingAlpha,
    shares: [
      share('gauge', shares.gauge),
      share('repeatability', shares.repeatability),
      share('reproducibility', shares.reproducibility),
      share('person', shares.person),
      share('part × person', shares.interaction),
      share('part', shares.part),
      share('total', shares.total),
    ],
    distinctCategories: worked.distinct?.categories ?? null,
    repeatability: roundedDifference(worked.repeatability.sd, print),
    degreesOfFreedom: worked.repeatability.degreesOfFreedom ?? 0,
    standing: worked.standing,
    words: wordsOf(worked),
  };
}
