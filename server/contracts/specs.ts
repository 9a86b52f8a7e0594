import { z } from 'zod';
import { largestGuardFactor, statedGuardFactor } from '#domain/metrology/dimension.ts';
import { Id, Instant, Named, Quantity } from './wire.ts';

export const Rule = z
  .union([
    z.enum(['iso-14253-1-2017', 'iso-14253-1-1998', 'simple']),
    z
      .templateLiteral(['guard-factor-', z.number().positive().max(largestGuardFactor)])
      .refine((rule) => statedGuardFactor(rule) !== undefined, 'a guard factor is above 0 and at most 6'),
  ])
  .meta({
    id: 'DecisionRule',
    description: 'Guard band 1.65 u (2017), 2 u (1998, 2013), none, or a stated multiple of u',
    examples: ['iso-14253-1-2017', 'guard-factor-1.3'],
  });
export const MethodName = z
  .enum([
    'single',
    'maximum',
    'minimum',
    'range',
    'mean',
    'size',
    'out-of-round',
    'taper',
    'difference',
    'ratio',
    'stated',
    'interval',
    'felt',
  ])
  .meta({ id: 'Method', description: 'How a dimension is worked out from its readings' });
export const Kind = z
  .enum(['length', 'torque', 'pressure', 'force', 'angle', 'volume', 'ratio', 'temperature'])
  .meta({ id: 'QuantityKind' });

const bounds = z.strictObject({ low: Quantity.nullable(), high: Quantity.nullable() });
export const Limits = z
  .strictObject({ sizeClass: z.string(), standard: bounds, service: bounds })
  .meta({ id: 'Limits', description: 'As new, and worn out; without a service limit the standard bound is the limit' });
export type Limits = z.infer<typeof Limits>;

export const SheetPosition = z
  .strictObject({
    code: z.string(),
    label: z.string(),
    /** Counted from the top; null where heights play no part. */
    level: z.int().nullable(),
    axis: z.string().nullable(),
    height: Quantity.nullable(),
  })
  .meta({ id: 'SheetPosition' });
export type SheetPosition = z.infer<typeof SheetPosition>;

/** What a sheet says of a dimension, whatever is fitted. */
export const dimensionFacts = {
  code: z.string(),
  name: z.string(),
  placeCode: z.string(),
  kind: Kind,
  unit: z.string(),
  decimals: z.int(),
  method: MethodName,
  boreRule: z.enum(['per-level', 'extremes']).nullable(),
  /** Code of the dimension whose readings it is worked out from; null: its own. */
  readingsOf: z.string().nullable(),
  minuend: z.string().nullable(),
  subtrahend: z.string().nullable(),
  /** Of a ratio. */
  numerator: z.string().nullable(),
  denominator: z.string().nullable(),
  /** The numerator is told at this much of the denominator, in its own kind; null: a plain ratio. */
  scale: Quantity.nullable(),
  /** A figure that the sheet itself gives, where nothing is measured. */
  stated: Quantity.nullable(),
  rule: Rule,
  /** True: what is wrong with it keeps the engine from being closed. */
  inside: z.boolean(),
  nominal: Quantity.nullable(),
  plausibleSpan: Quantity.nullable(),
  instrumentKind: z.string(),
  caution: z.string(),
  source: z.string(),
  page: z.string(),
  positions: z.array(SheetPosition),
};

export const SheetDimension = z
  .strictObject({ ...dimensionFacts, limits: z.array(Limits) })
  .meta({ id: 'SheetDimension' });
export type SheetDimension = z.infer<typeof SheetDimension>;

export const SheetPlace = z
  .strictObject({
    code: z.string(),
    name: z.string(),
    layer: z.string().nullable(),
    material: z.string(),
    /** Thermal expansion per kelvin; null when the sheet names none. */
    expansionPerKelvin: z.number().nullable(),
    plated: z.boolean(),
  })
  .meta({ id: 'SheetPlace' });

const stage = z.strictObject({ ordinal: z.int(), torque: Quantity.nullable(), angle: Quantity.nullable() });
export const SheetFasteners = z
  .strictObject({
    code: z.string(),
    name: z.string(),
    thread: z.string(),
    propertyClass: z.string(),
    condition: z.string(),
    tool: z.string(),
    reuse: z.string(),
    orderIsMakers: z.boolean(),
    source: z.string(),
    page: z.string(),
    positions: z.array(z.strictObject({ number: z.int(), x: Quantity, y: Quantity })),
    stages: z.array(stage),
  })
  .meta({ id: 'SheetFasteners' });

export const SheetValve = z
  .strictObject({
    code: z.string(),
    name: z.string(),
    side: z.string(),
    dimensionCode: z.string(),
    wanted: Quantity,
    adjuster: z.string(),
    shimDiameter: Quantity.nullable(),
    shimSizes: z.strictObject({ low: Quantity, high: Quantity }).nullable(),
    screwPitch: Quantity.nullable(),
  })
  .meta({ id: 'SheetValve' });

export const SpecSheet = z
  .strictObject({
    id: Id,
    family: Named,
    number: z.int(),
    note: z.string(),
    figuresInvented: z.boolean(),
    publishedAt: Instant.nullable(),
    publishedBy: Named.nullable(),
    places: z.array(SheetPlace),
    dimensions: z.array(SheetDimension),
    fasteners: z.array(SheetFasteners),
    ringSeparation: Quantity.nullable(),
    railOffset: Quantity.nullable(),
    rings: z.array(
      z.strictObject({
        code: z.string(),
        name: z.string(),
        angle: Quantity.nullable(),
        part: z.string(),
        pin: Quantity.nullable(),
        mark: z.string(),
        faces: z.string(),
      }),
    ),
    ringZones: z.array(z.strictObject({ from: Quantity, to: Quantity, reason: z.string() })),
    valves: z.array(SheetValve),
    proofs: z.array(
      z.strictObject({
        code: z.string(),
        name: z.string(),
        dimensionCode: z.string().nullable(),
        words: z.string(),
        caution: z.string(),
      }),
    ),
  })
  .meta({ id: 'SpecSheet' });
export type SpecSheet = z.infer<typeof SpecSheet>;

export const Family = z
  .strictObject({
    id: Id,
    code: z.string(),
    name: z.string(),
    cycle: z.string(),
    cooling: z.string(),
    bore: Quantity,
    stroke: Quantity,
    /** The newest published sheet, to which a job taken in now is bound; null: none yet. */
    revision: z.strictObject({ id: Id, number: z.int(), figuresInvented: z.boolean() }).nullable(),
  })
  .meta({ id: 'Family' });
export const Families = z.strictObject({ items: z.array(Family) }).meta({ id: 'Families' });
export type Families = z.infer<typeof Families>;
