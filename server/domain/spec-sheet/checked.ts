import type { RingFaces, RingPart } from '#domain/build/ring-clock.ts';
import type { PrintedDimension, PrintedFasteners, PrintedPlace, PrintedValve } from './document.ts';

/** Whole base units of the dimension's kind; null: no bound. */
export type CheckedLimits = {
  readonly sizeClass: string;
  readonly standardLow: number | null;
  readonly standardHigh: number | null;
  readonly serviceLow: number | null;
  readonly serviceHigh: number | null;
};

export type CheckedPosition = {
  readonly code: string;
  readonly label: string;
  readonly level: number | null;
  readonly axis: string | null;
  readonly heightNm: number | null;
};

export type CheckedDimension = Omit<
  PrintedDimension,
  'nominal' | 'plausibleSpan' | 'positions' | 'limits' | 'scale' | 'stated'
> & {
  /** Base units of the denominator's kind. */
  readonly scale: number | null;
  readonly stated: number | null;
  readonly nominal: number | null;
  readonly plausibleSpan: number | null;
  readonly positions: readonly CheckedPosition[];
  readonly limits: readonly CheckedLimits[];
};

/** 1e-9 per kelvin; 0: none named. */
export type CheckedPlace = Omit<PrintedPlace, 'expansion'> & { readonly alphaPpb: number; readonly alphaUPpb: number };

export type CheckedFasteners = Omit<PrintedFasteners, 'positions' | 'stages'> & {
  /** The unit of its torques. */
  readonly unit: string;
  readonly positions: readonly { readonly xNm: number; readonly yNm: number }[];
  readonly stages: readonly { readonly torqueUnm: number | null; readonly angleUdeg: number | null }[];
};

export type CheckedValve = Pick<PrintedValve, 'code' | 'name' | 'side' | 'dimension' | 'adjuster'> & {
  readonly wantedNm: number;
  readonly shimDiameterNm: number | null;
  readonly shimLowNm: number | null;
  readonly shimHighNm: number | null;
  readonly screwPitchNm: number | null;
};

export type CheckedRing = {
  readonly code: string;
  readonly name: string;
  readonly angleUdeg: number | null;
  readonly part: RingPart;
  readonly pinUdeg: number | null;
  readonly mark: string;
  readonly faces: RingFaces;
};

/** A spec sheet without fault, every figure in whole base units. */
export type CheckedSheet = {
  readonly places: readonly CheckedPlace[];
  readonly dimensions: readonly CheckedDimension[];
  readonly fasteners: readonly CheckedFasteners[];
  readonly ringSeparationUdeg: number | null;
  readonly railOffsetUdeg: number | null;
  readonly rings: readonly CheckedRing[];
  readonly ringZones: readonly { readonly fromUdeg: number; readonly toUdeg: number; readonly reason: string }[];
  readonly valves: readonly CheckedValve[];
};
