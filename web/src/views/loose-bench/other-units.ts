import type { Quantity } from '#contracts/wire.ts';
import { formatQuantity } from '#domain/units/format-quantity.ts';
import { parseQuantity } from '#domain/units/parse-quantity.ts';
import { findUnitCode, type UnitCode, unitOf } from '#domain/units/unit-table.ts';

const others: Readonly<Record<string, readonly (readonly [unit: UnitCode, decimals: number])[]>> = {
  mm: [['in', 4]],
  cm3: [['in3', 2]],
  mL: [
    ['floz-us', 2],
    ['floz-imp', 2],
  ],
  L: [
    ['gal-us', 3],
    ['gal-imp', 3],
  ],
};

const metresPerFoot = 0.3048;

/** The same figure in the units of other countries' sheets, to be read beside it. */
export function inOtherUnits({
  value,
  unit,
}: Quantity): readonly { readonly value: string; readonly symbol: string }[] {
  if (unit === 'm/s') return [{ value: ((Number(value) / metresPerFoot) * 60).toFixed(0), symbol: 'ft/min' }];
  const code = findUnitCode(unit);
  if (code === undefined) return [];
  const read = parseQuantity(value, unit, unitOf(code).kind);
  if (!read.ok) return [];
  return (others[unit] ?? []).map(([other, decimals]) => ({
    value: formatQuantity(read.value, other, decimals),
    symbol: unitOf(other).symbol,
  }));
}

const plainSymbols: Readonly<Record<string, string>> = { 'm/s2': 'm/s²', gn: 'g', g: 'g', 'm/s': 'm/s', rpm: '/min' };

/** What a unit is called on paper, also those that only these results have. */
export function symbolFor(unit: string): string {
  const code = findUnitCode(unit);
  return code === undefined ? (plainSymbols[unit] ?? unit) : unitOf(code).symbol;
}
