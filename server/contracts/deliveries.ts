import { z } from 'zod';
import { Count, cameOnes, Grade, isSome, JobName, PartName, saySome } from './parts.ts';
import { GoodsReceived } from './stock.ts';
import { Day, Id, Money, Named, Quantity, someWords, words } from './wire.ts';

const putAside = z.strictObject({ ...cameOnes, words: someWords(300) }).refine(isSome, saySome);

/** What one delivery brought, on several lines, and what bringing it cost. */
export const TakeDelivery = z
  .strictObject({
    /** What the delivery note is numbered. */
    note: words(60).optional(),
    lines: z
      .array(
        z.strictObject({
          purchaseLineId: Id,
          /** Where the good pieces go; needed where there are any. */
          binId: Id.optional(),
          /** Good pieces that are taken in, beside those in whole packs; may be none where all came wrong or damaged. */
          quantity: Count,
          /** Whole packs, of the size that the line has: an open or a short one is said in pieces. */
          packs: Count.optional(),
          lotCode: words(40).optional(),
          serial: someWords(60).optional(),
          /** Of parts that are kept by serial: one for each piece. */
          serials: z.array(someWords(60)).min(1).max(100).optional(),
          /** Measured thickness, of shims. */
          thickness: Quantity.optional(),
          /** Mark of the grade that stands on these pieces or their box. */
          grade: Grade.optional(),
          /** What they cost together; left out: by the line's price, to the last minor unit over a pack. */
          cost: Money.optional(),
          acceptOver: z.boolean().optional(),
          /** Pieces of another part than was ordered: they stay out of stock, the line stays open. */
          wrong: putAside.optional(),
          /** Pieces that are no good as they came: likewise. */
          damaged: putAside.optional(),
        }),
      )
      .min(1)
      .max(100),
    /** Freight, duty and the like: added to what the lines cost, by their worth. */
    freight: Money.optional(),
  })
  .meta({
    id: 'TakeDelivery',
    examples: [
      {
        note: 'DN 4471',
        lines: [
          {
            purchaseLineId: '019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5b',
            binId: '019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5c',
            quantity: 2,
            damaged: { quantity: 1, words: 'box crushed' },
          },
        ],
        freight: { minor: '1250', currency: 'EUR' },
      },
    ],
  });
export type TakeDelivery = z.infer<typeof TakeDelivery>;

/** One line of a delivery: what came of each of its receipts, and how its cost came about. */
const DeliveredLine = GoodsReceived.extend({
  purchaseLineId: Id,
  part: PartName,
  bin: Named,
  /** What the goods cost, their share of the freight, and both; only for those who may see money. */
  goods: Money.nullable(),
  freight: Money.nullable(),
  landed: Money.nullable(),
  coresOwed: z.int(),
}).meta({ id: 'DeliveredLine' });

/** `lines` has an entry a receipt: one a line, and one a piece of what is kept by serial. */
export const DeliveryTaken = z
  .strictObject({ id: Id, lines: z.array(DeliveredLine), freight: Money.nullable() })
  .meta({ id: 'DeliveryTaken' });
export type DeliveryTaken = z.infer<typeof DeliveryTaken>;

/** A purchase line of which something is still to come, with what taking it in needs to know. */
export const ExpectedLine = z
  .strictObject({
    id: Id,
    orderId: Id.nullable(),
    orderNumber: z.int().nullable(),
    part: PartName,
    unit: z.string(),
    bySerial: z.boolean(),
    isShim: z.boolean(),
    theirNumber: z.string(),
    /** What its vendor was told of it: "in grade B"; empty: nothing. */
    words: z.string(),
    job: JobName.nullable(),
    /** In the part's unit, as what was received of it. */
    quantity: z.int(),
    received: z.int(),
    /** Of one pack as it was ordered. */
    packSize: z.int(),
    promisedOn: Day.nullable(),
    /** Its day is over and it is not in. */
    late: z.boolean(),
    /** Of one pack. */
    price: Money.nullable(),
    /** What the vendor charges for a worn one until it comes back; null: nothing, or not to be seen. */
    core: Money.nullable(),
    owesCore: z.boolean(),
    /** Where the part lay last, if that bin is open. */
    usualBin: Named.nullable(),
  })
  .meta({ id: 'ExpectedLine' });
export type ExpectedLine = z.infer<typeof ExpectedLine>;

export const ExpectedQuery = z.object({ vendorId: Id.optional() });
export const ExpectedGoods = z
  .strictObject({
    /** Vendors of whom something is still to come. */
    vendors: z.array(Named.extend({ lines: z.int(), late: z.int(), nextOn: Day.nullable() })),
    /** The lines of the vendor that was asked for, by order. */
    lines: z.array(ExpectedLine),
  })
  .meta({ id: 'ExpectedGoods' });
export type ExpectedGoods = z.infer<typeof ExpectedGoods>;
