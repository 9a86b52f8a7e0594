import { baseQuantity, type QuantityKind, type QuantityOf } from './quantity.ts';
import { findUnitCode, type Unit, type UnitCode, unitOf } from './unit-table.ts';

export type ParseRefusal =
  | { readonly reason: 'unknown-unit'; readonly unit: string }
  | { readonly reason: 'unit-of-another-kind'; readonly unit: UnitCode; readonly kind: QuantityKind }
  | { readonly reason: 'not-a-number'; readonly text: string }
  /** Both a point and a comma, or several: which one parts the decimals can't be known. */
  | { readonly reason: 'ambiguous-separator'; readonly text: string }
  /** Fractions are of an inch, with 2, 4, 8 … 128 below. */
  | { readonly reason: 'fraction-not-allowed'; readonly text: string }
  | { readonly reason: 'below-absolute-zero' }
  | { readonly reason: 'too-large' };

export type ParsedQuantity<K extends QuantityKind> =
  | {
      readonly ok: true;
      readonly value: QuantityOf[K];
      /** True when the keyed figure is no whole number of base units, so that storing it rounded it. */
      readonly rounded: boolean;
      /** Decimals keyed (for a fraction: those it takes to write it out), to show it back as it was taken. */
      readonly decimals: number;
    }
  | ({ readonly ok: false } & ParseRefusal);

type Rational = { readonly numerator: bigint; readonly denominator: bigint };
type Keyed = { readonly ok: true; readonly amount: Rational; readonly decimals: number };
type Refused = { readonly ok: false } & ParseRefusal;

const longestText = 40;
const decimalForm = /^([+-]?)(\d*)(?:[.,](\d*))?$/;
const fractionForm = /^([+-]?)(?:(\d+)[ ]+)?(\d+)\/(\d+)$/;

const readDecimal = (text: string): Keyed | Refused => {
  const match = decimalForm.exec(text);
  const whole = match?.[2] ?? '';
  const part = match?.[3] ?? '';
  if (match === null || whole + part === '') {
    const separators = text.replace(/[^.,]/g, '').length;
    const otherwiseDigits = /^[+-]?[\d.,]+$/.test(text) && /\d/.test(text);
    return separators > 1 && otherwiseDigits
      ? { ok: false, reason: 'ambiguous-separator', text }
      : { ok: false, reason: 'not-a-number', text };
  }
  const digits = BigInt(whole + part);
  const numerator = match[1] === '-' ? -digits : digits;
  return { ok: true, amount: { numerator, denominator: 10n ** BigInt(part.length) }, decimals: part.length };
};

const readFraction = (text: string, match: RegExpExecArray): Keyed | Refused => {
  const whole = BigInt(match[2] ?? '0');
  const above = BigInt(match[3] ?? '0');
  const below = Number(match[4]);
  const halvings = Math.log2(below);
  const proper = match[2] === undefined || above < BigInt(below);
  if (!Number.isInteger(halvings) || halvings < 1 || halvings > 7 || !proper) {
    return { ok: false, reason: 'fraction-not-allowed', text };
  }
  const total = whole * BigInt(below) + above;
  const numerator = match[1] === '-' ? -total : total;
  let decimals = halvings;
  for (let rest = total; decimals > 0 && rest % 2n === 0n; rest /= 2n) decimals -= 1;
  return { ok: true, amount: { numerator, denominator: BigInt(below) }, decimals };
};

/** numerator / denominator to the nearest whole number, halves away from zero. The denominator is positive. */
export const roundedQuotient = (numerator: bigint, denominator: bigint): bigint => {
  const magnitude = numerator < 0n ? -numerator : numerator;
  const rounded = (2n * magnitude + denominator) / (2n * denominator);
  return numerator < 0n ? -rounded : rounded;
};

const toBase = (amount: Rational, unit: Unit): Rational => {
  const scaledBelow = amount.denominator * unit.denominator;
  return {
    numerator: amount.numerator * unit.numerator * unit.offsetDenominator + unit.offsetNumerator * scaledBelow,
    denominator: scaledBelow * unit.offsetDenominator,
  };
};

/**
 * Reads a keyed figure in a unit into whole base units of its kind, digit by digit, never through a float.
 * Takes a decimal point or comma, a sign, and in inches fractions ("1/128", "3 1/2"). What is no whole number of base
 * units is rounded to the nearest, halves away from zero, and says so. Factors: NIST SP 811, appendix B.
 * Errors: an unknown unit, one of another kind, text that is no number or could be read two ways, a temperature below
 * absolute zero, a figure beyond safe whole numbers.
 */
export const parseQuantity = <K extends QuantityKind>(text: string, unitCode: string, kind: K): ParsedQuantity<K> => {
  const code = findUnitCode(unitCode);
  if (code === undefined) return { ok: false, reason: 'unknown-unit', unit: unitCode };
  const unit = unitOf(code);
  if (unit.kind !== kind) return { ok: false, reason: 'unit-of-another-kind', unit: code, kind };

  const trimmed = text.trim().replace('\u2212', '-');
  if (trimmed.length > longestText) return { ok: false, reason: 'not-a-number', text: trimmed.slice(0, longestText) };
  const fraction = fractionForm.exec(trimmed);
  if (fraction !== null && code !== 'in') return { ok: false, reason: 'fraction-not-allowed', text: trimmed };
  const keyed = fraction === null ? readDecimal(trimmed) : readFraction(trimmed, fraction);
  if (!keyed.ok) return keyed;

  const base = toBase(keyed.amount, unit);
  if (kind === 'temperature' && base.numerator < 0n) return { ok: false, reason: 'below-absolute-zero' };
  const whole = roundedQuotient(base.numerator, base.denominator);
  if (!Number.isSafeInteger(Number(whole))) return { ok: false, reason: 'too-large' };
  return {
    ok: true,
    value: baseQuantity(kind, Number(whole)),
    rounded: whole * base.denominator !== base.numerator,
    decimals: keyed.decimals,
  };
};
