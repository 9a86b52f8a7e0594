import { afterAll, expect, test } from 'vitest';
import { auditStock } from '#features/stores/audit/service.ts';
import { openShop, takeIn } from '../support/shop.ts';
import { addLot, addPart, demand, expectBooksToAgree } from '../support/stores.ts';

const shop = await openShop();
const { sql } = shop;
afterAll(shop.close);

/** Does to the books what no statement of the service can: changes a kept figure with no movement behind it. */
async function tamper(table: string, statement: (table: string) => string): Promise<void> {
  await sql.begin(async (transaction) => {
    await transaction.unsafe(`alter table ${table} disable trigger user`);
    await transaction.unsafe(statement(table));
    await transaction.unsafe(`alter table ${table} enable trigger user`);
  });
}

test('books that were tampered with are found out, each figure with its part, its place and both sums', async () => {
  const part = await addPart(sql, { name: 'Head gasket' });
  const lotId = await addLot(shop, { partId: part.id, quantity: 9, valueMinor: 900 });
  const job = await takeIn(shop, { serial: 'AUDIT-1' });
  const lines = await demand(shop, job.jobId, [[part.id, 2]]);
  await shop.as.technician.post(`/api/jobs/${job.jobId}/reservations`, { allOrNothing: true });
  await expectBooksToAgree(sql);

  await tamper('stock_lot', (table) => `update ${table} set on_hand = 11 where id = '${lotId}'`);
  const told = (await auditStock(sql)).differences;
  expect(told).toContainEqual(
    expect.objectContaining({ what: 'on hand, against its movements', part: part.number, kept: 11, counted: 9 }),
  );
  expect(told).toContainEqual(
    expect.objectContaining({ what: 'pieces that are valued, against its lots', kept: 9, counted: 11 }),
  );
  await tamper('stock_lot', (table) => `update ${table} set on_hand = 9 where id = '${lotId}'`);
  await expectBooksToAgree(sql);

  await tamper('part_value', (table) => `update ${table} set value_minor = 901 where part_id = '${part.id}'`);
  expect((await auditStock(sql)).differences).toMatchObject([
    { what: 'value in minor units, against its movements', part: part.number, kept: 901, counted: 900 },
  ]);
  await tamper('part_value', (table) => `update ${table} set value_minor = 900 where part_id = '${part.id}'`);

  await tamper(
    'reservation',
    (table) => `update ${table} set quantity = 1 where demand_line_id = '${lines.get(part.id)}'`,
  );
  expect((await auditStock(sql)).differences.map(({ what }) => what).toSorted()).toEqual([
    'reserved for the job, against its reservations',
    'reserved, against its reservations',
  ]);
  await tamper(
    'reservation',
    (table) => `update ${table} set quantity = 2 where demand_line_id = '${lines.get(part.id)}'`,
  );

  await tamper('stock_movement', (table) => `delete from ${table} where lot_id = '${lotId}' and act = 'reserve'`);
  expect((await auditStock(sql)).differences).toMatchObject([
    { what: 'reserved, against its movements', part: part.number, kept: 2, counted: 0 },
  ]);
});
