import { type AverageAndRange, averageAndRangeOf } from './average-and-range.ts';
import { fisherUpperTail } from './fisher-distribution.ts';
import { type StudyReading, type StudyTable, type TableFault, tableOf } from './gauge-study-table.ts';
import type { Repeatability } from './instrument.ts';
import { type VarianceLine, varianceLine, varianceRatio } from './one-way-anova.ts';
import { exactishSum, mean, sumOfSquaresAboutMean } from './sample-statistics.ts';

export type StudyOptions = {
  /** Width between the limits that the gauge shall serve; left out: judged by the spread of the parts alone. */
  readonly tolerance?: number;
  /**
   * The interaction of parts and people is pooled with the repeatability when its p-value is above this; the larger,
   * the less is pooled. Left out: 0.25.
   */
  readonly poolingAlpha?: number;
};

export type StudyFault = TableFault | { readonly reason: 'wrong-option'; readonly option: keyof StudyOptions };

/** F and its p-value against the line that an effect is held against. */
export type TestedLine = VarianceLine & { readonly f: number; readonly pValue: number };

export type StudyAnova = {
  readonly part: TestedLine;
  /** null with one person. */
  readonly person: TestedLine | null;
  readonly interaction: TestedLine | null;
  readonly repeatability: VarianceLine;
  readonly total: VarianceLine;
  /** True: the interaction was no more than scatter, and the components rest on both together. */
  readonly pooled: boolean;
  readonly poolingAlpha: number;
  /** The line that parts and people are held against: the interaction, or both pooled. */
  readonly residual: VarianceLine;
};

/** What part of the variation a source has; shares are of 1. */
export type StudyShare = {
  readonly variance: number;
  readonly sd: number;
  /** Variance over the total variance. */
  readonly contribution: number;
  /** Standard deviation over the total standard deviation. */
  readonly ofStudyVariation: number;
  /** 6 standard deviations over the tolerance; null without one. */
  readonly ofTolerance: number | null;
};

export type GaugeStudy =
  | {
      readonly ok: true;
      readonly parts: number;
      readonly people: number;
      readonly trials: number;
      readonly anova: StudyAnova;
      readonly shares: {
        readonly repeatability: StudyShare;
        /** People and their interaction with parts. */
        readonly reproducibility: StudyShare;
        readonly person: StudyShare;
        readonly interaction: StudyShare;
        /** Repeatability and reproducibility together: the gauge as the shop uses it. */
        readonly gauge: StudyShare;
        readonly part: StudyShare;
        readonly total: StudyShare;
      };
      /** √2 · σ(part) / σ(gauge): how many sizes of part the gauge can tell apart, and cut to a whole number; null: no scatter. */
      readonly distinct: { readonly exact: number; readonly categories: number } | null;
      /** What the register keeps: standard deviation of one reading, and its degrees of freedom. */
      readonly repeatability: Repeatability;
      readonly standing: GaugeStanding;
      /** The same readings by the other method, to be set beside these; nothing rests on it. */
      readonly averageAndRange: AverageAndRange;
    }
  | { readonly ok: false; readonly fault: StudyFault };

/** By the gauge's share of the tolerance, else of the study variation: to 10 %, to 30 %, above [common practice, no source]. */
export type GaugeStanding = 'fit' | 'may do' | 'not fit';

const tested = (line: VarianceLine, against: VarianceLine): TestedLine => {
  const f = varianceRatio(line.meanSquare, against.meanSquare);
  const degrees = { above: line.degreesOfFreedom, below: against.degreesOfFreedom };
  return { ...line, f, pValue: fisherUpperTail(f, degrees) };
};

const anovaOf = ({ parts, people, trials, cells }: StudyTable, poolingAlpha: number): StudyAnova => {
  const [p, o, t] = [parts.length, people.length, trials.length];
  const cellMeans = cells.map((row) => row.map(mean));
  const partMeans = cellMeans.map(mean);
  const personMeans = people.map((_, person) => mean(cellMeans.map((row) => row[person] ?? 0)));
  const grand = mean(partMeans);
  const squares = (values: readonly number[]): number => exactishSum(values.map((value) => (value - grand) ** 2));
  const part = varianceLine(o * t * squares(partMeans), p - 1);
  const repeatability = varianceLine(exactishSum(cells.flat().map(sumOfSquaresAboutMean)), p * o * (t - 1));
  const total = varianceLine(sumOfSquaresAboutMean(cells.flat(2)), p * o * t - 1);
  const facts = { repeatability, total, poolingAlpha };
  if (o === 1) {
    const residual = repeatability;
    return { ...facts, part: tested(part, residual), person: null, interaction: null, pooled: false, residual };
  }
  const person = varianceLine(p * t * squares(personMeans), o - 1);
  const left = cellMeans.flatMap((row, i) =>
    row.map((cell, j) => (cell - (partMeans[i] ?? 0) - (personMeans[j] ?? 0) + grand) ** 2),
  );
  const interaction = tested(varianceLine(t * exactishSum(left), (p - 1) * (o - 1)), repeatability);
  const pooled = interaction.pValue > poolingAlpha;
  const residual = pooled
    ? varianceLine(
        interaction.sumOfSquares + repeatability.sumOfSquares,
        interaction.degreesOfFreedom + repeatability.degreesOfFreedom,
      )
    : interaction;
  return { ...facts, part: tested(part, residual), person: tested(person, residual), interaction, pooled, residual };
};

