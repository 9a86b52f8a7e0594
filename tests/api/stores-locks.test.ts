import { afterAll, expect, test } from 'vitest';
import { newId } from '#platform/act.ts';
import { openShop, takeIn } from '../support/shop.ts';
import { addBin, addPart, demand, expectBooksToAgree, none, standing } from '../support/stores.ts';

const shop = await openShop();
const { sql } = shop;
const { clerk } = shop.as;
await sql`update bay set capacity = 100 where id = ${shop.bays.rack}`;
afterAll(shop.close);

const deadlocks = async (): Promise<number> => {
  await sql`select pg_stat_clear_snapshot()`;
  const [row] = await sql<{ broken: number }[]>`
    select deadlocks::int as broken from pg_stat_database where datname = current_database()`;
  return row?.broken ?? 0;
};

/** Two lots that are alike but for their bin, of which the one made first lies in the bin named second. */
async function alike(partId: string, binIds: readonly [string, string], quantity: number) {
  const [first, second] = [newId(), newId()];
  const receivedAt = '2026-05-04T09:00:00Z';
  for (const [id, binId] of [
    [first, binIds[1]],
    [second, binIds[0]],
  ] as const) {
    await sql`insert into stock_lot (id, part_id, bin_id, code, received_at) values (${id}, ${partId}, ${binId}, '', ${receivedAt})`;
    const { status } = await clerk.post('/api/stock-movements', { act: 'receive', lotId: id, quantity });
    expect(status).toBe(201);
  }
  return { first, second };
}

test('pieces that come back into another bin while others are carried the other way wait for nobody in a circle', async () => {
  const [near, far] = [await addBin(sql), await addBin(sql)];
  const part = await addPart(sql);
  const { first, second } = await alike(part.id, [near.id, far.id], 40);
  const lines: { readonly jobId: string; readonly line: string }[] = [];
  for (let at = 0; at < 4; at += 1) {
    const { jobId } = await takeIn(shop, { serial: `LOCKS-${at}` });
    const line = (await demand(shop, jobId, [[part.id, 10]])).get(part.id) ?? '';
    // Out of the lot that was made last, so that its like is the one that every lock takes first.
    const chosen = { lotId: second, quantity: 10, reason: 'it lies in front' };
    expect((await clerk.post(`/api/demand-lines/${line}/reserve-of-lot`, chosen)).status).toBe(200);
    expect((await clerk.post(`/api/demand-lines/${line}/issue`, { quantity: 10 })).status).toBe(200);
    lines.push({ jobId, line });
  }
  const before = await deadlocks();
  const back = lines.map(async ({ line }) => {
    for (let turn = 0; turn < 10; turn += 1) {
      const { status, body } = await clerk.post(`/api/demand-lines/${line}/return`, {
        quantity: 1,
        binId: far.id,
      });
      expect(status, JSON.stringify(body)).toBe(200);
    }
  });
  const carried = [1, 2, 3, 4].map(async () => {
    for (let turn = 0; turn < 10; turn += 1) {
      const move = { act: 'transfer', lotId: first, quantity: 1, toBinId: near.id };
      const { status, body } = await clerk.post('/api/stock-movements', move);
      expect(status, JSON.stringify(body)).toBe(201);
    }
  });
  await Promise.all([...back, ...carried]);
  // PostgreSQL tells of what it broke a moment later.
  await new Promise((resolve) => setTimeout(resolve, 1500));
  expect((await deadlocks()) - before).toBe(0);
  for (const { jobId } of lines) expect(await standing(shop, jobId, part.id)).toEqual({ ...none, cancelled: 10 });
  await expectBooksToAgree(sql);
}, 120_000);
