import { afterAll, describe, expect, test } from 'vitest';
import { newId } from '#platform/act.ts';
import { openShop } from '../support/shop.ts';
import { addLot, addPart } from '../support/stores.ts';

const shop = await openShop();
const { sql, vendorId } = shop;
const { clerk } = shop.as;
afterAll(shop.close);

const replace = async (partId: string, byPartId: string, oldStock = 'use up') =>
  expect((await clerk.post(`/api/parts/${partId}/supersession`, { byPartId, oldStock })).status).toBeLessThan(300);

/** A part, the one that replaced it, and the one that replaced that. */
async function chain(levels: readonly [number, number, number] = [0, 0, 0]) {
  const parts = [];
  for (const reorderPoint of levels) parts.push(await addPart(sql, { name: 'Clutch spring', reorderPoint }));
  const [old, mid, newest] = parts as [
    { id: string; number: string },
    { id: string; number: string },
    { id: string; number: string },
  ];
  await replace(old.id, mid.id);
  await replace(mid.id, newest.id);
  return { old, mid, newest };
}
const countLines = async () => (await sql`select count(*)::int as lines from purchase_line`)[0]?.lines;

describe('an order of a part that was replaced', () => {
  test('is refused with what to order instead, and nothing is written', async () => {
    const { old, newest } = await chain();
    const before = await countLines();
    const lines = [
      { partId: newest.id, quantity: 1 },
      { partId: old.id, quantity: 2 },
    ];
    const placed = await clerk.post('/api/purchase-orders', { vendorId, lines });
    expect(placed.status).toBe(422);
    expect(placed.body.detail).toContain(`was replaced by Clutch spring (${newest.number}). Order that, or say why`);
    expect(placed.body.errors).toEqual([
      { pointer: '/lines/1/replacedWhy', detail: `order ${newest.number} instead, or say why ${old.number}` },
    ]);
    const single = await clerk.post('/api/purchase-lines', {
      vendorId,
      partId: old.id,
      quantity: 1,
      replacedWhy: '  ',
    });
    expect(single.status).toBe(400);
    const bare = await clerk.post('/api/purchase-lines', { vendorId, partId: old.id, quantity: 1 });
    expect([bare.status, bare.body.errors[0].pointer]).toEqual([422, '/replacedWhy']);
    expect(await countLines()).toBe(before);
  });

  test('is written when somebody says why, which stays; of a part that was not replaced nothing is kept', async () => {
    const { old, newest } = await chain();
    const replacedWhy = 'the last ones of the old batch, at half the price';
    const lines = [
      { partId: old.id, quantity: 2, replacedWhy },
      { partId: newest.id, quantity: 2, replacedWhy: 'no matter' },
    ];
    const { status, body } = await clerk.post('/api/purchase-orders', { vendorId, lines });
    expect(status, JSON.stringify(body)).toBe(201);
    expect(body.lines.map((line: { replacedWhy: string }) => line.replacedWhy)).toEqual([replacedWhy, '']);
    const single = await clerk.post('/api/purchase-lines', { vendorId, partId: old.id, quantity: 1, replacedWhy });
    expect(single.status).toBe(201);
    expect(await sql`select replaced_reason from purchase_line where id = ${single.body.id}`).toEqual([
      { replaced_reason: replacedWhy },
    ]);
  });

  test('is kept by the database for a reason alone, whoever writes it', async () => {
    const { old, mid } = await chain();
    const written = (why: string | null) => sql`
      insert into purchase_line (id, vendor_id, part_id, quantity, ordered_by_id, replaced_reason)
      values (${newId()}, ${vendorId}, ${old.id}, 1, ${shop.people.clerk}, ${why})`;
    await expect(written(null)).rejects.toThrow(`${old.number} was replaced by ${mid.number}`);
    await expect(written(' ')).rejects.toThrow('purchase_line_replaced_reason');
    await written('asked for by the owner');
  });
});

describe('what runs low, on the board', () => {
  const low = async () => (await clerk.get('/api/stores/board')).body.low as { part: { id: string } }[];
  const rowOf = async (id: string) => (await low()).find(({ part }) => part.id === id);

  test('names what replaced a part, never the part: its level is lent to the newest, less what lies of the old', async () => {
    const { old, mid, newest } = await chain([5, 0, 0]);
    await addLot(shop, { partId: old.id, quantity: 1 });
    await addLot(shop, { partId: newest.id, quantity: 3 });
    expect(await rowOf(newest.id)).toMatchObject({ onHand: 3, reorderPoint: 4 });
    expect([await rowOf(old.id), await rowOf(mid.id)]).toEqual([undefined, undefined]);
    await addLot(shop, { partId: newest.id, quantity: 2 });
    expect(await rowOf(newest.id)).toBeUndefined();
  });

  test('tells of a part that replaced nothing as before, the scarcest first', async () => {
    const [bare, some] = [await addPart(sql, { reorderPoint: 9 }), await addPart(sql, { reorderPoint: 2 })];
    await addLot(shop, { partId: some.id, quantity: 1 });
    const ids = (await low()).map(({ part }) => part.id);
    expect(ids.filter((id) => [bare.id, some.id].includes(id))).toEqual([bare.id, some.id]);
  });
});
