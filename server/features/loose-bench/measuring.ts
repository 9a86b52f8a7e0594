import { difference, type Print } from '#contracts/figures.ts';
import type { LooseGaugeStudy, LooseGaugeStudyFound, LooseWear, LooseWearFound } from '#contracts/loose-measuring.ts';
import { rangeRows, shareRows, varianceRows } from '#contracts/study-figures.ts';
import { type EngineRate, rateAmong, rateOf, ratesOf, rateWords } from '#domain/metrology/family-rates.ts';
import { gaugeStudyOf, type StudyFault } from '#domain/metrology/gauge-study.ts';
import { averageAndRangeSentence, studyFaultText, studyWords } from '#domain/metrology/gauge-study-words.ts';
import { type WearPoint, wearOf } from '#domain/metrology/wear.ts';
import type { QuantityKind } from '#domain/units/quantity.ts';
import { findUnitCode, unitOf } from '#domain/units/unit-table.ts';
import { quantityAt, quantityIf, refuse, unitAt } from './body.ts';

/** The kind that a body's figures are of, told by the unit it wants its answers in. */
function printOf(body: { readonly unit?: string | undefined; readonly decimals?: number | undefined }): {
  readonly print: Print;
  readonly kind: QuantityKind;
} {
  const text = body.unit ?? 'mm';
  const code = findUnitCode(text);
  const kind = code === undefined ? 'length' : unitOf(code).kind;
  return { print: { unit: unitAt(text, kind, '/unit'), decimals: body.decimals ?? 3 }, kind };
}

const printedIn = (print: Print) => (value: number) => {
  const { value: text, unit } = difference(value, print);
  return `${text} ${unit}`;
};

function studyPointer(fault: StudyFault, { readings }: LooseGaugeStudy): string {
  if (fault.reason === 'wrong-option') return `/${fault.option}`;
  if (fault.reason !== 'read-twice') return '/readings';
  const index = readings.findLastIndex(
    ({ part, person, trial }) => part === fault.part && person === fault.person && trial === fault.trial,
  );
  return `/readings/${index}`;
}

/** Repeatability and reproducibility of a gauge from readings in the body. */
export function looseGaugeStudy(body: LooseGaugeStudy): LooseGaugeStudyFound {
  const { print, kind } = printOf(body);
  const tolerance = quantityIf(body.tolerance, kind, '/tolerance');
  const readings = body.readings.map((reading, index) => ({
    ...reading,
    value: quantityAt(reading.value, kind, `/readings/${index}/value`),
  }));
  const study = gaugeStudyOf(readings, {
    ...(tolerance === undefined ? {} : { tolerance }),
    ...(body.poolingAlpha === undefined ? {} : { poolingAlpha: body.poolingAlpha }),
  });
  if (!study.ok) return refuse(studyPointer(study.fault, body), studyFaultText(study.fault));
  return {
    parts: study.parts,
    people: study.people,
    trials: study.trials,
    method: 'analysis of variance',
    anova: varianceRows(study, print.unit),
    pooled: study.anova.pooled,
    poolingAlpha: study.anova.poolingAlpha,
    shares: shareRows(study).map(({ source, sd, contribution, ofStudyVariation, ofTolerance }) => ({
      source,
      standardDeviation: difference(sd, print),
      ofVariance: contribution,
      ofStudyVariation,
      ofTolerance,
    })),
    distinctCategories: study.distinct?.categories ?? null,
    repeatability: {
      standardDeviation: difference(study.repeatability.sd, print),
      degreesOfFreedom: study.repeatability.degreesOfFreedom ?? 0,
    },
    standing: study.standing,
    words: studyWords(study, printedIn(print)),
    averageAndRange: {
      shares: rangeRows(study).map(({ sd, ...row }) => ({ ...row, standardDeviation: difference(sd, print) })),
      meanRange: difference(study.averageAndRange.meanRange, print),
      distinctCategories: study.averageAndRange.distinct?.categories ?? null,
      words: averageAndRangeSentence(study),
    },
  };
}

function pointsOf(points: LooseWear['points'], kind: QuantityKind, pointer: string): readonly WearPoint[] {
  return points.map(({ hours, value }, index) => ({
    hours,
    value: quantityAt(value, kind, `${pointer}/${index}/value`),
  }));
}

function familyOf(own: EngineRate, body: LooseWear, of: ReturnType<typeof printOf>): LooseWearFound['family'] {
  const { print, kind } = of;
  const engines = (body.family ?? []).map(
    ({ engine, points }, index) => [engine, pointsOf(points, kind, `/family/${index}/points`)] as const,
  );
  const found = rateAmong(own, ratesOf(new Map(engines)), body.limit.side);
  if (found === undefined) return null;
  const perHundred = (perHour: number) => difference(100 * perHour, print);
  const { family, quantile, standing } = found;
  return {
    engines: family.rates.length,
    median: perHundred(family.median),
    lowerQuartile: perHundred(family.quartiles.lower),
    upperQuartile: perHundred(family.quartiles.upper),
    quantile,
    standing,
    words: rateWords(found, (perHour) => printedIn(print)(100 * perHour)),
  };
}

/** Wear of one part, hours left to a limit, and its place among its family. */
export function looseWear(body: LooseWear): LooseWearFound {
  const of = printOf(body);
  const { print, kind } = of;
  const limit = { side: body.limit.side, value: quantityAt(body.limit.value, kind, '/limit/value') };
  const wear = wearOf(pointsOf(body.points, kind, '/points'), limit, body.level);
  if (!wear.ok) {
    return refuse(
      '/points',
      wear.reason === 'fewer-than-three-points'
        ? 'A line is never drawn through fewer than three points.'
        : 'All points are of the same hour: there is no line through them.',
    );
  }
  const { line, hoursLeft } = wear;
  return {
    perHundredHours: difference(100 * line.slope, print),
    residualStandardDeviation: difference(line.residualSd, print),
    rSquared: line.rSquared,
    hoursLeft: { ...hoursLeft },
    // No engine of the body has an empty code, so the part itself is none of them.
    family: familyOf(rateOf('', line), body, of),
  };
}
