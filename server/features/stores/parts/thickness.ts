import type { Quantity } from '#contracts/wire.ts';
import { formatQuantity } from '#domain/units/format-quantity.ts';

/** A thickness as it is read: millimetres with two decimals, more where there are more. */
export function millimetresOrNull(nm: number | null): Quantity | null {
  if (nm === null) return null;
  return { value: formatQuantity(nm, 'mm', 6).replace(/(\.\d{2}\d*?)0+$/, '$1'), unit: 'mm' };
}
