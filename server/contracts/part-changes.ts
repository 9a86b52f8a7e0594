import { z } from 'zod';
import { PartName } from './parts.ts';
import { Id, words } from './wire.ts';

/** What is set for several parts at once; what is left out stays, part by part. */
export const ChangeParts = z
  .strictObject({
    partIds: z.array(Id).min(1).max(500),
    /** What is free and coming may be no more than this before it is bought again; 0: never by itself. */
    reorderPoint: z.int('must be whole pieces').min(0).max(100_000).optional(),
    /** Null: no size class. */
    sizeClass: words(40).nullable().optional(),
    grade: words(40).optional(),
    placeCode: words(40).nullable().optional(),
    oneTime: z.boolean().optional(),
    /** From whom it is bought; null: from whom it was priced or bought last. */
    vendorId: Id.nullable().optional(),
  })
  .meta({
    id: 'ChangeParts',
    examples: [{ partIds: ['019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5c'], reorderPoint: 4 }],
  });
export type ChangeParts = z.infer<typeof ChangeParts>;

export const PartFact = z.enum(['reorderPoint', 'sizeClass', 'grade', 'placeCode', 'oneTime', 'vendor']);
export type PartFact = z.infer<typeof PartFact>;

/** What was, or would be, changed: part by part, from what to what; empty text: nothing. */
export const PartsChanged = z
  .strictObject({
    items: z.array(
      z.strictObject({
        part: PartName,
        changes: z.array(z.strictObject({ fact: PartFact, from: z.string(), to: z.string() })),
      }),
    ),
    /** Parts that stand so already. */
    unchanged: z.int(),
  })
  .meta({ id: 'PartsChanged' });
export type PartsChanged = z.infer<typeof PartsChanged>;
