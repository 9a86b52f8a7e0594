import { chooseLots, type LotShare } from '#domain/stock/lots.ts';
import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { type LineToServe, lineColumns, lineTables, recordStock } from '../ledger/queries.ts';
import { cancelled } from './cancelled.ts';

/** The valves of a job that other shims are being chosen for. */
export interface ValvesOfJob {
  readonly jobId: string;
  readonly valves: readonly string[];
}

/** Shims that a line wants for these valves and that were not handed out. */
export interface WishForValves {
  readonly line: LineToServe;
  readonly valves: readonly string[];
  readonly pieces: number;
  /** What would come back to the lots if they were called off. */
  readonly shares: readonly LotShare[];
}

interface WishRow extends LineToServe {
  readonly valves: readonly string[];
  readonly wantedForThem: number;
  readonly held: readonly { readonly lotId: string; readonly quantity: number; readonly receivedAt: string }[];
}

async function findWishes(sql: Sql, wanted: readonly ValvesOfJob[]): Promise<readonly WishRow[]> {
  const pairs = wanted.flatMap(({ jobId, valves }) => valves.map((valve) => ({ jobId, valve })));
  return sql<WishRow[]>`
    select ${lineColumns(sql)}, w.valves, w.pieces as "wantedForThem",
      (select coalesce(json_agg(json_build_object('lotId', l.id, 'quantity', v.quantity, 'receivedAt', l.received_at)), '[]')
       from reservation v join stock_lot l on l.id = v.lot_id where v.demand_line_id = d.id and v.quantity > 0) as held
    from ${lineTables(sql)}
    join lateral (
      select array_agg(distinct r.valve_code) as valves, sum(r.quantity - r.gone)::int as pieces
      from demand_reason r
      join unnest(${pairs.map(({ jobId }) => jobId)}::uuid[], ${pairs.map(({ valve }) => valve)}::text[]) a (job_id, valve)
        on a.job_id = d.job_id and a.valve = r.valve_code
      where r.demand_line_id = d.id and r.withdrawn_at is null
    ) w on w.pieces > 0
    where d.reserved + d.short + d.not_asked > 0
    order by d.id`;
}

/** The shims that are wanted for these valves and not handed out: they go back when others are taken instead. */
export async function wishesForValves(sql: Sql, wanted: readonly ValvesOfJob[]): Promise<readonly WishForValves[]> {
  return (await findWishes(sql, wanted)).map(({ valves, wantedForThem, held, ...line }) => {
    const pieces = Math.min(wantedForThem, line.notAsked + line.short + line.reserved);
    const lots = held.map(({ lotId, quantity, receivedAt }) => ({
      id: lotId,
      partId: line.partId,
      receivedAt,
      onHand: quantity,
      reserved: 0,
      thickness: null,
    }));
    const { shares } = chooseLots(lots, {
      partId: line.partId,
      count: cancelled(line, pieces).reserved,
      thickness: null,
    });
    return { line, valves, pieces, shares };
  });
}

/**
 * Calls off shims before others are taken for the same valves. The caller holds the jobs and every lot of such shims, and
 * tells of it in its own event.
 */
export async function callOffForValves(act: Act, wishes: readonly WishForValves[]): Promise<void> {
  if (wishes.length === 0) return;
  const reason = 'another shim was chosen for the valve';
  await recordStock(act.sql, {
    moves: wishes.flatMap(({ line, shares }) =>
      shares.map(({ lotId, count }) => ({
        act: 'release' as const,
        lotId,
        reserved: -count,
        demandLineId: line.id,
        jobId: line.jobId,
        reason,
      })),
    ),
    holds: wishes.flatMap(({ line, shares }) =>
      shares.map(({ lotId, count }) => ({ demandLineId: line.id, lotId, count: -count })),
    ),
    standings: wishes.map(({ line, pieces }) => cancelled(line, pieces).standing),
    byId: act.actor.id,
  });
  await withdrawNewest(act.sql, wishes);
}

/** Of reasons for pieces some of which were handed out, the newest are the ones that hold no longer. */
async function withdrawNewest(sql: Sql, wishes: readonly WishForValves[]): Promise<void> {
  const reasons = wishes.flatMap(({ line, valves, pieces }) => valves.map((valve) => ({ id: line.id, valve, pieces })));
  await sql`
    update demand_reason r set withdrawn_at = clock_timestamp()
    from (
      select r.id, w.pieces, row_number() over (partition by r.demand_line_id order by r.added_at desc, r.id desc) as nth
      from demand_reason r
      join unnest(${reasons.map(({ id }) => id)}::uuid[], ${reasons.map(({ valve }) => valve)}::text[], ${reasons.map(({ pieces }) => pieces)}::int[])
        w (line_id, valve, pieces) on w.line_id = r.demand_line_id and w.valve = r.valve_code
      where r.withdrawn_at is null
    ) newest
    where r.id = newest.id and newest.nth <= newest.pieces`;
}
