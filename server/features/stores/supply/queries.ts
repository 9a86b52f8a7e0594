import type { JobName, Part, PartName } from '#contracts/parts.ts';
import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { boughtAs, jobName, partName } from '../ledger/queries.ts';
import type { OrderedPart } from './replaced.ts';

export async function insertOrder(
  sql: Sql,
  order: { readonly vendorId: string; readonly words: string; readonly byId: string },
): Promise<{ id: string; number: number }> {
  const id = newId();
  const [row] = await sql<{ number: number }[]>`
    insert into purchase_order (id, vendor_id, words, opened_by_id) values (${id}, ${order.vendorId}, ${order.words}, ${order.byId})
    returning number`;
  return { id, number: row?.number ?? 0 };
}

export interface NewLine {
  readonly partId: string;
  readonly quantity: number;
  readonly packSize: number;
  /** Why it is ordered although it was replaced. */
  readonly replacedWhy: string | null;
  readonly jobId: string | null;
  readonly priceMinor: number | null;
  readonly wantedOn: string | null;
  readonly promisedOn: string | null;
  /** What the vendor is told of it besides. */
  readonly words: string;
}

export async function insertOrderLines(
  sql: Sql,
  of: {
    readonly orderId: string;
    readonly vendorId: string;
    readonly byId: string;
    readonly lines: readonly NewLine[];
  },
): Promise<void> {
  const { lines } = of;
  await sql`
    insert into purchase_line (id, order_id, vendor_id, part_id, job_id, quantity, pack_size, replaced_reason, price_minor, wanted_on, promised_on, words, ordered_by_id)
    select l.id, ${of.orderId}, ${of.vendorId}, l.part, l.job, l.quantity, l.pack, l.why, l.price, l.wanted, l.day, l.words, ${of.byId}
    from unnest(${lines.map(newId)}::uuid[], ${lines.map((l) => l.partId)}::uuid[], ${lines.map((l) => l.jobId)}::uuid[],
      ${lines.map((l) => l.quantity)}::int[], ${lines.map((l) => l.packSize)}::int[], ${lines.map((l) => l.replacedWhy)}::text[],
      ${lines.map((l) => l.priceMinor)}::bigint[], 
      ${lines.map((l) => l.wantedOn)}::text[]::date[], ${lines.map((l) => l.promisedOn)}::text[]::date[],
      ${lines.map((l) => l.words)}::text[])
      l (id, part, job, quantity, pack, why, price, wanted, day, words)`;
}

export async function findOrderedParts(sql: Sql, ids: readonly string[]) {
  return sql<OrderedPart[]>`
    select p.id, p.number, p.name, ${boughtAs(sql)} as "buyAs" from part p where p.id = any(${ids}::uuid[])`;
}

export async function findOpenJobs(sql: Sql, ids: readonly string[]) {
  return sql<{ id: string }[]>`select id from job where id = any(${ids}::uuid[]) and handed_back_at is null`;
}

/** What a vendor asks today, by part. */
export async function findPricesToday(sql: Sql, vendorId: string, partIds: readonly string[]) {
  return sql<{ partId: string; priceMinor: number; packSize: number }[]>`
    select distinct on (part_id) part_id as "partId", price_minor as "priceMinor", pack_size as "packSize" from vendor_price
    where vendor_id = ${vendorId} and part_id = any(${partIds}::uuid[]) and valid_from <= (select shop_today())
    order by part_id, valid_from desc, told_at desc`;
}

export interface OrderRow {
  readonly id: string;
  readonly number: number;
  readonly vendor: { readonly id: string; readonly name: string; readonly contact: string };
  readonly words: string;
  readonly openedBy: string;
  readonly openedAt: string;
  readonly sentAt: string | null;
  readonly confirmedAt: string | null;
}

export const markedAt = (sql: Sql, mark: 'sent' | 'confirmed') => sql`
  (select k.marked_at from purchase_order_mark k where k.order_id = o.id and k.mark = ${mark})`;

export async function findOrder(sql: Sql, id: string): Promise<OrderRow | undefined> {
  const [order] = await sql<OrderRow[]>`
    select o.id, o.number, json_build_object('id', v.id, 'name', v.name, 'contact', v.contact) as vendor, o.words, w.name as "openedBy",
      o.opened_at as "openedAt", ${markedAt(sql, 'sent')} as "sentAt", ${markedAt(sql, 'confirmed')} as "confirmedAt"
    from purchase_order o join vendor v on v.id = o.vendor_id join person w on w.id = o.opened_by_id where o.id = ${id}`;
  return order;
}

