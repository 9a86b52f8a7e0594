import { z } from 'zod';
import { CrossCheck, Finding, FoundValue, Round } from './findings.ts';
import { FittedPart } from './obligations.ts';
import { Reading } from './readings.ts';
import { dimensionFacts, Limits, SheetPlace } from './specs.ts';
import { Day, Id, Instant, Quantity } from './wire.ts';

export const BenchInstrument = z
  .strictObject({
    id: Id,
    code: z.string(),
    name: z.string(),
    instrumentKind: z.string(),
    kind: z.string(),
    unit: z.string(),
    decimals: z.int(),
    resolution: Quantity,
    maximumPermissibleError: Quantity,
    range: z.strictObject({ low: Quantity, high: Quantity }),
    /** The last check against a master; null: never. */
    check: z
      .strictObject({ zeroError: Quantity, master: z.string(), checkedAt: Instant, today: z.boolean() })
      .nullable(),
    calibrationDue: Day.nullable(),
    outOfCalibration: z.boolean(),
    /** The blades of a feeler set, thinnest first. */
    blades: z.array(z.strictObject({ thickness: Quantity, tolerance: Quantity })),
  })
  .meta({ id: 'BenchInstrument' });
export type BenchInstrument = z.infer<typeof BenchInstrument>;

/** What was found of this dimension at an earlier visit, or in an earlier round of this one. */
const earlier = z.strictObject({
  value: FoundValue,
  jobNumber: z.int(),
  round: Round,
  hours: z.string(),
  /** True: of the very part that is fitted now. */
  samePart: z.boolean(),
  judgedAt: Instant,
});

export const BenchDimension = z
  .strictObject({
    ...dimensionFacts,
    limits: Limits,
    part: FittedPart.nullable(),
    /** Codes of instruments that measure this kind, the best first: their range covers the limits, then the sheet's own kind. */
    instruments: z.array(z.string()),
    /** Those of them whose range does not cover the limits. */
    outOfReach: z.array(z.string()),
    readings: z.array(Reading),
    /** One a round at most, of the part fitted now. */
    findings: z.array(Finding),
    earlier: z.array(earlier),
    openObligationIds: z.array(Id),
  })
  .meta({ id: 'BenchDimension' });
export type BenchDimension = z.infer<typeof BenchDimension>;

export const BenchView = z
  .strictObject({
    jobId: Id,
    jobNumber: z.int(),
    engineId: Id,
    serial: z.string(),
    family: z.string(),
    hours: z.string(),
    handedBack: z.boolean(),
    revision: z.strictObject({ id: Id, number: z.int(), figuresInvented: z.boolean() }),
    places: z.array(SheetPlace),
    dimensions: z.array(BenchDimension),
    instruments: z.array(BenchInstrument),
    crossChecks: z.array(CrossCheck),
  })
  .meta({ id: 'BenchView', description: 'Everything a measuring bench needs for one job' });
export type BenchView = z.infer<typeof BenchView>;
