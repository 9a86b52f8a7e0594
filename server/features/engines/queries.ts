import type { Sql } from '#platform/database/client.ts';
import { containing } from '#platform/database/containing.ts';

export interface LineRow {
  readonly id: string;
  readonly serial: string;
  readonly familyId: string;
  readonly code: string;
  readonly family: string;
  readonly ownerId: string;
  readonly owner: string;
  readonly visits: number;
  readonly jobId: string | null;
  readonly number: number | null;
  readonly minutes: number | null;
  readonly takenInAt: string | null;
  readonly handedBackAt: string | null;
  readonly holderKind: 'person' | 'bay' | 'vendor' | 'owner' | null;
  readonly holderId: string | null;
  readonly holder: string | null;
  readonly since: string | null;
  readonly placeId: string | null;
  readonly place: string | null;
}

export interface EnginesAsked {
  readonly search: string;
  readonly inShop: boolean;
  readonly after: string | null;
  readonly limit: number;
}

/** Engines by serial (index engine_serial_key), one more than asked for when there is a next page. */
export async function findEngines(sql: Sql, asked: EnginesAsked): Promise<readonly LineRow[]> {
  const pattern = containing(asked.search);
  const number = /^\d{1,9}$/.test(asked.search) ? Number(asked.search) : null;
  return sql<LineRow[]>`
    select e.id, e.serial, f.id as "familyId", f.code, f.name as family, o.id as "ownerId", o.name as owner,
           (select count(*)::int from job v where v.engine_id = e.id) as visits,
           j.id as "jobId", j.number, j.running_minutes as minutes, j.taken_in_at as "takenInAt", j.handed_back_at as "handedBackAt",
           case when c.person_id is not null then 'person' when c.rest_bay_id is not null then 'bay'
                when c.vendor_id is not null then 'vendor' when c.owner_id is not null then 'owner' end as "holderKind",
           coalesce(c.person_id, c.rest_bay_id, c.vendor_id, c.owner_id) as "holderId",
           coalesce(hp.name, hb.name, hv.name, ho.name) as holder, c.from_at as since, c.place_id as "placeId", pb.name as place
    from engine e
    join family f on f.id = e.family_id
    join owner o on o.id = e.owner_id
    left join lateral (select j.* from job j where j.engine_id = e.id order by j.taken_in_at desc limit 1) j on true
    left join custody c on c.engine_id = e.id and c.until_at is null
    left join person hp on hp.id = c.person_id
    left join bay hb on hb.id = c.rest_bay_id
    left join vendor hv on hv.id = c.vendor_id
    left join owner ho on ho.id = c.owner_id
    left join bay pb on pb.id = c.place_id
    where (${asked.search === ''} or e.serial ilike ${pattern} or o.name ilike ${pattern} or f.name ilike ${pattern}
           or exists (select from job n where n.engine_id = e.id and n.number = ${number}))
      and (${!asked.inShop} or exists (select from job n where n.engine_id = e.id and n.handed_back_at is null))
      and (${asked.after}::text is null or e.serial > ${asked.after})
    order by e.serial limit ${asked.limit + 1}`;
}

export async function engineExists(sql: Sql, id: string): Promise<boolean> {
  return (await sql`select id from engine where id = ${id}`).length === 1;
}

export interface EventRow {
  readonly id: string;
  readonly number: number;
  readonly kind: string;
  readonly happenedAt: string;
  readonly recordedAt: string;
  readonly actorId: string | null;
  readonly actor: string | null;
  readonly terminalId: string | null;
  readonly terminal: string | null;
  readonly jobId: string | null;
  readonly jobNumber: number | null;
  readonly data: Record<string, unknown>;
}

/** An engine's events, newest first, by its own numbers (unique index on engine and number), one more than asked for. */
export async function findEvents(
  sql: Sql,
  asked: { engineId: string; before: number | null; limit: number },
): Promise<readonly EventRow[]> {
  return sql<EventRow[]>`
    select e.id, e.engine_number as number, e.kind, e.happened_at as "happenedAt", e.recorded_at as "recordedAt", p.id as "actorId",
           p.name as actor, t.id as "terminalId", t.name as terminal, j.id as "jobId", j.number as "jobNumber", e.data
    from event e
    left join person p on p.id = e.actor_id
    left join terminal t on t.id = e.terminal_id
    left join job j on j.id = e.job_id
    where e.engine_id = ${asked.engineId} and (${asked.before}::bigint is null or e.engine_number < ${asked.before})
    order by e.engine_number desc limit ${asked.limit + 1}`;
}
