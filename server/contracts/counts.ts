import { z } from 'zod';
import { Count, PartName, PartUnit } from './parts.ts';
import { TakenBack } from './stock.ts';
import { Day, Id, Instant, Money, Named, PageQuery, pageOf, someWords, words } from './wire.ts';

const exampleId = '019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5b';

export const StockClass = z.enum(['A', 'B', 'C']);
export type StockClass = z.infer<typeof StockClass>;

/** How closely and how often a class is counted. */
export const CountRule = z
  .strictObject({
    class: StockClass,
    /** The larger of pieces and percent of the books is let pass. */
    tolerancePieces: z.int(),
    tolerancePercent: z.string(),
    everyDays: z.int(),
    /** Null: the usual figure, which nobody set here. */
    setBy: z.string().nullable(),
  })
  .meta({ id: 'CountRule' });
export type CountRule = z.infer<typeof CountRule>;

export const SetCountRule = z
  .strictObject({
    class: StockClass,
    tolerancePieces: z.int('must be whole pieces').min(0).max(10_000),
    tolerancePercent: z
      .string()
      .regex(/^\d{1,2}([.,]\d)?$/, 'must be a percentage such as 0.5')
      .refine((text) => Number(text.replace(',', '.')) <= 50, 'must be 50 at most'),
    everyDays: z.int('must be whole days').min(1).max(1500),
  })
  .meta({ id: 'SetCountRule', examples: [{ class: 'A', tolerancePieces: 0, tolerancePercent: '0.2', everyDays: 30 }] });
export type SetCountRule = z.infer<typeof SetCountRule>;

export const CountRules = z.strictObject({ items: z.array(CountRule) }).meta({ id: 'CountRules' });

/** A part in its class, with the computation. */
export const ClassedPart = z
  .strictObject({
    part: PartName,
    class: StockClass,
    /** What was used in a year, at what it was worth when it went out; only for those who may see money. */
    used: Money.nullable(),
    share: z.number(),
    /** Share of all that is used more than this. */
    before: z.number(),
    byValue: StockClass,
    movements: z.int(),
    byMovement: StockClass,
  })
  .meta({ id: 'ClassedPart' });
export type ClassedPart = z.infer<typeof ClassedPart>;

export const DueBin = z
  .strictObject({
    bin: z.strictObject({ id: Id, code: z.string() }),
    class: StockClass,
    /** The part that puts it there; null: nothing that was used lies in it. */
    because: PartName.nullable(),
    lots: z.int(),
    countedOn: Day.nullable(),
    everyDays: z.int(),
    dueOn: Day.nullable(),
    state: z.enum(['never', 'overdue', 'due', 'later']),
    sheet: z.strictObject({ id: Id, number: z.int(), counter: z.string() }).nullable(),
  })
  .meta({ id: 'DueBin' });
export type DueBin = z.infer<typeof DueBin>;

export const CountSchedule = z
  .strictObject({
    bins: z.array(DueBin),
    /** Of all open bins, beyond those listed. */
    total: z.int(),
    due: z.int(),
    /** How many a day keep up with the intervals. */
    perDay: z.number(),
    classes: z.array(z.strictObject({ class: StockClass, bins: z.int(), parts: z.int(), upToShare: z.number() })),
    parts: z.array(ClassedPart),
    rules: z.array(CountRule),
  })
  .meta({ id: 'CountSchedule', description: 'Bins by when they are due, never counted first, and why' });
export type CountSchedule = z.infer<typeof CountSchedule>;

export const ScheduleQuery = z.object({ limit: z.coerce.number().int().min(1).max(200).optional() });

export const OpenCount = z
  .strictObject({ binIds: z.array(Id).min(1).max(60) })
  .meta({ id: 'OpenCount', examples: [{ binIds: [exampleId] }] });
export type OpenCount = z.infer<typeof OpenCount>;

const CountSeen = z.strictObject({
  round: z.int(),
  counted: z.int(),
  books: z.int(),
  by: z.string(),
  at: Instant,
});

export const CountLine = z
  .strictObject({
    id: Id,
    bin: z.strictObject({ id: Id, code: z.string() }),
    part: PartName,
    unit: PartUnit,
    lotCode: z.string(),
    serial: z.string().nullable(),
    condition: z.string(),
    /** Not on the sheet when it was begun. */
    found: z.boolean(),
    state: z.enum(['to count', 'counted', 'to count again', 'to decide', 'settled']),
    /** What was keyed in this round, for whoever counts it. */
    counted: z.int().nullable(),
    /** Null while it is counted blind. */
    seen: z
      .strictObject({
        counts: z.array(CountSeen),
        /** The last count less the books at that moment. */
        difference: z.int(),
        /** Pieces came or went during the last round. */
        moved: z.boolean(),
        settled: z
          .strictObject({
            how: z.enum(['right', 'within tolerance', 'decided']),
            reason: z.string(),
            value: Money.nullable(),
            by: z.string(),
            at: Instant,
          })
          .nullable(),
      })
      .nullable(),
  })
  .meta({ id: 'CountLine' });
