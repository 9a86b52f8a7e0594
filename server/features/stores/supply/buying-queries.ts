import type { PartName } from '#contracts/parts.ts';
import type { PartSupply } from '#contracts/supply.ts';
import type { Stocked } from '#domain/stock/chain-levels.ts';
import type { Sql } from '#platform/database/client.ts';
import { partName } from '../ledger/queries.ts';

/** A part that should be bought, as it stands, and from whom and how it is bought. */
export interface BuyingFacts {
  readonly part: PartName;
  readonly unit: PartSupply['unit'];
  /** How the vendor sells it. */
  readonly packSize: number;
  readonly onHand: number;
  /** Of those, reserved for nobody and never used. */
  readonly free: number;
  readonly coming: number;
  readonly reorderPoint: number;
  readonly vendor: { readonly id: string; readonly name: string } | null;
  readonly priceMinor: number | null;
}

/** From whom a part is bought as somebody said, else by whom it was priced last, else from whom it was bought last. */
const usualVendor = (sql: Sql) => sql`
  left join lateral (
    select v.id, v.name, u.price_minor, u.pack_size from (
      (select p.usual_vendor_id as vendor_id, vp.price_minor, coalesce(vp.pack_size, 1) as pack_size, 0 as rank
       from (select) asked left join lateral (
         select vp.price_minor, vp.pack_size from vendor_price vp where vp.part_id = p.id and vp.vendor_id = p.usual_vendor_id
           and vp.valid_from <= (select shop_today()) order by vp.valid_from desc, vp.told_at desc limit 1) vp on true
       where p.usual_vendor_id is not null)
      union all
      (select vp.vendor_id, vp.price_minor, vp.pack_size, 1 from vendor_price vp
       where vp.part_id = p.id and vp.valid_from <= (select shop_today()) order by vp.valid_from desc, vp.told_at desc limit 1)
      union all
      (select pl.vendor_id, pl.price_minor, pl.pack_size, 2 from purchase_line pl where pl.part_id = p.id order by pl.ordered_at desc limit 1)
    ) u join vendor v on v.id = u.vendor_id and v.retired_at is null order by u.rank limit 1
  ) vendor on true`;

const stockOf = (sql: Sql) => sql`
  cross join lateral (
    select coalesce((select sum(l.on_hand - l.reserved) from stock_lot l where l.part_id = p.id and l.on_hand > 0 and not l.used), 0)::int as free,
      coalesce((select sum(l.on_hand) from stock_lot l where l.part_id = p.id and l.on_hand > 0), 0)::int as on_hand,
      coalesce((select sum(pl.quantity - pl.received) from purchase_line pl where pl.part_id = p.id and pl.received < pl.quantity), 0)::int as coming
  ) stock`;

/** What there is to know of a part `p` whose pieces are summed in `stock`. */
const buyingFacts = (sql: Sql, stock: ReturnType<Sql>) => sql`
  ${partName(sql)} as part, ${stock}.on_hand as "onHand", ${stock}.free, ${stock}.coming, p.reorder_point as "reorderPoint",
  case when vendor.id is not null then json_build_object('id', vendor.id, 'name', vendor.name) end as vendor, vendor.price_minor as "priceMinor",
  p.unit, coalesce(vendor.pack_size, 1) as "packSize"`;

export async function findBuyingFacts(sql: Sql, partIds: readonly string[]): Promise<readonly BuyingFacts[]> {
  return sql<BuyingFacts[]>`
    select ${buyingFacts(sql, sql`stock`)} from part p ${stockOf(sql)} ${usualVendor(sql)} where p.id = any(${partIds}::uuid[])`;
}

/** Parts with a level to buy at that were replaced, and all that replaced them. */
export async function findLevelsInChains(sql: Sql): Promise<readonly (Stocked & { readonly onHand: number })[]> {
  return sql<(Stocked & { onHand: number })[]>`
    with recursive chain (id, next) as (
      select p.id, p.superseded_by_id from part p
      where p.superseded_by_id is not null and p.reorder_point > 0 and p.retired_at is null
      union
      select p.id, p.superseded_by_id from chain c join part p on p.id = c.next
    )
    select p.id as "partId", p.superseded_by_id as next, p.interchangeable as usable,
      case when p.retired_at is null then p.reorder_point else 0 end as level,
      stock.free + stock.coming as supply, stock.on_hand as "onHand"
    from chain c join part p on p.id = c.id ${stockOf(sql)} order by p.number`;
}

