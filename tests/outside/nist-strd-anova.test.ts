// Source: NIST Statistical Reference Datasets (StRD), one-way analysis of variance: SiRstv with its certified values;
// and sets made after the published construction of SmLs01, 04 and 07 (Simon & Lesage: nine groups of 21 about means
// that differ by 0.1, behind 1, 7 and 13 digits that all values share; F = 21 exactly) [from memory].
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { oneWayAnova } from '#domain/metrology/one-way-anova.ts';

const folder = join(import.meta.dirname, 'data', 'metrology', 'strd');

const digits = (found: number, wanted: number): number =>
  found === wanted ? 15 : -Math.log10(Math.abs(found - wanted) / Math.abs(wanted));

const anovaOf = (groups: readonly (readonly number[])[]) => {
  const found = oneWayAnova(groups);
  if (!found.ok) throw new Error(found.reason);
  return found;
};

describe('SiRstv: resistivity of silicon by five instruments', () => {
  const rows = readFileSync(join(folder, 'SiRstvt.dat'), 'utf8')
    .split(/\r?\n/)
    .slice(60, 65)
    .map((line) => line.trim().split(/\s+/).map(Number));
  const groups = [0, 1, 2, 3, 4].map((column) => rows.map((row) => row[column] ?? Number.NaN));
  const found = anovaOf(groups);
  const certified = (
    JSON.parse(readFileSync(join(folder, 'certified.json'), 'utf8')) as {
      SiRstvt: { anova: string[]; resid_sd: string; r2: string };
    }
  ).SiRstvt;

  it('every certified figure to 12 digits or more', () => {
    const [df, ss, ms, f] = certified.anova.map(Number);
    expect(found.between.degreesOfFreedom).toBe(df);
    expect(found.within.degreesOfFreedom).toBe(20);
    expect(digits(found.between.sumOfSquares, Number(ss))).toBeGreaterThan(12);
    expect(digits(found.between.meanSquare, Number(ms))).toBeGreaterThan(12);
    expect(digits(found.within.sumOfSquares, 2.1663656e-1)).toBeGreaterThan(12);
    expect(digits(found.f, Number(f))).toBeGreaterThan(12);
    expect(digits(found.rSquared, Number(certified.r2))).toBeGreaterThan(12);
    expect(digits(found.residualSd, Number(certified.resid_sd))).toBeGreaterThan(12);
  });
});

describe('nine groups of 21 behind digits that they all share', () => {
  const means = [4, 3, 5, 3, 5, 3, 5, 3, 5];
  const grouped = (offset: number) =>
    means.map((tenths) =>
      [0, ...Array.from({ length: 20 }, (_, index) => (index % 2 === 0 ? -1 : 1))].map(
        (away) => offset + (tenths + away) / 10,
      ),
    );

  // A double that holds 1 000 000 000 000.4 keeps it to 1.2e-4: no program that reads doubles has many digits of a tenth.
  it.each([
    [1, 14],
    [1e6, 10],
    [1e12, 4],
  ])('behind %d: F = 21 and both sums of squares to %d digits', (offset, least) => {
    const found = anovaOf(grouped(offset));
    expect(digits(found.f, 21)).toBeGreaterThanOrEqual(least);
    expect(digits(found.between.sumOfSquares, 1.68)).toBeGreaterThanOrEqual(least);
    expect(digits(found.within.sumOfSquares, 1.8)).toBeGreaterThanOrEqual(least);
  });
});