export type CountLine = z.infer<typeof CountLine>;

export const CountState = z.enum(['counting', 'to recount', 'to decide', 'done', 'given up']);
export type CountState = z.infer<typeof CountState>;

export const CountSheet = z
  .strictObject({
    id: Id,
    number: z.int(),
    state: CountState,
    openedBy: Named,
    openedAt: Instant,
    /** The last round: who counts, or counted, it. */
    round: z.strictObject({ number: z.int(), counter: Named, begunAt: Instant, handedInAt: Instant.nullable() }),
    bins: z.array(z.strictObject({ id: Id, code: z.string(), endedAt: Instant.nullable() })),
    givenUp: z.strictObject({ reason: z.string(), by: z.string(), at: Instant }).nullable(),
    lines: z.array(CountLine),
  })
  .meta({ id: 'CountSheet', description: 'What the books say is told of a line only when its blind counts are over' });
export type CountSheet = z.infer<typeof CountSheet>;

export const CountListed = z
  .strictObject({
    id: Id,
    number: z.int(),
    state: CountState,
    bins: z.array(z.string()),
    counter: z.string(),
    openedAt: Instant,
    lines: z.int(),
    settled: z.int(),
    right: z.int(),
  })
  .meta({ id: 'CountListed' });
export type CountListed = z.infer<typeof CountListed>;
export const CountPage = pageOf(CountListed);
export const CountsQuery = PageQuery.extend({ open: z.enum(['true', 'false']).optional() });
export type CountsQuery = z.infer<typeof CountsQuery>;

export const KeyCount = z
  .strictObject({ lineId: Id, counted: Count })
  .meta({ id: 'KeyCount', examples: [{ lineId: exampleId, counted: 7 }] });
export type KeyCount = z.infer<typeof KeyCount>;

export const KeyFound = z
  .strictObject({
    binId: Id,
    partId: Id,
    lotCode: words(40).optional(),
    serial: someWords(60).optional(),
    counted: z.int('must be whole pieces').min(1, 'must be one at least: what is found is there').max(100_000),
  })
  .meta({ id: 'KeyFound', examples: [{ binId: exampleId, partId: exampleId, lotCode: '5512', counted: 2 }] });
export type KeyFound = z.infer<typeof KeyFound>;

/** `round` says what is handed in, so that it is not done twice. */
export const HandIn = z
  .strictObject({ round: z.int().min(1).max(20) })
  .meta({ id: 'HandIn', examples: [{ round: 1 }] });
export type HandIn = z.infer<typeof HandIn>;

export const HandedIn = z
  .strictObject({
    right: z.int(),
    adjusted: z.int(),
    again: z.int(),
    toDecide: z.int(),
    /** Reservations released because there is less than was promised; latest promise first. */
    shortages: z.array(TakenBack),
    sheet: CountSheet,
  })
  .meta({ id: 'HandedIn' });
export type HandedIn = z.infer<typeof HandedIn>;

export const DecideCount = z
  .strictObject({ lineId: Id, decision: z.enum(['adjust', 'count again']), reason: someWords(300) })
  .meta({
    id: 'DecideCount',
    examples: [{ lineId: exampleId, decision: 'adjust', reason: 'two went out unbooked, seen on the job card' }],
  });
export type DecideCount = z.infer<typeof DecideCount>;

export const CountDecided = z
  .strictObject({ shortages: z.array(TakenBack), sheet: CountSheet })
  .meta({ id: 'CountDecided' });
export type CountDecided = z.infer<typeof CountDecided>;

export const GiveUpCount = z
  .strictObject({ reason: someWords(300) })
  .meta({ id: 'GiveUpCount', examples: [{ reason: 'the bin is being cleared out' }] });

export const CountAccuracy = z
  .strictObject({
    months: z.array(
      z.strictObject({
        /** `2026-11` */
        month: z.string(),
        lines: z.int(),
        right: z.int(),
        within: z.int(),
        /** What adjustments brought in and took out; only for those who may see money. */
        up: Money.nullable(),
        down: Money.nullable(),
      }),
    ),
  })
  .meta({ id: 'CountAccuracy', description: 'Lines settled by counts, by month, oldest first' });
export type CountAccuracy = z.infer<typeof CountAccuracy>;