type Components = Record<'repeatability' | 'person' | 'interaction' | 'part', number>;

/** Expected mean squares solved for the variances; one that comes out below nothing is nothing. */
const componentsOf = (anova: StudyAnova, { parts, people, trials }: StudyTable): Components => {
  const { part, person, interaction, repeatability, residual, pooled } = anova;
  const above = (meanSquare: number, below: number, count: number): number => Math.max(0, (meanSquare - below) / count);
  const t = trials.length;
  return {
    repeatability: pooled ? residual.meanSquare : repeatability.meanSquare,
    part: above(part.meanSquare, residual.meanSquare, people.length * t),
    person: person === null ? 0 : above(person.meanSquare, residual.meanSquare, parts.length * t),
    interaction: interaction === null || pooled ? 0 : above(interaction.meanSquare, repeatability.meanSquare, t),
  };
};

const standingOf = ({ ofStudyVariation, ofTolerance }: StudyShare): GaugeStanding => {
  // The parts at hand may have been much alike; the tolerance is what the gauge shall serve.
  const share = ofTolerance ?? ofStudyVariation;
  if (share <= 0.1) return 'fit';
  return share <= 0.3 ? 'may do' : 'not fit';
};

/**
 * Gauge repeatability and reproducibility by the ANOVA method: parts × people × trials, each read once in every
 * combination; the interaction of parts and people is pooled with the repeatability where it isn't significant. One
 * person: repeatability alone. Study variation is 6 standard deviations. Any unit. Errors: fewer than two parts or
 * trials, a combination not read, read twice or no number, an option out of range. Sources: balanced two-way crossed
 * analysis with random effects (NIST/SEMATECH e-Handbook 3.2.3.3; AIAG measurement systems analysis [from memory]).
 */
export const gaugeStudyOf = (readings: readonly StudyReading[], options: StudyOptions = {}): GaugeStudy => {
  const { tolerance, poolingAlpha = 0.25 } = options;
  const wrong = (option: keyof StudyOptions): GaugeStudy => ({ ok: false, fault: { reason: 'wrong-option', option } });
  if (tolerance !== undefined && !(Number.isFinite(tolerance) && tolerance > 0)) return wrong('tolerance');
  if (!(poolingAlpha >= 0 && poolingAlpha <= 1)) return wrong('poolingAlpha');
  const built = tableOf(readings);
  if (!built.ok) return built;
  const { table } = built;
  const anova = anovaOf(table, poolingAlpha);
  const { repeatability, person, interaction, part } = componentsOf(anova, table);
  const gauge = repeatability + person + interaction;
  const total = gauge + part;
  const share = (variance: number): StudyShare => ({
    variance,
    sd: Math.sqrt(variance),
    contribution: total === 0 ? 0 : variance / total,
    ofStudyVariation: total === 0 ? 0 : Math.sqrt(variance / total),
    ofTolerance: tolerance === undefined ? null : (6 * Math.sqrt(variance)) / tolerance,
  });
  const exact = Math.sqrt(2 * varianceRatio(part, gauge));
  const shares = {
    repeatability: share(repeatability),
    reproducibility: share(person + interaction),
    person: share(person),
    interaction: share(interaction),
    gauge: share(gauge),
    part: share(part),
    total: share(total),
  };
  const degreesOfFreedom = (anova.pooled ? anova.residual : anova.repeatability).degreesOfFreedom;
  return {
    ok: true,
    parts: table.parts.length,
    people: table.people.length,
    trials: table.trials.length,
    anova,
    shares,
    distinct: gauge === 0 ? null : { exact, categories: Math.floor(exact + 1e-9) },
    repeatability: { sd: shares.repeatability.sd, degreesOfFreedom },
    standing: standingOf(shares.gauge),
    averageAndRange: averageAndRangeOf(table, tolerance),
  };
};
