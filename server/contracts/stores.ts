import { z } from 'zod';
import { DemandLine } from './demands.ts';
import { JobName, PartName } from './parts.ts';
import { Basis } from './promising.ts';
import { PurchaseLine } from './stock.ts';
import { Day, Id, Instant } from './wire.ts';

export const JobInStores = z
  .strictObject({
    job: JobName,
    promisedOn: Day.nullable(),
    /** What the owner said to its newest quote; null: it has none. */
    quote: z.enum(['not answered', 'yes', 'no']).nullable(),
    /** Until when what is reserved for it is held by the shop's rule, where nobody says another day; null: firmly. */
    heldUntil: Instant.nullable(),
    lines: z.array(DemandLine),
    toPick: z.int(),
    short: z.int(),
    /** When all that is short is promised to be in; null when nothing is short or something has no date. */
    restartsOn: Day.nullable(),
    /** When all that it still wants can be here, and what that date rests on; null when it wants nothing more. */
    ready: z.strictObject({ on: Day.nullable(), basis: Basis }).nullable(),
  })
  .meta({ id: 'JobInStores' });

export const StoresBoard = z
  .strictObject({
    jobs: z.array(JobInStores),
    shortages: z.array(
      z.strictObject({
        demandLineId: Id,
        part: PartName,
        job: JobName,
        short: z.int(),
        since: Instant,
        expectedOn: Day.nullable(),
      }),
    ),
    low: z.array(
      z.strictObject({
        part: PartName,
        onHand: z.int(),
        reserved: z.int(),
        reorderPoint: z.int(),
        coming: z.int(),
      }),
    ),
    /** How many run low in all: the scarcest are told. */
    lowTotal: z.int(),
    coming: z.array(PurchaseLine),
    /** How many lines are to come in all: the earliest are told. */
    comingTotal: z.int(),
  })
  .meta({ id: 'StoresBoard' });
export type StoresBoard = z.infer<typeof StoresBoard>;

export const Bins = z
  .strictObject({ items: z.array(z.strictObject({ id: Id, code: z.string() })) })
  .meta({ id: 'Bins', description: 'Bins that take goods in, in the order they are walked past' });
export type Bins = z.infer<typeof Bins>;
