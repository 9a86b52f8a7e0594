import { fisherUpperTail } from './fisher-distribution.ts';
import { exactishSum, mean, sumOfSquaresAboutMean } from './sample-statistics.ts';

/** One line of an analysis of variance. */
export type VarianceLine = {
  readonly degreesOfFreedom: number;
  readonly sumOfSquares: number;
  readonly meanSquare: number;
};

export type OneWayAnova =
  | {
      readonly ok: true;
      readonly between: VarianceLine;
      readonly within: VarianceLine;
      /** Ratio of the mean squares; Infinity when nothing varies within a group. */
      readonly f: number;
      /** Chance of so large a ratio when all groups are alike. */
      readonly pValue: number;
      readonly rSquared: number;
      readonly residualSd: number;
    }
  | { readonly ok: false; readonly reason: 'fewer-than-two-groups' | 'empty-group' | 'no-repeats' | 'not-a-number' };

export const varianceLine = (sumOfSquares: number, degreesOfFreedom: number): VarianceLine => ({
  degreesOfFreedom,
  sumOfSquares,
  meanSquare: sumOfSquares / degreesOfFreedom,
});

/** above / below as an F, where both may be nothing: 0 then, Infinity where only the lower one is. */
export const varianceRatio = (above: number, below: number): number =>
  below === 0 ? (above === 0 ? 0 : Number.POSITIVE_INFINITY) : above / below;

/**
 * One-way analysis of variance: whether groups (benches, people, families) differ by more than their own scatter.
 * Any unit; values are taken less the first one, so that leading digits which all share cost no precision.
 * Source: textbook formulas; checked on NIST StRD SiRstv.
 */
export const oneWayAnova = (groups: readonly (readonly number[])[]): OneWayAnova => {
  if (groups.length < 2) return { ok: false, reason: 'fewer-than-two-groups' };
  const all = groups.flat();
  if (!all.every(Number.isFinite)) return { ok: false, reason: 'not-a-number' };
  const [first] = all;
  if (first === undefined || groups.some(({ length }) => length === 0)) return { ok: false, reason: 'empty-group' };
  if (all.length === groups.length) return { ok: false, reason: 'no-repeats' };
  const shifted = groups.map((group) => group.map((value) => value - first));
  const centre = mean(shifted.flat());
  const between = varianceLine(
    exactishSum(shifted.map((group) => group.length * (mean(group) - centre) ** 2)),
    groups.length - 1,
  );
  const within = varianceLine(exactishSum(shifted.map(sumOfSquaresAboutMean)), all.length - groups.length);
  const f = varianceRatio(between.meanSquare, within.meanSquare);
  const whole = between.sumOfSquares + within.sumOfSquares;
  return {
    ok: true,
    between,
    within,
    f,
    pValue: fisherUpperTail(f, { above: between.degreesOfFreedom, below: within.degreesOfFreedom }),
    rSquared: whole === 0 ? 0 : between.sumOfSquares / whole,
    residualSd: Math.sqrt(within.meanSquare),
  };
};