/** The shop's day of an instant, and how it writes figures. */
export async function findShopPaper(sql: Sql, at: string) {
  const [paper] = await sql<{ writtenOn: string; locale: string; currency: string }[]>`
    select shop_day(${at}::timestamptz) as "writtenOn", locale, currency from shop`;
  return paper;
}

export interface OrderLineRow {
  readonly id: string;
  readonly part: PartName;
  readonly unit: Part['unit'];
  readonly theirNumber: string;
  readonly job: JobName | null;
  readonly quantity: number;
  readonly received: number;
  readonly packSize: number;
  readonly wantedOn: string | null;
  readonly promisedOn: string | null;
  readonly priceMinor: number | null;
  readonly replacedWhy: string;
  readonly words: string;
}

export async function findOrderLines(sql: Sql, orderId: string): Promise<readonly OrderLineRow[]> {
  return sql<OrderLineRow[]>`
    select pl.id, ${partName(sql)} as part, p.unit, case when j.id is not null then ${jobName(sql)} end as job, pl.quantity, pl.received, pl.pack_size as "packSize",
      pl.wanted_on as "wantedOn", pl.promised_on as "promisedOn", pl.price_minor as "priceMinor", coalesce(pl.replaced_reason, '') as "replacedWhy", pl.words,
      coalesce((select vp.their_number from vendor_price vp where vp.part_id = p.id and vp.vendor_id = pl.vendor_id and vp.their_number <> ''
                order by vp.valid_from desc, vp.told_at desc limit 1), '') as "theirNumber"
    from purchase_line pl join part p on p.id = pl.part_id left join job j on j.id = pl.job_id
    where pl.order_id = ${orderId} order by pl.id`;
}

export interface LineFactRow {
  readonly lineId: string;
  readonly kind: 'received' | 'came wrong' | 'came damaged' | 'sent back' | 'called off' | 'date';
  readonly quantity: number | null;
  readonly keyed: { readonly packs: number; readonly loose: number } | null;
  readonly promisedOn: string | null;
  readonly words: string;
  readonly by: string;
  readonly at: string;
}

/** All that became of an order's lines, as it happened. */
export async function findLineFacts(sql: Sql, orderId: string): Promise<readonly LineFactRow[]> {
  return sql<LineFactRow[]>`
    select f.line_id as "lineId", f.kind, f.quantity, case when f.packs is not null then json_build_object('packs', f.packs, 'loose', f.loose) end as keyed, f.promised_on as "promisedOn", f.words, w.name as by, f.at
    from (select purchase_line_id as line_id, kind, quantity, keyed_packs as packs, keyed_loose as loose, null::date as promised_on, words, done_by_id as by_id, done_at as at from purchase_fact
          union all
          select purchase_line_id, 'date', null, null, null, promised_on, words, told_by_id, told_at from purchase_promise) f
      join purchase_line pl on pl.id = f.line_id join person w on w.id = f.by_id
    where pl.order_id = ${orderId} order by f.at`;
}

export async function insertMark(
  sql: Sql,
  of: { readonly orderId: string; readonly mark: string; readonly words: string; readonly byId: string },
): Promise<void> {
  await sql`insert into purchase_order_mark (id, order_id, mark, words, marked_by_id)
    values (${newId()}, ${of.orderId}, ${of.mark}, ${of.words}, ${of.byId})`;
}

export async function insertPromise(
  sql: Sql,
  of: { readonly lineId: string; readonly promisedOn: string | null; readonly words: string; readonly byId: string },
): Promise<void> {
  await sql`insert into purchase_promise (id, purchase_line_id, promised_on, words, told_by_id)
    values (${newId()}, ${of.lineId}, ${of.promisedOn}, ${of.words}, ${of.byId})`;
}

export interface PurchaseLine {
  readonly id: string;
  readonly partId: string;
  readonly part: PartName;
  readonly jobId: string | null;
  readonly quantity: number;
  readonly received: number;
  readonly packSize: number;
  readonly promisedOn: string | null;
  readonly priceMinor: number | null;
  readonly coreMinor: number;
  readonly orderId: string | null;
  readonly orderNumber: number | null;
}

/** Purchase lines, locked by id, with what is needed to speak of them. */
export async function lockPurchaseLines(sql: Sql, ids: readonly string[]): Promise<readonly PurchaseLine[]> {
  return sql<PurchaseLine[]>`
    select pl.id, pl.part_id as "partId", ${partName(sql)} as part, pl.job_id as "jobId", pl.quantity, pl.received, pl.pack_size as "packSize",
      pl.promised_on as "promisedOn", pl.price_minor as "priceMinor",
      p.core_minor as "coreMinor", pl.order_id as "orderId", o.number as "orderNumber"
    from purchase_line pl join part p on p.id = pl.part_id left join purchase_order o on o.id = pl.order_id
    where pl.id = any(${ids}::uuid[]) order by pl.id for no key update of pl`;
}

