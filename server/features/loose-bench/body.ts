import type { Quantity, QuantityInterval } from '#contracts/wire.ts';
import type { LengthInterval } from '#domain/lash/interval.ts';
import { parseQuantity } from '#domain/units/parse-quantity.ts';
import { nanometres, type QuantityKind, type QuantityOf } from '#domain/units/quantity.ts';
import { findUnitCode, type UnitCode, unitsOfKind } from '#domain/units/unit-table.ts';
import { ProblemError } from '#platform/problem.ts';

/** Reads a quantity of a body, or refuses the request with the pointer to it. */
export function quantityAt<K extends QuantityKind>(given: Quantity, kind: K, pointer: string): QuantityOf[K] {
  const parsed = parseQuantity(given.value, given.unit, kind);
  if (parsed.ok) return parsed.value;
  const wrongUnit = parsed.reason === 'unknown-unit' || parsed.reason === 'unit-of-another-kind';
  const detail = wrongUnit
    ? `A ${kind} is given in ${unitsOfKind(kind).join(', ')}, not in "${given.unit}".`
    : `"${given.value}" ${given.unit} is not a ${kind}.`;
  throw new ProblemError(wrongUnit ? 'unit-wrong' : 'refused', `At ${pointer}: ${detail}`, {
    errors: [{ pointer, detail }],
  });
}

export const quantityIf = <K extends QuantityKind>(
  given: Quantity | undefined,
  kind: K,
  pointer: string,
): QuantityOf[K] | undefined => (given === undefined ? undefined : quantityAt(given, kind, pointer));

export const lengthAt = (given: Quantity, pointer: string) => quantityAt(given, 'length', pointer);

/** Reads the bounds of a length; two equal ones are one figure. */
export function intervalAt({ low, high, unit }: QuantityInterval, pointer: string): LengthInterval {
  const least = lengthAt({ value: low, unit }, `${pointer}/low`);
  const most = high === null ? null : lengthAt({ value: high, unit }, `${pointer}/high`);
  if (most !== null && most < least) refuse(`${pointer}/high`, 'lies below the lower end.');
  return { low: nanometres(least), high: most === null ? null : nanometres(most) };
}

export function refuse(pointer: string, detail: string): never {
  throw new ProblemError('refused', `At ${pointer}: ${detail}`, { errors: [{ pointer, detail }] });
}

export function unitAt(text: string, kind: QuantityKind, pointer: string): UnitCode {
  const code = findUnitCode(text);
  if (code !== undefined && unitsOfKind(kind).includes(code)) return code;
  const detail = `A ${kind} is given in ${unitsOfKind(kind).join(', ')}, not in "${text}".`;
  throw new ProblemError('unit-wrong', `At ${pointer}: ${detail}`, { errors: [{ pointer, detail }] });
}
