import type { Quantity } from '#contracts/wire.ts';
import { type ParseRefusal, parseQuantity } from '#domain/units/parse-quantity.ts';
import type { QuantityKind, QuantityOf } from '#domain/units/quantity.ts';
import { unitsOfKind } from '#domain/units/unit-table.ts';
import { ProblemError } from './problem.ts';

const wordsFor = (refusal: ParseRefusal, keyed: Quantity, kind: QuantityKind): string => {
  const units = unitsOfKind(kind).join(', ');
  switch (refusal.reason) {
    case 'unknown-unit':
      return `"${keyed.unit}" is no unit known here. For a ${kind} use one of ${units}.`;
    case 'unit-of-another-kind':
      return `${keyed.unit} does not measure a ${kind}. Use one of ${units}.`;
    case 'fraction-not-allowed':
      return `"${keyed.value}" is a fraction; fractions are read in inches only.`;
    case 'below-absolute-zero':
      return `${keyed.value} ${keyed.unit} is below absolute zero.`;
    case 'too-large':
      return `${keyed.value} ${keyed.unit} is too large.`;
    default:
      return `"${keyed.value}" is not a number that can be read one way only, such as 88.048.`;
  }
};

/** A wire quantity as whole base units of its kind, parsed from its text; refused with the field and the units that fit. */
export function baseOf<Kind extends QuantityKind>(keyed: Quantity, kind: Kind, pointer: string): QuantityOf[Kind] {
  const parsed = parseQuantity(keyed.value, keyed.unit, kind);
  if (parsed.ok) return parsed.value;
  const detail = wordsFor(parsed, keyed, kind);
  const isUnit = parsed.reason === 'unknown-unit' || parsed.reason === 'unit-of-another-kind';
  throw new ProblemError(isUnit ? 'unit-wrong' : 'invalid-request', detail, { errors: [{ pointer, detail }] });
}
