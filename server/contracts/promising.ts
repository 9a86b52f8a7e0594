import { z } from 'zod';
import { JobName, PartName, Pieces } from './parts.ts';
import { Day, Id } from './wire.ts';

export const PromiseQuery = z.object({
  /** For which day; today, when left out. */
  on: Day.optional(),
  /** How many are to be promised. */
  quantity: z.coerce.number().pipe(Pieces).optional(),
});
export type PromiseQuery = z.infer<typeof PromiseQuery>;

/** What can be promised of a part, day by day, over on hand, reserved, expected and wanted. */
export const PartPromise = z
  .strictObject({
    part: PartName,
    today: Day,
    onHand: z.int(),
    reserved: z.int(),
    /** Reserved for nobody, without used pieces. */
    free: z.int(),
    /** Used and measured ones: promised by hand, never by rule. */
    usedFree: z.int(),
    /** The numbers it is served by, in the order in which they are used up: its own, and what replaced it. */
    numbers: z.array(z.strictObject({ part: PartName, free: z.int(), comes: z.int() })),
    /** Parts that will do on a condition, which no rule takes, and how many of each can be promised for that day. */
    alternatives: z.array(z.strictObject({ part: PartName, condition: z.string(), promisable: z.int() })),
    asked: z.strictObject({
      on: Day,
      quantity: z.int(),
      /** How many can be promised for that day. */
      promisable: z.int(),
      /** The first day for which so many can be promised of what is here and on order; null: none. */
      firstOn: Day.nullable(),
      /** When so many could be here if the rest were ordered today, by the lead time learned; null: nothing tells. */
      ifOrderedOn: Day.nullable(),
    }),
    days: z.array(
      z.strictObject({
        on: Day,
        comes: z.int(),
        wanted: z.int(),
        projected: z.int(),
        promisable: z.int(),
      }),
    ),
    /** On order without a day, or late without a new one: nothing is promised on them. */
    undated: z.int(),
    leadDays: z.number().nullable(),
    wishes: z.array(
      z.strictObject({
        demandLineId: Id,
        /** It, or another number that is served by some of the same. */
        part: PartName,
        job: JobName,
        short: z.int(),
        notAsked: z.int(),
        promisedOn: Day.nullable(),
      }),
    ),
  })
  .meta({ id: 'PartPromise' });
export type PartPromise = z.infer<typeof PartPromise>;

/** What a date rests on: stock, what is on order, what would have to be ordered today, or nothing. */
export const Basis = z.enum(['in stock', 'on order', 'if ordered', 'no date']);

/** When all that a job wants from stores can be here. */
export const PartsReady = z
  .strictObject({
    /** Null: something it wants has no date. */
    on: Day.nullable(),
    basis: Basis,
    /** The lines that are not reserved or issued yet, the last to come first. */
    lines: z.array(
      z.strictObject({
        demandLineId: Id,
        part: PartName,
        missing: z.int(),
        asked: z.boolean(),
        on: Day.nullable(),
        basis: Basis,
        /** Pieces of it that are promised from another number, which replaced the wanted one. */
        instead: z.array(z.strictObject({ part: PartName, quantity: z.int() })),
      }),
    ),
  })
  .meta({ id: 'PartsReady' });
export type PartsReady = z.infer<typeof PartsReady>;
