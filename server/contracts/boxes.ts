import { z } from 'zod';
import { EngineOnPaper, ReasonAgainst } from './hand-back.ts';
import { ShopHead } from './shop.ts';
import { Id, Instant, Named, someWords, words } from './wire.ts';

const Cause = z.enum(['no', 'withdrawn']);

export const HandBackInBoxes = z
  .strictObject({
    /** The owner said no to the newest quote, or withdraws. */
    cause: Cause,
    reason: someWords(500),
    /** What was counted, line by line of the packing list; a null tray: beside the engine. */
    counts: z
      .array(z.strictObject({ trayId: Id.nullable(), pieceId: Id, count: z.int().min(0).max(10_000) }))
      .max(5_000),
    note: words(1000).optional(),
  })
  .meta({
    id: 'HandBackInBoxes',
    examples: [
      {
        cause: 'no',
        reason: 'Mr Falk has it done later, and fetches it as it lies',
        counts: [
          {
            trayId: '0198c1a0-0000-7000-8000-000000000001',
            pieceId: '0198c1a0-0000-7000-8000-000000000002',
            count: 4,
          },
        ],
      },
    ],
  });
export type HandBackInBoxes = z.infer<typeof HandBackInBoxes>;

export const PackingList = z
  .strictObject({
    jobId: Id,
    engineId: Id,
    jobNumber: z.int(),
    shop: ShopHead,
    engine: EngineOnPaper,
    owner: z.string(),
    /** How deep the engine is open; null: it is not open. */
    depth: z.enum(['cover', 'head', 'cylinder', 'case']).nullable(),
    /** Whether the owner's no to the newest quote is written down. */
    saidNo: z.boolean(),
    /** What keeps it here all the same. */
    reasons: z.array(ReasonAgainst),
    /** A null tray: beside the engine. Counts are null while somebody is to count that tray blind. */
    boxes: z.array(
      z.strictObject({
        tray: Named.nullable(),
        lines: z.array(z.strictObject({ pieceId: Id, name: z.string(), count: z.int().nullable() })),
      }),
    ),
    /** Never counted off, or never found; `inside`: of these, how many may be inside. */
    missing: z.array(z.strictObject({ name: z.string(), count: z.int(), inside: z.int() })),
    obligations: z.array(z.string()),
    given: z.strictObject({ cause: Cause, reason: z.string(), note: z.string(), by: Named, at: Instant }).nullable(),
  })
  .meta({ id: 'PackingList', description: 'What goes home with an engine that its owner declined' });
export type PackingList = z.infer<typeof PackingList>;
