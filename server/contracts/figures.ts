import { formatDifference, formatQuantity, shortest } from '#domain/units/format-quantity.ts';
import { type UnitCode, unitCodeOf } from '#domain/units/unit-table.ts';
import type { Quantity, QuantityInterval } from './wire.ts';

/** How a dimension is printed: its unit, and how many decimals the sheet gives. */
export interface Print {
  readonly unit: UnitCode;
  readonly decimals: number;
}

/** The print that a row keeps beside its figure. @throws RangeError when the unit is none. */
export const printOf = ({ unit, decimals }: { readonly unit: string; readonly decimals: number }): Print => ({
  unit: unitCodeOf(unit),
  decimals,
});

/** A worked-out figure may need more decimals than the sheet prints; this many more are kept before it is rounded. */
const finer = 3;

/** Base units as text in the printed unit: the sheet's decimals, up to three more where the figure needs them. */
export const figure = (value: number, { unit, decimals }: Print): string =>
  shortest(formatQuantity(value, unit, decimals + finer), decimals);

/** Base units as a quantity on the wire; see figure. */
export const quantity = (value: number, print: Print): Quantity => ({ value: figure(value, print), unit: print.unit });

/** As quantity, for a difference (an uncertainty, a margin): a temperature scale's offset is left out. */
export const difference = (value: number, { unit, decimals }: Print): Quantity => ({
  value: shortest(formatDifference(value, unit, decimals + finer), decimals),
  unit,
});

export const quantityOrNull = (value: number | null | undefined, print: Print): Quantity | null =>
  value === null || value === undefined ? null : quantity(value, print);

/** Base units as a quantity with just the print's decimals: what an overview shows. */
export const rounded = (value: number, { unit, decimals }: Print): Quantity => ({
  value: formatQuantity(value, unit, decimals),
  unit,
});

export const roundedOrNull = (value: number | null | undefined, print: Print): Quantity | null =>
  value === null || value === undefined ? null : rounded(value, print);

/** As rounded, for a difference. */
export const roundedDifference = (value: number, { unit, decimals }: Print): Quantity => ({
  value: formatDifference(value, unit, decimals),
  unit,
});

/** An interval as rounded; `high` null has no upper end. */
export const roundedInterval = (low: number, high: number | null, print: Print): QuantityInterval => ({
  low: rounded(low, print).value,
  high: high === null ? null : rounded(high, print).value,
  unit: print.unit,
});
