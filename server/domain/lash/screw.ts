import { type MicroDegrees, microDegrees, type Nanometres } from '#domain/units/quantity.ts';
import type { LengthInterval } from './interval.ts';

/** A valve with a screw adjuster; lash, wanted lash and pitch of the screw in nm. */
export interface ScrewedValve {
  readonly lash: LengthInterval;
  readonly wanted: Nanometres;
  readonly pitch: Nanometres;
}

/** How far to turn: `least` to `most` by the bounds of the lash, `middle` between. Above zero: in, less lash; below: out. */
export interface ScrewTurn {
  readonly least: MicroDegrees;
  readonly middle: MicroDegrees;
  readonly most: MicroDegrees;
}

export type ScrewTurnOutcome =
  | { readonly ok: true; readonly turn: ScrewTurn }
  | { readonly ok: false; readonly reason: { readonly kind: 'lash-has-no-upper-bound' } }
  | { readonly ok: false; readonly reason: { readonly kind: 'pitch-not-positive' } };

/**
 * The turn of an adjusting screw that brings the lash to what is wanted: (lash − wanted) / pitch × 360°, in whole µ°.
 * For a screw that bears on the valve, where the lash is measured (geometry). Refused when the lash has no upper bound:
 * measure again with thicker blades. The lash is measured again after the lock nut is tight.
 */
export function screwTurn(valve: ScrewedValve): ScrewTurnOutcome {
  const { lash, wanted, pitch } = valve;
  if (pitch <= 0) return { ok: false, reason: { kind: 'pitch-not-positive' } };
  if (lash.high === null) return { ok: false, reason: { kind: 'lash-has-no-upper-bound' } };
  const turned = (travel: number): MicroDegrees => microDegrees(Math.round((travel / pitch) * 360_000_000));
  const least = lash.low - wanted;
  const most = lash.high - wanted;
  return { ok: true, turn: { least: turned(least), middle: turned((least + most) / 2), most: turned(most) } };
}
