import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

export interface OpeningRow {
  readonly id: string;
  readonly jobId: string;
  readonly engineId: string;
  readonly revisionId: string;
  readonly openedAt: string;
  readonly openedById: string;
  readonly openedBy: string;
  readonly closedAt: string | null;
  readonly closedById: string | null;
  readonly closedBy: string | null;
  readonly closingNote: string;
  readonly leftInBoxes: boolean;
  readonly depth: 'cover' | 'head' | 'cylinder' | 'case' | null;
  readonly covered: boolean;
  readonly coveredSince: string | null;
  readonly minutesOpen: number;
}

export async function findOpening(sql: Sql, id: string): Promise<OpeningRow | undefined> {
  const [row] = await sql<OpeningRow[]>`
    select o.id, o.job_id as "jobId", o.engine_id as "engineId", j.revision_id as "revisionId",
           o.opened_at as "openedAt", a.id as "openedById", a.name as "openedBy",
           o.closed_at as "closedAt", z.id as "closedById", z.name as "closedBy", o.closing_note as "closingNote",
           o.left_in_boxes as "leftInBoxes",
           s.depth, coalesce(s.covered, false) as covered, s.covered_since as "coveredSince",
           floor(extract(epoch from coalesce(o.closed_at, clock_timestamp()) - o.opened_at) / 60)::int as "minutesOpen"
    from opening o
    join job j on j.id = o.job_id
    join person a on a.id = o.opened_by_id
    left join person z on z.id = o.closed_by_id
    left join opening_standing s on s.opening_id = o.id
    where o.id = ${id}`;
  return row;
}

/** The opening a job is in, else its latest. */
export async function findOpeningOfJob(sql: Sql, jobId: string): Promise<string | undefined> {
  const [row] = await sql<{ id: string }[]>`
    select id from opening where job_id = ${jobId} order by closed_at is null desc, opened_at desc limit 1`;
  return row?.id;
}

/** Openings of a job of which pieces are still loose, the oldest first. */
export async function findOpeningsWithLoose(sql: Sql, jobId: string): Promise<readonly string[]> {
  const rows = await sql<{ id: string }[]>`
    select o.id from opening o
    where o.job_id = ${jobId} and exists (select from piece p join piece_lying l on l.piece_id = p.id where p.opening_id = o.id)
    order by o.opened_at, o.id`;
  return rows.map(({ id }) => id);
}

/** An opening's job never changes, so it may be read before that job's engine is locked. */
export async function findJobOfOpening(sql: Sql, id: string): Promise<string | undefined> {
  const [row] = await sql<{ jobId: string }[]>`select job_id as "jobId" from opening where id = ${id}`;
  return row?.jobId;
}

/** Takes the opening's row lock, second in the lock order. */
export async function lockOpening(sql: Sql, id: string): Promise<void> {
  await sql`select from opening where id = ${id} for update`;
}

export async function findOpenOpening(sql: Sql, engineId: string): Promise<string | undefined> {
  const [row] = await sql<{ id: string }[]>`select id from opening where engine_id = ${engineId} and closed_at is null`;
  return row?.id;
}

export async function insertOpening(
  sql: Sql,
  of: { engineId: string; jobId: string; openedById: string },
): Promise<string> {
  const id = newId();
  await sql`insert into opening (id, engine_id, job_id, opened_by_id) values (${id}, ${of.engineId}, ${of.jobId}, ${of.openedById})`;
  return id;
}

export async function insertCover(
  sql: Sql,
  of: { openingId: string; covered: boolean; saidById: string },
): Promise<void> {
  await sql`
    insert into opening_cover (id, opening_id, covered, said_by_id)
    values (${newId()}, ${of.openingId}, ${of.covered}, ${of.saidById})`;
}

/** Closes an opening; who closes it signs for it. */
export async function updateClosed(
  sql: Sql,
  of: { id: string; jobId: string; closedById: string; note: string },
): Promise<{ closedAt: string; minutesOpen: number } | undefined> {
  const [row] = await sql<{ closedAt: string; minutesOpen: number }[]>`
    update opening set closed_by_id = ${of.closedById}, closed_at = clock_timestamp(), closing_note = ${of.note}
    where id = ${of.id} and closed_at is null
    returning closed_at as "closedAt", floor(extract(epoch from closed_at - opened_at) / 60)::int as "minutesOpen"`;
  await sql`
    insert into sign_off (id, job_id, opening_id, words, signed_by_id)
    values (${newId()}, ${of.jobId}, ${of.id}, ${of.note}, ${of.closedById})`;
  return row;
}

/** What a lead closed an opening over, and why. */
export async function findOverride(sql: Sql, openingId: string) {
  const [row] = await sql<{ words: string; reasons: string[] }[]>`
    select words, reasons from override where opening_id = ${openingId}`;
  return row;
}

export async function insertOverride(
  sql: Sql,
  of: { openingId: string; jobId: string; reasons: readonly string[]; words: string; byId: string },
): Promise<void> {
  await sql`
    insert into override (id, job_id, gate, opening_id, reasons, words, overridden_by_id)
    values (${newId()}, ${of.jobId}, 'close the opening', ${of.openingId}, ${sql.json(of.reasons as never)}, ${of.words}, ${of.byId})`;
}

/** True while something of the job is on offer: its receiver counts blind. */
export async function isOnOffer(sql: Sql, jobId: string): Promise<boolean> {
  const rows = await sql`select from handover where job_id = ${jobId} and ended_at is null limit 1`;
  return rows.length > 0;
}
