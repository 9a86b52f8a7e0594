import type { JobName, PartName } from '#contracts/parts.ts';
import type { Named } from '#contracts/wire.ts';
import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { jobName, partName } from '../ledger/queries.ts';

export async function insertDelivery(
  sql: Sql,
  of: { readonly note: string; readonly freightMinor: number; readonly byId: string },
): Promise<string> {
  const id = newId();
  await sql`insert into delivery (id, note, freight_minor, taken_by_id)
    values (${id}, ${of.note}, ${of.freightMinor}, ${of.byId})`;
  return id;
}

/** The engines of the jobs that purchase lines are for, each job still in the shop once, in the order engines are locked. */
export async function findJobsOfLines(sql: Sql, lineIds: readonly string[]) {
  return sql<{ lineId: string; jobId: string }[]>`
    select pl.id as "lineId", j.id as "jobId" from purchase_line pl join job j on j.id = pl.job_id and j.handed_back_at is null
    where pl.id = any(${lineIds}::uuid[]) order by j.engine_id, j.id, pl.id`;
}

export async function findExpectingVendors(sql: Sql) {
  return sql<(Named & { lines: number; late: number; nextOn: string | null })[]>`
    select v.id, v.name, count(*)::int as lines, count(*) filter (where pl.promised_on < (select shop_today()))::int as late,
      min(pl.promised_on) as "nextOn"
    from purchase_line pl join vendor v on v.id = pl.vendor_id where pl.received < pl.quantity
    group by v.id, v.name order by min(pl.promised_on) nulls last, v.name`;
}

export interface ExpectedRow {
  readonly id: string;
  readonly orderId: string | null;
  readonly orderNumber: number | null;
  readonly part: PartName;
  readonly unit: string;
  readonly bySerial: boolean;
  readonly isShim: boolean;
  readonly theirNumber: string;
  readonly words: string;
  readonly job: JobName | null;
  readonly quantity: number;
  readonly received: number;
  readonly packSize: number;
  readonly promisedOn: string | null;
  readonly late: boolean;
  readonly priceMinor: number | null;
  readonly coreMinor: number;
  readonly usualBin: Named | null;
}

/** The open bin into which the last of a part `p` came. */
const lastBin = (sql: Sql, which: ReturnType<Sql>) => sql`
  (select json_build_object('id', b.id, 'name', b.code) from stock_lot l join bin b on b.id = l.bin_id and b.closed_at is null
   where l.part_id = p.id ${which} order by l.received_at desc limit 1)`;

/** What is still to come from a vendor, by order, the oldest first. */
export async function findExpectedLines(sql: Sql, vendorId: string): Promise<readonly ExpectedRow[]> {
  return sql<ExpectedRow[]>`
    select pl.id, o.id as "orderId", o.number as "orderNumber", ${partName(sql)} as part, p.unit, p.by_serial as "bySerial",
      p.shim_nm is not null as "isShim", case when j.id is not null then ${jobName(sql)} end as job, pl.quantity, pl.received, pl.pack_size as "packSize",
      pl.promised_on as "promisedOn", coalesce(pl.promised_on < (select shop_today()), false) as late, pl.price_minor as "priceMinor", p.core_minor as "coreMinor", pl.words,
      coalesce((select vp.their_number from vendor_price vp where vp.part_id = p.id and vp.vendor_id = pl.vendor_id and vp.their_number <> ''
                order by vp.valid_from desc, vp.told_at desc limit 1), '') as "theirNumber",
      coalesce(${lastBin(sql, sql`and l.on_hand > 0`)}, ${lastBin(sql, sql``)}) as "usualBin"
    from purchase_line pl join part p on p.id = pl.part_id left join purchase_order o on o.id = pl.order_id left join job j on j.id = pl.job_id
    where pl.vendor_id = ${vendorId} and pl.received < pl.quantity
    order by o.number nulls last, pl.id`;
}
