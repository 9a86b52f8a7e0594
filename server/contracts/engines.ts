import { z } from 'zod';
import { bayKinds } from './bays.ts';
import { JobQuotes } from './counter.ts';
import { CrossCheck } from './findings.ts';
import {
  depths,
  EngineStanding,
  Family,
  HolderNow,
  MeasuredValue,
  NearestLimit,
  roundsOfMeasuring,
  verdictWords,
} from './floor.ts';
import { Day, Id, Instant, Named, PageQuery, pageOf, Quantity } from './wire.ts';

export const EnginesQuery = PageQuery.extend({
  /** Part of a serial, an owner's or a family's name, or a job number. */
  search: z.string().max(120).optional(),
  state: z.enum(['in-shop', 'all']).optional(),
});

export const EngineLine = z
  .strictObject({
    id: Id,
    serial: z.string(),
    family: z.strictObject({ id: Id, code: z.string(), name: z.string() }),
    owner: Named,
    visits: z.int(),
    lastVisit: z
      .strictObject({
        jobId: Id,
        number: z.int(),
        hours: z.string(),
        takenInAt: Instant,
        handedBackAt: Instant.nullable(),
      })
      .nullable(),
    holder: HolderNow.nullable(),
    place: Named.nullable(),
  })
  .meta({ id: 'EngineLine' });
export type EngineLine = z.infer<typeof EngineLine>;
export const EngineList = pageOf(EngineLine).meta({ id: 'EngineList', description: 'By serial' });
export type EngineList = z.infer<typeof EngineList>;

/** Bounds as they were judged by; a side without a bound is null. */
export const LimitFacts = z.strictObject({
  standard: z.strictObject({ low: Quantity.nullable(), high: Quantity.nullable() }),
  service: z.strictObject({ low: Quantity.nullable(), high: Quantity.nullable() }),
});

export const FindingFacts = z
  .strictObject({
    id: Id,
    jobId: Id,
    round: z.enum(roundsOfMeasuring),
    value: MeasuredValue,
    /** Standard uncertainty, one more decimal than the value. */
    u: Quantity,
    guard: Quantity,
    rule: z.string(),
    limits: LimitFacts,
    nearestLimit: NearestLimit.nullable(),
    /** Room left to the nearest limit at worst; negative: past it. */
    margin: Quantity.nullable(),
    verdict: z.enum(verdictWords),
    pPast: z.strictObject({ low: z.number(), high: z.number() }),
    warnings: z.array(z.strictObject({ code: z.string(), words: z.string() })),
    instruments: z.array(z.string()),
    /** Engine hours at that visit, and hours since the part was fitted. */
    hours: z.string(),
    partHours: z.string().nullable(),
    judgedBy: Named,
    judgedAt: Instant,
    obligationId: Id.nullable(),
    /** Revision of the spec sheet that it was judged by. */
    revision: z.int(),
    /** What its readings were held against when it was judged. */
    crossChecks: z.array(CrossCheck),
  })
  .meta({ id: 'FindingFacts' });
export type FindingFacts = z.infer<typeof FindingFacts>;

/** One dimension of the bound spec sheet, with what stands of it on this visit: the newest round first, none: not measured. */
export const Measured = z
  .strictObject({
    dimension: z.string(),
    name: z.string(),
    place: z.strictObject({ code: z.string(), name: z.string() }),
    method: z.string(),
    unit: z.string(),
    decimals: z.int(),
    inside: z.boolean(),
    caution: z.string(),
    source: z.string(),
    page: z.string(),
    /** By the size class of the part fitted now; null when the sheet has none for it. */
    limits: LimitFacts.nullable(),
    sizeClass: z.string(),
    findings: z.array(FindingFacts),
    /** This engine's point values of earlier visits, oldest first. */
    earlier: z.array(z.strictObject({ hours: z.string(), value: Quantity })),
  })
  .meta({ id: 'Measured' });
export type Measured = z.infer<typeof Measured>;

