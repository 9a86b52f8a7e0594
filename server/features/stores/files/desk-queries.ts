import type { Sql } from '#platform/database/client.ts';
import { batch } from '../books/queries.ts';

export interface ExpectedOut {
  readonly id: string;
  readonly vendor: string;
  readonly order: number | null;
  readonly number: string;
  readonly name: string;
  readonly job: number | null;
  readonly quantity: number;
  readonly received: number;
  readonly unit: string;
  readonly packSize: number;
  readonly promisedOn: string | null;
  readonly late: boolean;
  readonly said: string;
}

/** Every purchase line of which something is still to come, the earliest first. */
export const readExpected = (sql: Sql): AsyncIterable<readonly ExpectedOut[]> =>
  sql<ExpectedOut[]>`
    select pl.id, v.name as vendor, o.number as order, p.number, p.name, j.number as job, pl.quantity, pl.received, p.unit, pl.pack_size as "packSize",
      pl.promised_on as "promisedOn", coalesce(pl.promised_on < (select shop_today()), false) as late,
      coalesce((select pp.words from purchase_promise pp where pp.purchase_line_id = pl.id order by pp.told_at desc limit 1), '') as said
    from purchase_line pl join vendor v on v.id = pl.vendor_id join part p on p.id = pl.part_id
      left join purchase_order o on o.id = pl.order_id left join job j on j.id = pl.job_id
    where pl.received < pl.quantity order by pl.promised_on nulls last, v.name, o.number, pl.id`.cursor(batch);

/** Purchase lines of which something is still to come, by their order and part. */
export async function findLinesToCome(sql: Sql) {
  return sql<{ id: string; order: number | null; number: string }[]>`
    select pl.id, o.number as order, p.number from purchase_line pl join part p on p.id = pl.part_id
      left join purchase_order o on o.id = pl.order_id
    where pl.received < pl.quantity`;
}

export interface VendorOut {
  readonly name: string;
  readonly trade: string;
  readonly contact: string;
  readonly retired: boolean;
}

export const readVendors = (sql: Sql): AsyncIterable<readonly VendorOut[]> =>
  sql<VendorOut[]>`select name, trade, contact, retired_at is not null as retired from vendor order by name`.cursor(
    batch,
  );
