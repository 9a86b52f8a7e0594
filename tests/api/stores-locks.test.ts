import { afterAll, expect, test } from 'vitest';
import { lockUntilItStands } from '#features/stores/movements/locking.ts';
import { makeRound } from '#features/stores/reservations/clock.ts';
import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { openShop, takeIn } from '../support/shop.ts';
import { addBin, addLot, addPart, demand, expectBooksToAgree, none, standing } from '../support/stores.ts';

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

/** Does something while whoever plans a reservation has read what serves a part and not yet reserved of it. */
async function betweenPlanAndPromise(plan: () => Promise<unknown>, meanwhile: () => Promise<unknown>): Promise<void> {
  const holder = await sql.reserve();
  await holder`begin`;
  try {
    await holder`lock table reservation in share mode`;
    const planned = plan();
    const waiting = async () =>
      (
        await sql`select from pg_locks where relation = 'reservation'::regclass and not granted
                  and database = (select oid from pg_database where datname = current_database())`
      ).length;
    await expect.poll(waiting, { timeout: 8000, message: 'somebody about to reserve' }).toBe(1);
    await meanwhile();
    await holder`commit`;
    await planned;
  } finally {
    await holder`rollback`;
    holder.release();
  }
}

test.each(['whoever asks', 'the round that serves who waits'] as const)(
  'a replacement that is taken back while %s was about to reserve of it: planned anew, and short',
  async (who) => {
    const [old, replacing] = [await addPart(sql), await addPart(sql)];
    await clerk.post(`/api/parts/${old.id}/supersession`, { byPartId: replacing.id, oldStock: 'use up' });
    const { jobId } = await takeIn(shop, { serial: who === 'whoever asks' ? 'UNTIED-1' : 'UNTIED-2' });
    await demand(shop, jobId, [[old.id, 2]]);
    const ask = () => clerk.post(`/api/jobs/${jobId}/reservations`, { allOrNothing: false });
    if (who !== 'whoever asks') await ask();
    await addLot(shop, { partId: replacing.id, quantity: 2 });
    await betweenPlanAndPromise(
      async () => {
        if (who !== 'whoever asks') return makeRound(sql);
        const { status, body } = await ask();
        expect(status, JSON.stringify(body)).toBe(200);
        return body;
      },
      async () => {
        const { status } = await clerk.post(`/api/parts/${old.id}/supersession/withdraw`, {
          reason: 'it does not fit',
        });
        expect(status).toBe(200);
      },
    );
    expect(await standing(shop, jobId, old.id)).toEqual({ ...none, short: 2 });
    await expectBooksToAgree(sql);
  },
);

test('who waits for a row that is let go of and locked anew gets it in between, and waits for nobody in a circle', async () => {
  const { engineId } = await takeIn(shop, { serial: 'LOCKED-ANEW' });
  const lock = (theirs: Sql) => theirs`select from engine where id = ${engineId} for update`;
  const waiting = async () =>
    (
      await sql`select from pg_stat_activity where datname = current_database() and wait_event_type = 'Lock'
                  and query ilike '%from engine where id = % for update%'`
    ).length;
  const others: Promise<unknown>[] = [];
  const third = await sql.reserve();
  let tries = 0;
  await sql
    .begin(async (own) => {
      await lockUntilItStands(own, { name: 'outer', busy: '' }, async () => {
        tries += 1;
        if (tries === 2) {
          // Somebody comes along while it is free, and goes again once we wait for it.
          await third`begin`;
          await lock(third);
          others.push(
            expect
              .poll(waiting, { timeout: 8000 })
              .toBeGreaterThan(0)
              .finally(() => third`commit`),
          );
        }
        await lockUntilItStands(own, { name: 'inner', busy: '' }, async () => [...(await lock(own))]);
        if (tries === 2) return true;
        others.push(sql.begin(lock));
        await expect.poll(waiting, { timeout: 8000 }).toBe(1);
        return undefined;
      });
    })
    .finally(() => Promise.allSettled(others));
  third.release();
  await Promise.all(others);
  expect(tries).toBe(2);
});
