import type { BudgetLine, Uncertainty } from './finding.ts';
import type { PositionValue, ValueSource } from './gathered-positions.ts';
import type { Instrument } from './instrument.ts';
import { type PooledScatter, pooledScatter } from './sample-statistics.ts';
import type { Term } from './working-out.ts';

type SourcedTerm = { readonly coefficient: number; readonly dimension: string; readonly source: ValueSource };

const group = <T>(items: readonly T[], key: (item: T) => string): readonly (readonly T[])[] => {
  if (items.length === 1) return [items];
  const groups = new Map<string, T[]>();
  for (const item of items) {
    const held = groups.get(key(item));
    if (held === undefined) groups.set(key(item), [item]);
    else held.push(item);
  }
  return [...groups.values()];
};

/** Standard deviation of one reading of an instrument: its gauge study's, else the pooled scatter of its repeats here. */
export const repeatabilityOf = (
  instrument: Instrument,
  positions: readonly PositionValue[],
): { readonly sd: number; readonly degreesOfFreedom: number | null } | undefined => {
  const study = instrument.repeatability;
  if (study !== undefined) return { sd: study.sd, degreesOfFreedom: study.degreesOfFreedom ?? null };
  const scatter: PooledScatter | undefined = pooledScatter(
    positions.flatMap(({ source }) => (source?.instrument.code === instrument.code ? [source.repeats] : [])),
  );
  return scatter;
};

// Written out: a spread costs more than all the arithmetic, and a finding has a dozen lines.
const lineOf = (line: Omit<BudgetLine, 'contribution'>): BudgetLine => ({
  name: line.name,
  formula: line.formula,
  source: line.source,
  distribution: line.distribution,
  standard: line.standard,
  unit: line.unit,
  sensitivity: line.sensitivity,
  contribution: Math.abs(line.sensitivity) * line.standard,
  degreesOfFreedom: line.degreesOfFreedom,
  correlation: line.correlation,
});

/** Sum and root-sum-square of what the readings of one setting count for in the result. */
export type SettingWeights = { readonly common: number; readonly separate: number; readonly count: number };

export const settingWeights = (coefficients: readonly number[]): SettingWeights => ({
  common: Math.abs(coefficients.reduce((sum, coefficient) => sum + coefficient, 0)),
  separate: Math.hypot(...coefficients),
  count: coefficients.length,
});

/** The error of a gauge over a short travel, as a standard uncertainty. */
const localError = ({ localUncertainty, mpe }: Instrument): number => localUncertainty ?? mpe / Math.sqrt(3);

/**
 * Which reading of the gauge's permissible error is the worse: one error that all readings of the setting share (it
 * enters by the sum of what they count for), or one that each has of its own (by their squares; it remains in a
 * difference, where the shared one cancels).
 */
export const gaugeErrorIsShared = (instrument: Instrument, { common, separate, count }: SettingWeights): boolean =>
  count === 1 || (common * instrument.mpe) / Math.sqrt(3) >= separate * localError(instrument);

const errorLine = (instrument: Instrument, weights: SettingWeights): BudgetLine => {
  const shared = gaugeErrorIsShared(instrument, weights);
  const local = instrument.localUncertainty === undefined ? 'MPE / √3, each reading' : 'u(local error), each reading';
  const alone = weights.count === 1;
  return lineOf({
    name: `${shared ? 'maximum permissible error' : 'local error'}, ${instrument.code}`,
    formula: shared ? 'MPE / √3' : local,
    source: 'instrument register',
    distribution: 'rectangular',
    standard: shared ? instrument.mpe / Math.sqrt(3) : localError(instrument),
    unit: 'base units',
    sensitivity: shared ? weights.common : weights.separate,
    degreesOfFreedom: null,
    correlation: alone
      ? null
      : shared
        ? 'shared by the readings of this setting'
        : 'each reading has its own: does not cancel',
  });
};

const cancels = ({ common, count }: SettingWeights): boolean => count > 1 && common < 1e-12;

const repeatabilityLine = (
  terms: readonly SourcedTerm[],
  instrument: Instrument,
  positions: readonly PositionValue[],
): readonly BudgetLine[] => {
  const repeatability = repeatabilityOf(instrument, positions);
  if (repeatability === undefined) return [];
  const studied = instrument.repeatability !== undefined;
  const { sd, degreesOfFreedom } = repeatability;
  return [
    lineOf({
      name: `${studied ? 'repeatability' : 'scatter of these repeats'}, ${instrument.code}`,
      formula: terms.length === 1 ? 's / √n' : 's · √Σ(c²/n)',
      source: studied ? 'gauge study' : 'these repeats',
      distribution: degreesOfFreedom === null ? 'normal' : 't',
      standard: sd,
      unit: 'base units',
      sensitivity: Math.hypot(
        ...terms.map(({ coefficient, source }) => coefficient / Math.sqrt(source.repeats.length)),
      ),
      degreesOfFreedom,
      correlation: terms.length === 1 ? null : 'each reading has its own',
    }),
  ];
};

