import { formatDifference, formatQuantity, shortest } from './format-quantity.ts';
import { type UnitCode, unitOf } from './unit-table.ts';

/**
 * How the figures of one dimension are printed: its unit, the decimals that its sheet gives, and the coarsest resolution
 * (base units) among the instruments it was read with, null where none is known.
 */
export type Printing = {
  readonly unit: UnitCode;
  readonly decimals: number;
  readonly resolution: number | null;
};

/** Figures as text with their unit, each from base units. */
export type PrintedFigures = {
  /** A figure that somebody stated: as it was stated, however many decimals that takes. */
  readonly stated: (base: number) => string;
  /** A figure worked out of readings: no finer than one decimal more than the sheet and the instrument have. */
  readonly workedOut: (base: number) => string;
  /** How far two figures are apart, as finely as workedOut; "less than …" where it would read as nothing. */
  readonly apart: (base: number) => string;
  /** What is kept off a limit: two significant digits, rounded up so that it is never told smaller than it is. */
  readonly keptOff: (base: number) => string;
};

const perUnit = (unit: UnitCode): number => Number(unitOf(unit).numerator) / Number(unitOf(unit).denominator);

/** Decimals it takes to write the first digit of a step, 0 to 9. */
const decimalsOfStep = (step: number, unit: UnitCode): number =>
  Math.min(9, Math.max(0, Math.ceil(-Math.log10(step / perUnit(unit)) - 1e-9)));

const mostDecimals = ({ unit, decimals, resolution }: Printing): number =>
  (resolution === null || resolution <= 0 ? decimals : Math.min(decimals, decimalsOfStep(resolution, unit))) + 1;

/**
 * The coarsest resolution (base units; null: none known) among the instruments of a figure's own kind: what it can't be
 * finer than. A stretch in per cent read with a caliper has none: the caliper's is a length. Kept without its kind, an
 * instrument counts.
 */
export const coarsestOf = (
  instruments: readonly { readonly kind?: string; readonly resolution: number }[],
  kind: string,
): number | null => {
  const own = instruments.filter((instrument) => (instrument.kind ?? kind) === kind);
  return own.length === 0 ? null : Math.max(...own.map(({ resolution }) => resolution));
};

const roundedUp = (value: number): string => {
  if (value === 0) return '0';
  const digits = 1 - Math.floor(Math.log10(value) + 1e-12);
  const tens = Math.ceil(value * 10 ** digits - 1e-6);
  // 99.2 of the last digit make 100 of it: one digit less says the same.
  return tens >= 100
    ? (tens / 10 ** digits).toFixed(Math.max(0, digits - 1))
    : (tens / 10 ** digits).toFixed(Math.max(0, digits));
};

/**
 * The figures of a dimension as people read them. Digits beyond what an instrument resolves say nothing; a guard band is
 * rounded up to two significant digits, as JCGM 100:2008, 7.2.6, has it for uncertainties.
 * @throws RangeError when a figure is not finite.
 */
export function printedFigures(printing: Printing): PrintedFigures {
  const { unit, decimals } = printing;
  const most = mostDecimals(printing);
  const withUnit = (text: string): string => `${text} ${unitOf(unit).symbol}`.trimEnd();
  const least = Math.min(decimals, most);
  return {
    stated: (base) => withUnit(shortest(formatQuantity(base, unit, decimals + 3), decimals)),
    workedOut: (base) => withUnit(shortest(formatQuantity(base, unit, most), least)),
    apart: (base) => {
      const text = formatDifference(base, unit, most);
      const readsAsNothing = base !== 0 && /^-?[0.]+$/.test(text);
      return readsAsNothing ? withUnit(`less than ${(10 ** -most).toFixed(most)}`) : withUnit(shortest(text, least));
    },
    keptOff: (base) => withUnit(roundedUp(base / perUnit(unit))),
  };
}
