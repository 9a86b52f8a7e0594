import { type MicroDegrees, microDegrees, type Nanometres, nanometres } from '#domain/units/quantity.ts';
import { type Crank, pistonBelowTop } from './crank.ts';

/** One line of a lift table: the lift at the lobe (nm) at a crank angle from top dead centre of the overlap (µ°). */
export interface LiftPoint {
  readonly at: MicroDegrees;
  readonly lift: Nanometres;
}

/** A lift table in the order of its angles, and what lies between lobe and valve. */
export interface ValveMotion {
  readonly table: readonly LiftPoint[];
  /** Valve lift for one of the lobe's; 1 for a bucket. */
  readonly rockerRatio: number;
  /** Taken off the lift at the valve. */
  readonly lash: Nanometres;
}

/**
 * Lift at the lobe between the lines of a table, in nm (not rounded); 0 before the first and after the last. Piecewise
 * cubic that never rises above the lines beside it (Fritsch and Butland 1984, with three-point slopes at both ends):
 * straight lines would cut the corner at the nose and tell too much clearance.
 */
export function lobeLiftAt(table: readonly LiftPoint[], at: number): number {
  const next = table.findIndex((point) => point.at >= at);
  const right = table[next];
  if (right === undefined) return 0;
  if (right.at === at) return right.lift;
  const left = table[next - 1];
  if (left === undefined) return 0;
  const width = right.at - left.at;
  const t = (at - left.at) / width;
  const [from, to] = [slopeAt(table, next - 1) * width, slopeAt(table, next) * width];
  return (
    (2 * t ** 3 - 3 * t ** 2 + 1) * left.lift +
    (t ** 3 - 2 * t ** 2 + t) * from +
    (-2 * t ** 3 + 3 * t ** 2) * right.lift +
    (t ** 3 - t ** 2) * to
  );
}

const gap = (table: readonly LiftPoint[], index: number) => {
  const [left, right] = [table[index], table[index + 1]];
  const width = left === undefined || right === undefined ? Number.NaN : right.at - left.at;
  return { width, rise: left === undefined || right === undefined ? 0 : (right.lift - left.lift) / width };
};

/** Slope of the curve at one line of the table, nm per µ°. */
function slopeAt(table: readonly LiftPoint[], index: number): number {
  const last = table.length - 1;
  if (last < 2) return gap(table, 0).rise;
  if (index === 0) return endSlope(gap(table, 0), gap(table, 1));
  if (index === last) return endSlope(gap(table, last - 1), gap(table, last - 2));
  const [before, after] = [gap(table, index - 1), gap(table, index)];
  if (before.rise * after.rise <= 0) return 0;
  const [first, second] = [2 * after.width + before.width, after.width + 2 * before.width];
  return (first + second) / (first / before.rise + second / after.rise);
}

function endSlope(own: { width: number; rise: number }, beyond: { width: number; rise: number }): number {
  const slope = ((2 * own.width + beyond.width) * own.rise - own.width * beyond.rise) / (own.width + beyond.width);
  if (Math.sign(slope) !== Math.sign(own.rise)) return 0;
  return Math.sign(own.rise) !== Math.sign(beyond.rise) && Math.abs(slope) > 3 * Math.abs(own.rise)
    ? 3 * own.rise
    : slope;
}

/** Lift of the valve in whole nm at an angle (µ°): lobe lift × rocker ratio − lash, never below zero. */
export function valveLiftAt(motion: ValveMotion, at: MicroDegrees): Nanometres {
  const lift = lobeLiftAt(motion.table, at) * motion.rockerRatio - motion.lash;
  return nanometres(Math.max(0, Math.round(lift)));
}

/** A valve over a piston: clearance c₀ along the valve's axis at top dead centre with the valve shut, and the angle. */
export interface ValveOverPiston {
  readonly crank: Crank;
  readonly motion: ValveMotion;
  readonly clearanceAtTop: Nanometres;
  /** Between the valve's axis and the bore's, µ°. */
  readonly valveAngle: MicroDegrees;
}

/**
 * Clearance along the valve's axis at an angle from top dead centre of the overlap (µ°), whole nm: c₀ + x(θ)·cos γ −
 * lift(θ) (geometry). Below zero they meet. Undefined when the rod is too short. To be proved by a trial assembly.
 */
export function clearanceAt(valve: ValveOverPiston, at: MicroDegrees): Nanometres | undefined {
  const below = pistonBelowTop(valve.crank, at);
  if (below === undefined) return undefined;
  const away = below * Math.cos((valve.valveAngle / 1e6) * (Math.PI / 180));
  return nanometres(Math.round(valve.clearanceAtTop + away - valveLiftAt(valve.motion, at)));
}

/** The least clearance over the whole turn and where it is. */
export interface LeastClearance {
  readonly at: MicroDegrees;
  readonly clearance: Nanometres;
}

const coarse = 200_000;
const fine = 1_000;

/**
 * The least clearance of a valve over both turns of a four-stroke (−360° to 360° from top dead centre of the overlap),
 * looked for every 0.2° and then every 0.001° about the least; of equals the first. Undefined when the rod is too short.
 */
export function leastClearance(valve: ValveOverPiston): LeastClearance | undefined {
  const rough = leastBetween(valve, { from: -360_000_000, to: 360_000_000, step: coarse });
  if (rough === undefined) return undefined;
  return leastBetween(valve, {
    from: Math.max(-360_000_000, rough.at - coarse),
    to: Math.min(360_000_000, rough.at + coarse),
    step: fine,
  });
}

function leastBetween(
  valve: ValveOverPiston,
  { from, to, step }: { readonly from: number; readonly to: number; readonly step: number },
): LeastClearance | undefined {
  let least: LeastClearance | undefined;
  for (let angle = from; angle <= to; angle += step) {
    const at = microDegrees(angle);
    const clearance = clearanceAt(valve, at);
    if (clearance === undefined) return undefined;
    if (least === undefined || clearance < least.clearance) least = { at, clearance };
  }
  return least;
}
