import {
  type DimensionDefinition,
  decisionRuleOf,
  isMeasured,
  type Limits,
  type OperandField,
  operandsOf,
} from './dimension.ts';
import { deepestNesting } from './resolving.ts';
import { limitsFault } from './verdict.ts';
import { positionsNeeded } from './working-out.ts';

export type SheetFaultReason =
  | 'code-twice'
  | 'unknown-dimension'
  | 'goes-in-circles'
  | 'nested-too-deep'
  | 'not-to-be-worked-from'
  | 'mixed-kinds'
  | 'positions-do-not-fit'
  | 'limits-cross'
  | 'not-a-number'
  | 'unknown-rule';

/** What keeps a spec sheet from being used: of which dimension, in which field of it, and what to do. */
export type SheetFault = {
  readonly dimension: string;
  /** The field at fault: 'code', 'kind', 'minuend', 'readingsOf', 'positions', 'limits', 'value' … */
  readonly field:
    | OperandField
    | 'code'
    | 'kind'
    | 'method'
    | 'readingsOf'
    | 'positions'
    | 'limits'
    | 'rule'
    | 'scale'
    | 'value'
    | 'plausible'
    | 'material';
  readonly reason: SheetFaultReason;
  readonly words: string;
};

type Sheet = ReadonlyMap<string, DimensionDefinition>;
type Found = (field: SheetFault['field'], reason: SheetFaultReason, words: string) => SheetFault;

const nestedWords = `It is worked out through more than ${deepestNesting} other dimensions one after another.`;

/** Codes that a dimension leans on, by the field that names them. */
const leansOn = ({
  method,
  readingsOf,
}: DimensionDefinition): readonly (readonly [OperandField | 'readingsOf', string])[] =>
  readingsOf === undefined ? operandsOf(method) : [...operandsOf(method), ['readingsOf', readingsOf]];

/** The dimensions on the way from one back to itself; undefined: there is no such way. */
const circleFrom = (code: string, sheet: Sheet): readonly string[] | undefined => {
  const seen = new Set<string>();
  const walk = (at: string): readonly string[] | undefined => {
    seen.add(at);
    const definition = sheet.get(at);
    const next = definition === undefined ? [] : leansOn(definition).map(([, to]) => to);
    if (next.includes(code)) return [at];
    for (const to of next) {
      const circle = seen.has(to) ? undefined : walk(to);
      if (circle !== undefined) return [at, ...circle];
    }
    return undefined;
  };
  return walk(code);
};

/** How many dimensions deep a dimension is worked out; only for one that goes in no circle. */
const depthsOf = (sheet: Sheet): ((code: string) => number) => {
  const known = new Map<string, number>();
  const depth = (code: string, through: readonly string[]): number => {
    const definition = sheet.get(code);
    if (definition === undefined || through.includes(code)) return 0;
    const before = known.get(code);
    if (before !== undefined) return before;
    const below = leansOn(definition).map(([, to]) => depth(to, [...through, code]));
    const found = below.length === 0 ? 0 : 1 + Math.max(...below);
    known.set(code, found);
    return found;
  };
  return (code) => depth(code, []);
};

const referenceFaults = (definition: DimensionDefinition, sheet: Sheet, found: Found): readonly SheetFault[] => {
  const circle = circleFrom(definition.code, sheet);
  return leansOn(definition).flatMap(([field, code], index): readonly SheetFault[] => {
    const operand = sheet.get(code);
    if (operand === undefined) {
      return [found(field, 'unknown-dimension', `There is no dimension "${code}" on this sheet.`)];
    }
    if (circle !== undefined) {
      const words = `It is worked out from itself, through ${circle.join(', ')}.`;
      return index === 0 ? [found(field, 'goes-in-circles', words)] : [];
    }
    const readFrom = field === 'readingsOf';
    if (
      operand.method.type === 'felt' ||
      (readFrom && (!isMeasured(operand.method) || operand.readingsOf !== undefined))
    ) {
      return [found(field, 'not-to-be-worked-from', `"${code}" has no readings of its own to work from.`)];
    }
    return [];
  });
};

