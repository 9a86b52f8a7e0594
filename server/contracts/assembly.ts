import { z } from 'zod';
import { Id, Instant, Named, Quantity, QuantityInterval, someWords } from './wire.ts';

export const Standing = z.enum(['guaranteed', 'possible', 'out']);

/** One valve's lash as it was felt, and the shim in it as it was measured. */
export const ShimQuestion = z
  .strictObject({
    valve: z.string().min(1).max(40),
    lash: QuantityInterval,
    fitted: Quantity,
    /** Expanded uncertainty (k = 2) of the fitted shim's measured thickness; 0.004 mm when left out. */
    fittedUncertainty: Quantity.optional(),
  })
  .meta({
    id: 'ShimQuestion',
    examples: [
      { valve: 'IN-L', lash: { low: '0.08', high: '0.10', unit: 'mm' }, fitted: { value: '2.350', unit: 'mm' } },
    ],
  });
export type ShimQuestion = z.infer<typeof ShimQuestion>;

export const ShimAnswer = z
  .strictObject({
    valve: z.string(),
    wanted: QuantityInterval,
    chosen: z
      .strictObject({
        thickness: Quantity,
        from: z.enum(['stays', 'engine', 'bin', 'buy']),
        words: z.string(),
        partId: Id.nullable(),
        lotId: Id.nullable(),
        after: QuantityInterval,
        standing: Standing,
      })
      .nullable(),
    /** Why no shim brings it into range, in words; null when one does. */
    why: z.string().nullable(),
    /** A screw adjuster is turned instead: degrees, positive in (less lash). */
    turn: z.strictObject({ least: Quantity, middle: Quantity, most: Quantity }).nullable(),
  })
  .meta({ id: 'ShimAnswer' });
export type ShimAnswer = z.infer<typeof ShimAnswer>;

export const PlaceRings = z
  .strictObject({
    gaps: z
      .array(
        z.strictObject({
          ring: z.string().min(1).max(40),
          angle: Quantity,
          /** Where its marked face was seen to look; left out: it has no way to face, or nobody looked. */
          faces: z.enum(['crown', 'skirt']).optional(),
        }),
      )
      .min(1)
      .max(20),
  })
  .meta({
    id: 'PlaceRings',
    examples: [
      {
        gaps: [
          { ring: 'top', angle: { value: '20', unit: 'deg' }, faces: 'crown' },
          { ring: 'second', angle: { value: '200', unit: 'deg' }, faces: 'crown' },
        ],
      },
    ],
  });
export type PlaceRings = z.infer<typeof PlaceRings>;

export const RingStanding = z
  .strictObject({
    ring: z.string(),
    name: z.string(),
    part: z.enum(['compression', 'spacer', 'rail']),
    /** Where a pin in the groove holds its gap; null: it turns freely. */
    pin: Quantity.nullable(),
    /** What is marked on its face; empty: the sheet names nothing. */
    mark: z.string(),
    /** Where its marked face has to look. */
    faces: z.enum(['crown', 'skirt', 'either']),
    /** Where its gap is to go, and who says so; null: the rule of thumb finds no clear place. */
    aim: z.strictObject({ angle: Quantity, by: z.enum(['pin', 'maker', 'rule']) }).nullable(),
    angle: Quantity.nullable(),
    /** Where its marked face was seen to look; null: not looked at. */
    seenFacing: z.enum(['crown', 'skirt']).nullable(),
    faults: z.array(z.string()),
  })
  .meta({ id: 'RingStanding' });
export type RingStanding = z.infer<typeof RingStanding>;

/** What sits on the wrench's head: lengths from the grip to the square and on to the bolt; 0°: straight on. */
export const AdapterOnWrench = z
  .strictObject({ wrenchLength: Quantity, adapterLength: Quantity, angle: Quantity })
  .meta({ id: 'AdapterOnWrench' });
export type AdapterOnWrench = z.infer<typeof AdapterOnWrench>;

export const LogPull = z
  .strictObject({
    set: z.string().min(1).max(40),
    fastener: z.int().min(1).max(99),
    stage: z.int().min(1).max(9),
    /** What the tool shows; with an adapter what the bolt gets is worked out from it. */
    value: Quantity,
    instrumentCode: z.string().min(1).max(20).optional(),
    adapter: AdapterOnWrench.optional(),
  })
  .meta({
    id: 'LogPull',
    examples: [{ set: 'head', fastener: 1, stage: 1, value: { value: '20', unit: 'N.m' }, instrumentCode: 'TW-1' }],
  });
export type LogPull = z.infer<typeof LogPull>;

export const StrikePull = z
  .strictObject({
    reason: someWords(300),
    /** False: it was keyed by mistake, the bolt was not turned. Else it was: past yield it is never pulled again. */
    boltTurned: z.boolean().optional(),
  })
  .meta({ id: 'StrikePull', examples: [{ reason: 'Wrench slipped off' }] });
