import {
  type BoreRule,
  type DimensionDefinition,
  isMeasured,
  type Limits,
  type Method,
  type MethodType,
  type OperandField,
} from '#domain/metrology/dimension.ts';
import { type SheetFault as MetrologyFault, sheetFaults } from '#domain/metrology/sheet-faults.ts';
import { baseQuantity } from '#domain/units/quantity.ts';
import { readFigure } from './check-limits.ts';
import type { PrintedDimension } from './document.ts';
import { type Faults, readPrinted } from './faults.ts';

const operandFields: readonly OperandField[] = ['minuend', 'subtrahend', 'numerator', 'denominator'];
/** Worked out of a bore's heights and axes by a rule that manuals differ in. */
const ofTheBore: readonly MethodType[] = ['size', 'out-of-round', 'taper'];

type At = { readonly faults: Faults; readonly pointer: string };
type Asked = { readonly of: PrintedDimension; readonly dimensions: readonly PrintedDimension[]; readonly at: At };

/** A method as the metrology knows it, with its scale and stated figure in base units. */
export type CheckedMethod = { readonly method: Method; readonly scale: number | null; readonly stated: number | null };

function checkScale({ of, dimensions, at }: Asked): number | null {
  if (of.scale === null) return null;
  const pointer = `${at.pointer}/scale`;
  if (of.method !== 'ratio') {
    at.faults.add(pointer, `The method "${of.method}" has no scale.`);
    return null;
  }
  const kind = dimensions.find(({ code }) => code === of.denominator)?.kind;
  const scale = kind === undefined ? undefined : readPrinted(of.scale, { kind, pointer, faults: at.faults });
  if (scale !== undefined && scale <= 0) {
    at.faults.add(`${pointer}/value`, 'The scale of a ratio must be above nothing.');
  }
  // Any scale will do to go on with: what is wrong has been told.
  return scale === undefined || scale <= 0 ? 1 : scale;
}

function checkStated({ of, at }: Asked): number | null {
  const pointer = `${at.pointer}/stated`;
  if (of.method === 'stated' && of.stated === null)
    at.faults.add(pointer, 'Nobody measures it, so the sheet has to give the figure.');
  if (of.method !== 'stated' && of.stated !== null)
    at.faults.add(pointer, `The method "${of.method}" is worked out; only a stated dimension has a figure here.`);
  return readFigure(of.stated, of, { faults: at.faults, pointer }) ?? (of.method === 'stated' ? 0 : null);
}

function methodOf(of: PrintedDimension, scale: number | null, stated: number | null): Method {
  const rule: BoreRule = of.boreRule ?? 'per-level';
  switch (of.method) {
    case 'size':
    case 'out-of-round':
    case 'taper':
      return { type: of.method, rule };
    case 'difference':
      return { type: 'difference', minuend: of.minuend ?? '', subtrahend: of.subtrahend ?? '' };
    case 'ratio': {
      const operands = { numerator: of.numerator ?? '', denominator: of.denominator ?? '' };
      return { type: 'ratio', ...operands, ...(scale === null ? {} : { scale: baseQuantity('length', scale) }) };
    }
    case 'stated':
      return { type: 'stated', value: baseQuantity(of.kind, stated ?? 0) };
    default:
      return { type: of.method };
  }
}

/** Reads a method; tells what belongs to another method, and a rule or a figure that is missing. */
export function checkMethod(asked: Asked): CheckedMethod {
  const { of, at } = asked;
  const [scale, stated] = [checkScale(asked), checkStated(asked)];
  const method = methodOf(of, scale, stated);
  for (const field of operandFields.filter((one) => !(one in method) && of[one] !== null)) {
    at.faults.add(`${at.pointer}/${field}`, `The method "${of.method}" has no ${field}.`);
  }
  const isBore = ofTheBore.includes(of.method);
  if (isBore && of.boreRule === null)
    at.faults.add(`${at.pointer}/boreRule`, 'Manuals differ: say per-level or extremes.');
  if (!isBore && of.boreRule !== null)
    at.faults.add(`${at.pointer}/boreRule`, `The method "${of.method}" takes no bore rule.`);
  if (of.readingsOf !== null && (!isMeasured(method) || method.type === 'felt'))
    at.faults.add(`${at.pointer}/readingsOf`, `The method "${of.method}" takes no readings of another dimension.`);
  if (of.positions.length > 0 && (!isMeasured(method) || of.readingsOf !== null))
    at.faults.add(`${at.pointer}/positions`, 'No readings are keyed for it, so it has no positions of its own.');
  return { method, scale, stated };
}

const noLimits: Limits = { standard: {}, service: {} };

const definitionOf = (of: PrintedDimension, method: Method): DimensionDefinition => ({
  code: of.code,
  name: of.name,
  kind: of.kind,
  method,
  positions: of.positions.map(({ code, level, axis }) => ({
    code,
    ...(level === null ? {} : { level }),
    ...(axis === null ? {} : { axis }),
  })),
  limits: noLimits,
  rule: of.rule,
  ...(of.readingsOf === null ? {} : { readingsOf: of.readingsOf }),
});

/** Told by this check itself, more closely. */
const toldBefore: readonly MetrologyFault['reason'][] = ['code-twice', 'not-a-number', 'limits-cross'];

/**
 * Holds every method against the rest of the sheet: what it works on is there, of fitting kinds, has readings where they
 * are wanted and is not worked out of it in turn; a bore has heights and axes.
 */
export function checkReferences(
  dimensions: readonly PrintedDimension[],
  methods: readonly Method[],
  faults: Faults,
): void {
  const definitions = dimensions.flatMap((of, index) => {
    const method = methods[index];
    return method === undefined ? [] : [definitionOf(of, method)];
  });
  for (const { dimension, field, reason, words } of sheetFaults(definitions)) {
    if (toldBefore.includes(reason)) continue;
    const pointer = `/dimensions/${dimensions.findIndex(({ code }) => code === dimension)}/${field}`;
    if (!faults.found.some((told) => told.pointer.startsWith(pointer))) faults.add(pointer, words);
  }
}
