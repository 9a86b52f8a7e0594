import type { Sql } from '#platform/database/client.ts';
import { servedBy, stillAsked } from '../ledger/queries.ts';

/** Open jobs with something that was held, or asked for, until an instant that has passed (reservation_running). */
export async function findLapsedJobs(sql: Sql): Promise<readonly { readonly jobId: string }[]> {
  return sql<{ jobId: string }[]>`
    select j.id as "jobId" from job j
    where j.handed_back_at is null and j.id in (
      select d.job_id from reservation r join demand_line d on d.id = r.demand_line_id
      where r.quantity > 0 and r.expires_at <= clock_timestamp()
      union
      select d.job_id from demand_line d where ${stillAsked(sql)} and d.asked_until <= clock_timestamp())
    order by j.id limit 200`;
}

/** Pieces of a lot that a line has reserved. */
export interface LineHold {
  readonly lotId: string;
  readonly demandLineId: string;
  readonly count: number;
}

/** What a job, whose lots and lines are locked, holds beyond its time. */
export async function findLapsedHolds(sql: Sql, jobId: string): Promise<readonly LineHold[]> {
  return sql<LineHold[]>`
    select r.lot_id as "lotId", r.demand_line_id as "demandLineId", r.quantity as count
    from reservation r join demand_line d on d.id = r.demand_line_id
    where d.job_id = ${jobId} and r.quantity > 0 and r.expires_at <= clock_timestamp()`;
}

/** Its lines that were asked for until an instant that has passed. */
export async function findLapsedAskings(sql: Sql, jobId: string): Promise<readonly { readonly id: string }[]> {
  return sql<{ id: string }[]>`
    select d.id from demand_line d where d.job_id = ${jobId} and ${stillAsked(sql)} and d.asked_until <= clock_timestamp()`;
}

/** Lines of one job whose asking stands in one way, and which stock could serve now. */
export interface WaitingLines {
  readonly jobId: string;
  readonly whole: boolean;
  readonly until: string | null;
  readonly lineIds: readonly string[];
}

/**
 * Who waits for what is free in stock, the earliest promise first, then who is short longest. All or nothing waits until
 * each of its lines can be served by its rule; piece by piece, until one can. All or nothing of which nothing is short any
 * more is asked anew: what came for its gap may be reserved already, and what lay there may have gone to others.
 */
export async function findServable(sql: Sql): Promise<readonly WaitingLines[]> {
  return sql<WaitingLines[]>`
    select d.job_id as "jobId", d.asked_whole as whole, d.asked_until as until, array_agg(d.id) as "lineIds"
    from demand_line d join job j on j.id = d.job_id and j.handed_back_at is null
      join part p on p.id = d.part_id left join job_promise jp on jp.job_id = d.job_id
      left join demand_lot_rule lr on lr.id = d.lot_rule_id
      cross join lateral (select d.short + case when d.asked_whole then d.not_asked else 0 end as pieces) asked
      cross join lateral (
        select case when lr.rule = 'exact thickness' then pieces_of_thickness(d.id, asked.pieces) else (
          select coalesce(sum(l.on_hand - l.reserved), 0)::int from stock_lot l join part lp on lp.id = l.part_id
          where l.part_id = any(${servedBy(sql)}) and l.on_hand > 0 and l.on_hand > l.reserved and not l.used
            and (lr.grade is null or lr.grade = '' or lower(coalesce(nullif(l.grade, ''), lp.grade)) = lower(lr.grade))
        ) end as free) s
    where ${stillAsked(sql)}
      and (d.asked_until is null or d.asked_until > clock_timestamp())
    group by d.job_id, d.asked_whole, d.asked_until, jp.ready_on
    having case when d.asked_whole then bool_and(s.free >= asked.pieces) or sum(d.short) = 0 else bool_or(s.free > 0) end
    order by jp.ready_on nulls last, min(d.short_since), d.job_id limit 200`;
}

/** True for the one process that may make a round now, until its transaction ends. */
export async function takeRound(sql: Sql): Promise<boolean> {
  const [lock] = await sql<{ mine: boolean }[]>`
    select pg_try_advisory_xact_lock(hashtextextended('round of stores', 0)) as mine`;
  return lock?.mine === true;
}
