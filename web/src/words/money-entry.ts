import type { Money } from '#contracts/wire.ts';

/** How many decimals a currency has (ISO 4217, as the browser knows it). */
export const minorDigits = (currency: string): number =>
  new Intl.NumberFormat('en', { style: 'currency', currency }).resolvedOptions().maximumFractionDigits ?? 2;

/** What somebody typed as a sum, with a dot or a comma before the minor units; undefined when it is none. */
export function readMoney(text: string, currency: string): Money | undefined {
  const digits = minorDigits(currency);
  const [, whole, part = ''] = /^(\d{1,11})(?:[.,](\d+))?$/.exec(text.trim().replace(/[\s’'\u00a0\u202f]/g, '')) ?? [];
  if (whole === undefined || part.length > digits) return undefined;
  return { minor: BigInt(`${whole}${part.padEnd(digits, '0')}`).toString(), currency };
}

/** A sum as it stands in a field: plain figures with a dot, no currency sign. */
export function moneyEntry({ minor, currency }: Money): string {
  const digits = minorDigits(currency);
  const padded = minor.padStart(digits + 1, '0');
  return digits === 0 ? padded : `${padded.slice(0, -digits)}.${padded.slice(-digits)}`;
}

/** Sum of so many of each. */
export function sumOf(lines: readonly { readonly quantity: number; readonly each: Money }[], currency: string): Money {
  const minor = lines.reduce((sum, { quantity, each }) => sum + BigInt(quantity) * BigInt(each.minor), 0n);
  return { minor: minor.toString(), currency };
}
