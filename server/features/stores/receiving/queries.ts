import type { JobName } from '#contracts/parts.ts';
import type { GoodsReceived, PurchaseLine, PurchaseQuery } from '#contracts/stock.ts';
import type { Nanometres } from '#domain/units/quantity.ts';
import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { jobName, lotMarks, partName, servedBy } from '../ledger/queries.ts';

export async function findPart(sql: Sql, id: string) {
  const [part] = await sql<{ id: string; number: string; name: string; shim: boolean; bySerial: boolean }[]>`
    select id, number, name, shim_nm is not null as shim, by_serial as "bySerial" from part where id = ${id}`;
  return part;
}

/** The job that a purchase line is for, if that job is still in the shop: read before the engine is locked. */
export async function findJobOfPurchase(sql: Sql, id: string) {
  const [row] = await sql<{ openJobId: string | null }[]>`
    select j.id as "openJobId" from purchase_line pl left join job j on j.id = pl.job_id and j.handed_back_at is null
    where pl.id = ${id}`;
  return row;
}

export async function lockPurchaseLine(sql: Sql, id: string) {
  const [line] = await sql<
    { partId: string; quantity: number; received: number; packSize: number; priceMinor: number | null }[]
  >`
    select part_id as "partId", quantity, received, pack_size as "packSize", price_minor as "priceMinor" from purchase_line where id = ${id} for no key update`;
  return line;
}

/** How many ones a pack of a purchase line has: said when it is ordered, and never changed. */
export async function findPackOfPurchase(sql: Sql, id: string): Promise<number | undefined> {
  const [line] = await sql<{ packSize: number }[]>`select pack_size as "packSize" from purchase_line where id = ${id}`;
  return line?.packSize;
}

/** A part, and those that it replaced, over others too. */
const withOlder = (sql: Sql, partId: string) => sql`
  with recursive older (id) as (
    select ${partId}::uuid
    union
    select o.id from older n join part o on o.superseded_by_id = n.id)`;

/** A line of a job that a part may serve: one that names it before one that names a part it replaced. */
export async function findLineOfJob(
  sql: Sql,
  of: { readonly jobId: string; readonly partId: string },
): Promise<string | undefined> {
  const [row] = await sql<{ id: string }[]>`
    ${withOlder(sql, of.partId)}
    select d.id from demand_line d join part p on p.id = d.part_id
    where d.job_id = ${of.jobId} and d.part_id in (select id from older) and ${of.partId} = any(${servedBy(sql)})
    order by d.short = 0, d.part_id <> ${of.partId}, d.id limit 1`;
  return row?.id;
}

/** When a lot came in, and what is told of its pieces. */
export async function findNewLot(sql: Sql, id: string) {
  const [lot] = await sql<{ receivedAt: string; thickness: Nanometres | null; grade: string }[]>`
    select l.received_at as "receivedAt", ${lotMarks(sql)} from stock_lot l join part p on p.id = l.part_id where l.id = ${id}`;
  return lot;
}

/** Who is short of what a part may serve, earliest promise first (demand_line_short): the first of them, and how many. */
export async function findWaiting(sql: Sql, partId: string): Promise<Pick<GoodsReceived, 'waiting' | 'waitingTotal'>> {
  const rows = await sql<(GoodsReceived['waiting'][number] & { ofAll: number })[]>`
    ${withOlder(sql, partId)}
    select ${jobName(sql)} as job, d.id as "demandLineId", d.short, jp.ready_on as "promisedOn",
      d.asked_until as "askedUntil", count(*) over ()::int as "ofAll"
    from demand_line d join part p on p.id = d.part_id join job j on j.id = d.job_id
      left join job_promise jp on jp.job_id = j.id
    where d.part_id in (select id from older) and ${partId} = any(${servedBy(sql)}) and d.short > 0 and j.handed_back_at is null
    order by jp.ready_on nulls last, d.short_since, d.id limit 50`;
  return { waiting: rows.map(({ ofAll: _, ...row }) => row), waitingTotal: rows[0]?.ofAll ?? 0 };
}

