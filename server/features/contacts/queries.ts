import type { Owner, Vendor } from '#contracts/contacts.ts';
import type { Sql } from '#platform/database/client.ts';
import { containing } from '#platform/database/containing.ts';

const FEW = 20;

export async function findOwners(sql: Sql, search: string | undefined): Promise<Owner[]> {
  const pattern = search === undefined ? null : containing(search);
  return sql<Owner[]>`
    select o.id, o.name, o.contact, (select count(*)::int from engine e where e.owner_id = o.id) as engines
    from owner o where ${pattern}::text is null or o.name ilike ${pattern}
    order by o.name, o.id limit ${FEW}`;
}

export async function findVendors(sql: Sql): Promise<Vendor[]> {
  return sql<Vendor[]>`select id, name, trade from vendor where retired_at is null order by name`;
}
