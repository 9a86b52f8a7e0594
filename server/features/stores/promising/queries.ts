import type { JobName, PartName } from '#contracts/parts.ts';
import type { LotRule } from '#domain/stock/lot-rule.ts';
import type { Sql } from '#platform/database/client.ts';
import { gotThicknesses, jobName, lineTables, lotMarks, lotRuleJson, partName } from '../ledger/queries.ts';
import type { Kind } from './kinds.ts';

/** The shop's own day. */
export async function findToday(sql: Sql): Promise<string> {
  const [row] = await sql<{ today: string }[]>`
    select coalesce((clock_timestamp() at time zone (select zone from shop))::date, current_date) as today`;
  return row?.today ?? new Date().toISOString().slice(0, 10);
}

export interface StockOfPart {
  readonly partId: string;
  readonly part: PartName;
  readonly onHand: number;
  readonly reserved: number;
  /** Used and measured pieces among those on hand that are reserved for nobody: promised by hand alone. */
  readonly usedFree: number;
}

export async function findStock(sql: Sql, partIds: readonly string[]): Promise<readonly StockOfPart[]> {
  return sql<StockOfPart[]>`
    select p.id as "partId", ${partName(sql)} as part, s.on_hand as "onHand", s.reserved, s.used_free as "usedFree"
    from part p cross join lateral (
      select coalesce(sum(l.on_hand), 0)::int as on_hand, coalesce(sum(l.reserved), 0)::int as reserved,
        coalesce(sum(l.on_hand - l.reserved) filter (where l.used), 0)::int as used_free
      from stock_lot l where l.part_id = p.id and l.on_hand > 0) s
    where p.id = any(${partIds}::uuid[])`;
}

/** What lies free of these parts for who asks by rule, by thickness and grade; of each part what came in first before others. */
export async function findFreeKinds(
  sql: Sql,
  partIds: readonly string[],
): Promise<readonly (Kind & { readonly free: number })[]> {
  return sql<(Kind & { free: number })[]>`
    select k.part_id as "partId", k.thickness, k.grade, sum(k.free)::int as free from (
      select l.part_id, l.received_at, l.on_hand - l.reserved as free, ${lotMarks(sql)}
      from stock_lot l join part p on p.id = l.part_id
      where l.part_id = any(${partIds}::uuid[]) and l.on_hand > 0 and l.on_hand > l.reserved and not l.used) k
    group by k.part_id, k.thickness, k.grade order by k.part_id, min(k.received_at), k.thickness, k.grade`;
}

export interface OpenWish {
  readonly id: string;
  readonly partId: string;
  readonly part: PartName;
  readonly jobId: string;
  readonly job: JobName;
  readonly short: number;
  readonly notAsked: number;
  /** It was asked for all or nothing: what is not short is not reserved either, and waits with it. */
  readonly askedWhole: boolean;
  readonly promisedOn: string | null;
  /** By which rule its lots are chosen. */
  readonly rule: LotRule;
  readonly gotNm: readonly number[];
}

/** What open jobs want of these parts beyond what is reserved for them: the earliest promise first. */
export async function findOpenWishes(sql: Sql, partIds: readonly string[]): Promise<readonly OpenWish[]> {
  return sql<OpenWish[]>`
    select d.id, d.part_id as "partId", ${partName(sql)} as part, d.job_id as "jobId", ${jobName(sql)} as job, d.short,
      d.not_asked as "notAsked", d.asked_whole as "askedWhole", jp.ready_on as "promisedOn",
      ${lotRuleJson(sql)} as rule, ${gotThicknesses(sql)} as "gotNm"
    from ${lineTables(sql)} join job j on j.id = d.job_id and j.handed_back_at is null
      left join job_promise jp on jp.job_id = d.job_id
    where d.part_id = any(${partIds}::uuid[]) and d.short + d.not_asked > 0
    order by jp.ready_on nulls last, d.short_since nulls last, d.id`;
}

/** Parts that these jobs want more of than is reserved for them. */
export async function findPartsWanted(sql: Sql, jobIds: readonly string[]): Promise<readonly string[]> {
  const rows = await sql<{ id: string }[]>`
    select distinct d.part_id as id from demand_line d where d.job_id = any(${jobIds}::uuid[]) and d.short + d.not_asked > 0`;
  return rows.map(({ id }) => id);
}

/** Mean days from order to first delivery, by part, over its last fifty; parts never delivered are left out. */
export async function findLeadDays(sql: Sql, partIds: readonly string[]): Promise<ReadonlyMap<string, number>> {
  const rows = await sql<{ id: string; days: number }[]>`
    select p.id, t.days from unnest(${partIds}::uuid[]) p (id) cross join lateral (
      select avg(d.days)::float8 as days from (
        select extract(epoch from f.first - pl.ordered_at)::float8 / 86400 as days
        from purchase_line pl cross join lateral (
          select min(pf.done_at) as first from purchase_fact pf where pf.purchase_line_id = pl.id and pf.kind = 'received') f
        where pl.part_id = p.id and f.first > pl.ordered_at order by pl.ordered_at desc limit 50) d) t
    where t.days is not null`;
  return new Map(rows.map(({ id, days }) => [id, days]));
}