/**
 * Parts whose free pieces, with those that come in, are no more than their level to buy at; up to it, and a level more.
 * Without those that were replaced, or have levels of what they replaced to answer for. Summed once over all shelves:
 * one look-up a part would be thousands.
 */
export async function findLowToBuy(
  sql: Sql,
  { besides, most }: { readonly besides: readonly string[]; readonly most: number | null },
): Promise<readonly (BuyingFacts & { readonly quantity: number; readonly ofAll: number })[]> {
  return sql<(BuyingFacts & { quantity: number; ofAll: number })[]>`
    with watched as materialized (
      select id, number, name, unit, reorder_point, usual_vendor_id from part
      where reorder_point > 0 and retired_at is null and superseded_by_id is null and id <> all(${besides}::uuid[])
    ), lying as (
      select l.part_id, sum(l.on_hand)::int as on_hand, (sum(l.on_hand - l.reserved) filter (where not l.used))::int as free
      from stock_lot l join watched w on w.id = l.part_id where l.on_hand > 0 group by l.part_id
    ), expected as (
      select part_id, sum(quantity - received)::int as coming from purchase_line where received < quantity group by part_id
    ), stock as (
      select w.*, coalesce(l.on_hand, 0) as on_hand, coalesce(l.free, 0) as free, coalesce(e.coming, 0) as coming
      from watched w left join lying l on l.part_id = w.id left join expected e on e.part_id = w.id
    ), low as (
      select *, count(*) over ()::int as of_all from stock where free + coming <= reorder_point
      order by free + coming - reorder_point, number limit ${most}
    )
    select (2 * p.reorder_point - p.free - p.coming)::int as quantity, p.of_all as "ofAll", ${buyingFacts(sql, sql`p`)}
    from low p ${usualVendor(sql)} order by p.free + p.coming - p.reorder_point, p.number`;
}

/** What of a part went out less what came back, day by day, over the days before today. */
export async function findDailyUse(sql: Sql, partId: string, days: number): Promise<readonly number[]> {
  const rows = await sql<{ used: number }[]>`
    with used as (
      select (select shop_today()) - shop_day(m.moved_at) as back, -sum(m.on_hand_change) as count from stock_movement m
      where m.part_id = ${partId} and m.act in ('issue', 'return') and m.moved_at >= now() - make_interval(days => ${days}::int + 2)
      group by 1
    )
    select greatest(0, coalesce(u.count, 0))::int as used
    from generate_series(1, ${days}::int) back left join used u using (back) order by back`;
  return rows.map(({ used }) => used);
}

/** Days from each order of a part to the day its first pieces came in. */
export async function findLeadTimes(sql: Sql, partId: string): Promise<readonly number[]> {
  const rows = await sql<{ days: number }[]>`
    select extract(epoch from f.first - pl.ordered_at)::float8 / 86400 as days
    from purchase_line pl cross join lateral (
      select min(pf.done_at) as first from purchase_fact pf where pf.purchase_line_id = pl.id and pf.kind = 'received') f
    where pl.part_id = ${partId} and f.first is not null and f.first > pl.ordered_at order by pl.ordered_at desc limit 50`;
  return rows.map(({ days }) => days);
}

export async function findPartToBuy(sql: Sql, id: string) {
  const [row] = await sql<
    { part: PartName; unit: PartSupply['unit']; priceMinor: number; cost: number | null; packSize: number }[]
  >`
    select ${partName(sql)} as part, p.unit, p.price_minor as "priceMinor", coalesce(vendor.price_minor::float8 / vendor.pack_size,
        (select vp.price_minor::float8 / vp.pack_size from vendor_price vp where vp.part_id = p.id and vp.valid_from <= (select shop_today())
         order by vp.valid_from desc, vp.told_at desc limit 1)) as cost,
      coalesce(vendor.pack_size, 1) as "packSize"
    from part p ${usualVendor(sql)} where p.id = ${id}`;
  return row;
}
