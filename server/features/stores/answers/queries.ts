import type { Sql } from '#platform/database/client.ts';
import type { HeldPart } from '../holds/queries.ts';
import type { LineHold } from '../reservations/round-queries.ts';

/** What a job, whose lots and lines are locked, has reserved; or of that only what is held until a day. */
export async function findHoldsOfJob(
  sql: Sql,
  of: { readonly jobId: string; readonly firmToo: boolean },
): Promise<readonly LineHold[]> {
  return sql<LineHold[]>`
    select r.lot_id as "lotId", r.demand_line_id as "demandLineId", r.quantity as count
    from reservation r join demand_line d on d.id = r.demand_line_id
    where d.job_id = ${of.jobId} and r.quantity > 0 and (${of.firmToo} or r.expires_at is not null)`;
}

/** What a job, whose lines are locked, holds until a day is held for good, and what it waits for is waited for. */
export async function makeFirm(sql: Sql, jobId: string): Promise<readonly HeldPart[]> {
  return sql<HeldPart[]>`
    with firm as (
      update reservation r set expires_at = null from demand_line d
      where d.id = r.demand_line_id and d.job_id = ${jobId} and r.quantity > 0 and r.expires_at is not null
      returning d.part_id, r.quantity
    ), standing as (
      update demand_line set asked_until = null where job_id = ${jobId} and asked_until is not null
    )
    select p.number as part, p.name, sum(f.quantity)::int as quantity
    from firm f join part p on p.id = f.part_id group by p.id order by p.name, p.number`;
}
