import { z } from 'zod';
import { Id, words } from './wire.ts';

export const OwnersQuery = z.object({
  /** Part of a name. */
  search: words(60).optional(),
});

/** Somebody who brings engines; how to reach them as they said it. */
export const Owner = z
  .strictObject({ id: Id, name: z.string(), contact: z.string(), engines: z.int() })
  .meta({ id: 'Owner' });
export type Owner = z.infer<typeof Owner>;
export const Owners = z
  .strictObject({ items: z.array(Owner) })
  .meta({ id: 'Owners', description: 'By name, 20 at most' });
export type Owners = z.infer<typeof Owners>;

/** Somebody parts are bought from, or work is sent to. */
export const Vendor = z.strictObject({ id: Id, name: z.string(), trade: z.string() }).meta({ id: 'Vendor' });
export type Vendor = z.infer<typeof Vendor>;
export const Vendors = z.strictObject({ items: z.array(Vendor) }).meta({ id: 'Vendors' });
export type Vendors = z.infer<typeof Vendors>;
