// Sources: the worked example of the AIAG manual Measurement systems analysis (10 parts, 3 people, 3 trials) with its
// ANOVA computed independently (the range method gives other figures: 26.7 % instead of 27.9 % of study variation);
// NIST/SEMATECH e-Handbook 3.2.3.3, two-way crossed analysis [data and sums from memory].
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { gaugeStudyOf, type StudyOptions, type StudyReading } from '#domain/metrology/gauge-study.ts';

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