const gaugeLines = (terms: readonly SourcedTerm[], positions: readonly PositionValue[]): readonly BudgetLine[] => {
  const instrument = terms[0]?.source.instrument;
  if (instrument === undefined) return [];
  const weights = settingWeights(terms.map(({ coefficient }) => coefficient));
  const { common, separate, count } = weights;
  const alone = count === 1;
  return [
    lineOf({
      name: `resolution, ${instrument.code}`,
      formula: 'resolution / (2√3)',
      source: 'instrument register',
      distribution: 'rectangular',
      standard: instrument.resolution / (2 * Math.sqrt(3)),
      unit: 'base units',
      sensitivity: Math.max(common, separate),
      degreesOfFreedom: null,
      correlation: alone ? null : separate > common ? 'each reading has its own' : 'taken as shared by the readings',
    }),
    errorLine(instrument, weights),
    ...repeatabilityLine(terms, instrument, positions),
    lineOf({
      name: `setting master, ${instrument.code}`,
      formula: cancels(weights) ? 'cancels: one gauge, one setting' : 'u(master)',
      source: 'check of the day',
      distribution: 'normal',
      standard: instrument.masterUncertainty,
      unit: 'base units',
      sensitivity: common < 1e-12 ? 0 : common,
      degreesOfFreedom: null,
      correlation: alone ? null : cancels(weights) ? 'one setting: cancels' : 'shared by the readings of this setting',
    }),
  ];
};

const thermalLine = (
  terms: readonly SourcedTerm[],
  of: Pick<BudgetLine, 'name' | 'formula' | 'source' | 'standard' | 'unit'>,
  weight: 'partAlphaSensitivity' | 'relativePerKelvin' | 'instrumentAlphaSensitivity',
): BudgetLine => {
  let sensitivity = 0;
  for (const { coefficient, source } of terms) {
    if (source.thermal !== undefined) sensitivity += coefficient * source.uncorrected * source.thermal[weight];
  }
  return lineOf({
    name: `${of.name}, ${terms[0]?.dimension}`,
    formula: of.formula,
    source: of.source,
    distribution: 'normal',
    standard: of.standard,
    unit: of.unit,
    sensitivity,
    degreesOfFreedom: null,
    correlation: terms.length === 1 ? null : 'shared by the readings of this part',
  });
};

const thermalLines = (terms: readonly SourcedTerm[]): readonly BudgetLine[] => {
  const first = terms[0];
  if (first === undefined || terms.every(({ source }) => source.thermal === undefined)) return [];
  const { instrument, material } = first.source;
  const lines = [
    thermalLine(
      terms,
      {
        name: 'expansion of the part',
        formula: 'L · (T − 20) · u(α)',
        source: 'spec sheet',
        standard: material?.alphaUncertaintyPerKelvin ?? 0,
        unit: '1/K',
      },
      'partAlphaSensitivity',
    ),
    thermalLine(
      terms,
      {
        name: 'temperature',
        formula: 'L · Δα · u(T)',
        source: 'thermometer',
        standard: Math.max(...terms.map(({ source }) => source.thermal?.uncertaintyKelvin ?? 0)),
        unit: 'K',
      },
      'relativePerKelvin',
    ),
  ];
  const standard = instrument.alphaUncertaintyPerKelvin;
  if (standard === undefined) return lines;
  lines.push(
    thermalLine(
      terms,
      {
        name: 'expansion of the gauge',
        formula: 'L · (T − 20) · u(α gauge)',
        source: 'instrument register',
        standard,
        unit: '1/K',
      },
      'instrumentAlphaSensitivity',
    ),
  );
  return lines;
};

/**
 * Effective degrees of freedom: ν = u⁴ / Σ(uᵢ⁴ / νᵢ); null: unlimited. Source: JCGM 100 (GUM) G.4, the
 * Welch–Satterthwaite formula.
 */
export const effectiveDegreesOfFreedom = (
  lines: readonly Pick<BudgetLine, 'contribution' | 'degreesOfFreedom'>[],
): number | null => {
  const standard = Math.hypot(...lines.map(({ contribution }) => contribution));
  const weight = lines.reduce(
    (sum, { contribution, degreesOfFreedom }) =>
      degreesOfFreedom === null || standard === 0 ? sum : sum + (contribution / standard) ** 4 / degreesOfFreedom,
    0,
  );
  return weight === 0 ? null : 1 / weight;
};

/** Root-sum-square of independent lines with their effective degrees of freedom. Source: JCGM 100 (GUM) 5.1, G.4. */
export const combineBudget = (budget: readonly BudgetLine[]): Uncertainty => ({
  standard: Math.hypot(...budget.map(({ contribution }) => contribution)),
  effectiveDegreesOfFreedom: effectiveDegreesOfFreedom(budget),
  budget,
});

/**
 * Uncertainty budget of result = Σ coefficient × position, base units. One gauge at one setting: zero and setting
 * error cancel in a difference, leaving u² = 2(resolution²/12 + s²/n) + 2·u(local)²; a single value or a mean has
 * u² = (resolution/(2√3))² + (MPE/√3)² + s²/n + u(master)²; different gauges are independent. Thermal lines per
 * dimension. Feeler positions bring none: their width says it. Source: JCGM 100 (GUM) 4.3, 5.1; NIST TN 1297.
 */
export const uncertaintyOf = (terms: readonly Term[], positions: readonly PositionValue[]): Uncertainty => {
  const sourced = terms.flatMap(({ coefficient, at }): readonly SourcedTerm[] =>
    at.source === undefined ? [] : [{ coefficient, dimension: at.dimension, source: at.source }],
  );
  const gauges = group(sourced, ({ source }) => source.settingKey);
  const thermal = group(sourced, ({ source, dimension }) => `${source.settingKey}|${dimension}`);
  return combineBudget([...gauges.flatMap((terms) => gaugeLines(terms, positions)), ...thermal.flatMap(thermalLines)]);
};
