import type { People } from '#contracts/people.ts';
import type { Role } from '#contracts/rights.ts';
import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

export async function findPeople(sql: Sql): Promise<People['items']> {
  return sql<People['items']>`
    select p.id, p.name, p.initials, to_json(p.joined_at)#>>'{}' as "joinedAt", to_json(p.left_at)#>>'{}' as "leftAt",
      (select coalesce(array_agg(r.role order by r.role), '{}') from person_role r where r.person_id = p.id) as roles,
      (select count(*)::int from custody c where c.person_id = p.id and c.until_at is null) as holds,
      (select count(*)::int from session s
       where s.person_id = p.id and s.ended_at is null and s.expires_at > clock_timestamp()) as "signedIn"
    from person p order by p.left_at is not null, p.name, p.id`;
}

interface PersonRow {
  readonly name: string;
  readonly initials: string;
  readonly pinHash: string;
  readonly leftAt: string | null;
}

/** Locks the person until the act is through. */
export async function lockPerson(sql: Sql, id: string): Promise<PersonRow | undefined> {
  const [row] = await sql<PersonRow[]>`
    select name, initials, pin_hash as "pinHash", left_at as "leftAt" from person where id = ${id} for update`;
  return row;
}

export async function insertPerson(
  sql: Sql,
  person: { readonly name: string; readonly initials: string; readonly pinHash: string },
): Promise<string> {
  const id = newId();
  await sql`
    insert into person (id, name, initials, pin_hash) values (${id}, ${person.name}, ${person.initials}, ${person.pinHash})`;
  return id;
}

/** Sets who somebody is; what is left out stays. */
export async function updatePerson(
  sql: Sql,
  id: string,
  change: { readonly name?: string | undefined; readonly initials?: string | undefined },
): Promise<void> {
  await sql`
    update person set name = coalesce(${change.name ?? null}, name), initials = coalesce(${change.initials ?? null}, initials)
    where id = ${id}`;
}

export async function setRoles(sql: Sql, id: string, roles: readonly Role[]): Promise<void> {
  await sql`insert into person_role (person_id, role) select ${id}, unnest(${sql.array([...roles])}::text[]) on conflict do nothing`;
  await sql`delete from person_role where person_id = ${id} and role <> all(${sql.array([...roles])}::text[])`;
}

export async function setPin(sql: Sql, id: string, pinHash: string): Promise<void> {
  await sql`update person set pin_hash = ${pinHash} where id = ${id}`;
}

export async function setLeft(sql: Sql, id: string): Promise<void> {
  await sql`update person set left_at = clock_timestamp() where id = ${id}`;
}

export async function clearLeft(sql: Sql, id: string): Promise<void> {
  await sql`update person set left_at = null where id = ${id}`;
}

/** Forgets wrong PINs, so that a new one opens at once. */
export async function forgetFailures(sql: Sql, personId: string): Promise<void> {
  await sql`delete from sign_in_failure where person_id = ${personId}`;
}
