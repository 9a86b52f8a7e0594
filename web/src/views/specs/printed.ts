import type { SpecSheetDocument } from '#contracts/spec-sheets.ts';
import type { Quantity } from '#contracts/wire.ts';
import { findUnitCode, unitOf } from '#domain/units/unit-table.ts';

export type PrintedDimension = SpecSheetDocument['dimensions'][number];
export type PrintedLimits = PrintedDimension['limits'][number];
export type PrintedPosition = PrintedDimension['positions'][number];
export type PrintedFigure = NonNullable<PrintedDimension['nominal']>;

/** What a unit is called on paper. */
export const symbolOf = (unit: string): string => {
  const code = findUnitCode(unit);
  return code === undefined ? unit : unitOf(code).symbol;
};

/** A figure in the digits and the unit of its source: nothing is rounded, no mark is changed. */
export const printed = ({ value, unit }: Quantity): string => {
  const symbol = symbolOf(unit);
  return symbol === '' || symbol === '°' ? `${value}${symbol}` : `${value} ${symbol}`;
};