const kindFaults = (definition: DimensionDefinition, sheet: Sheet, found: Found): readonly SheetFault[] => {
  const { method, kind } = definition;
  const mixed = (field: SheetFault['field'], is: string, wanted: string): readonly SheetFault[] =>
    is === wanted ? [] : [found(field, 'mixed-kinds', `It is a ${is}, but a ${wanted} is wanted here.`)];
  const kindsOf = new Map(
    leansOn(definition).flatMap(([field, code]) => {
      const operand = sheet.get(code);
      return operand === undefined ? [] : [[field, operand.kind] as const];
    }),
  );
  const against = (field: OperandField | 'readingsOf', wanted: string): readonly SheetFault[] => {
    const is = kindsOf.get(field);
    return is === undefined ? [] : mixed(field, is, wanted);
  };
  if (method.type !== 'ratio') {
    return (['minuend', 'subtrahend', 'readingsOf'] as const).flatMap((field) => against(field, kind));
  }
  if (method.scale !== undefined) return against('numerator', kind);
  return [...mixed('kind', kind, 'ratio'), ...against('denominator', kindsOf.get('numerator') ?? kind)];
};

const positionFaults = (definition: DimensionDefinition, sheet: Sheet, found: Found): readonly SheetFault[] => {
  const { method, readingsOf, positions } = definition;
  if (!isMeasured(method)) return [];
  const read = readingsOf === undefined ? positions : sheet.get(readingsOf)?.positions;
  if (read === undefined) return [];
  const fault = (words: string) => [found('positions', 'positions-do-not-fit', words)];
  if (read.length === 0) return fault('It has no positions to measure.');
  const twice = read.find(({ code }, index) => read.findIndex((other) => other.code === code) !== index);
  if (twice !== undefined) return fault(`Position "${twice.code}" is there twice.`);
  const needed = positionsNeeded(read, method);
  return needed === undefined ? [] : fault(`It is worked out from ${needed}.`);
};

const limitFaults = (limits: Limits, found: Found): readonly SheetFault[] => {
  const bounds = [limits.standard.low, limits.standard.high, limits.service.low, limits.service.high];
  if (bounds.some((bound) => bound !== undefined && !Number.isSafeInteger(bound))) {
    return [found('limits', 'not-a-number', 'A limit is not a whole number of base units.')];
  }
  const fault = limitsFault(limits, '');
  if (fault?.reason !== 'limits-inconsistent') return [];
  return [found('limits', 'limits-cross', `The limits contradict each other: ${fault.detail}.`)];
};

const figureFaults = (definition: DimensionDefinition, found: Found): readonly SheetFault[] => {
  const { method, rule, plausible, material } = definition;
  const faults: SheetFault[] = [];
  const wrong = (field: SheetFault['field'], words: string): void => {
    faults.push(found(field, 'not-a-number', words));
  };
  if (method.type === 'stated' && !Number.isSafeInteger(method.value))
    wrong('value', 'The stated figure is no number.');
  if (
    method.type === 'ratio' &&
    method.scale !== undefined &&
    !(Number.isSafeInteger(method.scale) && method.scale > 0)
  ) {
    wrong('scale', 'The scale must lie above nothing.');
  }
  if (plausible !== undefined && !(plausible.span > 0 && Number.isSafeInteger(plausible.nominal))) {
    wrong('plausible', 'What is possible needs a nominal figure and a span above nothing.');
  }
  const alphas = material === undefined ? [] : [material.alphaPerKelvin, material.alphaUncertaintyPerKelvin];
  if (alphas.some((alpha) => !(alpha >= 0 && alpha <= 1e-3))) {
    wrong('material', 'An expansion lies between 0 and 0.001 per kelvin.');
  }
  if (decisionRuleOf(rule) !== rule) faults.push(found('rule', 'unknown-rule', `There is no decision rule "${rule}".`));
  return faults;
};

/**
 * Everything that is wrong with a spec sheet's dimensions, each with the field at fault; none: it can be used.
 * `limitsByClass` gives the limits of further size classes of a dimension, by its code.
 */
export const sheetFaults = (
  sheet: readonly DimensionDefinition[],
  limitsByClass: ReadonlyMap<string, readonly Limits[]> = new Map(),
): readonly SheetFault[] => {
  const byCode: Sheet = new Map(sheet.map((definition) => [definition.code, definition]));
  const depthOf = depthsOf(byCode);
  return sheet.flatMap((definition, index): readonly SheetFault[] => {
    const { code } = definition;
    const found: Found = (field, reason, words) => ({ dimension: code, field, reason, words });
    const twice = sheet.findIndex((other) => other.code === code) !== index;
    return [
      ...(twice ? [found('code', 'code-twice', `The code "${code}" is there twice.`)] : []),
      ...(depthOf(code) > deepestNesting ? [found('method', 'nested-too-deep', nestedWords)] : []),
      ...referenceFaults(definition, byCode, found),
      ...kindFaults(definition, byCode, found),
      ...positionFaults(definition, byCode, found),
      ...[definition.limits, ...(limitsByClass.get(code) ?? [])].flatMap((limits) => limitFaults(limits, found)),
      ...figureFaults(definition, found),
    ];
  });
};
