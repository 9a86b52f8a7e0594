import { type DimensionDefinition, isMeasured, type Method, operandsOf } from './dimension.ts';
import type { Refusal, Refused } from './finding.ts';
import { gatherPositions, type PositionValue } from './gathered-positions.ts';
import type { Instrument } from './instrument.ts';
import type { Reading } from './reading.ts';
import {
  statedFigure,
  type WorkedOut,
  workOut,
  workOutAsOperand,
  workOutDifference,
  workOutRatio,
} from './working-out.ts';

/** What a dimension is worked out from. */
export type Sources = {
  /** The dimensions of the spec sheet; those that a method works on must be among them. */
  readonly sheet: readonly DimensionDefinition[];
  /** Standing readings of one round (none that was struck); those of other dimensions are passed over. */
  readonly readings: readonly Reading[];
  readonly instruments: readonly Instrument[];
};

/** A dimension worked out, and every position that had a part in it. */
export type Material = {
  readonly ok: true;
  readonly workedOut: WorkedOut;
  readonly positions: readonly PositionValue[];
};

/** Positions brought together once, by the code of the dimension that was read. */
export type PositionsOf = (definition: DimensionDefinition) => ReturnType<typeof gatherPositions>;

/** A dimension is worked out through so many others at most, one after another. */
export const deepestNesting = 4;

/** A ratio without a scale comes out in parts per million. */
const partsPerMillion = 1_000_000;

const refused = (refusal: Refusal): Refused => ({ ok: false, refusal });

/** The definition of a code. Refuses one that the sheet does not have. */
export const definitionOf = (
  code: string,
  sheet: readonly DimensionDefinition[],
): { readonly ok: true; readonly definition: DimensionDefinition } | Refused => {
  const definition = sheet.find((candidate) => candidate.code === code);
  return definition === undefined
    ? refused({ reason: 'unknown-dimension', dimension: code })
    : { ok: true, definition };
};

type Walk = {
  readonly sheet: readonly DimensionDefinition[];
  readonly positionsOf: PositionsOf;
  /** Codes on the way here, to notice a circle. */
  readonly through: readonly string[];
};

const read = (wanted: DimensionDefinition, { sheet, positionsOf }: Walk): ReturnType<typeof gatherPositions> => {
  const found = definitionOf(wanted.readingsOf ?? wanted.code, sheet);
  if (!found.ok) return found;
  const { kind, code, readingsOf, method } = found.definition;
  if (kind !== wanted.kind) return refused({ reason: 'mixed-kinds', what: code, expected: wanted.kind, found: kind });
  if (!isMeasured(method) || method.type === 'felt' || readingsOf !== undefined) {
    return refused({ reason: 'operand-is-derived', dimension: code });
  }
  return positionsOf(found.definition);
};

const kindFault = (
  definition: DimensionDefinition,
  operands: readonly [DimensionDefinition, DimensionDefinition],
): Refusal | undefined => {
  const { kind, method } = definition;
  const mixed = (what: DimensionDefinition, expected: DimensionDefinition['kind']): Refusal | undefined =>
    what.kind === expected ? undefined : { reason: 'mixed-kinds', what: what.code, expected, found: what.kind };
  const [first, second] = operands;
  if (method.type !== 'ratio') return mixed(first, kind) ?? mixed(second, kind);
  if (method.scale !== undefined) return mixed(first, kind);
  return mixed(definition, 'ratio') ?? mixed(second, first.kind);
};

const both = (
  definition: DimensionDefinition,
  codes: readonly [string, string],
  walk: Walk,
): { readonly ok: true; readonly pair: readonly [Material, Material] } | Refused => {
  const first = definitionOf(codes[0], walk.sheet);
  if (!first.ok) return first;
  const second = definitionOf(codes[1], walk.sheet);
  if (!second.ok) return second;
  const fault = kindFault(definition, [first.definition, second.definition]);
  if (fault !== undefined) return refused(fault);
  const deeper = { ...walk, through: [...walk.through, definition.code] };
  const one = materialIn(first.definition, deeper, workOutAsOperand);
  if (!one.ok) return one;
  const other = materialIn(second.definition, deeper, workOutAsOperand);
  return other.ok ? { ok: true, pair: [one, other] } : other;
};

