import { z } from 'zod';
import { Finding, Verdict } from './findings.ts';
import { Id, someWords } from './wire.ts';

/** A newer published revision of a job's sheet: what it changes of what was found. */
export const NewerRevision = z
  .strictObject({
    /** null: the job is bound to the newest. */
    newer: z
      .strictObject({
        id: Id,
        number: z.int(),
        /** The one that the job is bound to. */
        boundTo: Id,
        /** Findings that would be judged otherwise, from the same readings; null: none by that sheet. */
        otherwise: z.array(
          z.strictObject({
            dimension: z.string(),
            name: z.string(),
            round: z.string(),
            before: Verdict.nullable(),
            after: Verdict.nullable(),
          }),
        ),
      })
      .nullable(),
  })
  .meta({ id: 'NewerRevision' });
export type NewerRevision = z.infer<typeof NewerRevision>;

export const MoveToRevision = z.strictObject({ revisionId: Id, reason: someWords(500) }).meta({
  id: 'MoveToRevision',
  examples: [
    { revisionId: '019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5b', reason: 'Bulletin lowers the limit of the ring gap' },
  ],
});
export type MoveToRevision = z.infer<typeof MoveToRevision>;

export const MovedToRevision = z
  .strictObject({
    from: z.int(),
    to: z.int(),
    /** Judged anew, each beside the one that it supersedes. */
    findings: z.array(Finding),
  })
  .meta({ id: 'MovedToRevision' });
export type MovedToRevision = z.infer<typeof MovedToRevision>;
