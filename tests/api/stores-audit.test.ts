import { readFileSync } from 'node:fs';
import { afterAll, expect, test } from 'vitest';
import { auditStock } from '#features/stores/audit/service.ts';
import { openShop, takeIn } from '../support/shop.ts';
import { addBin, addLot, addPart, demand, expectBooksToAgree } from '../support/stores.ts';

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

test('cores that were left twice by a piece that was sent back and replaced are named, and lifted where it is plain', async () => {
  const bin = await addBin(sql);
  const bought = async () => {
    const part = await addPart(sql);
    await sql`update part set core_minor = 8000 where id = ${part.id}`;
    const ordered = await shop.as.clerk.post('/api/purchase-lines', {
      vendorId: shop.vendorId,
      partId: part.id,
      quantity: 2,
    });
    const lineId: string = ordered.body.id;
    const receive = (quantity: number) =>
      shop.as.clerk.post('/api/receipts', { partId: part.id, binId: bin.id, quantity, purchaseLineId: lineId });
    const { body } = await receive(2);
    return { part, lineId, lotId: body.lotId as string, receive };
  };
  const again = (lineId: string) =>
    sql`insert into core_owed (id, purchase_line_id, quantity, charge_minor) values (${crypto.randomUUID()}, ${lineId}, 1, 8000)`;
  const named = async () =>
    (await auditStock(sql)).differences
      .filter(({ what }) => what === 'cores owed, against the pieces that came')
      .map(({ part, kept, counted }) => [part, kept, counted]);
  const sent = await bought();
  const fault = { kind: 'sent back', quantity: 1, lotId: sent.lotId, words: 'cracked' };
  expect((await shop.as.clerk.post(`/api/purchase-lines/${sent.lineId}/faults`, fault)).status).toBe(201);
  expect((await sent.receive(1)).status).toBe(201);
  const unexplained = await bought();
  expect(await named()).toEqual([]);
  await again(sent.lineId);
  await again(unexplained.lineId);
  expect((await named()).toSorted()).toEqual(
    [
      [sent.part.number, 3, 2],
      [unexplained.part.number, 3, 2],
    ].toSorted(),
  );
  const mend = readFileSync('prisma/migrations/20261128015000_doubled_cores/migration.sql', 'utf8');
  await sql.unsafe(mend);
  await sql.unsafe(mend);
  expect(await named()).toEqual([[unexplained.part.number, 3, 2]]);
  const lifted = await sql`
    select l.quantity, l.lifted_by_id from core_lifted l join core_owed c on c.id = l.core_id
    where c.purchase_line_id = ${sent.lineId} and l.words like 'owed twice%'`;
  expect(lifted.map((row) => ({ ...row }))).toEqual([{ quantity: 1, lifted_by_id: shop.people.clerk }]);
});
