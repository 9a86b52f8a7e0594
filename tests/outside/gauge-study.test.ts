// Sources: the worked example of the AIAG manual Measurement systems analysis (10 parts, 3 people, 3 trials) with its
// ANOVA computed independently, and its average-and-range form with the manual's constants of four digits (26.7 % of
// study variation instead of 27.9 %); the constants d2 and d2* [from memory];
// NIST/SEMATECH e-Handbook 3.2.3.3, two-way crossed analysis [data and sums from memory].
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { gaugeStudyOf, type StudyOptions } from '#domain/metrology/gauge-study.ts';
import type { StudyReading } from '#domain/metrology/gauge-study-table.ts';
import { expectedRange, rangeDivisor } from '#domain/metrology/normal-range.ts';

const folder = join(import.meta.dirname, 'data', 'metrology');

const aiag: readonly StudyReading[] = readFileSync(join(folder, 'gauge_rr', 'aiag_10x3x3.csv'), 'utf8')
  .trim()
  .split(/\r?\n/)
  .slice(1)
  .map((row) => {
    const [part = '', person = '', trial = '', value = ''] = row.split(',');
    return { part, person, trial, value: Number(value) };
  });

type Figures = Record<
  'repeatability' | 'reproducibility' | 'operator' | 'interaction' | 'grr' | 'part' | 'total',
  number
>;
type Outcome = {
  variance: Figures;
  sd: Figures;
  pct_contribution: Figures;
  pct_study_var: Figures;
  study_var: Figures;
  ndc_raw: number;
  ndc: number;
};
type Effects = Record<'part' | 'operator' | 'part_operator' | 'repeatability' | 'total', number>;
const expected = (
  JSON.parse(readFileSync(join(folder, 'gauge_rr', 'expected.json'), 'utf8')) as {
    aiag_10x3x3: {
      SS: Effects;
      df: Effects;
      MS: Effects;
      F_with_interaction: Record<'part' | 'operator' | 'part_operator', number>;
      no_pooling: Outcome;
      pooled: Outcome & { MS_pooled: number; df_pooled: number; F: Record<'part' | 'operator', number> };
      interaction_p: number;
    };
  }
).aiag_10x3x3;

const study = (options: StudyOptions) => {
  const found = gaugeStudyOf(aiag, options);
  if (!found.ok) throw new Error(found.fault.reason);
  return found;
};
const same = (found: number, wanted: number): void => {
  expect(Math.abs(found - wanted)).toBeLessThanOrEqual(1e-11 * Math.max(1, Math.abs(wanted)));
};

describe('ten parts, three people, three trials', () => {
  it('sums of squares, degrees of freedom and F of every line', () => {
    const { anova } = study({});
    same(anova.part.sumOfSquares, expected.SS.part);
    same(anova.person?.sumOfSquares ?? Number.NaN, expected.SS.operator);
    same(anova.interaction?.sumOfSquares ?? Number.NaN, expected.SS.part_operator);
    same(anova.repeatability.sumOfSquares, expected.SS.repeatability);
    same(anova.total.sumOfSquares, expected.SS.total);
    expect(
      [anova.part, anova.person, anova.interaction, anova.repeatability, anova.total].map(
        (line) => line?.degreesOfFreedom,
      ),
    ).toEqual([9, 2, 18, 60, 89]);
    same(anova.interaction?.f ?? Number.NaN, expected.F_with_interaction.part_operator);
    same(anova.interaction?.pValue ?? Number.NaN, expected.interaction_p);
  });

  it.each([
    ['pooled, the interaction being no more than scatter', 0.25, expected.pooled],
    ['not pooled, when nothing shall be', 1, expected.no_pooling],
  ] as const)('%s', (_, poolingAlpha, wanted) => {
    const { anova, shares, distinct } = study({ poolingAlpha });
    expect(anova.pooled).toBe(poolingAlpha < 0.9);
    const names = [
      ['repeatability', 'repeatability'],
      ['reproducibility', 'reproducibility'],
      ['person', 'operator'],
      ['interaction', 'interaction'],
      ['gauge', 'grr'],
      ['part', 'part'],
      ['total', 'total'],
    ] as const;
    for (const [ours, theirs] of names) {
      same(shares[ours].variance, wanted.variance[theirs]);
      same(shares[ours].sd, wanted.sd[theirs]);
      same(100 * shares[ours].contribution, wanted.pct_contribution[theirs]);
      same(100 * shares[ours].ofStudyVariation, wanted.pct_study_var[theirs]);
      same(6 * shares[ours].sd, wanted.study_var[theirs]);
    }
    same(distinct?.exact ?? Number.NaN, wanted.ndc_raw);
    expect(distinct?.categories).toBe(wanted.ndc);
  });

  it('pooled, parts and people are held against both together: 78 degrees of freedom', () => {
    const { anova, repeatability } = study({});
    same(anova.residual.meanSquare, expected.pooled.MS_pooled);
    expect(anova.residual.degreesOfFreedom).toBe(expected.pooled.df_pooled);
    same(anova.part.f, expected.pooled.F.part);
    same(anova.person?.f ?? Number.NaN, expected.pooled.F.operator);
    expect(repeatability.degreesOfFreedom).toBe(78);
  });

  it('of a tolerance of 8 the gauge takes 6 · 0.3024 / 8', () => {
    same(study({ tolerance: 8 }).shares.gauge.ofTolerance ?? Number.NaN, expected.pooled.study_var.grr / 8);
  });
});

