import { afterAll, afterEach, describe, expect, test } from 'vitest';
import { newId } from '#platform/act.ts';
import { openShop } from '../support/shop.ts';
import { addBin, addPart, expectBooksToAgree } from '../support/stores.ts';

const shop = await openShop();
const { sql, vendorId } = shop;
const { clerk } = shop.as;
const bin = await addBin(sql);
afterEach(() => expectBooksToAgree(sql));
afterAll(shop.close);

async function ordered(packSize: number, packs: number) {
  const part = await addPart(sql);
  const line = { partId: part.id, packs, packSize, price: { minor: '1000', currency: 'EUR' } };
  const { status, body } = await clerk.post('/api/purchase-orders', { vendorId, lines: [line] });
  expect(status, JSON.stringify(body)).toBe(201);
  return { orderId: body.id as string, lineId: body.lines[0].id as string, partId: part.id };
}
const deliver = (purchaseLineId: string, came: object) =>
  clerk.post('/api/deliveries', { lines: [{ purchaseLineId, binId: bin.id, quantity: 0, ...came }] });
const lineNow = async (orderId: string) => (await clerk.get(`/api/purchase-orders/${orderId}`)).body.lines[0];
const factsOf = async (orderId: string) =>
  (await lineNow(orderId)).facts.map(({ kind, quantity, keyed }: { kind: string; quantity: number; keyed: object }) => [
    kind,
    quantity,
    keyed,
  ]);

describe('how something was keyed', () => {
  test('stays with what came: packs, loose, or both; of a single receipt too', async () => {
    const { orderId, lineId, partId } = await ordered(10, 6);
    expect((await deliver(lineId, { packs: 2 })).status).toBe(201);
    expect((await deliver(lineId, { quantity: 10 })).status).toBe(201);
    expect((await deliver(lineId, { packs: 1, quantity: 4 })).status).toBe(201);
    const single = { partId, binId: bin.id, purchaseLineId: lineId, quantity: 6, packs: 1 };
    expect((await clerk.post('/api/receipts', single)).status).toBe(201);
    expect(await factsOf(orderId)).toEqual([
      ['received', 20, { packs: 2, loose: 0 }],
      ['received', 10, { packs: 0, loose: 10 }],
      ['received', 14, { packs: 1, loose: 4 }],
      ['received', 16, { packs: 1, loose: 6 }],
    ]);
  });

  test('is unknown of pieces that were keyed by serial, one by one', async () => {
    const { orderId, lineId, partId } = await ordered(2, 1);
    await sql`update part set by_serial = true where id = ${partId}`;
    expect((await deliver(lineId, { packs: 1, serials: ['K-1', 'K-2'] })).status).toBe(201);
    expect(await factsOf(orderId)).toEqual([
      ['received', 1, null],
      ['received', 1, null],
    ]);
  });

  test('of what is wrong, damaged or called off too: in packs, in ones, or both', async () => {
    const { orderId, lineId } = await ordered(10, 5);
    const came = {
      packs: 1,
      wrong: { packs: 1, words: 'another size' },
      damaged: { packs: 1, quantity: 3, words: 'box crushed' },
    };
    expect((await deliver(lineId, came)).status).toBe(201);
    const fault = (body: object) => clerk.post(`/api/purchase-lines/${lineId}/faults`, { words: 'so it was', ...body });
    expect((await fault({ kind: 'came damaged', packs: 1 })).status).toBe(201);
    expect((await fault({ kind: 'called off', packs: 2, quantity: 1 })).status).toBe(201);
    expect(await factsOf(orderId)).toEqual([
      ['received', 10, { packs: 1, loose: 0 }],
      ['came wrong', 10, { packs: 1, loose: 0 }],
      ['came damaged', 13, { packs: 1, loose: 3 }],
      ['came damaged', 10, { packs: 1, loose: 0 }],
      ['called off', 21, { packs: 2, loose: 1 }],
    ]);
    expect(await lineNow(orderId)).toMatchObject({ quantity: 29, received: 10 });
    const [told] = await sql<{ wrong: number; damaged: number }[]>`
      select (data->>'wrong')::int as wrong, (data->>'damaged')::int as damaged from event
      where kind = 'delivery.taken' order by recorded_at desc limit 1`;
    expect(told).toEqual({ wrong: 10, damaged: 13 });
    const tooMany = await fault({ kind: 'called off', packs: 2 });
    expect([tooMany.status, tooMany.body.errors[0].pointer]).toEqual([422, '/quantity']);
    expect((await fault({ kind: 'came wrong' })).status).toBe(400);
    expect((await fault({ kind: 'came wrong', packs: 0, quantity: 0 })).status).toBe(400);
    expect((await deliver(lineId, { wrong: { words: 'nothing of it' } })).status).toBe(400);
  });

  test('adds up to what was counted: the database keeps no other', async () => {
    const { lineId } = await ordered(10, 2);
    const told = (quantity: number, packs: number | null, loose: number | null) => sql`
      insert into purchase_fact (id, purchase_line_id, kind, quantity, words, done_by_id, keyed_packs, keyed_loose)
      values (${newId()}, ${lineId}, 'came wrong', ${quantity}, 'odd', ${shop.people.clerk}, ${packs}, ${loose})`;
    await expect(told(11, 1, 0)).rejects.toThrow('1 packs and 0 loose ones are not 11');
    await expect(told(10, 1, null)).rejects.toThrow('purchase_fact_keyed');
    await expect(told(20, 3, -10)).rejects.toThrow('purchase_fact_loose');
    await told(11, 1, 1);
  });
});
