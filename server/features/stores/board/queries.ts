import type { PartName } from '#contracts/parts.ts';
import type { StoresBoard } from '#contracts/stores.ts';
import type { Sql } from '#platform/database/client.ts';
import { jobName, partName } from '../ledger/queries.ts';

/** Open jobs that want anything from stores, the earliest promise first, those without one last. */
export async function findJobsInStores(sql: Sql) {
  return sql<Pick<StoresBoard['jobs'][number], 'job' | 'promisedOn' | 'quote' | 'heldUntil'>[]>`
    select ${jobName(sql)} as job, jp.ready_on as "promisedOn",
      case when q.job_id is null then null when q.yes is null then 'not answered' when q.yes then 'yes' else 'no' end as quote,
      held_for_yes_until(j.id) as "heldUntil"
    from job j left join job_promise jp on jp.job_id = j.id left join job_quote q on q.job_id = j.id
    where j.handed_back_at is null and exists (select from demand_line d where d.job_id = j.id)
    order by jp.ready_on nulls last, j.number`;
}

export interface LowRow {
  readonly part: PartName;
  readonly onHand: number;
  readonly reserved: number;
  readonly reorderPoint: number;
  readonly coming: number;
}

const lowColumns = (sql: Sql) => sql`
  ${partName(sql)} as part, p.on_hand as "onHand", p.reorder_point as "reorderPoint",
  (select coalesce(sum(l.reserved), 0)::int from stock_lot l where l.part_id = p.id and l.on_hand > 0) as reserved,
  (select coalesce(sum(pl.quantity - pl.received), 0)::int from purchase_line pl
   where pl.part_id = p.id and pl.received < pl.quantity) as coming`;

/**
 * Parts of which no more is on hand than the level to buy at; the scarcest first. Without those that were replaced, or
 * have the levels of what they replaced to answer for.
 */
export async function findLow(sql: Sql, besides: readonly string[]) {
  return sql<(LowRow & { ofAll: number })[]>`
    select ${lowColumns(sql)}, p.of_all as "ofAll"
    from (
      select p.id, p.number, p.name, p.reorder_point, coalesce(v.on_hand, 0) as on_hand, count(*) over ()::int as of_all
      from part p left join part_value v on v.part_id = p.id
      where p.reorder_point > 0 and p.retired_at is null and p.superseded_by_id is null and p.id <> all(${besides}::uuid[])
        and coalesce(v.on_hand, 0) <= p.reorder_point
      order by coalesce(v.on_hand, 0) - p.reorder_point, p.number limit 200
    ) p order by p.on_hand - p.reorder_point, p.number`;
}

/** Parts as they stand in stores. */
export async function findStanding(sql: Sql, partIds: readonly string[]) {
  return sql<LowRow[]>`
    select ${lowColumns(sql)}
    from (
      select p.id, p.number, p.name, p.reorder_point, coalesce(v.on_hand, 0) as on_hand
      from part p left join part_value v on v.part_id = p.id where p.id = any(${partIds}::uuid[])
    ) p`;
}
