import type { Role } from '#contracts/rights.ts';
import type { Models, Sql } from '#platform/database/client.ts';

export async function findChoices(db: Models) {
  const [shop, people, terminals] = await Promise.all([
    db.shop.findFirst(),
    db.person.findMany({ where: { leftAt: null }, include: { personRoles: true }, orderBy: { name: 'asc' } }),
    db.terminal.findMany({ where: { retiredAt: null }, orderBy: { name: 'asc' } }),
  ]);
  return { shop, people, terminals };
}

export async function findShop(db: Models) {
  return db.shop.findFirst();
}

export async function findTerminal(db: Models, id: string) {
  return db.terminal.findUnique({ where: { id, retiredAt: null } });
}

/** One try at a time for one person, or from one address, so that parallel tries are counted too. Held to the transaction's end. */
export async function lockTries(sql: Sql, subject: string): Promise<void> {
  await sql`select pg_advisory_xact_lock(hashtextextended('sign-in ' || ${subject}, 0))`;
}

export async function countFailures(sql: Sql, of: { personId: string | null; address: string; minutes: number }) {
  const [row] = await sql<{ person: number; address: number }[]>`
    select count(*) filter (where person_id = ${of.personId}::uuid)::int as person,
           count(*) filter (where address = ${of.address})::int as address
    from sign_in_failure
    where (person_id = ${of.personId}::uuid or address = ${of.address})
      and failed_at > clock_timestamp() - make_interval(mins => ${of.minutes})`;
  return row ?? { person: 0, address: 0 };
}

export async function insertFailure(sql: Sql, of: { personId: string | null; address: string }): Promise<void> {
  await sql`insert into sign_in_failure (person_id, address) values (${of.personId}, ${of.address})`;
  await sql`delete from sign_in_failure where failed_at < clock_timestamp() - interval '1 day'`;
}

export async function findPinHash(sql: Sql, personId: string) {
  const [row] = await sql<{ pinHash: string; name: string; roles: Role[] }[]>`
    select p.pin_hash as "pinHash", p.name,
           (select coalesce(array_agg(r.role), '{}') from person_role r where r.person_id = p.id) as roles
    from person p where p.id = ${personId} and p.left_at is null`;
  return row;
}
