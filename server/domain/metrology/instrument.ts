import type { BaseQuantity, QuantityKind } from '#domain/units/quantity.ts';

/** A calendar day, `YYYY-MM-DD`. Days compare as text. */
export type IsoDate = string;

/** One blade of a feeler set. Thickness and its tolerance (±) are in nanometres. */
export type Blade = { readonly thickness: number; readonly tolerance: number };

/** A standard deviation from the instrument's own gauge study; no degrees of freedom means it is taken as certain. */
export type Repeatability = { readonly sd: number; readonly degreesOfFreedom?: number };

/** An instrument as it is today. All quantities are in base units of `kindOfQuantity` unless a name says otherwise. */
export type Instrument = {
  readonly code: string;
  /** What it is, in the shop's words: 'dial bore gauge', 'micrometer', 'feeler set' … */
  readonly kind: string;
  readonly kindOfQuantity: QuantityKind;
  readonly range?: { readonly low: BaseQuantity; readonly high: BaseQuantity };
  readonly resolution: number;
  /** Maximum permissible error, ±. */
  readonly mpe: number;
  /** Known from a gauge study, or left out: then the readings' own scatter is used, where there are repeats. */
  readonly repeatability?: Repeatability;
  /** Found at today's check: what it shows where it should show nothing. value = reading − zero error. */
  readonly zeroError: number;
  /** Standard uncertainty of the setting master. */
  readonly masterUncertainty: number;
  /** Standard uncertainty of the gauge's error over a short travel, when known: else mpe / √3. */
  readonly localUncertainty?: number;
  readonly alphaPerKelvin?: number;
  readonly alphaUncertaintyPerKelvin?: number;
  readonly calibrationDue?: IsoDate;
  /** The blades of a feeler set. */
  readonly blades?: readonly Blade[];
};
