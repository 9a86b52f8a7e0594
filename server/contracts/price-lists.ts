import { z } from 'zod';
import { Day } from './wire.ts';

/** How a vendor's price list is to be taken. */
export const PriceListQuery = z.object({
  /** What becomes of a row whose part nobody knows: the list is refused, or the part is made. */
  unknown: z.enum(['refuse', 'make']).optional(),
  /** From when its prices hold, where a row does not say; left out: today. */
  validFrom: Day.optional(),
});
export type PriceListQuery = z.infer<typeof PriceListQuery>;

/** What a price list brought, or would bring. */
export const PriceListTaken = z
  .strictObject({
    rows: z.int(),
    /** Parts that were new. */
    made: z.int(),
    /** Prices that differ from what the vendor asked before. */
    prices: z.int(),
    /** Rows that say what was known already. */
    unchanged: z.int(),
  })
  .meta({ id: 'PriceListTaken' });
export type PriceListTaken = z.infer<typeof PriceListTaken>;
