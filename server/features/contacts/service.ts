import type { Owner, Vendor } from '#contracts/contacts.ts';
import type { Sql } from '#platform/database/client.ts';
import { findOwners, findVendors } from './queries.ts';

/** Owners by part of their name. */
export async function owners(sql: Sql, search: string | undefined): Promise<Owner[]> {
  const asked = search?.trim();
  return findOwners(sql, asked === '' ? undefined : asked);
}

/** Vendors that are still dealt with. */
export const vendors = (sql: Sql): Promise<Vendor[]> => findVendors(sql);
