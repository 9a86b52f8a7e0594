import { z } from 'zod';
import { PartName } from './parts.ts';
import { MarkCore } from './supply.ts';
import { Id } from './wire.ts';

/** Several worn pieces that went back in one box, or were credited by one note. */
export const ChangeCores = z
  .strictObject({
    coreIds: z.array(Id).min(1, 'must name one core at least').max(500, 'must name 500 cores at most'),
    ...MarkCore.shape,
  })
  .meta({ id: 'ChangeCores', examples: [{ coreIds: ['019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5c'], mark: 'sent' }] });
export type ChangeCores = z.infer<typeof ChangeCores>;

const state = z.enum(['owed', 'sent', 'credited']);

/** What was, or would be, changed: core by core, from what to what. */
export const CoresChanged = z
  .strictObject({
    items: z.array(
      z.strictObject({
        core: z.strictObject({ id: Id, part: PartName, vendor: z.string(), quantity: z.int() }),
        changes: z.array(z.strictObject({ fact: z.literal('state'), from: state, to: state })),
      }),
    ),
    /** Cores that are marked so already. */
    unchanged: z.int(),
  })
  .meta({ id: 'CoresChanged' });
export type CoresChanged = z.infer<typeof CoresChanged>;
