import type { DecisionRule } from './dimension.ts';
import { normalCumulative } from './normal-distribution.ts';
import { studentQuantile } from './student-distribution.ts';

/** Below this many effective degrees of freedom, Student's t replaces the normal factor. */
const fewDegreesOfFreedom = 30;

const factors: Readonly<Record<DecisionRule, { readonly normal: number; readonly probability: number } | null>> = {
  'iso-14253-1-2017': { normal: 1.65, probability: 0.95 },
  'iso-14253-1-1998': { normal: 2, probability: normalCumulative(2) },
  simple: null,
};

/** GUM G.4.1: degrees of freedom are cut to the next lower whole number before a t factor is taken. */
const wholeDegrees = (degreesOfFreedom: number): number => Math.max(1, Math.floor(degreesOfFreedom + 1e-9));

/**
 * How many u are kept off a limit: 1.65 (ISO 14253-1:2017, 95 % one-sided) or 2 (1998 and 2013 editions), or with fewer
 * than 30 effective degrees of freedom (null: unlimited) the t factor of the same one-sided probability; 0 for simple
 * acceptance. Source: ISO 14253-1; JCGM 106; GUM G.4.
 */
export const guardFactor = (degreesOfFreedom: number | null, rule: DecisionRule): number => {
  const factor = factors[rule];
  if (factor === null) return 0;
  if (degreesOfFreedom === null || degreesOfFreedom >= fewDegreesOfFreedom) return factor.normal;
  return Math.max(factor.normal, studentQuantile(factor.probability, wholeDegrees(degreesOfFreedom)));
};

/** The guard band in whole base units, rounded up so that comparisons at a limit are exact and never too kind. */
export const guardBand = (standard: number, degreesOfFreedom: number | null, rule: DecisionRule): number =>
  Math.max(0, Math.ceil(guardFactor(degreesOfFreedom, rule) * standard - 1e-6));

/**
 * Coverage factor k of the expanded uncertainty U = k·u for 95.45 %: 2, or Student's t where u rests on fewer than 30
 * effective degrees of freedom (null: unlimited). Source: JCGM 100 (GUM) G.4, table G.2.
 */
export const coverageFactor = (degreesOfFreedom: number | null): number =>
  guardFactor(degreesOfFreedom, 'iso-14253-1-1998');
