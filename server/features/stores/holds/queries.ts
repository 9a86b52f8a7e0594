import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { stillAsked } from '../ledger/queries.ts';

export async function findHoldDays(sql: Sql): Promise<number> {
  const [row] = await sql<{ days: number }[]>`select hold_days() as days`;
  return row?.days ?? 0;
}

export async function insertHoldRule(sql: Sql, of: { readonly days: number; readonly byId: string }): Promise<void> {
  await sql`insert into hold_rule (id, days, set_by_id) values (${newId()}, ${of.days}, ${of.byId})`;
}

/** Until when what a job asks for now is held by the shop's rule; undefined: firmly. */
export async function findHeldUntil(sql: Sql, jobId: string): Promise<string | undefined> {
  const [row] = await sql<{ until: string | null }[]>`select held_for_yes_until(${jobId}) as until`;
  return row?.until ?? undefined;
}

/** Pieces of a part whose hold got another end. */
export interface HeldPart {
  readonly part: string;
  readonly name: string;
  readonly quantity: number;
}

/** What a job without a yes, whose lines are locked, holds or waits for without an end gets the end that the rule says. */
export async function endHolds(sql: Sql, jobId: string): Promise<readonly HeldPart[]> {
  return sql<HeldPart[]>`
    with ruled as (
      select d.id, d.part_id from demand_line d where d.job_id = ${jobId} and hold_days() > 0 and has_no_yes(${jobId})
    ), held as (
      update reservation r set expires_at = hold_until() from ruled
      where r.demand_line_id = ruled.id and r.quantity > 0 and r.expires_at is null
      returning ruled.part_id, r.quantity
    ), waiting as (
      update demand_line d set asked_until = hold_until() from ruled
      where d.id = ruled.id and d.asked_until is null and ${stillAsked(sql)}
    )
    select p.number as part, p.name, sum(h.quantity)::int as quantity
    from held h join part p on p.id = h.part_id group by p.id order by p.name, p.number`;
}

/** Open jobs that were quoted and have no yes, and hold or wait for something without an end. */
export async function findJobsWithoutEnd(sql: Sql): Promise<readonly { readonly jobId: string }[]> {
  return sql<{ jobId: string }[]>`
    select j.id as "jobId" from job j
    where j.handed_back_at is null and hold_days() > 0 and has_no_yes(j.id) and exists (
      select from demand_line d
      where d.job_id = j.id and ((d.asked_until is null and ${stillAsked(sql)}) or exists (
        select from reservation r where r.demand_line_id = d.id and r.quantity > 0 and r.expires_at is null)))
    order by j.id limit 200`;
}
