import type { RingFaces, RingPart } from '#domain/build/ring-clock.ts';
import type { BoreRule, DecisionRule, MethodType } from '#domain/metrology/dimension.ts';
import type { QuantityKind } from '#domain/units/quantity.ts';

/** The version of the shape that a spec sheet is written in, as JSON and as CSV. */
export const documentShape = 1;

/** A figure as its source prints it: the digits, the unit, and where it stands when not where its dimension does. */
export type Figure = {
  readonly value: string;
  readonly unit: string;
  readonly source?: string | undefined;
  readonly page?: string | undefined;
};

/** A length, an angle or a torque as it is printed. */
export type Printed = { readonly value: string; readonly unit: string };

export type PrintedBounds = { readonly low: Figure | null; readonly high: Figure | null };
export type PrintedLimits = {
  readonly sizeClass: string;
  readonly standard: PrintedBounds;
  readonly service: PrintedBounds;
};

export type PrintedPosition = {
  readonly code: string;
  readonly label: string;
  readonly level: number | null;
  readonly axis: string | null;
  readonly height: Printed | null;
};

export type PrintedDimension = {
  readonly code: string;
  readonly name: string;
  readonly place: string;
  readonly kind: QuantityKind;
  /** The unit and decimals in which what is found is told. */
  readonly unit: string;
  readonly decimals: number;
  readonly method: MethodType;
  readonly boreRule: BoreRule | null;
  readonly readingsOf: string | null;
  /** The two that a difference is of. */
  readonly minuend: string | null;
  readonly subtrahend: string | null;
  /** The two that a ratio is of, and at how much of the denominator it is told; null: a bare ratio. */
  readonly numerator: string | null;
  readonly denominator: string | null;
  readonly scale: Figure | null;
  /** The figure that the sheet itself gives and nobody measures (method "stated"). */
  readonly stated: Figure | null;
  readonly rule: DecisionRule;
  readonly inside: boolean;
  readonly nominal: Figure | null;
  readonly plausibleSpan: Figure | null;
  readonly instrumentKind: string;
  readonly caution: string;
  readonly source: string;
  readonly page: string;
  readonly positions: readonly PrintedPosition[];
  readonly limits: readonly PrintedLimits[];
};

export type PrintedPlace = {
  readonly code: string;
  readonly name: string;
  readonly layer: 'cover' | 'head' | 'cylinder' | 'case' | null;
  readonly material: string;
  /** Millionths per kelvin, with the standard uncertainty of that figure; null: the sheet names none. */
  readonly expansion: { readonly value: string; readonly uncertainty: string } | null;
  readonly plated: boolean;
};

export type PrintedFasteners = {
  readonly code: string;
  readonly name: string;
  readonly thread: string;
  readonly propertyClass: string;
  readonly condition: 'dry' | 'oiled' | 'locking compound';
  readonly tool: string;
  readonly reuse: 'reuse' | 'inspect' | 'one-time';
  readonly orderIsMakers: boolean;
  readonly source: string;
  readonly page: string;
  /** In tightening order. */
  readonly positions: readonly { readonly x: Printed; readonly y: Printed }[];
  /** One after the other, each a torque or an angle. */
  readonly stages: readonly { readonly torque: Printed | null; readonly angle: Printed | null }[];
};

export type PrintedValve = {
  readonly code: string;
  readonly name: string;
  readonly side: 'intake' | 'exhaust';
  /** Code of the dimension that its lash is. */
  readonly dimension: string;
  readonly wanted: Printed;
  readonly adjuster: 'shim under bucket' | 'shim on bucket' | 'screw';
  readonly shimDiameter: Printed | null;
  readonly shimSizes: { readonly low: Printed; readonly high: Printed } | null;
  readonly screwPitch: Printed | null;
};

export type PrintedRing = {
  readonly code: string;
  readonly name: string;
  /** Where the maker wants its gap; null: a pin or the rule of thumb says where. */
  readonly angle: Printed | null;
  /** Left out: a compression ring. */
  readonly part?: RingPart | undefined;
  /** Where a pin in the groove holds its gap (two-stroke). */
  readonly pin?: Printed | null | undefined;
  /** What is marked on its face; left out: nothing named. */
  readonly mark?: string | undefined;
  /** Where its marked face looks; left out: to the crown, of rails and spacers either way. */
  readonly faces?: RingFaces | undefined;
};

/** A spec sheet as it is written down: every figure in the digits and the unit of its source. */
export type SheetDocument = {
  readonly shape: typeof documentShape;
  readonly family: { readonly code: string; readonly name: string };
  readonly note: string;
  readonly figuresInvented: boolean;
  readonly places: readonly PrintedPlace[];
  readonly dimensions: readonly PrintedDimension[];
  readonly fasteners: readonly PrintedFasteners[];
  readonly ringSeparation: Printed | null;
  /** Least angle of an oil rail's gap from any other; left out or null: as of the others. */
  readonly railOffset?: Printed | null | undefined;
  readonly rings: readonly PrintedRing[];
  readonly ringZones: readonly { readonly from: Printed; readonly to: Printed; readonly reason: string }[];
  readonly valves: readonly PrintedValve[];
  readonly proofs: readonly {
    readonly code: string;
    readonly name: string;
    readonly dimension: string | null;
    readonly words: string;
    readonly caution: string;
  }[];
};
