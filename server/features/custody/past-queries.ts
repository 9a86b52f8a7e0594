import type { Sql } from '#platform/database/client.ts';

export interface PeriodRow {
  readonly id: string;
  readonly subjectKind: 'engine' | 'tray';
  readonly subjectId: string;
  readonly subjectName: string;
  readonly engineId: string;
  readonly serial: string;
  readonly family: string;
  readonly jobId: string | null;
  readonly number: number | null;
  readonly holderKind: 'person' | 'bay' | 'vendor' | 'owner';
  readonly holderId: string;
  readonly holderName: string;
  readonly placeId: string | null;
  readonly placeName: string | null;
  readonly from: string;
  readonly until: string | null;
  readonly reason: string;
  readonly movedById: string;
  readonly movedByName: string;
  readonly handoverId: string | null;
}

/** A period with its names; an engine's job is the visit that was on when the period began. */
const periods = (sql: Sql) => sql`
  select c.id, case when c.engine_id is null then 'tray' else 'engine' end as "subjectKind",
         coalesce(c.engine_id, c.tray_id) as "subjectId", coalesce(t.label, e.serial) as "subjectName",
         e.id as "engineId", e.serial, f.name as family, j.id as "jobId", j.number,
         case when c.person_id is not null then 'person' when c.rest_bay_id is not null then 'bay'
              when c.vendor_id is not null then 'vendor' else 'owner' end as "holderKind",
         coalesce(c.person_id, c.rest_bay_id, c.vendor_id, c.owner_id) as "holderId",
         coalesce(p.name, b.name, v.name, o.name) as "holderName",
         c.place_id as "placeId", s.name as "placeName", c.from_at as "from", c.until_at as "until", c.reason,
         m.id as "movedById", m.name as "movedByName", c.handover_id as "handoverId"
  from custody c
  left join tray t on t.id = c.tray_id
  left join job tj on tj.id = t.job_id
  join engine e on e.id = coalesce(c.engine_id, tj.engine_id)
  join family f on f.id = e.family_id
  left join lateral (
    select j.id, j.number from job j
    where j.id = t.job_id or (c.engine_id is not null and j.engine_id = c.engine_id and j.taken_in_at <= c.from_at + interval '1 second'
                              and (j.handed_back_at is null or j.handed_back_at > c.from_at))
    order by j.taken_in_at desc limit 1) j on true
  left join person p on p.id = c.person_id
  left join bay b on b.id = c.rest_bay_id
  left join vendor v on v.id = c.vendor_id
  left join owner o on o.id = c.owner_id
  left join bay s on s.id = c.place_id
  join person m on m.id = c.moved_by_id`;

const ofEngine = (sql: Sql, engineId: string) => sql`
  (c.engine_id = ${engineId} or c.tray_id in (
     select tr.id from tray tr join job oj on oj.id = tr.job_id where oj.engine_id = ${engineId}))`;

/** Who held an engine and its trays: at an instant, or page by page from the latest back. */
export async function findPeriods(
  sql: Sql,
  of: { engineId: string; at: string | undefined; after: { at: string; id: string } | undefined; limit: number },
): Promise<readonly PeriodRow[]> {
  return sql<PeriodRow[]>`
    ${periods(sql)}
    where ${ofEngine(sql, of.engineId)}
      and (${of.at ?? null}::timestamptz is null
           or (c.from_at <= ${of.at ?? null}::timestamptz and (c.until_at is null or c.until_at > ${of.at ?? null}::timestamptz)))
      and (${of.after?.at ?? null}::timestamptz is null
           or (c.from_at, c.id) < (${of.after?.at ?? null}::timestamptz, ${of.after?.id ?? null}::uuid))
    order by c.from_at desc, c.id desc limit ${of.limit}`;
}

/** What is asked about: all that was in the shop, or of it one engine, tray, person or bay. */
export interface OfWhat {
  readonly engineId?: string | undefined;
  readonly trayId?: string | undefined;
  readonly personId?: string | undefined;
  readonly bayId?: string | undefined;
}

