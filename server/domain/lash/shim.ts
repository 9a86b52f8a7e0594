import type { Nanometres } from '#domain/units/quantity.ts';
import { type AllowedRange, type LengthInterval, shifted } from './interval.ts';

/** A shim's thickness by micrometer, with its expanded uncertainty (k = 2), both in nm. */
export interface Thickness {
  readonly value: Nanometres;
  readonly uncertainty: Nanometres;
}

/** The shim in a valve now. Only the measured thickness counts: `printed` wears off, and the shim wears down. */
export interface FittedShim {
  readonly measured: Thickness;
  readonly printed: Nanometres | null;
}

/** One valve with a shim: its lash as measured, what the sheet wants and allows, and the head's shim diameter (nm). */
export interface ShimmedValve {
  readonly code: string;
  readonly fitted: FittedShim;
  readonly lash: LengthInterval;
  readonly wanted: Nanometres;
  readonly range: AllowedRange;
  readonly shimDiameter: Nanometres;
}

/**
 * The shim that would bring the lash to what is wanted: fitted + lash − wanted, as an interval [nm], widened by the
 * uncertainty of the fitted shim. Geometry: what the shim loses the lash gains (common practice).
 */
export function wantedShim(fitted: Thickness, lash: LengthInterval, wanted: Nanometres): LengthInterval {
  return shifted(lash, fitted.value - wanted, fitted.uncertainty);
}

/**
 * The lash with another shim in: measured lash + fitted − new [nm], low to high. The uncertainties of both shims are
 * added up and not squared, since the range is a guarantee. A low end below zero means the valve may not close.
 */
export function lashWith(valve: ShimmedValve, shim: Thickness): LengthInterval {
  const { measured } = valve.fitted;
  return shifted(valve.lash, measured.value - shim.value, measured.uncertainty + shim.uncertainty);
}

/**
 * The exact thicknesses with which the lash could be in range: from lash.low + fitted − range.high to lash.high +
 * fitted − range.low [nm], widened by the uncertainty of the fitted shim. `high` null when the lash has no upper bound.
 */
export function shimsThatCouldDo(valve: ShimmedValve): LengthInterval {
  const { measured } = valve.fitted;
  const { low } = shifted(valve.lash, measured.value - valve.range.high, measured.uncertainty);
  const { high } = shifted(valve.lash, measured.value - valve.range.low, measured.uncertainty);
  return { low, high };
}
