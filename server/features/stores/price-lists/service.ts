import type { PriceListQuery, PriceListTaken } from '#contracts/price-lists.ts';
import type { Act } from '#platform/act.ts';
import { rowRefusal } from '#platform/csv-file.ts';
import type { Sql, SqlPool } from '#platform/database/client.ts';
import { found } from '#platform/problem.ts';
import { moneyDigits } from '../books/service.ts';
import { findVendor } from '../receiving/queries.ts';
import { readPriceList } from './file.ts';
import { countRows, findRowFaults, keepRows, stageRows } from './queries.ts';

export interface PriceList extends PriceListQuery {
  readonly vendorId: string;
  readonly text: string;
}

/** Reads the list and lays it out beside what is known; refuses it with every row and column that is wrong. */
async function layOut(sql: Sql, list: PriceList) {
  const vendor = found(await findVendor(sql, list.vendorId), 'such vendor');
  const [day] = await sql<{ today: string }[]>`select shop_today() as today`;
  const from = list.validFrom ?? day?.today ?? '';
  await stageRows(sql, readPriceList(list.text, { digits: await moneyDigits(sql), from }), vendor.id);
  const faults = await findRowFaults(sql, list.unknown ?? 'refuse');
  if (faults.length > 0) throw rowRefusal(faults);
  return { vendor, taken: await countRows(sql) };
}

/** What a price list would bring; nothing is kept. */
export async function checkPriceList(db: SqlPool, list: PriceList): Promise<PriceListTaken> {
  return db.begin(async (sql) => (await layOut(sql, list)).taken);
}

/** Takes a vendor's price list: all of it, or none. */
export async function takePriceList(act: Act, list: PriceList): Promise<PriceListTaken> {
  const { vendor, taken } = await layOut(act.sql, list);
  await keepRows(act.sql, { vendorId: vendor.id, byId: act.actor.id });
  await act.event('prices.imported', { data: { vendor: vendor.name, ...taken } });
  return taken;
}
