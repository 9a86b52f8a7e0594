import { z } from 'zod';
import {
  cameOnes,
  isSaidOneWay,
  isSome,
  JobName,
  lineWords,
  orderedOnes,
  PackSize,
  PartName,
  PartUnit,
  replacedWhy,
  sayOneWay,
  saySome,
} from './parts.ts';
import { ShopHead } from './shop.ts';
import { Day, Id, Instant, Money, Named, PageQuery, pageOf, someWords, words } from './wire.ts';

/** How a level to buy at comes about: every figure that goes into it. */
export const ReorderReasons = z
  .strictObject({
    /** Days of history that were read, and what was issued in them less what came back. */
    days: z.int(),
    used: z.int(),
    meanPerDay: z.number(),
    deviationPerDay: z.number(),
    /** From order to receipt, over so many lines that came in. */
    leadDays: z.number(),
    leadDeviationDays: z.number(),
    leadLines: z.int(),
    service: z.number(),
    z: z.number(),
    safetyStock: z.number(),
    reorderAt: z.int(),
    /** What an order costs to write and receive, and a year's holding as a share of the price, in minor units. */
    orderCost: z.int(),
    holdingShare: z.number(),
    /** Pieces an order that balance the two; null where no price is known. */
    orderQuantity: z.int().nullable(),
    /** How its usual vendor sells it, and the whole packs that hold as many. */
    packSize: z.int(),
    orderPacks: z.int().nullable(),
  })
  .meta({ id: 'ReorderReasons' });
export type ReorderReasons = z.infer<typeof ReorderReasons>;

/** `price` is that of one pack. */
export const VendorPrice = z
  .strictObject({
    vendor: Named,
    price: Money.nullable(),
    packSize: z.int(),
    validFrom: Day,
    theirNumber: z.string(),
  })
  .meta({ id: 'VendorPrice' });

/** How a part is bought: who asks what since when, how long it takes, when to buy and how many. */
export const PartSupply = z
  .strictObject({ part: PartName, unit: PartUnit, prices: z.array(VendorPrice), reorder: ReorderReasons })
  .meta({ id: 'PartSupply' });
export type PartSupply = z.infer<typeof PartSupply>;

export const TellPrice = z
  .strictObject({
    vendorId: Id,
    partId: Id,
    /** Of one pack. */
    price: Money,
    /** Left out: as this vendor sold it before, else one. */
    packSize: PackSize.optional(),
    validFrom: Day,
    theirNumber: words(60).optional(),
  })
  .meta({
    id: 'TellPrice',
    examples: [
      {
        vendorId: '019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5b',
        partId: '019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5c',
        price: { minor: '4200', currency: 'EUR' },
        packSize: 10,
        validFrom: '2026-11-01',
      },
    ],
  });
export type TellPrice = z.infer<typeof TellPrice>;

/** One thing to buy: for a job that is short of it, or for the shelf. */
export const ToBuy = z
  .strictObject({
    part: PartName,
    /** Parts that jobs want, where they were replaced by the one to buy. */
    insteadOf: z.array(PartName),
    unit: PartUnit,
    /** In the part's unit: whole packs of it. */
    quantity: z.int(),
    packs: z.int(),
    packSize: z.int(),
    /** The job that gets them first; null: whoever waits longest, or the shelf. */
    job: JobName.nullable(),
    /** What they are needed for, each in the part's unit; no job: the shelf. What is over is left in a pack. */
    needs: z.array(
      z.strictObject({
        job: JobName.nullable(),
        quantity: z.int(),
        /** By which rule of lots the job wants them: "in grade B"; empty for the oldest first. */
        rule: z.string(),
      }),
    ),
    /** What the vendor asks for one pack; only for those who may see money. */
    price: Money.nullable(),
    why: z.enum(['short', 'low']),
    /** What its vendor is to be told besides: "in grade B", "1 in grade A; 2 in grade B"; empty: nothing. */
    words: z.string(),
    onHand: z.int(),
    /** Of those on hand, reserved for nobody and never used: with what comes in, they are held against the level. */
    free: z.int(),
    coming: z.int(),
    /** Of what runs low: the level to buy at. */
    reorderPoint: z.int(),
  })
  .meta({ id: 'ToBuy' });
export type ToBuy = z.infer<typeof ToBuy>;

export const BuyingProposals = z
  .strictObject({
    /** By the vendor it was last priced by or bought from; null: nobody known. */
    vendors: z.array(z.strictObject({ vendor: Named.nullable(), lines: z.array(ToBuy) })),
    /** Parts that run low beyond those told here, which are the scarcest. */
    more: z.int(),
  })
  .meta({ id: 'BuyingProposals' });
export type BuyingProposals = z.infer<typeof BuyingProposals>;

export const PlaceOrder = z
  .strictObject({
    vendorId: Id,
    words: words(500).optional(),
    lines: z
      .array(
        z
          .strictObject({
            partId: Id,
            ...orderedOnes,
            replacedWhy,
            words: lineWords,
            jobId: Id.optional(),
            /** Of one pack; left out: the vendor's price of today, where one is known. */
            price: Money.optional(),
            /** By when it is wanted; what its vendor promises is told apart. */
            wantedOn: Day.optional(),
            promisedOn: Day.optional(),
          })
          .refine(isSaidOneWay, sayOneWay),
      )
      .min(1)
      .max(200),
  })
  .meta({
    id: 'PlaceOrder',
    examples: [
      {
        vendorId: '019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5b',
        words: 'Deliver before ten',
        lines: [{ partId: '019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5c', packs: 2, packSize: 10 }],
      },
    ],
  });
export type PlaceOrder = z.infer<typeof PlaceOrder>;