export async function lockLine(sql: Sql, id: string): Promise<PurchaseLine | undefined> {
  const [line] = await lockPurchaseLines(sql, [id]);
  return line;
}

/** The pack in which a vendor sold a part before, on a day: that of the newest price that holds then, one where there is none. */
export const packAsSold = (
  sql: Sql,
  of: { readonly vendorId: string; readonly partId: ReturnType<Sql>; readonly day: ReturnType<Sql> },
) => sql`
  coalesce((
    select v.pack_size from vendor_price v where v.vendor_id = ${of.vendorId} and v.part_id = ${of.partId} and v.valid_from <= ${of.day}
    order by v.valid_from desc, v.told_at desc limit 1), 1)`;

export async function insertPrice(
  sql: Sql,
  of: {
    readonly vendorId: string;
    readonly partId: string;
    readonly priceMinor: number;
    readonly packSize: number | undefined;
    readonly validFrom: string;
    readonly theirNumber: string;
    readonly byId: string;
  },
): Promise<void> {
  await sql`insert into vendor_price (id, vendor_id, part_id, price_minor, pack_size, valid_from, their_number, told_by_id)
    values (${newId()}, ${of.vendorId}, ${of.partId}, ${of.priceMinor},
      coalesce(${of.packSize ?? null}::int, ${packAsSold(sql, { vendorId: of.vendorId, partId: sql`${of.partId}`, day: sql`${of.validFrom}::date` })}), ${of.validFrom}, ${of.theirNumber}, ${of.byId})`;
}

export async function findPrices(sql: Sql, partId: string) {
  return sql<
    {
      vendor: { id: string; name: string };
      priceMinor: number;
      packSize: number;
      validFrom: string;
      theirNumber: string;
    }[]
  >`
    select json_build_object('id', v.id, 'name', v.name) as vendor, vp.price_minor as "priceMinor", vp.pack_size as "packSize", vp.valid_from as "validFrom",
      vp.their_number as "theirNumber"
    from vendor_price vp join vendor v on v.id = vp.vendor_id where vp.part_id = ${partId}
    order by vp.valid_from desc, vp.told_at desc`;
}

/** Cores that are owed, all of them, and after them those that were settled last. */
export async function findCores(sql: Sql) {
  return sql<
    {
      id: string;
      part: PartName;
      vendor: { id: string; name: string };
      orderNumber: number | null;
      quantity: number;
      chargeMinor: number;
      owedAt: string;
      sentAt: string | null;
      creditedAt: string | null;
    }[]
  >`
    select c.id, ${partName(sql)} as part, json_build_object('id', v.id, 'name', v.name) as vendor, o.number as "orderNumber", c.quantity,
      c.charge_minor as "chargeMinor", c.owed_at as "owedAt",
      (select m.marked_at from core_mark m where m.core_id = c.id and m.mark = 'sent') as "sentAt", settled.at as "creditedAt"
    from core_now c left join (
        select m.core_id, m.marked_at as at, row_number() over (order by m.marked_at desc, m.core_id) as nth
        from core_mark m where m.mark = 'credited') settled on settled.core_id = c.id
      join purchase_line pl on pl.id = c.purchase_line_id join part p on p.id = pl.part_id
      join vendor v on v.id = pl.vendor_id left join purchase_order o on o.id = pl.order_id
    where c.quantity > 0 and (settled.at is null or settled.nth <= 200)
    order by settled.at is not null, settled.at desc, c.owed_at desc, c.id`;
}

/** How many cores were ever settled. */
export async function countSettledCores(sql: Sql): Promise<number> {
  const [row] = await sql<{ count: number }[]>`
    select count(*)::int as count from core_now c join core_mark m on m.core_id = c.id and m.mark = 'credited' where c.quantity > 0`;
  return row?.count ?? 0;
}

export async function insertCoreMark(
  sql: Sql,
  of: { readonly coreId: string; readonly mark: string; readonly words: string; readonly byId: string },
): Promise<string | undefined> {
  const [row] = await sql<{ part: string }[]>`
    with marked as (
      insert into core_mark (id, core_id, mark, words, marked_by_id)
      select ${newId()}, c.id, ${of.mark}, ${of.words}, ${of.byId} from core_owed c where c.id = ${of.coreId} returning core_id
    )
    select p.number as part from marked m join core_owed c on c.id = m.core_id
      join purchase_line pl on pl.id = c.purchase_line_id join part p on p.id = pl.part_id`;
  return row?.part;
}