/** The readings behind the newest finding of a bore: at each level, one figure an axis, corrected as the finding is. */
export const BoreMap = z
  .strictObject({
    dimension: z.string(),
    name: z.string(),
    findingId: Id,
    round: z.enum(roundsOfMeasuring),
    nominal: Quantity.nullable(),
    axes: z.array(z.string()),
    levels: z.array(
      z.strictObject({
        level: z.int(),
        height: Quantity.nullable(),
        values: z.array(z.strictObject({ axis: z.string(), value: Quantity })),
      }),
    ),
    outOfRound: MeasuredValue.nullable(),
    taper: MeasuredValue.nullable(),
    /** False: a temperature or an expansion wasn't known, so no correction to 20 °C was made. */
    correctedTo20Degrees: z.boolean(),
  })
  .meta({ id: 'BoreMap' });
export type BoreMap = z.infer<typeof BoreMap>;

/** One dimension of one fitted part over the hours since it was fitted. */
export const WearHistory = z
  .strictObject({
    dimension: z.string(),
    name: z.string(),
    /** What the figure is, where its name does not say; null: it is what was measured. */
    about: z.string().nullable(),
    fittedPartId: Id,
    limit: NearestLimit.nullable(),
    points: z.array(
      z.strictObject({
        partHours: z.string(),
        hours: z.string(),
        value: Quantity,
        guard: Quantity,
        jobNumber: z.int(),
      }),
    ),
    /** The fitted line and its 95 % prediction band, at some hours of the part; null: fewer than three points. */
    line: z
      .strictObject({
        perHundredHours: Quantity,
        band: z.array(z.strictObject({ partHours: z.string(), expected: Quantity, low: Quantity, high: Quantity })),
        /** Hours left from the last reading; null: not in sight. */
        hoursLeft: z.strictObject({
          estimate: z.string().nullable(),
          earliest: z.string().nullable(),
          latest: z.string().nullable(),
        }),
      })
      .nullable(),
  })
  .meta({ id: 'WearHistory' });
export type WearHistory = z.infer<typeof WearHistory>;

/** Where an engine's wear sits among the other engines of its family, by the fitted straight lines. */
export const FamilyWear = z
  .strictObject({
    items: z.array(
      z.strictObject({
        dimension: z.string(),
        fittedPartId: Id,
        perHundredHours: Quantity,
        /** Parts of other engines of the family with a line of their own. */
        others: z.int(),
        median: Quantity,
        lowerQuartile: Quantity,
        upperQuartile: Quantity,
        /** Share of the others that wear more slowly, of 1. */
        slowerShare: z.number(),
        standing: z.enum(['slow', 'usual', 'fast', 'odd']),
        words: z.string(),
      }),
    ),
  })
  .meta({
    id: 'FamilyWear',
    description:
      'Of dimensions measured on at least three visits, where at least four others of the family have a line',
  });
export type FamilyWear = z.infer<typeof FamilyWear>;

export const FittedPartFacts = z.strictObject({
  id: Id,
  place: z.string(),
  name: z.string(),
  sizeClass: z.string(),
  grade: z.string(),
  mark: z.string(),
  fittedAt: Instant,
  /** The visit that fitted it; null: it came with the engine. */
  fittedJobNumber: z.int().nullable(),
  fittedHours: z.string(),
});

export const ObligationFacts = z
  .strictObject({
    id: Id,
    words: z.string(),
    inside: z.boolean(),
    openedAt: Instant,
    cause: z.discriminatedUnion('kind', [
      z.strictObject({
        kind: z.literal('finding'),
        findingId: Id,
        name: z.string(),
        round: z.enum(roundsOfMeasuring),
        verdict: z.enum(verdictWords),
      }),
      z.strictObject({ kind: z.literal('handover'), handoverId: Id, tray: z.string(), piece: z.string() }),
      z.strictObject({ kind: z.literal('count'), pieceId: Id, piece: z.string() }),
      z.strictObject({ kind: z.literal('lead'), by: Named }),
    ]),
    decision: z
      .strictObject({ kind: z.string(), sizeClass: z.string().nullable(), reason: z.string(), by: Named, at: Instant })
      .nullable(),
    discharge: z.strictObject({ by: Named, at: Instant, reason: z.string(), findingId: Id.nullable() }).nullable(),
    /** What it made the job ask for. */
    demands: z.array(
      z.strictObject({
        lineId: Id,
        part: z.string(),
        wanted: z.int(),
        reserved: z.int(),
        short: z.int(),
        issued: z.int(),
      }),
    ),
  })
  .meta({ id: 'ObligationFacts' });
