import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

export interface SearchRow {
  readonly id: string;
  readonly openingId: string;
  readonly jobId: string;
  readonly engineId: string;
  readonly serial: string;
  readonly obligationId: string;
  readonly pieceId: string | null;
  readonly putInId: string | null;
  readonly what: string;
  readonly missing: number;
  readonly openedAt: string;
  readonly openedById: string;
  readonly openedBy: string;
  readonly outcome: 'found' | 'not inside' | null;
  readonly endedAt: string | null;
  readonly endedById: string | null;
  readonly endedBy: string | null;
  readonly endedReason: string;
  readonly trayIds: readonly string[];
}

type Of = { readonly id: string } | { readonly jobId: string } | { readonly openOf: string };

/** Searches of one job, one by its id, or the open ones about a piece or a thing put in; oldest first. */
export async function findSearches(sql: Sql, of: Of): Promise<readonly SearchRow[]> {
  const which =
    'id' in of
      ? sql`s.id = ${of.id}`
      : 'jobId' in of
        ? sql`s.job_id = ${of.jobId}`
        : sql`s.ended_at is null and (s.piece_id = ${of.openOf} or s.put_in_id = ${of.openOf})`;
  return sql<SearchRow[]>`
    select s.id, s.opening_id as "openingId", s.job_id as "jobId", s.engine_id as "engineId", e.serial,
           s.obligation_id as "obligationId", s.piece_id as "pieceId", s.put_in_id as "putInId",
           coalesce(piece_name(p), i.name || ', ' || i.where_words) as what,
           case when s.ended_at is null then coalesce(p.inside, i.not_found, 0) else 0 end as missing,
           s.opened_at as "openedAt", a.id as "openedById", a.name as "openedBy", s.outcome, s.ended_at as "endedAt",
           z.id as "endedById", z.name as "endedBy", s.ended_reason as "endedReason",
           array(select t.counted_with from piece_counted_with t where t.piece_id = s.piece_id) as "trayIds"
    from inside_search s
    join engine e on e.id = s.engine_id
    left join piece p on p.id = s.piece_id
    left join put_in i on i.id = s.put_in_id
    join person a on a.id = s.opened_by_id
    left join person z on z.id = s.ended_by_id
    where ${which} order by s.opened_at, s.id`;
}

export interface TickRow {
  readonly searchId: string;
  readonly code: string;
  readonly words: string;
  readonly byId: string;
  readonly by: string;
  readonly at: string;
}

export async function findTicks(sql: Sql, searchIds: readonly string[]): Promise<readonly TickRow[]> {
  return sql<TickRow[]>`
    select t.search_id as "searchId", t.step_code as code, t.words, p.id as "byId", p.name as by, t.ticked_at as at
    from search_tick t join person p on p.id = t.ticked_by_id
    where t.search_id = any(${[...searchIds]}::uuid[]) order by t.ticked_at, t.id`;
}

export interface NewSearch {
  readonly openingId: string;
  readonly engineId: string;
  readonly jobId: string;
  readonly pieceId: string | null;
  readonly putInId: string | null;
  readonly obligationId: string;
  readonly count: number;
  readonly byId: string;
}

export async function insertSearch(sql: Sql, of: NewSearch): Promise<string> {
  const id = newId();
  await sql`
    insert into inside_search (id, opening_id, engine_id, job_id, piece_id, put_in_id, obligation_id, count, opened_by_id)
    values (${id}, ${of.openingId}, ${of.engineId}, ${of.jobId}, ${of.pieceId}, ${of.putInId}, ${of.obligationId}, ${of.count}, ${of.byId})`;
  return id;
}

/** Ends the open searches about a piece or a thing put in once none of it may be inside; the obligations they opened. */
export async function updateEnded(
  sql: Sql,
  of: { subjectId: string; outcome: 'found' | 'not inside'; reason: string; byId: string },
): Promise<readonly string[]> {
  const rows = await sql<{ obligationId: string }[]>`
    update inside_search s set outcome = ${of.outcome}, ended_at = (select clock_timestamp()), ended_by_id = ${of.byId}, ended_reason = ${of.reason}
    where s.ended_at is null and (s.piece_id = ${of.subjectId} or s.put_in_id = ${of.subjectId})
      and not exists (select from piece p where p.id = s.piece_id and p.inside > 0)
      and not exists (select from put_in i where i.id = s.put_in_id and i.not_found > 0)
    returning s.obligation_id as "obligationId"`;
  return rows.map(({ obligationId }) => obligationId);
}

export async function insertTick(
  sql: Sql,
  of: { searchId: string; code: string; words: string; byId: string },
): Promise<void> {
  await sql`
    insert into search_tick (id, search_id, step_code, words, ticked_by_id)
    values (${newId()}, ${of.searchId}, ${of.code}, ${of.words}, ${of.byId})`;
}

/** True while the obligation stands undischarged. */
export async function isStanding(sql: Sql, obligationId: string): Promise<boolean> {
  const rows = await sql`select from obligation where id = ${obligationId} and discharged_at is null`;
  return rows.length > 0;
}
