import type { Quantity } from '#contracts/wire.ts';
import { findUnitCode, unitOf } from '#domain/units/unit-table.ts';

/** What a unit is called on paper: N·m, not the code that stands for it. */
export const symbolOf = (unit: string): string => {
  const code = findUnitCode(unit);
  return code === undefined ? unit : unitOf(code).symbol;
};

/** "25 N·m", "90°": a figure in the digits it was sent in, as it is lettered. */
export const quantityText = ({ value, unit }: Quantity): string => {
  const symbol = symbolOf(unit);
  return symbol === '' || symbol === '°' ? `${value}${symbol}` : `${value} ${symbol}`;
};
