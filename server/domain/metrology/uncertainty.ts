import type { BudgetLine, Uncertainty } from './finding.ts';
import type { PositionValue, ValueSource } from './gathered-positions.ts';
import type { Instrument } from './instrument.ts';
import { type PooledScatter, pooledScatter } from './sample-statistics.ts';
import type { Term } from './working-out.ts';

type SourcedTerm = { readonly coefficient: number; readonly dimension: string; readonly source: ValueSource };

const group = <T>(items: readonly T[], key: (item: T) => string): readonly (readonly T[])[] => {
  const groups = new Map<string, T[]>();
  for (const item of items) groups.set(key(item), [...(groups.get(key(item)) ?? []), item]);
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

const gaugeLines = (terms: readonly SourcedTerm[], positions: readonly PositionValue[]): readonly BudgetLine[] => {
  const instrument = terms[0]?.source.instrument;
  if (instrument === undefined) return [];
  const common = Math.abs(terms.reduce((sum, { coefficient }) => sum + coefficient, 0));
  const separate = Math.hypot(...terms.map(({ coefficient }) => coefficient));
  // An error shared by all terms of one setting enters by their sum and so cancels in a difference; what each reading
  // has of its own enters by their squares. The greater of both holds for single readings, means and differences.
  const mixed = Math.max(common, separate);
  const local = instrument.localUncertainty ?? instrument.mpe / Math.sqrt(3);
  const repeats = Math.hypot(...terms.map(({ coefficient, source }) => coefficient / Math.sqrt(source.repeats.length)));
  const repeatability = repeatabilityOf(instrument, positions);
  const isDifference = common < 1e-12 && terms.length > 1;
  const named = (what: string): string => `${what}, ${instrument.code}`;
  const lines: BudgetLine[] = [
    {
      name: named('resolution'),
      formula: isDifference ? '√2 · resolution / (2√3)' : 'resolution / (2√3)',
      contribution: (mixed * instrument.resolution) / (2 * Math.sqrt(3)),
      degreesOfFreedom: null,
    },
    {
      name: named(isDifference ? 'local error' : 'maximum permissible error'),
      formula: isDifference ? '√2 · u(local error)' : 'MPE / √3',
      contribution: Math.max((common * instrument.mpe) / Math.sqrt(3), separate * local * (isDifference ? 1 : 0)),
      degreesOfFreedom: null,
    },
  ];
  if (repeatability !== undefined) {
    lines.push({
      name: named(instrument.repeatability === undefined ? 'scatter of these repeats' : 'repeatability'),
      formula: isDifference ? '√(s²/n + s²/n)' : 's / √n',
      contribution: repeats * repeatability.sd,
      degreesOfFreedom: repeatability.degreesOfFreedom,
    });
  }
  lines.push({
    name: named('setting master'),
    formula: isDifference ? 'cancels: one gauge, one setting' : 'u(master)',
    contribution: common * instrument.masterUncertainty,
    degreesOfFreedom: null,
  });
  return lines;
};

const thermalLines = (terms: readonly SourcedTerm[]): readonly BudgetLine[] => {
  const first = terms[0];
  if (first === undefined || terms.every(({ source }) => source.thermal === undefined)) return [];
  const sum = (weight: (source: ValueSource) => number): number =>
    Math.abs(terms.reduce((total, { coefficient, source }) => total + coefficient * weight(source), 0));
  const { instrument, material } = first.source;
  const line = (name: string, formula: string, contribution: number): BudgetLine => ({
    name: `${name}, ${first.dimension}`,
    formula,
    contribution,
    degreesOfFreedom: null,
  });
  const byPart = sum(({ uncorrected, thermal }) => uncorrected * (thermal?.partAlphaSensitivity ?? 0));
  const byGauge = sum(({ uncorrected, thermal }) => uncorrected * (thermal?.instrumentAlphaSensitivity ?? 0));
  const byTemperature = sum(({ uncorrected, thermal }) => uncorrected * (thermal?.relativeByTemperature ?? 0));
  const lines = [
    line('expansion of the part', 'L · (T − 20) · u(α)', byPart * (material?.alphaUncertaintyPerKelvin ?? 0)),
    line('temperature', 'L · Δα · u(T)', byTemperature),
  ];
  const gaugeAlpha = instrument.alphaUncertaintyPerKelvin;
  return gaugeAlpha === undefined
    ? lines
    : [...lines, line('expansion of the gauge', 'L · (T − 20) · u(α gauge)', byGauge * gaugeAlpha)];
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