const fact = z.strictObject({
  kind: z.enum(['received', 'came wrong', 'came damaged', 'sent back', 'called off', 'date']),
  quantity: z.int().nullable(),
  /** As somebody keyed it; null: nobody kept that, or it was keyed by serial. */
  keyed: z.strictObject({ packs: z.int(), loose: z.int() }).nullable(),
  promisedOn: Day.nullable(),
  words: z.string(),
  by: z.string(),
  at: Instant,
});

export const OrderLine = z
  .strictObject({
    id: Id,
    part: PartName,
    unit: PartUnit,
    theirNumber: z.string(),
    job: JobName.nullable(),
    /** In the part's unit, as what was received of it. */
    quantity: z.int(),
    received: z.int(),
    /** Of one pack as it was ordered. */
    packSize: z.int(),
    /** By when it is wanted, and when its vendor promised it for. */
    wantedOn: Day.nullable(),
    promisedOn: Day.nullable(),
    /** Of one pack. */
    price: Money.nullable(),
    /** Why it was ordered although it had been replaced; empty: it had not. */
    replacedWhy: z.string(),
    /** What its vendor was told of it besides; empty: nothing. */
    words: z.string(),
    facts: z.array(fact),
  })
  .meta({ id: 'OrderLine' });

export const Order = z
  .strictObject({
    id: Id,
    number: z.int(),
    from: ShopHead,
    vendor: z.strictObject({ id: Id, name: z.string(), contact: z.string() }),
    words: z.string(),
    openedBy: z.string(),
    openedAt: Instant,
    sentAt: Instant.nullable(),
    confirmedAt: Instant.nullable(),
    lines: z.array(OrderLine),
    total: Money.nullable(),
  })
  .meta({ id: 'Order' });
export type Order = z.infer<typeof Order>;

export const OrderListed = z
  .strictObject({
    id: Id,
    number: z.int(),
    vendor: Named,
    openedAt: Instant,
    sentAt: Instant.nullable(),
    confirmedAt: Instant.nullable(),
    lines: z.int(),
    /** Lines of which something is still to come. */
    open: z.int(),
    /** The last day of what is still to come; null where a line has none. */
    expectedOn: Day.nullable(),
  })
  .meta({ id: 'OrderListed' });
export type OrderListed = z.infer<typeof OrderListed>;
export const OrderSort = z.enum(['newest', 'oldest', 'vendor', 'expected']);
export type OrderSort = z.infer<typeof OrderSort>;
export const OrdersQuery = PageQuery.extend({
  after: Id.optional(),
  /** Something is still to come. */
  open: z.enum(['true', 'false']).optional(),
  sent: z.enum(['true', 'false']).optional(),
  vendorId: Id.optional(),
  /** Words that all have to be there: in its number, its vendor's name, or a part on it by our number, name or a vendor's number. */
  search: z.string().trim().max(80).optional(),
  sort: OrderSort.optional(),
});
export type OrdersQuery = z.infer<typeof OrdersQuery>;
export const OrderPage = pageOf(OrderListed);

export const MarkOrder = z
  .strictObject({ mark: z.enum(['sent', 'confirmed']), words: words(300).optional() })
  .meta({ id: 'MarkOrder', examples: [{ mark: 'sent', words: 'by letter' }] });
export type MarkOrder = z.infer<typeof MarkOrder>;

/** A date the vendor gave: the first, or one that slipped (then with what they said); null: none any more. */
export const TellDate = z
  .strictObject({ promisedOn: Day.nullable(), words: words(300).optional() })
  .meta({ id: 'TellDate', examples: [{ promisedOn: '2026-12-04', words: 'waits for the foundry' }] });
export type TellDate = z.infer<typeof TellDate>;

export const LineFault = z
  .discriminatedUnion('kind', [
    /** What came is another part: nothing of it is taken in, the line stays open. */
    z.strictObject({ kind: z.literal('came wrong'), ...cameOnes, words: someWords(300) }).refine(isSome, saySome),
    /** What came is no good as it is: nothing of it is taken in, the line stays open. */
    z.strictObject({ kind: z.literal('came damaged'), ...cameOnes, words: someWords(300) }).refine(isSome, saySome),
    /** Pieces that were taken in go back: a replacement is still to come, unless it is called off. */
    z
      .strictObject({ kind: z.literal('sent back'), ...cameOnes, lotId: Id, words: someWords(300) })
      .refine(isSome, saySome),
    /** So many of what is still to come will not. */
    z.strictObject({ kind: z.literal('called off'), ...cameOnes, words: someWords(300) }).refine(isSome, saySome),
  ])
  .meta({ id: 'LineFault', examples: [{ kind: 'called off', quantity: 1, words: 'not made any more' }] });
export type LineFault = z.infer<typeof LineFault>;

export const Core = z
  .strictObject({
    id: Id,
    part: PartName,
    vendor: Named,
    orderNumber: z.int().nullable(),
    quantity: z.int(),
    charge: Money.nullable(),
    owedAt: Instant,
    sentAt: Instant.nullable(),
    creditedAt: Instant.nullable(),
  })
  .meta({ id: 'Core', description: 'A worn piece that the vendor charges for until it comes back' });
/** All that are open, those settled last, and how many were ever settled. */
export const Cores = z.strictObject({ items: z.array(Core), settled: z.int() }).meta({ id: 'Cores' });
export type Cores = z.infer<typeof Cores>;
export const MarkCore = z
  .strictObject({ mark: z.enum(['sent', 'credited']), words: words(300).optional() })
  .meta({ id: 'MarkCore', examples: [{ mark: 'sent' }] });
export type MarkCore = z.infer<typeof MarkCore>;