describe('the same study by average and range', () => {
  const wanted = (
    JSON.parse(readFileSync(join(folder, 'gauge_rr', 'expected.json'), 'utf8')) as {
      aiag_avg_range: Record<'Rbarbar' | 'K1' | 'K2' | 'K3' | 'EV' | 'AV' | 'GRR' | 'PV' | 'TV', number> & {
        pct: Record<'EV' | 'AV' | 'GRR' | 'PV', number>;
        ndc_raw: number;
        ndc: number;
      };
    }
  ).aiag_avg_range;
  const { shares, meanRange, distinct } = study({ tolerance: 8 }).averageAndRange;
  // The manual's constants are rounded to four digits: 0.3146 may be 0.31455, a relative 1.6e-4, and a share of two such a little more.
  const near = (found: number, printed: number): void => {
    expect(Math.abs(found - printed) / printed).toBeLessThan(2e-4);
  };

  it('every figure of the form, to the four digits of its constants', () => {
    expect(meanRange).toBeCloseTo(wanted.Rbarbar, 12);
    for (const [ours, theirs] of [
      ['repeatability', 'EV'],
      ['reproducibility', 'AV'],
      ['gauge', 'GRR'],
      ['part', 'PV'],
    ] as const) {
      near(shares[ours].sd, wanted[theirs]);
      near(100 * shares[ours].ofStudyVariation, wanted.pct[theirs]);
      near(shares[ours].ofTolerance ?? Number.NaN, (6 * wanted[theirs]) / 8);
    }
    near(shares.total.sd, wanted.TV);
    // The form takes 1.41 for the root of two.
    near((1.41 / Math.SQRT2) * (distinct?.exact ?? Number.NaN), wanted.ndc_raw);
    expect(distinct?.categories).toBe(wanted.ndc);
  });

  it('both methods stand side by side with their own figures: 26.7 and 27.9 per cent, five sizes of part and four', () => {
    const { shares: byVariance, distinct: variance, averageAndRange } = study({});
    expect((100 * averageAndRange.shares.gauge.ofStudyVariation).toFixed(1)).toBe('26.7');
    expect((100 * byVariance.gauge.ofStudyVariation).toFixed(1)).toBe('27.9');
    expect([averageAndRange.distinct?.categories, variance?.categories]).toEqual([5, 4]);
  });
});

describe('constants of the range of normal values', () => {
  it.each([
    [3, 1.693, 1.91155, 0.5908, 0.5231],
    [4, 2.059, 2.23887, 0.4857, 0.4467],
    [5, 2.326, 2.48124, 0.4299, 0.403],
    [6, 2.534, 2.67253, 0.3946, 0.3742],
    [8, 2.847, 2.96288, 0.3512, 0.3375],
    [10, 3.078, 3.17905, 0.3249, 0.3146],
  ])('%d values: d2 %d and d2* %d, their inverses %d and %d', (count, mean, rootMeanSquare, k1, k2) => {
    expect(expectedRange(count)).toBeCloseTo(mean, 3);
    expect(rangeDivisor(count, 1)).toBeCloseTo(rootMeanSquare, 4);
    expect(1 / expectedRange(count)).toBeCloseTo(k1, 3);
    expect(1 / rangeDivisor(count, 1)).toBeCloseTo(k2, 4);
  });

  it('of two and three values the closed forms hold: √2 and √(2 + 3√3/π), 2/√π and 3/√π', () => {
    expect(rangeDivisor(2, 1)).toBeCloseTo(Math.SQRT2, 8);
    expect(rangeDivisor(3, 1)).toBeCloseTo(Math.sqrt(2 + (3 * Math.sqrt(3)) / Math.PI), 6);
    expect(expectedRange(2)).toBeCloseTo(2 / Math.sqrt(Math.PI), 8);
    expect(expectedRange(3)).toBeCloseTo(3 / Math.sqrt(Math.PI), 8);
  });

  it('over 20 ranges of three the divisor is 1.7048 or so, between one and very many', () => {
    // √(1.69257² + 0.88837² / 20), with the deviation of the range of three from any table.
    expect(rangeDivisor(3, 20)).toBeCloseTo(Math.sqrt(1.69257 ** 2 + 0.88837 ** 2 / 20), 4);
  });
});

describe('two-way crossed: pins of five machines, by day and by night', () => {
  const pins = JSON.parse(readFileSync(join(folder, 'two-way-crossed.json'), 'utf8')) as {
    day: number[][];
    night: number[][];
    published: Record<'machine' | 'operator' | 'interaction', { ss: number; df: number; f: number }> & {
      residual: { ss: number; df: number };
    };
  };
  const readings = (['day', 'night'] as const).flatMap((person) =>
    pins[person].flatMap((values, machine) =>
      values.map((value, trial) => ({ part: String(machine), person, trial: String(trial), value })),
    ),
  );
  const found = gaugeStudyOf(readings, { poolingAlpha: 1 });
  if (!found.ok) throw new Error(found.fault.reason);
  const { part, person, interaction, repeatability } = found.anova;

  it('sums of squares to every printed digit', () => {
    expect(part.sumOfSquares.toFixed(6)).toBe(pins.published.machine.ss.toFixed(6));
    expect(person?.sumOfSquares.toFixed(8)).toBe(pins.published.operator.ss.toFixed(8));
    expect(interaction?.sumOfSquares.toFixed(7)).toBe(pins.published.interaction.ss.toFixed(7));
    expect(repeatability.sumOfSquares.toFixed(6)).toBe(pins.published.residual.ss.toFixed(6));
    expect([part, person, interaction, repeatability].map((line) => line?.degreesOfFreedom)).toEqual([4, 1, 4, 40]);
  });

  it('F of the fixed effects against the scatter of the pins', () => {
    expect((part.meanSquare / repeatability.meanSquare).toFixed(1)).toBe('8.8');
    expect(((person?.meanSquare ?? 0) / repeatability.meanSquare).toFixed(2)).toBe('0.45');
    expect(interaction?.f.toFixed(2)).toBe('0.42');
  });
});
