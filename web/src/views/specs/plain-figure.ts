import type { PrintedPlain } from './printed.ts';

/** A figure as it is sent: without blanks around it, a decimal comma made a point. */
export const plainly = ({ value, unit }: PrintedPlain): PrintedPlain => ({
  value: value.trim().replace(',', '.'),
  unit,
});

/** A figure that may be left empty. */
export const orNone = (figure: PrintedPlain | null): PrintedPlain | null =>
  figure === null || figure.value.trim() === '' ? null : plainly(figure);
