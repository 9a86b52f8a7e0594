import { z } from 'zod';
import { Id, someWords } from './wire.ts';

/** What a file of parts did; `unchanged`: parts that stand as it says already. */
export const PartsKept = z
  .strictObject({ added: z.int(), changed: z.int(), unchanged: z.int() })
  .meta({ id: 'PartsKept' });
export type PartsKept = z.infer<typeof PartsKept>;

/** What an opening balance brought in. */
export const OpeningKept = z
  .strictObject({ lots: z.int(), parts: z.int(), pieces: z.int() })
  .meta({ id: 'OpeningKept' });
export type OpeningKept = z.infer<typeof OpeningKept>;

export const AddBin = z
  .strictObject({
    code: someWords(20),
    /** Where it comes as one walks past the bins; left out: after all others. */
    walkOrder: z.int().min(0).max(1_000_000).optional(),
  })
  .meta({ id: 'AddBin', examples: [{ code: 'E-01', walkOrder: 210 }] });
export type AddBin = z.infer<typeof AddBin>;

export const ChangeBin = z
  .strictObject({
    /** Another code to go by; its printed label stays good. */
    code: someWords(20).optional(),
    walkOrder: z.int().min(0).max(1_000_000).optional(),
    /** A closed bin takes nothing in; what lies in it can be taken out. */
    closed: z.boolean().optional(),
  })
  .meta({ id: 'ChangeBin', examples: [{ closed: true }] });
export type ChangeBin = z.infer<typeof ChangeBin>;

export const BinKept = z
  .strictObject({ id: Id, code: z.string(), walkOrder: z.int(), closed: z.boolean() })
  .meta({ id: 'BinKept' });
export type BinKept = z.infer<typeof BinKept>;
