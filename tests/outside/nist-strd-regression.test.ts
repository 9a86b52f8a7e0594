// Source: NIST Statistical Reference Datasets (StRD), linear regression: Norris (straight line) and NoInt1 (through the
// origin), certified estimates and their standard deviations. The prediction interval is held against jstat's t.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import jstat from 'jstat';
import { describe, expect, it } from 'vitest';
import { fitStraightLine, fitThroughOrigin, predictionInterval } from '#domain/metrology/straight-line.ts';
import { wearOf } from '#domain/metrology/wear.ts';

const folder = join(import.meta.dirname, 'data', 'metrology', 'strd');

const pointsOf = (name: string): { x: number; y: number }[] =>
  readFileSync(join(folder, `${name}.dat`), 'utf8')
    .split(/\r?\n/)
    .slice(60)
    .map((line) => line.trim().split(/\s+/).map(Number))
    .flatMap(([y, x]) => (y === undefined || x === undefined ? [] : [{ x, y }]));

type Certified = { coef: Record<string, [string, string]>; resid_sd: string; r2: string };
const certified = JSON.parse(readFileSync(join(folder, 'certified.json'), 'utf8')) as Record<string, Certified>;

const digits = (found: number, wanted: string | undefined): number =>
  found === Number(wanted) ? 15 : -Math.log10(Math.abs(found - Number(wanted)) / Math.abs(Number(wanted)));

const norris = () => {
  const fit = fitStraightLine(pointsOf('Norris'));
  if (!fit.ok) throw new Error(fit.reason);
  return fit.line;
};

describe('NIST StRD linear regression', () => {
  it('Norris: slope, intercept, their errors, residual deviation and r² to 12 digits', () => {
    const line = norris();
    const known = certified.Norris;
    expect(line.count).toBe(36);
    expect(digits(line.slope, known?.coef.B1?.[0])).toBeGreaterThan(12);
    expect(digits(line.slopeError, known?.coef.B1?.[1])).toBeGreaterThan(12);
    expect(digits(line.intercept, known?.coef.B0?.[0])).toBeGreaterThan(12);
    expect(digits(line.interceptError, known?.coef.B0?.[1])).toBeGreaterThan(12);
    expect(digits(line.residualSd, known?.resid_sd)).toBeGreaterThan(12);
    expect(digits(line.rSquared, known?.r2)).toBeGreaterThan(14);
  });

  it('NoInt1: slope through the origin, its error, residual deviation and r² to 14 digits', () => {
    const points = pointsOf('NoInt1');
    const line = fitThroughOrigin(points);
    const known = certified.NoInt1;
    expect(points).toHaveLength(11);
    expect(digits(line.slope, known?.coef.B1?.[0])).toBeGreaterThan(14);
    expect(digits(line.slopeError, known?.coef.B1?.[1])).toBeGreaterThan(14);
    expect(digits(line.residualSd, known?.resid_sd)).toBeGreaterThan(14);
    expect(digits(line.rSquared, known?.r2)).toBeGreaterThan(14);
  });

  it('predicts from Norris with the certified figures and an independent t', () => {
    const known = certified.Norris;
    const x = 500;
    const points = pointsOf('Norris');
    const meanX = points.reduce((sum, point) => sum + point.x, 0) / points.length;
    const squares = points.reduce((sum, point) => sum + (point.x - meanX) ** 2, 0);
    const s = Number(known?.resid_sd);
    const half = jstat.studentt.inv(0.975, 34) * s * Math.sqrt(1 + 1 / 36 + (x - meanX) ** 2 / squares);
    const expected = Number(known?.coef.B0?.[0]) + Number(known?.coef.B1?.[0]) * x;
    const found = predictionInterval(norris(), x);
    expect(found.expected).toBeCloseTo(expected, 9);
    expect(found.low).toBeCloseTo(expected - half, 6);
    expect(found.high).toBeCloseTo(expected + half, 6);
  });

  it('hours until a limit end where the edges of the prediction band meet it', () => {
    const points = pointsOf('Norris').map(({ x, y }) => ({ hours: x, value: y }));
    const wear = wearOf(points, { side: 'upper', value: 1200 });
    if (!wear.ok) throw new Error(wear.reason);
    const { earliest, estimate, latest } = wear.hoursLeft;
    const at = (hours: number | null) => predictionInterval(norris(), wear.lastHours + Number(hours));
    expect(at(earliest).high).toBeCloseTo(1200, 6);
    expect(at(estimate).expected).toBeCloseTo(1200, 6);
    expect(at(latest).low).toBeCloseTo(1200, 6);
  });
});
