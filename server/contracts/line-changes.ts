import { z } from 'zod';
import { JobName, PartName } from './parts.ts';
import { Day, Id, words } from './wire.ts';

/** The day that a vendor gave for several lines of one or several orders; null: none any more. */
export const ChangeLines = z
  .strictObject({
    lineIds: z.array(Id).min(1, 'must name one line at least').max(500, 'must name 500 lines at most'),
    promisedOn: Day.nullable(),
    /** What the vendor said; needed where one of them had another day. */
    words: words(300).optional(),
  })
  .meta({
    id: 'ChangeLines',
    examples: [
      {
        lineIds: ['019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5c'],
        promisedOn: '2026-12-04',
        words: 'waits for the foundry',
      },
    ],
  });
export type ChangeLines = z.infer<typeof ChangeLines>;

/** What was, or would be, changed: line by line, from what day to what day; empty text: none. */
export const LinesChanged = z
  .strictObject({
    items: z.array(
      z.strictObject({
        line: z.strictObject({ id: Id, orderNumber: z.int().nullable(), part: PartName }),
        changes: z.array(z.strictObject({ fact: z.literal('promisedOn'), from: z.string(), to: z.string() })),
      }),
    ),
    /** Lines that have that day already. */
    unchanged: z.int(),
    /** Who waits and gets the pieces on another day by it; null: nothing tells the day. */
    waits: z.array(
      z.strictObject({
        job: JobName,
        part: PartName,
        from: Day.nullable(),
        to: Day.nullable(),
        /** When the owner was promised the engine. */
        promisedOn: Day.nullable(),
      }),
    ),
  })
  .meta({ id: 'LinesChanged' });
export type LinesChanged = z.infer<typeof LinesChanged>;
