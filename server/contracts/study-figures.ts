import type { RangeShare, RangeSource } from '#domain/metrology/average-and-range.ts';
import type { GaugeStudy, StudyShare } from '#domain/metrology/gauge-study.ts';
import { type UnitCode, unitOf } from '#domain/units/unit-table.ts';

type Study = GaugeStudy & { readonly ok: true };

/** Base units that make one of a unit, as a factor for squares and the like. */
const baseUnitsIn = (code: UnitCode): number => {
  const { numerator, denominator } = unitOf(code);
  return Number(numerator) / Number(denominator);
};

const finite = (value: number | undefined): number | null =>
  value === undefined || !Number.isFinite(value) ? null : value;

/** A study's analysis of variance, squares in the unit squared; lines that there are none of are left out. */
export function varianceRows({ anova }: Study, unit: UnitCode) {
  const { part, person, interaction, repeatability, total } = anova;
  const square = baseUnitsIn(unit) ** 2;
  return [
    { source: 'part' as const, line: part, tested: part },
    { source: 'person' as const, line: person, tested: person },
    { source: 'interaction' as const, line: interaction, tested: interaction },
    { source: 'repeatability' as const, line: repeatability, tested: null },
    { source: 'total' as const, line: total, tested: null },
  ].flatMap(({ source, line, tested }) =>
    line === null
      ? []
      : [
          {
            source,
            degreesOfFreedom: line.degreesOfFreedom,
            sumOfSquares: line.sumOfSquares / square,
            meanSquare: line.meanSquare / square,
            f: finite(tested?.f),
            pValue: tested === null ? null : tested.pValue,
          },
        ],
  );
}

type ShareSource = keyof Study['shares'];
const sources: readonly ShareSource[] = [
  'repeatability',
  'reproducibility',
  'person',
  'interaction',
  'gauge',
  'part',
  'total',
];

/** What each source has of the variation, from the finest to the whole. */
export const shareRows = ({ shares }: Study): readonly (StudyShare & { readonly source: ShareSource })[] =>
  sources.map((source) => ({ source, ...shares[source] }));

const rangeSources: readonly RangeSource[] = ['gauge', 'repeatability', 'reproducibility', 'part', 'total'];

/** The same by average and range; the gauge itself stands first. */
export const rangeRows = ({ averageAndRange }: Study): readonly (RangeShare & { readonly source: RangeSource })[] =>
  rangeSources.map((source) => ({ source, ...averageAndRange.shares[source] }));
