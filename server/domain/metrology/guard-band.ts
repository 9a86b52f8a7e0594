import { type DecisionRule, statedGuardFactor } from './dimension.ts';
import { normalCumulative } from './normal-distribution.ts';
import { studentQuantile } from './student-distribution.ts';

/** Below this many effective degrees of freedom, Student's t replaces the normal factor. */
const fewDegreesOfFreedom = 30;

type Factor = { readonly normal: number; readonly probability: number };

/** The factor of a rule and the one-sided probability that it stands for; undefined: nothing is kept off. */
const factorOf = (rule: DecisionRule): Factor | undefined => {
  switch (rule) {
    case 'iso-14253-1-2017':
      return { normal: 1.65, probability: 0.95 };
    case 'iso-14253-1-1998':
      return { normal: 2, probability: normalCumulative(2) };
    case 'simple':
      return undefined;
    default: {
      const stated = statedGuardFactor(rule);
      if (stated === undefined) throw new RangeError(`${rule} is no decision rule`);
      return { normal: stated, probability: normalCumulative(stated) };
    }
  }
};

/**
 * The conformance probability that a rule asks for where a dimension has two limits: 0.95, or less where a stated guard
 * factor stands for less; nothing by simple acceptance. Source: ISO 14253-1:2017; JCGM 106.
 */
export const neededConformance = (rule: DecisionRule): number => Math.min(0.95, factorOf(rule)?.probability ?? 0);

/** GUM G.4.1: degrees of freedom are cut to the next lower whole number before a t factor is taken. */
const wholeDegrees = (degreesOfFreedom: number): number => Math.max(1, Math.floor(degreesOfFreedom + 1e-9));

/**
 * How many u are kept off a limit: 1.65 (ISO 14253-1:2017, 95 % one-sided) or 2 (1998 and 2013 editions), the stated
 * multiple, or with fewer
 * than 30 effective degrees of freedom (null: unlimited) the t factor of the same one-sided probability; 0 for simple
 * acceptance. Source: ISO 14253-1; JCGM 106; GUM G.4.
 */
export const guardFactor = (degreesOfFreedom: number | null, rule: DecisionRule): number => {
  const factor = factorOf(rule);
  if (factor === undefined) return 0;
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
