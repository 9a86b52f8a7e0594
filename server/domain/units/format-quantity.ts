import { roundedQuotient } from './parse-quantity.ts';
import { type UnitCode, unitOf } from './unit-table.ts';

/** A finite double as the exact fraction that it is. */
const exactFraction = (value: number): { readonly numerator: bigint; readonly denominator: bigint } => {
  let scaled = value;
  let denominator = 1n;
  while (!Number.isInteger(scaled)) {
    scaled *= 2;
    denominator *= 2n;
  }
  return { numerator: BigInt(scaled), denominator };
};

const digitsOf = (scaled: bigint, decimals: number): string => {
  const digits = (scaled < 0n ? -scaled : scaled).toString().padStart(decimals + 1, '0');
  const whole = digits.slice(0, digits.length - decimals);
  const sign = scaled < 0n ? '-' : '';
  return decimals === 0 ? `${sign}${whole}` : `${sign}${whole}.${digits.slice(digits.length - decimals)}`;
};

const format = (value: number, offsetApplies: boolean, options: { unit: UnitCode; decimals: number }): string => {
  const { unit: code, decimals } = options;
  if (!Number.isFinite(value)) throw new RangeError(`${value} can't be written with decimals`);
  if (!Number.isInteger(decimals) || decimals < 0 || decimals > 20) throw new RangeError(`${decimals} decimals`);
  const unit = unitOf(code);
  const { numerator, denominator } = exactFraction(value);
  const shift = offsetApplies ? unit.offsetNumerator : 0n;
  const above = (numerator * unit.offsetDenominator - shift * denominator) * unit.denominator;
  const below = denominator * unit.offsetDenominator * unit.numerator;
  return digitsOf(roundedQuotient(above * 10n ** BigInt(decimals), below), decimals);
};

/**
 * Writes a quantity, given in base units of the unit's kind, as a figure in that unit with so many decimals: exact
 * arithmetic, halves away from zero, a point as separator, never "-0". The value may be a fraction of a base unit (a
 * mean). @throws RangeError when it is not finite or decimals is not 0 to 20.
 */
export const formatQuantity = (value: number, unit: UnitCode, decimals: number): string =>
  format(value, true, { unit, decimals });

/** As formatQuantity, for a difference (an uncertainty, a margin): a temperature scale's offset is left out. */
export const formatDifference = (value: number, unit: UnitCode, decimals: number): string =>
  format(value, false, { unit, decimals });

/** A figure written with decimals, its closing zeros left out down to `least` decimals. */
export const shortest = (text: string, least: number): string => {
  const point = text.indexOf('.');
  if (point < 0) return text;
  let end = text.length;
  while (end > point + 1 + least && text[end - 1] === '0') end -= 1;
  return text.slice(0, end === point + 1 ? point : end);
};
