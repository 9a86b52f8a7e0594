import { z } from 'zod';

/** What a file brought, or would bring. */
export const FileTaken = z
  .strictObject({
    rows: z.int(),
    /** Of what the file is about: bins, kits, parts. */
    added: z.int(),
    changed: z.int(),
    /** That stand as the file says already. */
    unchanged: z.int(),
  })
  .meta({ id: 'FileTaken' });
export type FileTaken = z.infer<typeof FileTaken>;
