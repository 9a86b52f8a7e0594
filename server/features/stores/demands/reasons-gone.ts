import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { findHeld, type LineToServe, lockLinesOfJob, lockLotsOfJob, recordStock } from '../ledger/queries.ts';
import { sharesOf } from '../ledger/service.ts';
import { cancelled } from './cancelled.ts';

/** Obligations of a job about which something else is decided now. */
export interface DecidedAnew {
  readonly jobId: string;
  readonly obligationIds: readonly string[];
  readonly kind: string;
  readonly sizeClass: string | null;
}

interface ReasonGone {
  readonly id: string;
  readonly lineId: string;
  readonly quantity: number;
}

/**
 * Reasons that rest on an earlier, other decision about these obligations alone: what was decided together about another
 * obligation that still stands on it is wanted for that one.
 */
async function findReasonsGone(sql: Sql, of: DecidedAnew): Promise<readonly ReasonGone[]> {
  return sql<ReasonGone[]>`
    with other as (
      select distinct d.id from obligation_act a join disposition d on d.id = a.disposition_id
      where a.act = 'decided' and a.obligation_id = any(${of.obligationIds}::uuid[])
        and (d.kind, d.size_class) is distinct from (${of.kind}::text, ${of.sizeClass}::text)
    ), gone as (
      select other.id from other where not exists (
        select from obligation o cross join lateral (
          select a.disposition_id from obligation_act a
          where a.obligation_id = o.id and a.act = 'decided' order by a.acted_at desc, a.id desc limit 1) last
        where last.disposition_id = other.id and o.discharged_at is null and o.id <> all(${of.obligationIds}::uuid[]))
    )
    select r.id, r.demand_line_id as "lineId", r.quantity from demand_reason r
    where r.withdrawn_at is null and r.obligation_id in (
      select a.obligation_id from obligation_act a where a.act = 'decided' and a.disposition_id in (select id from gone))
    order by r.id`;
}

/** Pieces that the reasons left standing ask for, by line. */
async function findStillAsked(sql: Sql, lineIds: readonly string[]): Promise<ReadonlyMap<string, number>> {
  const rows = await sql<{ lineId: string; quantity: number }[]>`
    select demand_line_id as "lineId", sum(quantity)::int as quantity from demand_reason
    where demand_line_id = any(${lineIds}::uuid[]) and withdrawn_at is null group by 1`;
  return new Map(rows.map(({ lineId, quantity }) => [lineId, quantity]));
}

/** How many pieces of a line go with its reasons: never what other reasons ask for, nor what was handed out. */
function goneOf(line: LineToServe, of: { readonly gone: number; readonly stillAsked: number }): number {
  const open = line.notAsked + line.short + line.reserved;
  const needed = Math.max(0, of.stillAsked - line.issued);
  return Math.max(0, Math.min(of.gone, open - needed));
}

export interface CalledOff {
  readonly part: string;
  readonly name: string;
  readonly quantity: number;
}

/**
 * Takes off a job's lines what an earlier decision asked for, now that another one is made: a line that others want too
 * loses that quantity and no more. The caller holds the job and tells of it in its own event.
 */
export async function callOffDecidedAnew(act: Act, of: DecidedAnew): Promise<readonly CalledOff[]> {
  if ((await findReasonsGone(act.sql, of)).length === 0) return [];
  const { jobId } = of;
  const lots = await lockLotsOfJob(act.sql, jobId);
  const lines = await lockLinesOfJob(act.sql, { jobId, lineIds: undefined });
  const reasons = await findReasonsGone(act.sql, of);
  await act.sql`
    update demand_reason set withdrawn_at = clock_timestamp() where id = any(${reasons.map(({ id }) => id)}::uuid[])`;
  const stillAsked = await findStillAsked(
    act.sql,
    lines.map(({ id }) => id),
  );
  const touched = lines.flatMap((line) => {
    const own = reasons.filter(({ lineId }) => lineId === line.id);
    const gone = own.reduce((sum, { quantity }) => sum + quantity, 0);
    const quantity = goneOf(line, { gone, stillAsked: stillAsked.get(line.id) ?? 0 });
    return quantity === 0 ? [] : [{ line, quantity, ...cancelled(line, quantity) }];
  });
  const shares = [];
  for (const { line, reserved } of touched) {
    const held = await findHeld(act.sql, line.id);
    shares.push(...sharesOf(held, lots, reserved).map((share) => ({ ...share, demandLineId: line.id })));
  }
  await recordStock(act.sql, {
    moves: shares.map(({ lotId, count, demandLineId }) => ({
      act: 'release',
      lotId,
      reserved: -count,
      demandLineId,
      jobId,
      reason: 'something else was decided',
    })),
    holds: shares.map(({ lotId, count, demandLineId }) => ({ demandLineId, lotId, count: -count })),
    standings: touched.map(({ standing }) => standing),
    byId: act.actor.id,
  });
  return touched.map(({ line, quantity }) => ({ part: line.number, name: line.name, quantity }));
}
