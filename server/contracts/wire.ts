import { z } from 'zod';

/** UUIDv7 made by the app; clients treat it as opaque. */
export const Id = z.uuid().meta({ examples: ['019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5b'] });

/** An instant, RFC 3339 in UTC. */
export const Instant = z.iso.datetime({ offset: true }).meta({ examples: ['2026-11-25T10:42:07Z'] });

/** A calendar day in the shop's zone. */
export const Day = z.iso.date().meta({ examples: ['2026-11-27'] });

/** A measured quantity: decimal text as it should be read, and its unit. Never a bare float of unknown unit. */
export const Quantity = z
  .strictObject({ value: z.string().min(1).max(40), unit: z.string().min(1).max(12) })
  .meta({ id: 'Quantity', description: 'A measured quantity', examples: [{ value: '88.048', unit: 'mm' }] });
export type Quantity = z.infer<typeof Quantity>;

/** An interval [low, high); `high` is null when there is no upper end (the thickest blade goes in). */
export const QuantityInterval = z
  .strictObject({
    low: z.string().min(1).max(40),
    high: z.string().min(1).max(40).nullable(),
    unit: z.string().max(12),
  })
  .meta({ id: 'QuantityInterval', examples: [{ low: '0.35', high: '0.40', unit: 'mm' }] });
export type QuantityInterval = z.infer<typeof QuantityInterval>;

/** Money: whole minor units of a currency, as decimal text. */
export const Money = z
  .strictObject({ minor: z.string().regex(/^-?\d{1,15}$/), currency: z.string().regex(/^[A-Z]{3}$/) })
  .meta({ id: 'Money', description: 'Whole minor units', examples: [{ minor: '48250', currency: 'EUR' }] });
export type Money = z.infer<typeof Money>;

/** Free text somebody typed; trimmed by the server, control characters refused. */
export const words = (max: number) =>
  z
    .string()
    .max(max)
    // biome-ignore lint/suspicious/noControlCharactersInRegex: refusing them is the point
    .regex(/^[^\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]*$/, 'has control characters');
/** Words that must say something. */
export const someWords = (max: number) => words(max).regex(/\S/, 'must not be empty');

/** Places of a rack, by their codes. */
export const RackPlaces = z.array(someWords(24)).max(24);

/** What a reply says of a person, a bay, a vendor: enough to name it. */
export const Named = z.strictObject({ id: Id, name: z.string() }).meta({ id: 'Named' });
export type Named = z.infer<typeof Named>;

export const IdParams = z.object({ id: Id });

/** Keyset paging: pass the `next` of the last reply as `after`. */
export const PageQuery = z.object({
  after: z.string().max(300).optional(),
  limit: z.coerce.number().int().min(1).max(200).optional(),
});
export const pageOf = <Item extends z.ZodType>(item: Item) =>
  z.strictObject({ items: z.array(item), next: z.string().nullable() });

/** What was made, by its id alone. */
export const Made = z.strictObject({ id: Id }).meta({ id: 'Made' });
