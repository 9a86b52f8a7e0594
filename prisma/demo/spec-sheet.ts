import type { RingPart } from '../../server/domain/build/ring-clock.ts';
import { type BoreRule, isMeasured, type Method } from '../../server/domain/metrology/dimension.ts';
import { baseQuantity, type QuantityKind } from '../../server/domain/units/quantity.ts';

/** Lower and upper bound in the dimension's unit; null: none. */
export type Range = readonly [low: number | null, high: number | null];
export interface LimitFigures {
  readonly standard: Range;
  readonly service: Range;
}

export interface PositionFigures {
  readonly code: string;
  readonly label: string;
  readonly level?: number;
  readonly axis?: 'across' | 'along';
  readonly heightMm?: number;
}

export interface DimensionFigures {
  readonly code: string;
  readonly name: string;
  readonly place: string;
  readonly kind: QuantityKind;
  readonly unit: string;
  readonly decimals: number;
  readonly method: Method;
  readonly readingsOf?: string;
  readonly positions: readonly PositionFigures[];
  /** By size class; 'standard' is always there. */
  readonly limits: Readonly<Record<string, LimitFigures>>;
  readonly inside: boolean;
  readonly plausible?: readonly [number, number];
  readonly instrument: string;
  readonly caution: string;
  readonly page: string;
}

export type Layer = 'cover' | 'head' | 'cylinder' | 'case';

export interface PlaceFigures {
  readonly code: string;
  readonly name: string;
  readonly layer: Layer | null;
  readonly material: string;
  /** 1e-9 per kelvin, and its standard uncertainty. */
  readonly alpha: readonly [number, number];
  readonly plated: boolean;
}

export interface FastenerFigures {
  readonly code: string;
  readonly name: string;
  readonly thread: string;
  readonly propertyClass: string;
  readonly condition: 'dry' | 'oiled' | 'locking compound';
  readonly tool: string;
  readonly reuse: 'reuse' | 'inspect' | 'one-time';
  /** In tightening order, mm. */
  readonly positions: readonly (readonly [x: number, y: number])[];
  readonly stages: readonly ({ readonly newtonMetres: number } | { readonly degrees: number })[];
  readonly page: string;
}

export interface ValveFigures {
  readonly code: string;
  readonly name: string;
  readonly side: 'intake' | 'exhaust';
  readonly wantedMm: number;
  readonly shim: { readonly diameterMm: number; readonly lowMm: number; readonly highMm: number } | null;
  readonly screwPitchMm: number | null;
}

export interface ProofFigures {
  readonly code: string;
  readonly name: string;
  readonly dimension: string | null;
  readonly words: string;
  readonly caution: string;
}

/** A ring with neither degrees nor a pin goes by the rule of thumb. */
export interface RingFigures {
  readonly code: string;
  readonly name: string;
  readonly degrees?: number;
  readonly part?: RingPart;
  readonly pinDegrees?: number;
  readonly mark?: string;
}

export interface SheetFigures {
  readonly note: string;
  readonly ringSeparationDegrees: number;
  readonly places: readonly PlaceFigures[];
  readonly dimensions: readonly DimensionFigures[];
  readonly fasteners: readonly FastenerFigures[];
  /** Least angle of an oil rail's gap from any other; left out: as of the others. */
  readonly railOffsetDegrees?: number;
  readonly rings: readonly RingFigures[];
  readonly ringZones: readonly { readonly from: number; readonly to: number; readonly reason: string }[];
  readonly valves: readonly ValveFigures[];
  readonly proofs: readonly ProofFigures[];
}

export interface FamilyFigures {
  /** Begins the numbers of its engines and parts. */
  readonly code: string;
  readonly name: string;
  readonly cycle: 'four-stroke' | 'two-stroke';
  readonly cooling: 'water' | 'air';
  readonly boreMm: number;
  readonly strokeMm: number;
  /** Oldest first; the last one is in force. */
  readonly sheets: readonly SheetFigures[];
}

const perUnit: Readonly<Record<string, number>> = {
  mm: 1_000_000,
  'N.m': 1_000_000,
  kPa: 1_000,
  N: 1_000,
  deg: 1_000_000,
  '%': 10_000,
  degC: 1_000,
  cm3: 1_000,
};

/** Figures written here in the units of the sheet become whole base units. */
export function baseOf(figure: number, unit: string): number {
  const factor = perUnit[unit];
  if (factor === undefined) throw new RangeError(`The demo has no figures in ${unit}`);
  return Math.round(figure * factor);
}

export const standardOnly = (low: number | null, high: number | null): LimitFigures => ({
  standard: [low, high],
  service: [null, null],
});
export const limits = (standard: Range, service: Range): LimitFigures => ({ standard, service });
export const upTo = (asNew: number, worn: number): LimitFigures => limits([null, asNew], [null, worn]);

/** Limits of an oversize: everything moves out by as much. */
export const movedBy = (of: LimitFigures, by: number): LimitFigures => {
  const moved = (bound: number | null): number | null => (bound === null ? null : Number((bound + by).toFixed(3)));
  return {
    standard: [moved(of.standard[0]), moved(of.standard[1])],
    service: [moved(of.service[0]), moved(of.service[1])],
  };
};