export type ObligationFacts = z.infer<typeof ObligationFacts>;

export const TrayFacts = z
  .strictObject({
    id: Id,
    label: z.string(),
    name: z.string(),
    alone: z.boolean(),
    layer: z.enum(depths).nullable(),
    emptiedAt: Instant.nullable(),
    holder: HolderNow.nullable(),
    place: Named.nullable(),
    /**
     * Pieces put into it: so many off of the expected, so many of those back on, renewed or accounted for. Null while the
     * reader is to count the tray blind.
     */
    pieces: z.array(
      z.strictObject({
        id: Id,
        name: z.string(),
        layer: z.enum(depths).nullable(),
        expected: z.int().nullable(),
        off: z.int().nullable(),
        back: z.int().nullable(),
        /** Loose in this very tray: some of the line may lie in another. */
        here: z.int().nullable(),
      }),
    ),
  })
  .meta({ id: 'TrayFacts' });
export type TrayFacts = z.infer<typeof TrayFacts>;

export const EnginePage = z
  .strictObject({
    id: Id,
    serial: z.string(),
    family: Family,
    owner: Named,
    note: z.string(),
    /** At the last take-in. */
    hours: z.string().nullable(),
    /** Who has it and where, in the shop or not. */
    holder: HolderNow.nullable(),
    place: z.strictObject({ id: Id, name: z.string(), kind: z.enum(bayKinds) }).nullable(),
    /** The visit this page tells of: the open one, else the last one; null for an engine never taken in. */
    job: z
      .strictObject({
        id: Id,
        number: z.int(),
        /** Which visit of this engine: 1 is the first. */
        visit: z.int(),
        version: z.int(),
        hours: z.string(),
        complaint: z.string(),
        wishes: z.string(),
        takenInAt: Instant,
        takenInBy: Named,
        handedBackAt: Instant.nullable(),
        handedBackBy: Named.nullable(),
        revision: z.strictObject({
          id: Id,
          number: z.int(),
          figuresInvented: z.boolean(),
          /** A newer published revision of the sheet, which this job isn't bound to. */
          newest: z.int(),
        }),
        promise: z
          .strictObject({ readyOn: Day, sureOf5: z.int(), note: z.string(), madeBy: Named, madeAt: Instant })
          .nullable(),
      })
      .nullable(),
    /** Where the open job stands; null when it isn't in the shop. */
    standing: EngineStanding.nullable(),
    fittedParts: z.array(FittedPartFacts),
    measured: z.array(Measured),
    boreMaps: z.array(BoreMap),
    wear: z.array(WearHistory),
    obligations: z.array(ObligationFacts),
    trays: z.array(TrayFacts),
    runs: z.array(
      z.strictObject({
        id: Id,
        name: z.string(),
        kind: z.enum(['strip', 'assemble', 'prove']),
        version: z.int(),
        startedBy: Named,
        startedAt: Instant,
        steps: z.int(),
        done: z.int(),
      }),
    ),
    /** Null for whoever has no right to money. */
    quotes: JobQuotes.shape.items.nullable(),
    /** Every visit, newest first. */
    visits: z.array(
      z.strictObject({
        jobId: Id,
        number: z.int(),
        visit: z.int(),
        hours: z.string(),
        complaint: z.string(),
        takenInAt: Instant,
        handedBackAt: Instant.nullable(),
      }),
    ),
  })
  .meta({ id: 'EnginePage' });
export type EnginePage = z.infer<typeof EnginePage>;

export const EngineEvent = z
  .strictObject({
    id: Id,
    /** Counts up within the engine. */
    number: z.int(),
    kind: z.string(),
    happenedAt: Instant,
    recordedAt: Instant,
    actor: Named.nullable(),
    terminal: Named.nullable(),
    job: z.strictObject({ id: Id, number: z.int() }).nullable(),
    /** Facts by name: words, numbers, wire quantities. */
    data: z.record(z.string(), z.unknown()),
  })
  .meta({ id: 'EngineEvent' });
export type EngineEvent = z.infer<typeof EngineEvent>;
export const EngineEvents = pageOf(EngineEvent).meta({ id: 'EngineEvents', description: 'Newest first' });
export type EngineEvents = z.infer<typeof EngineEvents>;
