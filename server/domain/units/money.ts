import { roundedQuotient } from './parse-quantity.ts';

/** A sum in whole minor units (cents) of a currency (ISO 4217 code). */
export type Money = { readonly minor: bigint; readonly currency: string };

export type MoneyParsed =
  | { readonly ok: true; readonly money: Money }
  | { readonly ok: false; readonly reason: 'not-a-sum' | 'too-many-decimals' | 'unknown-currency' };

const currencyForm = /^[A-Z]{3}$/;
const minorForm = /^-?\d{1,18}$/;

// ISO 4217 minor-unit digits that are not two [from memory].
const otherDigits: Readonly<Record<string, number>> = {
  BHD: 3,
  CLP: 0,
  ISK: 0,
  JOD: 3,
  JPY: 0,
  KRW: 0,
  KWD: 3,
  OMR: 3,
  TND: 3,
  VND: 0,
};

/** How many decimals a currency's minor unit stands for. */
export const minorDigits = (currency: string): number => otherDigits[currency] ?? 2;

/** A sum of so many minor units. @throws RangeError when the currency is not three capital letters. */
export const money = (minor: bigint, currency: string): Money => {
  if (!currencyForm.test(currency)) throw new RangeError(`${currency} is no currency code`);
  return { minor, currency };
};

/** The wire form: minor units as a decimal string. */
export const minorText = (sum: Money): string => sum.minor.toString();

/** Reads the wire form (`"-12345"`). Errors: not up to 18 digits, not a currency code. */
export const moneyFromMinorText = (text: string, currency: string): MoneyParsed => {
  if (!currencyForm.test(currency)) return { ok: false, reason: 'unknown-currency' };
  if (!minorForm.test(text)) return { ok: false, reason: 'not-a-sum' };
  return { ok: true, money: { minor: BigInt(text), currency } };
};

/** Reads a keyed sum ("12.50", "12,5") exactly. Errors: no sum, or finer than the currency's minor unit. */
export const parseMoney = (text: string, currency: string): MoneyParsed => {
  if (!currencyForm.test(currency)) return { ok: false, reason: 'unknown-currency' };
  const match = /^(-?)(\d{1,15})(?:[.,](\d+))?$/.exec(text.trim());
  if (match === null) return { ok: false, reason: 'not-a-sum' };
  const digits = minorDigits(currency);
  const part = match[3] ?? '';
  if (part.length > digits) return { ok: false, reason: 'too-many-decimals' };
  const magnitude = BigInt((match[2] ?? '') + part.padEnd(digits, '0'));
  return { ok: true, money: { minor: match[1] === '-' ? -magnitude : magnitude, currency } };
};

/** The sum as digits with the currency's decimals, a point as separator: "12.50". */
export const formatMoney = (sum: Money): string => {
  const digits = minorDigits(sum.currency);
  const magnitude = (sum.minor < 0n ? -sum.minor : sum.minor).toString().padStart(digits + 1, '0');
  const sign = sum.minor < 0n ? '-' : '';
  const whole = magnitude.slice(0, magnitude.length - digits);
  return digits === 0 ? `${sign}${whole}` : `${sign}${whole}.${magnitude.slice(magnitude.length - digits)}`;
};

const sameCurrency = (a: Money, b: Money): void => {
  if (a.currency !== b.currency) throw new RangeError(`${a.currency} and ${b.currency} can't be added`);
};

/** a + b. @throws RangeError when the currencies differ: one shop keeps one currency. */
export const addMoney = (a: Money, b: Money): Money => {
  sameCurrency(a, b);
  return { minor: a.minor + b.minor, currency: a.currency };
};

/** a − b. @throws RangeError when the currencies differ. */
export const subtractMoney = (a: Money, b: Money): Money => addMoney(a, { minor: -b.minor, currency: b.currency });

/** The total of any number of sums; none make nothing in the currency given. */
export const totalMoney = (sums: readonly Money[], currency: string): Money =>
  sums.reduce(addMoney, money(0n, currency));

/**
 * A sum times a quantity, given as the exact fraction numerator / denominator (3 pieces, or 75 / 60 hours), to whole
 * minor units, halves away from zero. @throws RangeError when the denominator is not positive.
 */
export const multiplyMoney = (sum: Money, numerator: bigint, denominator = 1n): Money => {
  if (denominator <= 0n) throw new RangeError('The quantity must have a positive denominator');
  return { minor: roundedQuotient(sum.minor * numerator, denominator), currency: sum.currency };
};

/**
 * Parts a sum by weights so that the parts add up to it exactly: each gets its whole share, and the minor units left
 * over go to the largest remainders, the earlier one first. Weights are not negative and not all nothing.
 * @throws RangeError on such weights.
 */
export const allocateMoney = (sum: Money, weights: readonly bigint[]): readonly Money[] => {
  const whole = weights.reduce((total, weight) => total + weight, 0n);
  if (whole <= 0n || weights.some((weight) => weight < 0n)) throw new RangeError('Weights must be positive');
  const sign = sum.minor < 0n ? -1n : 1n;
  const magnitude = sum.minor * sign;
  const shares = weights.map((weight, index) => ({
    index,
    share: (magnitude * weight) / whole,
    remainder: (magnitude * weight) % whole,
  }));
  const left = Number(magnitude - shares.reduce((total, { share }) => total + share, 0n));
  const byRemainder = [...shares].sort((a, b) => {
    if (a.remainder !== b.remainder) return a.remainder > b.remainder ? -1 : 1;
    return a.index - b.index;
  });
  const favoured = new Set(byRemainder.slice(0, left).map(({ index }) => index));
  return shares.map(({ index, share }) => ({
    minor: sign * (share + (favoured.has(index) ? 1n : 0n)),
    currency: sum.currency,
  }));
};
