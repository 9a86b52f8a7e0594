import {
  type MicronewtonMetres,
  micronewtonMetres,
  type PartsPerMillion,
  partsPerMillion,
} from '#domain/units/quantity.ts';

/** A torque wrench as its calibration record describes it. Torques in µN·m, days as ISO 8601 dates. */
export interface TorqueWrench {
  readonly code: string;
  readonly largest: MicronewtonMetres;
  /** Last day of its calibration; null when it has none. */
  readonly calibratedUntil: string | null;
  readonly pullsSinceCalibration: number;
  /** How many pulls its maker allows between calibrations; 5 000 unless it says else. */
  readonly pullsAllowed: number;
}

export type WrenchFault =
  | { readonly kind: 'below-its-range'; readonly smallest: MicronewtonMetres }
  | { readonly kind: 'above-its-range'; readonly largest: MicronewtonMetres }
  | { readonly kind: 'not-calibrated' }
  | { readonly kind: 'calibration-past'; readonly until: string }
  | { readonly kind: 'too-many-pulls'; readonly allowed: number };

export type WrenchFit =
  | { readonly ok: true; readonly deviation: PartsPerMillion }
  | { readonly ok: false; readonly faults: readonly WrenchFault[] };

/** The smallest setting at which a wrench is used: a fifth of its largest (ISO 6789-1, from memory). */
export function smallestSetting(wrench: Pick<TorqueWrench, 'largest'>): MicronewtonMetres {
  return micronewtonMetres(Math.ceil(wrench.largest / 5));
}

/** Permissible deviation: ±4 %, ±6 % for a wrench of up to 10 N·m (ISO 6789-1, from memory). */
export function permissibleDeviation(wrench: Pick<TorqueWrench, 'largest'>): PartsPerMillion {
  return partsPerMillion(wrench.largest <= 10_000_000 ? 60_000 : 40_000);
}

/** Whether a wrench may be used at a setting on a day (ISO 8601 date); if not, every reason. */
export function wrenchFit(wrench: TorqueWrench, setting: MicronewtonMetres, day: string): WrenchFit {
  const smallest = smallestSetting(wrench);
  const faults: WrenchFault[] = [];
  if (setting < smallest) faults.push({ kind: 'below-its-range', smallest });
  if (setting > wrench.largest) faults.push({ kind: 'above-its-range', largest: wrench.largest });
  if (wrench.calibratedUntil === null) faults.push({ kind: 'not-calibrated' });
  else if (wrench.calibratedUntil < day) faults.push({ kind: 'calibration-past', until: wrench.calibratedUntil });
  if (wrench.pullsSinceCalibration >= wrench.pullsAllowed) {
    faults.push({ kind: 'too-many-pulls', allowed: wrench.pullsAllowed });
  }
  return faults.length === 0 ? { ok: true, deviation: permissibleDeviation(wrench) } : { ok: false, faults };
}

/** The wrench to take for a setting: of those that fit, the smallest; of equals the first by code. Undefined: none. */
export function wrenchFor(
  wrenches: readonly TorqueWrench[],
  setting: MicronewtonMetres,
  day: string,
): TorqueWrench | undefined {
  return wrenches
    .filter((wrench) => wrenchFit(wrench, setting, day).ok)
    .toSorted((a, b) => a.largest - b.largest || (a.code < b.code ? -1 : 1))[0];
}
