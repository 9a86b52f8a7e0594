import {
  type MicroDegrees,
  type MicronewtonMetres,
  micronewtonMetres,
  type Nanometres,
} from '#domain/units/quantity.ts';

/** An adapter on a wrench's head. Lengths in nm from the middle of the grip to the square, and from there to the bolt; `angle` 0 is straight on, 90° square to the handle. */
export interface Adapter {
  readonly wrenchLength: Nanometres;
  readonly adapterLength: Nanometres;
  readonly angle: MicroDegrees;
}

/** A torque at the bolt that is wanted through an adapter. */
export interface WrenchWithAdapter extends Adapter {
  readonly torque: MicronewtonMetres;
}

export interface NoLever {
  readonly ok: false;
  readonly reason: { readonly kind: 'no-lever' };
}

export type AdapterSetting = { readonly ok: true; readonly setting: MicronewtonMetres } | NoLever;
export type TorqueAtBolt = { readonly ok: true; readonly torque: MicronewtonMetres } | NoLever;

/**
 * What to set so that the bolt gets `torque`: T·L / (L + E·cos θ), in whole µN·m. At 90° no correction; turned back
 * beyond it the setting rises. Statics of the lever. `no-lever`: the adapter reaches back to the hand or past it.
 */
export function settingWithAdapter(use: WrenchWithAdapter): AdapterSetting {
  const lever = leverOf(use);
  if (lever === undefined) return { ok: false, reason: { kind: 'no-lever' } };
  return { ok: true, setting: micronewtonMetres(Math.round((use.torque * use.wrenchLength) / lever)) };
}

/** What the bolt gets when the wrench shows `shown`: the reverse of settingWithAdapter, in whole µN·m. */
export function torqueAtBolt(shown: MicronewtonMetres, adapter: Adapter): TorqueAtBolt {
  const lever = leverOf(adapter);
  if (lever === undefined) return { ok: false, reason: { kind: 'no-lever' } };
  return { ok: true, torque: micronewtonMetres(Math.round((shown * lever) / adapter.wrenchLength)) };
}

function leverOf({ wrenchLength, adapterLength, angle }: Adapter): number | undefined {
  const degrees = angle / 1e6;
  // cos 90° in floating point is not quite nothing
  const cosine = Math.abs(degrees % 180) === 90 ? 0 : Math.cos((degrees * Math.PI) / 180);
  const lever = wrenchLength + adapterLength * cosine;
  return wrenchLength <= 0 || lever <= 0 ? undefined : lever;
}
