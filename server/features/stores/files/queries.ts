import type { Sql } from '#platform/database/client.ts';
import { batch } from '../books/queries.ts';
import type { BinLine } from './bins-file.ts';
import type { KitLineOut } from './kits-file.ts';

export const readAllBins = (sql: Sql): AsyncIterable<readonly BinLine[]> =>
  sql<
    BinLine[]
  >`select code, walk_order as "walkOrder", closed_at is not null as closed from bin order by walk_order, code`.cursor(
    batch,
  );

export const readAllKits = (sql: Sql): AsyncIterable<readonly KitLineOut[]> =>
  sql<KitLineOut[]>`
    select f.code as family, k.name as kit, p.number as part, l.quantity
    from kit k join family f on f.id = k.family_id join kit_line l on l.kit_id = k.id join part p on p.id = l.part_id
    order by f.code, k.name, p.number`.cursor(batch);

export interface PriceLine {
  readonly vendor: string;
  readonly theirs: string;
  readonly ours: string;
  readonly name: string;
  /** Of one pack, of so many of the part’s unit. */
  readonly priceMinor: number;
  readonly packSize: number;
  readonly from: string;
  readonly toldBy: string;
  readonly toldAt: string;
}

/** What a vendor asks from today on, part by part: the price in force, and those that are to come. */
export const readVendorPrices = (sql: Sql, vendorId: string): AsyncIterable<readonly PriceLine[]> =>
  sql<PriceLine[]>`
    select v.name as vendor, u.their_number as theirs, p.number as ours, p.name, u.price_minor as "priceMinor", u.pack_size as "packSize", u.valid_from as from,
      w.name as "toldBy", u.told_at as "toldAt"
    from (
      select vp.*, row_number() over (partition by vp.part_id, vp.valid_from order by vp.told_at desc) as told,
        max(vp.valid_from) filter (where vp.valid_from <= (select shop_today())) over (partition by vp.part_id) as in_force
      from vendor_price vp where vp.vendor_id = ${vendorId}
    ) u join part p on p.id = u.part_id join vendor v on v.id = u.vendor_id join person w on w.id = u.told_by_id
    where u.told = 1 and (u.valid_from > (select shop_today()) or u.valid_from = u.in_force) order by p.number, u.valid_from`.cursor(
    batch,
  );

/** Every price that a vendor was ever told to ask. */
export const readAllPrices = (sql: Sql): AsyncIterable<readonly PriceLine[]> =>
  sql<PriceLine[]>`
    select v.name as vendor, u.their_number as theirs, p.number as ours, p.name, u.price_minor as "priceMinor", u.pack_size as "packSize", u.valid_from as from,
      w.name as "toldBy", u.told_at as "toldAt"
    from vendor_price u join part p on p.id = u.part_id join vendor v on v.id = u.vendor_id join person w on w.id = u.told_by_id
    order by v.name, p.number, u.valid_from, u.told_at`.cursor(batch);

export interface OrderedLine {
  readonly order: number | null;
  readonly vendor: string;
  readonly writtenOn: string;
  readonly sentOn: string | null;
  readonly confirmedOn: string | null;
  readonly number: string;
  readonly name: string;
  readonly theirs: string;
  readonly unit: string;
  readonly packSize: number;
  readonly job: number | null;
  readonly quantity: number;
  readonly received: number;
  readonly promisedOn: string | null;
  readonly late: boolean;
  readonly priceMinor: number | null;
}

/** Every line of every order, newest order first. */
export const readAllOrdered = (sql: Sql): AsyncIterable<readonly OrderedLine[]> =>
  sql<OrderedLine[]>`
    select o.number as order, v.name as vendor, shop_day(o.opened_at) as "writtenOn", shop_day(sent.marked_at) as "sentOn", shop_day(confirmed.marked_at) as "confirmedOn",
      p.number, p.name, p.unit, pl.pack_size as "packSize", j.number as job, pl.quantity, pl.received, pl.promised_on as "promisedOn",
      pl.received < pl.quantity and coalesce(pl.promised_on < (select shop_today()), false) as late, pl.price_minor as "priceMinor",
      coalesce((select vp.their_number from vendor_price vp where vp.part_id = p.id and vp.vendor_id = pl.vendor_id and vp.their_number <> ''
                order by vp.valid_from desc, vp.told_at desc limit 1), '') as theirs
    from purchase_order o join purchase_line pl on pl.order_id = o.id join vendor v on v.id = o.vendor_id join part p on p.id = pl.part_id
      left join job j on j.id = pl.job_id
      left join purchase_order_mark sent on sent.order_id = o.id and sent.mark = 'sent'
      left join purchase_order_mark confirmed on confirmed.order_id = o.id and confirmed.mark = 'confirmed'
    order by o.number desc, pl.id`.cursor(batch);
