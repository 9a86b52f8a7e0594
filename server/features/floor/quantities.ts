import type { MeasuredValue } from '#contracts/floor.ts';
import type { Quantity } from '#contracts/wire.ts';
import { formatDifference, formatQuantity } from '#domain/units/format-quantity.ts';
import { findUnitCode, type UnitCode } from '#domain/units/unit-table.ts';
import type { ValueRow } from './rows.ts';

/** A unit and decimals as a spec sheet or finding keeps them. */
export interface Scale {
  readonly unit: string;
  readonly decimals: number;
}

function unitCode(text: string): UnitCode {
  const code = findUnitCode(text);
  if (code === undefined) throw new Error(`The books hold a unit ${text} that is none`);
  return code;
}

/** Base units as they should be read. */
export const quantityOf = (base: number, { unit, decimals }: Scale): Quantity => ({
  value: formatQuantity(base, unitCode(unit), decimals),
  unit,
});

export const quantityOrNull = (base: number | null | undefined, scale: Scale): Quantity | null =>
  base === null || base === undefined ? null : quantityOf(base, scale);

/** A difference (an uncertainty, a margin), with `more` decimals than the scale has. */
export const differenceOf = (base: number, { unit, decimals }: Scale, more = 0): Quantity => ({
  value: formatDifference(base, unitCode(unit), decimals + more),
  unit,
});

/** A guard band at the value's decimals; more of them when it would read as nothing. */
export function guardOf(base: number, scale: Scale): Quantity {
  const guard = differenceOf(base, scale);
  return base > 0 && /^[0.]+$/.test(guard.value) ? differenceOf(base, scale, 2) : guard;
}

export function measuredValue(row: ValueRow): MeasuredValue {
  const { valueType: type, low, high } = row;
  switch (type) {
    case 'point':
      return { type, value: quantityOf(low, row) };
    case 'felt':
      return { type, present: low !== 0 };
    case 'interval':
    case 'span':
      return {
        type,
        interval: {
          low: quantityOf(low, row).value,
          high: high === null ? null : quantityOf(high, row).value,
          unit: row.unit,
        },
      };
  }
}

/** A length as a drawing letters it: millimetres, one decimal or as many as it takes. */
export const lengthOf = (nanometres: number): Quantity => ({
  value: formatQuantity(nanometres, 'mm', 6).replace(/0{1,5}$/, ''),
  unit: 'mm',
});
