import { z } from 'zod';
import { Id, Instant, Named, someWords, words } from './wire.ts';

/** Engine hours as the meter shows them: decimal text with at most one decimal. */
export const Hours = z.string().regex(/^\d{1,6}(\.\d)?$/, 'must be hours such as 243 or 243.5');

export const TakeIn = z
  .strictObject({
    engine: z.union([
      z.strictObject({ id: Id }),
      z.strictObject({
        serial: z.string().regex(/^[A-Z0-9][A-Z0-9-]{1,39}$/, 'must be capitals, digits and dashes'),
        familyId: Id,
      }),
    ]),
    owner: z.union([z.strictObject({ id: Id }), z.strictObject({ name: someWords(120), contact: words(200) })]),
    hours: Hours,
    complaint: someWords(2000),
    wishes: words(2000).optional(),
    /** Where it is put down; the bay holds it at rest until somebody takes it. */
    bayId: Id,
  })
  .meta({
    id: 'TakeIn',
    examples: [
      {
        engine: { serial: 'H355-0431', familyId: '019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5b' },
        owner: { name: 'Ingrid Falk', contact: 'calls after five' },
        hours: '243.5',
        complaint: 'Hard to start hot, smokes on the overrun',
        bayId: '019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5c',
      },
    ],
  });
export type TakeIn = z.infer<typeof TakeIn>;

export const Job = z
  .strictObject({
    id: Id,
    number: z.int(),
    engineId: Id,
    revisionId: Id,
    hours: z.string(),
    complaint: z.string(),
    wishes: z.string(),
    takenInAt: Instant,
    takenInBy: Named,
    handedBackAt: Instant.nullable(),
    version: z.int(),
  })
  .meta({ id: 'Job' });
export type Job = z.infer<typeof Job>;

export const AmendJob = z
  .strictObject({ complaint: someWords(2000).optional(), wishes: words(2000).optional() })
  .meta({ id: 'AmendJob', examples: [{ wishes: 'Keep the old piston for me' }] });
export type AmendJob = z.infer<typeof AmendJob>;

export const AssignBay = z
  .strictObject({ bayId: Id.nullable() })
  .meta({ id: 'AssignBay', examples: [{ bayId: '019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5c' }] });
export type AssignBay = z.infer<typeof AssignBay>;