/** What an owner holds is out of the shop: it is told of an engine or tray that is named, not of the whole shop. */
const about = (sql: Sql, { engineId, trayId, personId, bayId }: OfWhat) => sql`
  ${engineId === undefined && trayId === undefined ? sql`c.owner_id is null` : sql`true`}
  ${engineId === undefined ? sql`` : sql`and ${ofEngine(sql, engineId)}`}
  ${trayId === undefined ? sql`` : sql`and c.tray_id = ${trayId}`}
  ${personId === undefined ? sql`` : sql`and c.person_id = ${personId}`}
  ${bayId === undefined ? sql`` : sql`and c.place_id = ${bayId}`}`;

export async function findHeldAt(sql: Sql, of: OfWhat & { at: string; limit: number }): Promise<readonly PeriodRow[]> {
  return sql<PeriodRow[]>`
    ${periods(sql)}
    where c.from_at <= ${of.at}::timestamptz and (c.until_at is null or c.until_at > ${of.at}::timestamptz) and ${about(sql, of)}
    order by e.serial, "subjectKind", "subjectName", c.id limit ${of.limit}`;
}

/** Periods that reach into a span, subject by subject (indexes custody_from, custody_until). */
export async function findPeriodsWithin(
  sql: Sql,
  of: OfWhat & { from: string; until: string; limit: number },
): Promise<readonly PeriodRow[]> {
  return sql<PeriodRow[]>`
    ${periods(sql)}
    where c.from_at < ${of.until}::timestamptz and (c.until_at is null or c.until_at > ${of.from}::timestamptz) and ${about(sql, of)}
    order by e.serial, "subjectKind", "subjectName", c.from_at limit ${of.limit}`;
}

/** The change before a moment and the one after it. */
export async function findChangesAround(sql: Sql, of: OfWhat & { at: string }) {
  const [row] = await sql<{ before: string | null; after: string | null }[]>`
    select
      (select max(x) from (
         select max(c.from_at) as x from custody c where c.from_at < ${of.at}::timestamptz and ${about(sql, of)}
         union all select max(c.until_at) from custody c where c.until_at < ${of.at}::timestamptz and ${about(sql, of)}) b) as before,
      (select min(x) from (
         select min(c.from_at) as x from custody c where c.from_at > ${of.at}::timestamptz and ${about(sql, of)}
         union all select min(c.until_at) from custody c where c.until_at > ${of.at}::timestamptz and ${about(sql, of)}) a) as after`;
  return row ?? { before: null, after: null };
}

export async function findNow(sql: Sql): Promise<string> {
  const [row] = await sql<{ now: string }[]>`select clock_timestamp() as now`;
  return row?.now ?? '';
}

/** An engine's own periods during one visit, oldest first, in microseconds. */
export async function findEnginePeriods(sql: Sql, jobId: string) {
  return sql<
    {
      holderKind: 'person' | 'bay' | 'vendor' | 'owner';
      placeId: string;
      place: string;
      from: number;
      until: number | null;
      fromAt: string;
      untilAt: string | null;
    }[]
  >`
    select case when c.person_id is not null then 'person' when c.rest_bay_id is not null then 'bay'
                when c.vendor_id is not null then 'vendor' else 'owner' end as "holderKind",
           coalesce(c.place_id, c.vendor_id, c.owner_id) as "placeId", coalesce(s.name, v.name, o.name) as place,
           (extract(epoch from c.from_at) * 1000000)::bigint as "from", (extract(epoch from c.until_at) * 1000000)::bigint as until,
           c.from_at as "fromAt", c.until_at as "untilAt"
    from job j join custody c on c.engine_id = j.engine_id
    left join bay s on s.id = c.place_id left join vendor v on v.id = c.vendor_id left join owner o on o.id = c.owner_id
    where j.id = ${jobId} and c.owner_id is null and coalesce(c.until_at, 'infinity') > j.taken_in_at
      and c.from_at < coalesce(j.handed_back_at, 'infinity')
    order by c.from_at`;
}

/** When offers of the engine itself stood unanswered, in microseconds. */
export async function findOfferSpans(sql: Sql, jobId: string) {
  return sql<{ from: number; until: number | null }[]>`
    select (extract(epoch from offered_at) * 1000000)::bigint as "from", (extract(epoch from ended_at) * 1000000)::bigint as until
    from handover where job_id = ${jobId} and engine_id is not null order by offered_at`;
}