/** Whether the owner of a job said no to its newest quote, and yes to none. */
export async function findSaidNo(sql: Sql, jobId: string): Promise<boolean> {
  const [row] = await sql<{ no: boolean }[]>`
    select q.yes is false and has_no_yes(${jobId}) as no from job_quote q where q.job_id = ${jobId}`;
  return row?.no === true;
}

export async function findJobName(sql: Sql, jobId: string): Promise<JobName | undefined> {
  const [row] = await sql<{ job: JobName }[]>`select ${jobName(sql)} as job from job j where j.id = ${jobId}`;
  return row?.job;
}

export async function findVendor(sql: Sql, id: string) {
  const [vendor] = await sql<{ id: string; name: string; retired: boolean }[]>`
    select id, name, retired_at is not null as retired from vendor where id = ${id}`;
  return vendor;
}

export interface NewPurchase {
  readonly vendorId: string;
  readonly partId: string;
  readonly quantity: number;
  readonly packSize: number;
  /** Why it is ordered although it was replaced. */
  readonly replacedWhy: string | null;
  readonly words: string;
  readonly promisedOn?: string | undefined;
  readonly jobId?: string | undefined;
  readonly byId: string;
}

export async function insertPurchase(sql: Sql, line: NewPurchase): Promise<string> {
  const id = newId();
  await sql`
    insert into purchase_line (id, vendor_id, part_id, job_id, quantity, pack_size, replaced_reason, words, promised_on, ordered_by_id)
    values (${id}, ${line.vendorId}, ${line.partId}, ${line.jobId ?? null}, ${line.quantity}, ${line.packSize}, ${line.replacedWhy}, ${line.words}, ${line.promisedOn ?? null}, ${line.byId})`;
  return id;
}

const purchaseColumns = (sql: Sql) => sql`
  pl.id, json_build_object('id', v.id, 'name', v.name) as vendor, ${partName(sql)} as part,
  case when j.id is not null then ${jobName(sql)} end as job,
  pl.quantity, pl.received, pl.pack_size as "packSize", pl.promised_on as "promisedOn", pl.ordered_at as "orderedAt"`;

const purchaseTables = (sql: Sql) => sql`
  purchase_line pl join vendor v on v.id = pl.vendor_id join part p on p.id = pl.part_id left join job j on j.id = pl.job_id`;

/** Purchase lines, newest first (their ids grow with time). */
export async function findPurchases(
  sql: Sql,
  { partId, jobId, coming, after, limit }: PurchaseQuery & { readonly limit: number },
): Promise<PurchaseLine[]> {
  return sql<PurchaseLine[]>`
    select ${purchaseColumns(sql)} from ${purchaseTables(sql)}
    where (${partId ?? null}::uuid is null or pl.part_id = ${partId ?? null})
      and (${jobId ?? null}::uuid is null or pl.job_id = ${jobId ?? null})
      and (${coming ?? null}::text is null or (pl.received < pl.quantity) = (${coming ?? null}::text = 'true'))
      and (${after ?? null}::uuid is null or pl.id < ${after ?? null})
    order by pl.id desc limit ${limit}`;
}

/** What is still to come in, the earliest first, what has no date last: the first of it, and how many lines. */
export async function findComing(sql: Sql): Promise<{ readonly lines: PurchaseLine[]; readonly total: number }> {
  const rows = await sql<(PurchaseLine & { ofAll: number })[]>`
    select ${purchaseColumns(sql)}, open.of_all as "ofAll" from (
      select id, count(*) over ()::int as of_all from purchase_line
      where received < quantity order by promised_on nulls last, id limit 200
    ) open join ${purchaseTables(sql)} on pl.id = open.id order by pl.promised_on nulls last, pl.id`;
  return { lines: rows.map(({ ofAll: _, ...line }) => line), total: rows[0]?.ofAll ?? 0 };
}
