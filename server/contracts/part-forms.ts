import { z } from 'zod';
import { Count, PartUnit, Pieces } from './parts.ts';
import { Id, Money, someWords, words } from './wire.ts';

/** What a clerk says of a part by hand; what is left out stays as it was. */
const basics = {
  name: someWords(120).optional(),
  /** Null: it fits every family. */
  familyId: Id.nullable().optional(),
  /** Code of the place of an engine that it fits. */
  placeCode: words(40).nullable().optional(),
  sizeClass: words(40).nullable().optional(),
  grade: words(40).optional(),
  oneTime: z.boolean().optional(),
  price: Money.optional(),
  /** What a vendor charges for the old one until it is sent back. */
  core: Money.optional(),
  /** What goes with it whenever it is asked for, and how many with each: all of it; what is not named goes with it no more. */
  companions: z
    .array(z.strictObject({ partId: Id, quantity: Pieces }))
    .max(20)
    .optional(),
  reorderPoint: Count.optional(),
};

export const AddPart = z
  .strictObject({
    ...basics,
    number: someWords(40),
    name: someWords(120),
    unit: PartUnit.optional(),
    /** Kept one by one, each with its serial. */
    bySerial: z.boolean().optional(),
  })
  .meta({ id: 'AddPart', examples: [{ number: 'QL-9003', name: 'Crush washer 16', oneTime: true, reorderPoint: 20 }] });
export type AddPart = z.infer<typeof AddPart>;

export const ChangePart = z
  .strictObject({
    ...basics,
    /** True: it is not stocked any more, and nobody asks for it. */
    retired: z.boolean().optional(),
  })
  .meta({ id: 'ChangePart', examples: [{ reorderPoint: 30 }] });
export type ChangePart = z.infer<typeof ChangePart>;
