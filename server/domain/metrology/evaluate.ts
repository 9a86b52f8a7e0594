import type { DimensionDefinition } from './dimension.ts';
import {
  type Evaluation,
  type Finding,
  type FindingValue,
  formulaVersion,
  type Refusal,
  type Refused,
} from './finding.ts';
import { guardBand } from './guard-band.ts';
import type { IsoDate } from './instrument.ts';
import type { Reading } from './reading.ts';
import { definitionOf, gatheredOnce, type Material, materialOf, type PositionsOf, type Sources } from './resolving.ts';
import { combineBudget, uncertaintyOf } from './uncertainty.ts';
import { judge, limitsFault } from './verdict.ts';
import { extremeBias, warningsOf } from './warnings.ts';
import type { WorkedOut } from './working-out.ts';

export type EvaluationRequest = Sources & {
  /** Code of the dimension to work out. */
  readonly dimension: string;
  /** The day it is, for calibration. */
  readonly on: IsoDate;
};

const refused = (refusal: Refusal): Refused => ({ ok: false, refusal });

const finite = (value: number): number | null => (Number.isFinite(value) ? value : null);

const findingValueOf = ({ upper, lower }: WorkedOut): FindingValue => {
  const most = upper.interval;
  const least = lower.interval;
  if (most.low === most.high && least.low === most.low && least.high === most.high) {
    return { type: 'point', value: most.low };
  }
  if (most.low === least.low && most.high === least.high) {
    return { type: 'interval', low: most.low, high: finite(most.high) };
  }
  return { type: 'span', low: least.low, high: finite(most.high) };
};

const feltFinding = (definition: DimensionDefinition, readings: readonly Reading[]): Evaluation => {
  const { code, kind, rule, positions } = definition;
  const own = readings.filter(({ dimension }) => dimension === code);
  const known = new Set(positions.map((position) => position.code));
  const stray = own.find(({ position }) => !known.has(position));
  if (stray !== undefined) {
    return refused({ reason: 'unknown-position', dimension: code, position: stray.position });
  }
  const missing = [...known].filter((position) => !own.some((reading) => reading.position === position));
  if (missing.length > 0 || known.size === 0) {
    return refused({ reason: 'missing-positions', dimension: code, positions: missing });
  }
  let present = false;
  for (const { observation, position } of own) {
    if (observation.type !== 'felt') return refused({ reason: 'wrong-observation', position, needed: 'felt or not' });
    present ||= observation.present;
  }
  const certain = present ? 1 : 0;
  return {
    ok: true,
    finding: {
      dimension: code,
      kind,
      value: { type: 'felt', present },
      uncertainty: { standard: 0, effectiveDegreesOfFreedom: null, budget: [] },
      rule,
      guardBand: 0,
      // A hand can tell that there is play, not that a bearing is as new.
      verdict: present ? 'past the limit' : 'within service limit',
      margin: null,
      nearestLimit: null,
      probabilityPast: { low: certain, high: certain },
      warnings: [],
      formulaVersion,
    },
  };
};

const largerUncertainty = ({ workedOut, positions }: Pick<Material, 'workedOut' | 'positions'>) => {
  const upper = uncertaintyOf(workedOut.upper.terms, positions);
  const lower = workedOut.lower === workedOut.upper ? upper : uncertaintyOf(workedOut.lower.terms, positions);
  const larger = lower.standard > upper.standard ? lower : upper;
  const bias = extremeBias(workedOut, positions);
  if (bias === undefined) return larger;
  return combineBudget([
    ...larger.budget,
    {
      name: `picked from ${bias.count} positions`,
      formula: 'biased outward by up to E(n) · s / √repeats; stated, not corrected',
      source: 'choice of positions',
      distribution: 'normal',
      standard: bias.expectedExcess ?? 0,
      unit: 'base units',
      sensitivity: 0,
      contribution: 0,
      degreesOfFreedom: null,
      correlation: null,
    },
  ]);
};

const evaluated = (request: EvaluationRequest, positionsOf: PositionsOf): Evaluation => {
  const found = definitionOf(request.dimension, request.sheet);
  if (!found.ok) return found;
  const { definition } = found;
  if (definition.method.type === 'felt') return feltFinding(definition, request.readings);
  const fault = limitsFault(definition.limits, definition.code);
  if (fault !== undefined) return refused(fault);
  const material = materialOf(definition, request.sheet, positionsOf);
  if (!material.ok) return material;

  const { workedOut, positions } = material;
  const { rule, code, kind, limits } = definition;
  const uncertainty = largerUncertainty(material);
  const guard = guardBand(uncertainty.standard, uncertainty.effectiveDegreesOfFreedom, rule);
  const upper = workedOut.upper.interval;
  const lower = workedOut.lower === workedOut.upper ? upper : workedOut.lower.interval;
  const judgement = judge({ upper, lower, standard: uncertainty.standard, guardBand: guard, rule }, limits);
  const finding: Finding = {
    dimension: code,
    kind,
    value: findingValueOf(workedOut),
    uncertainty,
    rule,
    guardBand: guard,
    ...judgement,
    warnings: warningsOf(definition, { workedOut, uncertainty }, { positions, on: request.on }),
    formulaVersion,
  };
  return { ok: true, finding };
};

/**
 * Works a dimension out of its readings and judges it: value or interval, uncertainty with its budget, guard band,
 * verdict, margin, probability of being past a limit, warnings. All in base units of the dimension's kind.
 * Refuses, as a value, what can't be judged: missing or unknown positions, an unknown instrument, mixed kinds, limits
 * that contradict themselves. Sources: JCGM 100 (GUM), JCGM 106, ISO 14253-1, ISO 1; see the functions it calls.
 */
export const evaluateDimension = (request: EvaluationRequest): Evaluation => evaluated(request, gatheredOnce(request));

/** As evaluateDimension for several dimensions of one round, in their order; readings that they share are gone through once. */
export const evaluateDimensions = (
  dimensions: readonly string[],
  round: Omit<EvaluationRequest, 'dimension'>,
): readonly Evaluation[] => {
  const positionsOf = gatheredOnce(round);
  return dimensions.map((dimension) =>
    evaluated(
      { dimension, sheet: round.sheet, readings: round.readings, instruments: round.instruments, on: round.on },
      positionsOf,
    ),
  );
};
