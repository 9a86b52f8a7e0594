import type { Badges } from '#contracts/labels.ts';
import type { Role } from '#contracts/rights.ts';
import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

export async function findRule(sql: Sql): Promise<{ alone: boolean; mark: string }> {
  const [shop] = await sql<
    { alone: boolean; mark: string }[]
  >`select badge_alone as alone, label_mark as mark from shop`;
  return shop ?? { alone: false, mark: '00' };
}

export async function setRule(sql: Sql, alone: boolean): Promise<void> {
  await sql`update shop set badge_alone = ${alone}`;
}

export async function findPeople(sql: Sql): Promise<Badges['people']> {
  return sql<Badges['people']>`
    select p.id, p.name,
      case when b.id is not null then json_build_object('id', b.id, 'number', b.number,
        'issuedAt', to_char(b.issued_at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"'), 'issuedBy', i.name) end as badge
    from person p left join badge b on b.person_id = p.id and b.revoked_at is null left join person i on i.id = b.issued_by_id
    where p.left_at is null order by p.name`;
}

/** Somebody who works here, locked: two badges issued at once to one person would both be valid. */
export async function lockPerson(sql: Sql, id: string) {
  const [person] = await sql<{ id: string; name: string }[]>`
    select id, name from person where id = ${id} and left_at is null for update`;
  return person;
}

export async function revokeOf(sql: Sql, of: { personId: string; byId: string; reason: string }): Promise<void> {
  await sql`
    update badge set revoked_at = clock_timestamp(), revoked_by_id = ${of.byId}, revoked_reason = ${of.reason}
    where person_id = ${of.personId} and revoked_at is null`;
}

export async function insertBadge(sql: Sql, of: { personId: string; byId: string; codeHash: Buffer }) {
  const id = newId();
  const [row] = await sql<{ number: number }[]>`
    insert into badge (id, person_id, code_hash, issued_by_id) values (${id}, ${of.personId}, ${of.codeHash}, ${of.byId})
    returning number`;
  return { id, number: row?.number ?? 0 };
}

export async function lockBadge(sql: Sql, id: string) {
  const [badge] = await sql<{ id: string; number: number; personId: string; name: string; revoked: boolean }[]>`
    select b.id, b.number, b.person_id as "personId", p.name, b.revoked_at is not null as revoked
    from badge b join person p on p.id = b.person_id where b.id = ${id} for update of b`;
  return badge;
}

export async function findByHash(sql: Sql, codeHash: Buffer) {
  const [badge] = await sql<
    {
      number: number;
      personId: string;
      name: string;
      initials: string;
      pinHash: string;
      revoked: boolean;
      roles: Role[];
    }[]
  >`
    select b.number, p.id as "personId", p.name, p.initials, p.pin_hash as "pinHash",
      b.revoked_at is not null or p.left_at is not null as revoked,
      (select coalesce(array_agg(r.role order by r.role), '{}') from person_role r where r.person_id = p.id) as roles
    from badge b join person p on p.id = b.person_id where b.code_hash = ${codeHash}`;
  return badge;
}
