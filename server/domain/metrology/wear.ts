import type { Side } from './finding.ts';
import { fitStraightLine, lineFactor, predictionInterval, type StraightLine } from './straight-line.ts';

/** One reading of one fitted part: hours since it was fitted or machined, value in base units. */
export type WearPoint = { readonly hours: number; readonly value: number };

export type WearLimit = { readonly side: Side; readonly value: number };

/** Hours left from the last reading; null: not in sight. The range is the prediction interval's, at `level`. */
export type HoursLeft = {
  readonly estimate: number | null;
  readonly earliest: number | null;
  readonly latest: number | null;
};

export type Wear =
  | {
      readonly ok: true;
      readonly line: StraightLine;
      readonly level: number;
      readonly lastHours: number;
      readonly hoursLeft: HoursLeft;
    }
  | { readonly ok: false; readonly reason: 'fewer-than-three-points' | 'all-at-one-place' };

/**
 * Hours x at which the edge of the prediction band meets nothing: roots of
 * (y + b·d)² = (t·s)²·(1 + 1/n + d²/Sxx), d = x − x̄, kept by the edge they lie on.
 */
const crossings = (line: StraightLine, factor: number): { readonly upper: number[]; readonly lower: number[] } => {
  const spread = (factor * line.residualSd) ** 2;
  const a = line.slope ** 2 - spread / line.squaresOfX;
  const b = line.meanY * line.slope;
  const c = line.meanY ** 2 - spread * (1 + 1 / line.count);
  const discriminant = b * b - a * c;
  if (discriminant < 0) return { upper: [], lower: [] };
  // The form that does not subtract nearly equal numbers.
  const q = -(b + (b < 0 ? -1 : 1) * Math.sqrt(discriminant));
  const roots = [a === 0 ? Number.NaN : q / a, q === 0 ? Number.NaN : c / q].filter(Number.isFinite);
  const onUpper = (d: number): boolean => line.meanY + line.slope * d <= 0;
  return {
    upper: roots.filter(onUpper).map((d) => d + line.meanX),
    lower: roots.filter((d) => !onUpper(d)).map((d) => d + line.meanX),
  };
};

/**
 * Straight-line wear of one fitted part, and the hours left from its last reading until a limit: the fitted line's own
 * crossing, and as its range where the two edges of the prediction band cross (`level`, 0.95 by default). Already past:
 * 0. A line that doesn't approach the limit has no estimate; a slope that the scatter drowns has no latest.
 * Never from fewer than three points. Source: simple linear regression with prediction interval, as predictionInterval.
 */
export const wearOf = (points: readonly WearPoint[], limit: WearLimit, level = 0.95): Wear => {
  // Turned so that wear rises towards a limit at nothing.
  const sign = limit.side === 'upper' ? 1 : -1;
  const turned = points.map(({ hours, value }) => ({ x: hours, y: sign * (value - limit.value) }));
  const fit = fitStraightLine(turned);
  const shown = fitStraightLine(points.map(({ hours, value }) => ({ x: hours, y: value })));
  if (!fit.ok || !shown.ok) return fit.ok ? { ok: false, reason: 'all-at-one-place' } : fit;
  const { line } = fit;
  const lastHours = Math.max(...points.map(({ hours }) => hours));
  const now = predictionInterval(line, lastHours, level);
  const after = (hours: readonly number[]): number | null => {
    const left = hours.map((at) => at - lastHours).filter((difference) => difference > 0);
    return left.length === 0 ? null : Math.min(...left);
  };
  const { upper, lower } = crossings(line, lineFactor(line, level));
  const ownCrossing = line.slope > 0 ? Math.max(0, line.meanX - line.meanY / line.slope - lastHours) : null;
  return {
    ok: true,
    line: shown.line,
    level,
    lastHours,
    hoursLeft: {
      estimate: now.expected >= 0 ? 0 : ownCrossing,
      earliest: now.high >= 0 ? 0 : after(upper),
      latest: now.low >= 0 ? 0 : after(lower),
    },
  };
};
