import { exactishSum, mean } from './sample-statistics.ts';
import { studentQuantile } from './student-distribution.ts';

export type Point = { readonly x: number; readonly y: number };

/** A least-squares straight line y = intercept + slope · x, with what is needed to predict from it. */
export type StraightLine = {
  readonly slope: number;
  readonly intercept: number;
  readonly slopeError: number;
  readonly interceptError: number;
  readonly residualSd: number;
  readonly rSquared: number;
  readonly degreesOfFreedom: number;
  readonly count: number;
  readonly meanX: number;
  readonly meanY: number;
  readonly squaresOfX: number;
};

export type LineFit =
  | { readonly ok: true; readonly line: StraightLine }
  | { readonly ok: false; readonly reason: 'fewer-than-three-points' | 'all-at-one-place' };

const sumOver = (points: readonly Point[], term: (point: Point) => number): number => exactishSum(points.map(term));

/**
 * Ordinary least squares through three points or more, from deviations about the means (nothing cancels).
 * Errors: fewer than three points, or all with the same x. Source: textbook formulas; checked on NIST StRD Norris.
 */
export const fitStraightLine = (points: readonly Point[]): LineFit => {
  const count = points.length;
  if (count < 3) return { ok: false, reason: 'fewer-than-three-points' };
  const meanX = mean(points.map(({ x }) => x));
  const meanY = mean(points.map(({ y }) => y));
  const squaresOfX = sumOver(points, ({ x }) => (x - meanX) ** 2);
  if (squaresOfX === 0) return { ok: false, reason: 'all-at-one-place' };
  const slope = sumOver(points, ({ x, y }) => (x - meanX) * (y - meanY)) / squaresOfX;
  const residualSquares = sumOver(points, ({ x, y }) => (y - meanY - slope * (x - meanX)) ** 2);
  const squaresOfY = sumOver(points, ({ y }) => (y - meanY) ** 2);
  const degreesOfFreedom = count - 2;
  const residualSd = Math.sqrt(residualSquares / degreesOfFreedom);
  return {
    ok: true,
    line: {
      slope,
      intercept: meanY - slope * meanX,
      slopeError: residualSd / Math.sqrt(squaresOfX),
      interceptError: residualSd * Math.sqrt(1 / count + meanX ** 2 / squaresOfX),
      residualSd,
      rSquared: squaresOfY === 0 ? 1 : 1 - residualSquares / squaresOfY,
      degreesOfFreedom,
      count,
      meanX,
      meanY,
      squaresOfX,
    },
  };
};

export type OriginLine = {
  readonly slope: number;
  readonly slopeError: number;
  readonly residualSd: number;
  readonly rSquared: number;
};

/**
 * Least squares through the origin, y = slope · x (r² about zero). @throws RangeError on fewer than two points or all
 * x zero. Source: textbook formula; checked on NIST StRD NoInt1.
 */
export const fitThroughOrigin = (points: readonly Point[]): OriginLine => {
  const squaresOfX = sumOver(points, ({ x }) => x * x);
  if (points.length < 2 || squaresOfX === 0) throw new RangeError('A slope needs two points away from nothing');
  const slope = sumOver(points, ({ x, y }) => x * y) / squaresOfX;
  const residualSquares = sumOver(points, ({ x, y }) => (y - slope * x) ** 2);
  const residualSd = Math.sqrt(residualSquares / (points.length - 1));
  return {
    slope,
    slopeError: residualSd / Math.sqrt(squaresOfX),
    residualSd,
    rSquared: 1 - residualSquares / sumOver(points, ({ y }) => y * y),
  };
};

/** Two-sided t factor for a level such as 0.95. */
export const lineFactor = (line: StraightLine, level: number): number =>
  studentQuantile(0.5 + level / 2, line.degreesOfFreedom);

/**
 * Where one further y at x will lie, with probability `level`: ŷ ± t·s·√(1 + 1/n + (x − x̄)²/Sxx).
 * Source: the prediction interval of simple linear regression (NIST/SEMATECH e-Handbook 4.5.2).
 */
export const predictionInterval = (
  line: StraightLine,
  x: number,
  level = 0.95,
): { readonly expected: number; readonly low: number; readonly high: number } => {
  const away = x - line.meanX;
  const expected = line.meanY + line.slope * away;
  const half = lineFactor(line, level) * line.residualSd * Math.sqrt(1 + 1 / line.count + away ** 2 / line.squaresOfX);
  return { expected, low: expected - half, high: expected + half };
};