export const single: readonly PositionFigures[] = [{ code: 'at', label: 'at the place shown' }];

/** Heights below the top face, each read across and along the pin: A is the topmost. */
export const borePositions = (heightsMm: readonly number[]): readonly PositionFigures[] =>
  heightsMm.flatMap((heightMm, index) =>
    (['across', 'along'] as const).map((axis) => {
      const letter = 'ABCDEF'.charAt(index);
      return {
        code: `${letter}-${axis}`,
        label: `${letter}, ${heightMm} mm down, ${axis} the pin`,
        level: index + 1,
        axis,
        heightMm,
      };
    }),
  );

/** The six ways of a straightedge over a face. */
export const sixWays: readonly PositionFigures[] = [
  ['long-front', 'along the front edge'],
  ['long-rear', 'along the rear edge'],
  ['end-left', 'along the left end'],
  ['end-right', 'along the right end'],
  ['diagonal-1', 'diagonal, front left to rear right'],
  ['diagonal-2', 'diagonal, front right to rear left'],
].map(([code = '', label = '']) => ({ code, label }));

export const named = (pairs: readonly (readonly [string, string])[]): readonly PositionFigures[] =>
  pairs.map(([code, label]) => ({ code, label }));

export interface LengthOptions {
  readonly place: string;
  readonly positions?: readonly PositionFigures[];
  readonly limits: Readonly<Record<string, LimitFigures>>;
  readonly plausible?: readonly [number, number];
  readonly instrument: string;
  readonly page: string;
  readonly caution?: string;
  readonly decimals?: number;
  readonly readingsOf?: string;
  readonly inside?: boolean;
}

/** A length in mm; most of a sheet is lengths. */
export function length(code: string, name: string, method: Method, options: LengthOptions): DimensionFigures {
  const { positions = single, decimals = 3, inside = true, caution = '', readingsOf, plausible, ...rest } = options;
  const own = isMeasured(method) && readingsOf === undefined ? positions : [];
  return {
    code,
    name,
    method,
    kind: 'length',
    unit: 'mm',
    decimals,
    inside,
    caution,
    positions: own,
    ...rest,
    ...(readingsOf === undefined ? {} : { readingsOf }),
    ...(plausible === undefined ? {} : { plausible }),
  };
}

export const difference = (minuend: string, subtrahend: string): Method => ({
  type: 'difference',
  minuend,
  subtrahend,
});

/** A figure that the sheet gives and nobody measures. */
export const stated = (
  code: string,
  name: string,
  figure: { readonly value: number; readonly kind: QuantityKind; readonly unit: string; readonly decimals: number },
  at: { readonly place: string; readonly page: string },
): DimensionFigures => ({
  ...length(
    code,
    name,
    { type: 'stated', value: baseQuantity(figure.kind, baseOf(figure.value, figure.unit)) },
    { ...at, limits: {}, instrument: '' },
  ),
  kind: figure.kind,
  unit: figure.unit,
  decimals: figure.decimals,
});

/** Bore as read, with the two shapes worked out of the same readings. */
export function boreDimensions(of: {
  readonly nominal: number;
  readonly heights: readonly number[];
  readonly rule: BoreRule;
  readonly limits: Readonly<Record<string, LimitFigures>>;
  readonly shape: LimitFigures;
  readonly caution: string;
  readonly page: string;
}): readonly DimensionFigures[] {
  const { rule, page, caution, shape } = of;
  const common = { place: 'cylinder', instrument: 'bore gauge', page };
  const shaped = { ...common, readingsOf: 'bore', limits: { standard: shape } };
  return [
    length(
      'bore',
      'Bore, size',
      { type: 'size', rule },
      {
        ...common,
        positions: borePositions(of.heights),
        limits: of.limits,
        plausible: [of.nominal - 0.5, of.nominal + 1.2],
        caution,
      },
    ),
    length('bore-out-of-round', 'Bore, out-of-round', { type: 'out-of-round', rule }, shaped),
    length('bore-taper', 'Bore, taper', { type: 'taper', rule }, shaped),
  ];
}

/** What a crank can be pushed along its own line between its bearings: it binds below the low limit, knocks above the high. */
export const crankEndFloat = (of: { readonly limits: LimitFigures; readonly page: string }): DimensionFigures =>
  length(
    'crank-end-float',
    'Crank end float',
    { type: 'single' },
    {
      place: 'crank',
      limits: { standard: of.limits },
      instrument: 'dial indicator',
      page: of.page,
      plausible: [0, 2],
      caution: 'By hand alone: a lever between web and case bends what it measures.',
    },
  );

export const place = (
  code: string,
  name: string,
  layer: Layer | null,
  material: keyof typeof expansions | '' = '',
  plated = false,
): PlaceFigures => ({ code, name, layer, material, alpha: material === '' ? [0, 0] : expansions[material], plated });

/** Handbook figures, from memory: 1e-9 per kelvin with a standard uncertainty. */
const expansions = {
  'aluminium alloy': [23_000, 1_000],
  'grey cast iron': [10_500, 700],
  steel: [11_500, 500],
} as const satisfies Record<string, readonly [number, number]>;
