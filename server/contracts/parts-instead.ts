import { z } from 'zod';
import { PartName } from './parts.ts';
import { Id, Instant, Quantity, someWords } from './wire.ts';

/** What becomes of the stock of a part that was replaced: used up before the new one, or not fitted any more. */
export const OldStock = z.enum(['use up', 'new only']);
export type OldStock = z.infer<typeof OldStock>;

const replaced = { part: PartName, oldStock: OldStock };

export const PartInstead = z
  .strictObject({
    /** What replaced it, link by link; `oldStock` is about the part before. */
    chain: z.array(z.strictObject({ ...replaced, available: z.int() })),
    /** What it replaced itself. */
    replaces: z.array(z.strictObject(replaced)),
    /** The parts that serve a demand for it now, in the order in which they are used up. */
    servedBy: z.array(PartName),
    /** What will do in its place, on which condition; taken by somebody, never by rule. */
    alternatives: z.array(
      z.strictObject({ part: PartName, condition: z.string(), available: z.int(), by: z.string(), at: Instant }),
    ),
    /** In whose place it will do. */
    alternativeTo: z.array(z.strictObject({ part: PartName, condition: z.string() })),
  })
  .meta({ id: 'PartInstead' });
export type PartInstead = z.infer<typeof PartInstead>;

const partId = '019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5b';

export const SupersedePart = z
  .strictObject({ byPartId: Id, oldStock: OldStock })
  .meta({ id: 'SupersedePart', examples: [{ byPartId: partId, oldStock: 'use up' }] });
export type SupersedePart = z.infer<typeof SupersedePart>;

export const WithdrawSupersession = z
  .strictObject({ reason: someWords(300) })
  .meta({ id: 'WithdrawSupersession', examples: [{ reason: 'the maker took the notice back' }] });
export type WithdrawSupersession = z.infer<typeof WithdrawSupersession>;

export const NameAlternative = z
  .strictObject({
    /** The part that will do instead. */
    partId: Id,
    /** When it will do. */
    condition: someWords(300).regex(/^[^\r\n]*$/, 'must be one line'),
    /** True: each will do in the other's place. */
    bothWays: z.boolean().optional(),
  })
  .meta({ id: 'NameAlternative', examples: [{ partId, condition: 'once the cylinder is bored to +0.25' }] });
export type NameAlternative = z.infer<typeof NameAlternative>;

export const WithdrawAlternative = z
  .strictObject({ partId: Id, reason: someWords(300) })
  .meta({ id: 'WithdrawAlternative', examples: [{ partId, reason: 'its skirt is too long' }] });
export type WithdrawAlternative = z.infer<typeof WithdrawAlternative>;

/** Lots that a line may be served from by choice. */
export const LotsToChoose = z
  .strictObject({
    items: z.array(
      z.strictObject({
        lotId: Id,
        part: PartName,
        /** Of the part itself, of what serves in its place, or of an alternative, which asks for a reason. */
        standing: z.enum(['own', 'replacement', 'alternative']),
        /** On which condition an alternative will do. */
        onCondition: z.string().nullable(),
        code: z.string(),
        bin: z.string(),
        serial: z.string().nullable(),
        thickness: Quantity.nullable(),
        /** Mark of its grade, its own or that of its part; empty: none. */
        grade: z.string(),
        /** False: it does not meet the line's rule, and is taken with a reason. */
        meetsRule: z.boolean(),
        used: z.boolean(),
        /** Of used pieces: what was measured on them. */
        measured: z.string(),
        available: z.int(),
        receivedAt: Instant,
      }),
    ),
  })
  .meta({ id: 'LotsToChoose' });
export type LotsToChoose = z.infer<typeof LotsToChoose>;
