import { z } from 'zod';
import { furthestPlace, furthestStep } from './bin-walk.ts';
import { Id } from './wire.ts';

const placeRange = `must be from 0 to ${furthestPlace}`;
const stepRange = `must be from 1 to ${furthestStep}`;

/** What is set for several bins at once; what is left out stays, bin by bin. */
export const ChangeBins = z
  .strictObject({
    /** In the order in which they are to be walked past. */
    binIds: z.array(Id).min(1, 'must name one bin at least').max(500, 'must name 500 bins at most'),
    /** The first of them comes to this place in the walk, each further one so much behind it. */
    walk: z
      .strictObject({
        from: z.int('must be a whole number').min(0, placeRange).max(furthestPlace, placeRange),
        step: z.int('must be a whole number').min(1, stepRange).max(furthestStep, stepRange),
      })
      .optional(),
    closed: z.boolean().optional(),
  })
  .meta({
    id: 'ChangeBins',
    examples: [{ binIds: ['019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5c'], walk: { from: 500, step: 10 } }],
  });
export type ChangeBins = z.infer<typeof ChangeBins>;

export const BinFact = z.enum(['walkOrder', 'closed']);
export type BinFact = z.infer<typeof BinFact>;

/** What was, or would be, changed: bin by bin, from what to what. */
export const BinsChanged = z
  .strictObject({
    items: z.array(
      z.strictObject({
        bin: z.strictObject({ id: Id, code: z.string() }),
        changes: z.array(z.strictObject({ fact: BinFact, from: z.string(), to: z.string() })),
      }),
    ),
    /** Bins that stand so already. */
    unchanged: z.int(),
  })
  .meta({ id: 'BinsChanged' });
export type BinsChanged = z.infer<typeof BinsChanged>;
