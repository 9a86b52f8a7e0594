import { z } from 'zod';
import {
  Count,
  Grade,
  isSaidOneWay,
  JobName,
  lineWords,
  orderedOnes,
  PartName,
  Pieces,
  replacedWhy,
  sayOneWay,
} from './parts.ts';
import { Day, Id, Instant, Money, Named, PageQuery, pageOf, Quantity, someWords, words } from './wire.ts';

const about = { lotId: Id, reason: someWords(300) };

/** A bare movement: on a lot, for no job. */
export const MoveStock = z
  .discriminatedUnion('act', [
    z.strictObject({
      act: z.literal('receive'),
      lotId: Id,
      quantity: Pieces,
      cost: Money.optional(),
      reason: words(300).optional(),
    }),
    /** `quantity` is the change: below zero takes away. */
    z.strictObject({
      act: z.literal('adjust'),
      ...about,
      quantity: z
        .int('must be whole pieces')
        .min(-100_000)
        .max(100_000)
        .refine((change) => change !== 0, 'must not be zero'),
    }),
    /** `counted` is what lies there: the ledger is corrected by the difference. */
    z.strictObject({ act: z.literal('count'), ...about, counted: Count }),
    z.strictObject({ act: z.literal('scrap'), ...about, quantity: Pieces }),
    z.strictObject({
      act: z.literal('transfer'),
      lotId: Id,
      quantity: Pieces,
      toBinId: Id,
      reason: words(300).optional(),
    }),
  ])
  .meta({
    id: 'MoveStock',
    examples: [{ act: 'scrap', lotId: '019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5b', quantity: 1, reason: 'bent' }],
  });
export type MoveStock = z.infer<typeof MoveStock>;

/** What a lot bears, put right; what is left out stays as it is. */
export const CorrectLotMarks = z
  .strictObject({
    /** Mark of its grade; empty: it bears none, and is of its part's grade. */
    grade: z.union([Grade, z.literal('')]).optional(),
    /** Measured thickness, of shims; null: nobody measured them, they are of their nominal thickness. */
    thickness: Quantity.nullable().optional(),
    reason: someWords(300),
  })
  .refine(({ grade, thickness }) => grade !== undefined || thickness !== undefined, {
    error: 'say a grade, or a thickness',
    path: ['grade'],
  })
  .meta({ id: 'CorrectLotMarks', examples: [{ grade: 'B', reason: 'read wrongly off the box' }] });
export type CorrectLotMarks = z.infer<typeof CorrectLotMarks>;

/** A promise that had to be taken back, and of whom. */
export const TakenBack = z
  .strictObject({ job: JobName, demandLineId: Id, part: PartName, missing: z.int() })
  .meta({ id: 'TakenBack' });
export type TakenBack = z.infer<typeof TakenBack>;

export const StockMoved = z
  .strictObject({
    lotId: Id,
    onHand: z.int(),
    reserved: z.int(),
    available: z.int(),
    /** The lot it went to, of a transfer. */
    toLotId: Id.nullable(),
    /** Reservations released into shortages because there is less than was promised; latest promise first. */
    shortages: z.array(TakenBack),
    /** Of a transfer: reserved pieces that went along, whose job finds them in the other bin now. */
    carried: z.array(z.strictObject({ job: JobName, demandLineId: Id, part: PartName, quantity: z.int() })),
  })
  .meta({ id: 'StockMoved' });
export type StockMoved = z.infer<typeof StockMoved>;

export const ReceiveGoods = z
  .strictObject({
    partId: Id,
    binId: Id,
    /** Pieces, beside those in whole packs. */
    quantity: Count,
    /** Whole packs, of the size that the purchase line has. */
    packs: Count.optional(),
    /** What is printed on the box or the delivery note. */
    lotCode: words(40).optional(),
    /** What they cost together; left out: by the purchase line's price, where there is one. */
    cost: Money.optional(),
    /** Measured thickness, of shims. */
    thickness: Quantity.optional(),
    /** Mark of the grade that stands on these pieces or their box; left out: they are of their part's grade. */
    grade: Grade.optional(),
    /** Of a part that is kept by serial: one piece a receipt. */
    serial: someWords(60).optional(),
    /** Used pieces that are good to go in again: what was measured on them. */
    usedCondition: someWords(300).optional(),
    purchaseLineId: Id.optional(),
    /** More came than is still open on the purchase line, and it is kept. */
    acceptOver: z.boolean().optional(),
  })
  .refine(({ quantity, packs }) => quantity + (packs ?? 0) > 0, { error: 'must be one or more', path: ['quantity'] })
  .meta({
    id: 'ReceiveGoods',
    examples: [
      {
        partId: '019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5b',
        binId: '019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5c',
        quantity: 8,
        lotCode: '5512',
        cost: { minor: '3360', currency: 'EUR' },
      },
    ],
  });
export type ReceiveGoods = z.infer<typeof ReceiveGoods>;

export const GoodsReceived = z
  .strictObject({
    lotId: Id,
    onHand: z.int(),
    available: z.int(),
    /** What the purchase line's own job got at once. */
    reservedFor: z
      .strictObject({
        job: JobName,
        demandLineId: Id,
        quantity: z.int(),
        /** Until when it is held for the owner's yes; null: firm. */
        until: Instant.nullable(),
      })
      .nullable(),
    /** The job it was bought for, whose owner said no: what came goes to the shelf, and to who waits. */
    saidNo: JobName.nullable(),
    /** Who else is short of this part, earliest promise first: ask to reserve for them. */
    waiting: z.array(
      z.strictObject({
        job: JobName,
        demandLineId: Id,
        short: z.int(),
        promisedOn: Day.nullable(),
        /** Until when it waits for the owner's yes; null: until it is served. */
        askedUntil: Instant.nullable(),
      }),
    ),
    /** How many lines wait for it in all. */
    waitingTotal: z.int(),
  })
  .meta({ id: 'GoodsReceived' });
export type GoodsReceived = z.infer<typeof GoodsReceived>;

export const OrderPart = z
  .strictObject({
    vendorId: Id,
    partId: Id,
    ...orderedOnes,
    replacedWhy,
    words: lineWords,
    promisedOn: Day.optional(),
    /** The job it is bought for: it gets these pieces first. */
    jobId: Id.optional(),
  })
  .refine(isSaidOneWay, sayOneWay)
  .meta({
    id: 'OrderPart',
    examples: [
      {
        vendorId: '019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5b',
        partId: '019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5c',
        quantity: 8,
        promisedOn: '2026-11-26',
      },
    ],
  });
export type OrderPart = z.infer<typeof OrderPart>;

export const PurchaseLine = z
  .strictObject({
    id: Id,
    vendor: Named,
    part: PartName,
    job: JobName.nullable(),
    quantity: z.int(),
    received: z.int(),
    packSize: z.int(),
    promisedOn: Day.nullable(),
    orderedAt: Instant,
  })
  .meta({ id: 'PurchaseLine' });
export type PurchaseLine = z.infer<typeof PurchaseLine>;

export const PurchaseQuery = PageQuery.extend({
  partId: Id.optional(),
  jobId: Id.optional(),
  /** `true`: only what has not all come in. */
  coming: z.enum(['true', 'false']).optional(),
});
export type PurchaseQuery = z.infer<typeof PurchaseQuery>;
export const PurchasePage = pageOf(PurchaseLine);
