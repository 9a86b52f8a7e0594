import { type Print, printOf, rounded, roundedDifference, roundedInterval } from '#contracts/figures.ts';
import type { MeasuredValue } from '#contracts/floor.ts';
import type { Quantity } from '#contracts/wire.ts';
import { formatQuantity } from '#domain/units/format-quantity.ts';
import type { ValueRow } from './rows.ts';

/** A guard band at the value's decimals; more of them when it would read as nothing. */
export function guardOf(base: number, print: Print): Quantity {
  const guard = roundedDifference(base, print);
  const readsAsNothing = base > 0 && /^[0.]+$/.test(guard.value);
  return readsAsNothing ? roundedDifference(base, { ...print, decimals: print.decimals + 2 }) : guard;
}

export function measuredValue(row: ValueRow): MeasuredValue {
  const { valueType: type, low, high } = row;
  switch (type) {
    case 'point':
      return { type, value: rounded(low, printOf(row)) };
    case 'felt':
      return { type, present: low !== 0 };
    case 'interval':
    case 'span':
      return { type, interval: roundedInterval(low, high, printOf(row)) };
  }
}

/** A length as a drawing letters it: millimetres, one decimal or as many as it takes. */
export const lengthOf = (nanometres: number): Quantity => ({
  value: formatQuantity(nanometres, 'mm', 6).replace(/0{1,5}$/, ''),
  unit: 'mm',
});
