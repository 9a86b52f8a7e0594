// Source: NIST Statistical Reference Datasets (StRD), univariate summary statistics: certified means and standard
// deviations. Reached digits are counted as NIST does, by the log relative error.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { mean, standardDeviation } from '#domain/metrology/sample-statistics.ts';

const folder = join(import.meta.dirname, 'data', 'metrology', 'strd');
const certified = JSON.parse(readFileSync(join(folder, 'certified.json'), 'utf8')) as Record<
  string,
  { mean: string; s: string; n: string }
>;

const valuesOf = (name: string): number[] => {
  const lines = readFileSync(join(folder, name === 'PiDigits' ? 'PiDigits.txt' : `${name}.dat`), 'utf8').split(/\r?\n/);
  if (name === 'PiDigits') return [...lines.slice(1).join('')].map(Number);
  const start = lines.findIndex((line) => /^-+$/.test(line.trim()));
  return lines
    .slice(start + 1)
    .map((line) => line.trim())
    .filter((line) => line !== '')
    .map(Number);
};

const digits = (found: number, wanted: number): number =>
  found === wanted ? 15 : -Math.log10(Math.abs(found - wanted) / Math.abs(wanted));

describe('NIST StRD univariate sets', () => {
  // NumAcc3 and NumAcc4 hold .1, .2, .3 behind seven and eight digits: a double itself keeps only 9 and 8 digits of
  // such a deviation, so no program that reads them as doubles can do better.
  it.each([
    ['PiDigits', 14.5, 14],
    ['Lottery', 14.5, 14],
    ['Michelso', 14.5, 13],
    ['NumAcc1', 15, 15],
    ['NumAcc2', 15, 14],
    ['NumAcc3', 15, 9],
    ['NumAcc4', 14.5, 8],
  ])('%s: mean to %d and deviation to %d digits', (name, meanDigits, deviationDigits) => {
    const values = valuesOf(name);
    const known = certified[name];
    if (known === undefined) throw new Error(`No certified values for ${name}`);
    expect(values).toHaveLength(Number(known.n));
    expect(digits(mean(values), Number(known.mean))).toBeGreaterThanOrEqual(meanDigits);
    expect(digits(standardDeviation(values), Number(known.s))).toBeGreaterThanOrEqual(deviationDigits);
  });
});
