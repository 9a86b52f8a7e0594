import { z } from 'zod';

export const HoldRule = z
  .strictObject({
    /** So many days what is reserved for a job without a yes is held; 0: without an end. */
    days: z.int('must be whole days').min(0, 'must be from 0 to 365').max(365, 'must be from 0 to 365'),
  })
  .meta({ id: 'HoldRule', examples: [{ days: 14 }] });
export type HoldRule = z.infer<typeof HoldRule>;
