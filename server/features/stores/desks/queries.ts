import type { JobName, PartName } from '#contracts/parts.ts';
import type { Pick } from '#contracts/stores-desks.ts';
import type { Named } from '#contracts/wire.ts';
import type { LotRule } from '#domain/stock/lot-rule.ts';
import type { Sql } from '#platform/database/client.ts';
import {
  boughtAs,
  gotThicknesses,
  jobName,
  lineTables,
  lotRuleJson,
  partName,
  servedBy,
  stillAsked,
} from '../ledger/queries.ts';

/** Who is short of what, by part, the earliest promise first. */
export async function findLacks(sql: Sql) {
  return sql<
    {
      id: string;
      part: PartName;
      servedBy: readonly string[];
      buyAs: PartName;
      jobId: string;
      job: JobName;
      short: number;
      since: string;
      jobDueOn: string | null;
      rule: LotRule;
      gotNm: readonly number[];
    }[]
  >`
    select d.id, ${partName(sql)} as part, ${servedBy(sql)} as "servedBy", ${boughtAs(sql)} as "buyAs", d.job_id as "jobId", ${jobName(sql)} as job, d.short, d.short_since as since,
      jp.ready_on as "jobDueOn", ${lotRuleJson(sql)} as rule, ${gotThicknesses(sql)} as "gotNm"
    from ${lineTables(sql)} join job j on j.id = d.job_id and j.handed_back_at is null
      left join job_promise jp on jp.job_id = d.job_id
    where d.short > 0 order by jp.ready_on nulls last, d.short_since, d.id`;
}

/** What is still to come of these parts. */
export async function findComingOf(sql: Sql, partIds: readonly string[]) {
  return sql<
    {
      id: string;
      partId: string;
      part: PartName;
      jobId: string | null;
      open: number;
      promisedOn: string | null;
      orderId: string | null;
      orderNumber: number | null;
      vendor: Named;
      late: boolean;
      slips: number;
      said: string;
      /** What it will be as far as one knows: of the part's own thickness and grade. */
      thickness: number | null;
      grade: string;
    }[]
  >`
    select pl.id, pl.part_id as "partId", ${partName(sql)} as part, pl.job_id as "jobId", pl.quantity - pl.received as open, pl.promised_on as "promisedOn",
      o.id as "orderId", o.number as "orderNumber", json_build_object('id', v.id, 'name', v.name) as vendor,
      coalesce(pl.promised_on < (select shop_today()), false) as late,
      (select count(*)::int from purchase_promise pp where pp.purchase_line_id = pl.id and pp.words <> '') as slips,
      coalesce((select pp.words from purchase_promise pp where pp.purchase_line_id = pl.id order by pp.told_at desc limit 1), '') as said,
      p.shim_nm as thickness, p.grade
    from purchase_line pl join part p on p.id = pl.part_id join vendor v on v.id = pl.vendor_id left join purchase_order o on o.id = pl.order_id
    where pl.part_id = any(${partIds}::uuid[]) and pl.received < pl.quantity`;
}

/** What is firmly reserved, in the order of the walk. */
export async function findPicks(sql: Sql, jobId: string | undefined) {
  return sql<(Pick & { bin: Named; walkOrder: number })[]>`
    select r.demand_line_id as "demandLineId", r.lot_id as "lotId", l.code as lot, l.serial, coalesce(nullif(l.grade, ''), p.grade) as grade, ${partName(sql)} as part, p.unit,
      r.quantity, l.on_hand as "onHand", ${jobName(sql)} as job, jp.ready_on as "dueOn",
      (select count(*)::int from reservation o where o.lot_id = r.lot_id and o.quantity > 0) as "sharedBy",
      not exists (select from demand_line d where d.job_id = j.id and ${stillAsked(sql)}) as complete,
      json_build_object('id', b.id, 'name', b.code) as bin, b.walk_order as "walkOrder"
    from reservation r join demand_line d on d.id = r.demand_line_id join job j on j.id = d.job_id and j.handed_back_at is null
      join stock_lot l on l.id = r.lot_id join part p on p.id = l.part_id join bin b on b.id = l.bin_id
      left join job_promise jp on jp.job_id = d.job_id
    where r.quantity > 0 and r.expires_at is null and (${jobId ?? null}::uuid is null or d.job_id = ${jobId ?? null})
    order by b.walk_order, b.code, p.number, jp.ready_on nulls last, j.number, l.received_at, l.id`;
}