export type StrikePull = z.infer<typeof StrikePull>;

/** Each fastener of a set was looked at and is fit to be used again; one that isn't is asked of stores. */
export const InspectFasteners = z
  .strictObject({ set: z.string().min(1).max(40), words: someWords(300) })
  .meta({ id: 'InspectFasteners', examples: [{ set: 'head', words: 'Threads clean, lengths within 0.2 mm' }] });
export type InspectFasteners = z.infer<typeof InspectFasteners>;

const Stage = z.strictObject({ ordinal: z.int(), figure: Quantity, done: z.array(z.int()), missing: z.array(z.int()) });

export const FastenerSetStanding = z
  .strictObject({
    code: z.string(),
    name: z.string(),
    thread: z.string(),
    propertyClass: z.string(),
    condition: z.string(),
    reuse: z.string(),
    /** Used once and stretched past yield by its last stage, an angle: never pulled again. */
    torqueToYield: z.boolean(),
    tool: z.string(),
    source: z.string(),
    orderIsMakers: z.boolean(),
    /** Since it was loosened: what has to be looked at or renewed, in words; with the obligation while it is open. */
    renewals: z.array(z.strictObject({ words: z.string(), obligationId: Id.nullable(), open: z.boolean() })),
    /** What it holds down was off in this opening, so it has to be pulled. */
    required: z.boolean(),
    complete: z.boolean(),
    order: z.array(z.int()),
    positions: z.array(z.strictObject({ number: z.int(), x: Quantity, y: Quantity })),
    stages: z.array(Stage),
    next: z
      .strictObject({ fastener: z.int(), stage: z.int(), figure: Quantity, instrumentCode: z.string().nullable() })
      .nullable(),
    /** Words where a figure looks past what its thread stands. */
    cautions: z.array(z.string()),
    pulls: z.array(
      z.strictObject({
        id: Id,
        fastener: z.int(),
        stage: z.int(),
        value: Quantity,
        instrumentCode: z.string().nullable(),
        /** What the bolt got, where an adapter was on the wrench. */
        atBolt: Quantity.nullable(),
        adapter: AdapterOnWrench.nullable(),
        by: Named,
        at: Instant,
      }),
    ),
  })
  .meta({ id: 'FastenerSetStanding' });
export type FastenerSetStanding = z.infer<typeof FastenerSetStanding>;

export const ValveStanding = z
  .strictObject({
    code: z.string(),
    name: z.string(),
    side: z.enum(['intake', 'exhaust']),
    adjuster: z.string(),
    dimension: z.string(),
    wanted: Quantity,
    range: z.strictObject({ low: z.string(), high: z.string(), unit: z.string() }).nullable(),
    /** The lash last measured in this job, whatever the round. */
    lash: QuantityInterval.nullable(),
    verified: z.enum(['not-verified', 'out', 'undecided', 'in-range']),
    /** The shim that is in it, as measured in this job; null: not measured, or a screw. */
    fitted: z
      .strictObject({
        thickness: Quantity,
        /** What is printed on it, kept apart: shims wear. */
        printed: Quantity.nullable(),
        by: Named,
        at: Instant,
      })
      .nullable(),
    choice: z
      .strictObject({
        thickness: Quantity,
        words: z.string(),
        after: QuantityInterval,
        guaranteed: z.boolean(),
        by: Named,
        at: Instant,
      })
      .nullable(),
  })
  .meta({ id: 'ValveStanding' });
export type ValveStanding = z.infer<typeof ValveStanding>;

export const AssemblyPage = z
  .strictObject({
    jobId: Id,
    engineId: Id,
    serial: z.string(),
    family: z.string(),
    openingId: Id.nullable(),
    valves: z.array(ValveStanding),
    rings: z.array(RingStanding),
    zones: z.array(z.strictObject({ from: Quantity, to: Quantity, reason: z.string() })),
    leastSeparation: Quantity.nullable(),
    /** Least angle of an oil rail’s gap from any other; null: as of the others. */
    railOffset: Quantity.nullable(),
    ringsPlaced: z
      .strictObject({ id: Id, by: Named, at: Instant, marksWell: z.boolean(), signedBy: Named.nullable() })
      .nullable(),
    ringsRequired: z.boolean(),
    sets: z.array(FastenerSetStanding),
    /** The shop's torque wrenches, with the pulls made since each was calibrated. */
    wrenches: z.array(
      z.strictObject({
        code: z.string(),
        name: z.string(),
        largest: Quantity,
        calibratedUntil: z.string().nullable(),
        pulls: z.int(),
        pullsAllowed: z.int(),
      }),
    ),
  })
  .meta({ id: 'AssemblyPage' });
export type AssemblyPage = z.infer<typeof AssemblyPage>;
