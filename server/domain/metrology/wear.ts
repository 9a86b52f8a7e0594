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
 * Where the edges of the prediction band first meet nothing after `last`: roots of
 * (ȳ + b·d)² = (t·s)²·(1 + 1/n + d²/Sxx), d = x − x̄. With a slope that stands out of the scatter each edge has one
 * root, the upper edge's first; with one that does not, both roots are the upper edge's.
 */
const bandCrossings = (
  line: StraightLine,
  factor: number,
  last: number,
): { readonly upper: number | null; readonly lower: number | null } => {
  const spread = (factor * line.residualSd) ** 2;
  const a = line.slope ** 2 - spread / line.squaresOfX;
  const b = line.meanY * line.slope;
  const c = line.meanY ** 2 - spread * (1 + 1 / line.count);
  // The form that does not subtract nearly equal numbers.
  const q = -(b + (b < 0 ? -1 : 1) * Math.sqrt(Math.max(0, b * b - a * c)));
  const roots = [q / a, c / q].filter(Number.isFinite).map((d) => d + line.meanX - last);
  const [first, second] = roots.sort((left, right) => left - right);
  const ahead = (hours: number | undefined): number | null => (hours === undefined || hours <= 0 ? null : hours);
  if (a > 0) return line.slope > 0 ? { upper: ahead(first), lower: ahead(second) } : { upper: null, lower: null };
  return { upper: ahead(first) ?? ahead(second), lower: null };
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
  const band = bandCrossings(line, lineFactor(line, level), lastHours);
  const ownCrossing = line.slope > 0 ? Math.max(0, line.meanX - line.meanY / line.slope - lastHours) : null;
  return {
    ok: true,
    line: shown.line,
    level,
    lastHours,
    hoursLeft: {
      estimate: now.expected >= 0 ? 0 : ownCrossing,
      earliest: now.high >= 0 ? 0 : band.upper,
      latest: now.low >= 0 ? 0 : band.lower,
    },
  };
};