const materialIn = (definition: DimensionDefinition, walk: Walk, byPositions: typeof workOut): Material | Refused => {
  const { method, code } = definition;
  if (walk.through.includes(code)) {
    return refused({ reason: 'goes-in-circles', dimension: code, through: walk.through });
  }
  if (walk.through.length > deepestNesting) {
    return refused({ reason: 'nested-too-deep', dimension: code, most: deepestNesting });
  }
  switch (method.type) {
    case 'stated':
      return { ok: true, workedOut: statedFigure(method.value), positions: [] };
    case 'difference': {
      const found = both(definition, [method.minuend, method.subtrahend], walk);
      if (!found.ok) return found;
      const [minuend, subtrahend] = found.pair;
      return gatheredFrom(found.pair, workOutDifference(minuend.workedOut, subtrahend.workedOut));
    }
    case 'ratio':
      return ratioIn(definition, method, walk);
    default: {
      const own = read(definition, walk);
      if (!own.ok) return own;
      const outcome = byPositions(own.positions, method);
      return outcome.ok ? { ...outcome, positions: own.positions } : outcome;
    }
  }
};

const ratioIn = (
  definition: DimensionDefinition,
  method: Extract<Method, { readonly type: 'ratio' }>,
  walk: Walk,
): Material | Refused => {
  const found = both(definition, [method.numerator, method.denominator], walk);
  if (!found.ok) return found;
  const [numerator, denominator] = found.pair;
  const workedOut = workOutRatio(numerator.workedOut, denominator.workedOut, method.scale ?? partsPerMillion);
  return workedOut === undefined
    ? refused({ reason: 'denominator-not-positive', dimension: method.denominator })
    : gatheredFrom(found.pair, workedOut);
};

const gatheredFrom = (pair: readonly [Material, Material], workedOut: WorkedOut): Material => ({
  ok: true,
  workedOut,
  positions: [
    ...new Map(
      [...pair[0].positions, ...pair[1].positions].map((at) => [JSON.stringify([at.dimension, at.position.code]), at]),
    ).values(),
  ],
});

/** Codes of the dimensions whose readings one is worked out from, in the order in which they are met. */
export const readDimensionsOf = (
  code: string,
  sheet: readonly {
    readonly code: string;
    readonly method: Method;
    readonly readingsOf?: string | undefined;
  }[],
): readonly string[] => {
  const byCode = new Map(sheet.map((definition) => [definition.code, definition]));
  const read = new Set<string>();
  const seen = new Set<string>();
  const walk = (at: string): void => {
    const definition = byCode.get(at);
    if (definition === undefined || seen.has(at)) return;
    seen.add(at);
    for (const [, operand] of operandsOf(definition.method)) walk(operand);
    if (isMeasured(definition.method)) read.add(definition.readingsOf ?? at);
  };
  walk(code);
  return [...read];
};

/** Brings each read dimension's positions together once. */
export const gatheredOnce = ({ readings, instruments }: Pick<Sources, 'readings' | 'instruments'>): PositionsOf => {
  const known = new Map<string, ReturnType<typeof gatherPositions>>();
  return (definition) => {
    const before = known.get(definition.code);
    if (before !== undefined) return before;
    const gathered = gatherPositions(definition, readings, instruments);
    known.set(definition.code, gathered);
    return gathered;
  };
};

/**
 * Works a dimension out, through those it works on: readings, other dimensions' readings, differences, ratios and
 * stated figures to any depth. Refuses what is missing, of another kind, or worked out from itself.
 */
export const materialOf = (
  definition: DimensionDefinition,
  sheet: readonly DimensionDefinition[],
  positionsOf: PositionsOf,
): Material | Refused => materialIn(definition, { sheet, positionsOf, through: [] }, workOut);
