import { type Wear, wearOf } from '../metrology/wear.ts';
import type { AllowedRange, LengthInterval } from './interval.ts';

/** The lash of one valve at some hours of its seat (h), and the shim that was in, nm. */
export interface LashAtHours {
  readonly hours: number;
  readonly lash: LengthInterval & { readonly high: number };
  readonly shim: number;
}

/**
 * Lash and shim together, nm: middle of the lash interval + shim. It changes by what the valve train wears and not by
 * shimming, so a valve that sinks into its seat shows as a fall. Source: plain geometry.
 */
export const lashAndShim = ({ lash, shim }: Omit<LashAtHours, 'hours'>): number => (lash.low + lash.high) / 2 + shim;

/** Lash and shim together at which the lash comes to the low end of its range with the shim that is in, nm. */
export const tightAt = (range: AllowedRange, shimIn: number): number => range.low + shimIn;

/**
 * How fast a valve sinks into its seat, and the hours until its lash comes to the low end of its range with the shim that
 * was in last. Points in any order; fewer than three say nothing. nm and h. Source: as wearOf; a straight line is the
 * shop's own assumption.
 */
export function recession(points: readonly LashAtHours[], range: AllowedRange): Wear {
  const last = points.reduce<LashAtHours | undefined>(
    (latest, point) => (latest === undefined || point.hours >= latest.hours ? point : latest),
    undefined,
  );
  const together = points.map((point) => ({ hours: point.hours, value: lashAndShim(point) }));
  return wearOf(together, { side: 'lower', value: tightAt(range, last?.shim ?? 0) });
}
