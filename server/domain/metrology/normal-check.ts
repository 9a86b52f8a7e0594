import type { CoverageInterval, Distribution } from './monte-carlo.ts';
import { normalQuantile } from './normal-distribution.ts';
import { studentQuantile } from './student-distribution.ts';

/** A result as the closed form has it, base units; degrees of freedom null: unlimited. */
export type ClosedForm = {
  readonly value: number;
  readonly standard: number;
  readonly degreesOfFreedom: number | null;
};

export type NormalCheck = {
  /** The 95 % interval of the closed form. */
  readonly interval: CoverageInterval;
  /** How far its ends may lie from those that were drawn: half a unit of the one digit that u is meant to. */
  readonly tolerance: number;
  readonly holds: boolean;
};

const fewDegreesOfFreedom = 30;

const factorOf = (degreesOfFreedom: number | null): number =>
  degreesOfFreedom === null || degreesOfFreedom >= fewDegreesOfFreedom
    ? normalQuantile(0.975)
    : studentQuantile(0.975, Math.max(1, Math.floor(degreesOfFreedom + 1e-9)));

/** Half a unit of u's only digit: 1888 → 2000 → 500. */
const toleranceOf = (standard: number): number => {
  const digit = Math.floor(Math.log10(standard));
  const rounded = Math.round(standard / 10 ** digit) * 10 ** digit;
  return 0.5 * 10 ** Math.floor(Math.log10(rounded) + 1e-9);
};

/**
 * Whether the curve that the closed form takes for granted (normal, or Student's t below 30 degrees of freedom) serves:
 * both ends of its 95 % interval lie near enough to those drawn in at least 1000 trials at 0.95. undefined: nothing is
 * unsure. Source: JCGM 101:2008, 8.1 and 7.9.2, with u to one significant digit.
 */
export const normalCheckOf = (closed: ClosedForm, drawn: Pick<Distribution, 'symmetric'>): NormalCheck | undefined => {
  const { value, standard, degreesOfFreedom } = closed;
  if (!(standard > 0)) return undefined;
  const expanded = factorOf(degreesOfFreedom) * standard;
  const interval = { low: value - expanded, high: value + expanded };
  const tolerance = toleranceOf(standard);
  const { low, high } = drawn.symmetric;
  const holds = Math.abs(interval.low - low) <= tolerance && Math.abs(interval.high - high) <= tolerance;
  return { interval, tolerance, holds };
};
