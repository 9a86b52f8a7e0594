import { z } from 'zod';
import { JobName, PartName } from './parts.ts';
import { Day, Id, Instant, Named, PageQuery, pageOf } from './wire.ts';

const onOrder = z.strictObject({
  lineId: Id,
  orderId: Id.nullable(),
  orderNumber: z.int().nullable(),
  vendor: Named,
  /** The part that is on order, where it is another than the one that is wanted: what replaced that. */
  instead: PartName.nullable(),
  /** So many of its pieces are for this shortage. */
  quantity: z.int(),
  promisedOn: Day.nullable(),
  /** Its day is over and it is not in. */
  late: z.boolean(),
  /** How often its day was moved, and what the vendor said last. */
  slips: z.int(),
  said: z.string(),
});

/** What a job is short of, and what on order fills it. */
export const ShortLine = z
  .strictObject({
    demandLineId: Id,
    part: PartName,
    /** The part as which it is bought: the newest of those that replaced the wanted one. */
    buyAs: PartName,
    job: JobName,
    short: z.int(),
    /** By which rule, in words that follow its name: "in grade B"; empty for the oldest first. */
    rule: z.string(),
    since: Instant,
    /** The day the job is promised for. */
    jobDueOn: Day.nullable(),
    onOrder: z.array(onOrder),
    /** Pieces that nothing on order covers. */
    uncovered: z.int(),
    /** When all of it is promised to be in; null: some of it has no day, or is not ordered. */
    expectedOn: Day.nullable(),
    /** A line it waits for is past its day, or all of it comes after the job is due. */
    late: z.boolean(),
  })
  .meta({ id: 'ShortLine' });
export type ShortLine = z.infer<typeof ShortLine>;

export const ShortLines = z.strictObject({ items: z.array(ShortLine) }).meta({ id: 'ShortLines' });
export type ShortLines = z.infer<typeof ShortLines>;

/** Pieces to take out of one lot for one job. */
export const Pick = z
  .strictObject({
    demandLineId: Id,
    lotId: Id,
    lot: z.string(),
    serial: z.string().nullable(),
    /** Mark of the grade of its pieces; empty: none. */
    grade: z.string(),
    part: PartName,
    unit: z.string(),
    quantity: z.int(),
    /** What the ledger says lies in that lot, and how many jobs have some of it reserved. */
    onHand: z.int(),
    sharedBy: z.int(),
    job: JobName,
    dueOn: Day.nullable(),
    /** The job lacks nothing else: all of it can be picked now. */
    complete: z.boolean(),
  })
  .meta({ id: 'Pick' });
export type Pick = z.infer<typeof Pick>;

/** What is firmly reserved, bin after bin as one walks past them. */
export const PickWalk = z
  .strictObject({
    stops: z.array(z.strictObject({ bin: Named, walkOrder: z.int(), picks: z.array(Pick) })),
  })
  .meta({ id: 'PickWalk' });
export type PickWalk = z.infer<typeof PickWalk>;

/** A bin as it stands. */
export const BinStanding = z
  .strictObject({
    id: Id,
    code: z.string(),
    walkOrder: z.int(),
    closed: z.boolean(),
    parts: z.int(),
    pieces: z.int(),
    reserved: z.int(),
  })
  .meta({ id: 'BinStanding' });
export type BinStanding = z.infer<typeof BinStanding>;

export const BinsQuery = PageQuery.extend({
  after: Id.optional(),
  /** Words that all have to be there: in its code, or in what is known of a part that lies in it. */
  search: z.string().trim().max(80).optional(),
});
export type BinsQuery = z.infer<typeof BinsQuery>;

/** Bins page by page, closed ones too, in the order they are walked past. */
export const BinsKept = pageOf(BinStanding).meta({ id: 'BinsKept' });
export type BinsKept = z.infer<typeof BinsKept>;
