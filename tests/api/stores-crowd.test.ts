import { afterAll, expect, test } from 'vitest';
import { openShop, takeIn } from '../support/shop.ts';
import { addLot, addPart, demand, expectBooksToAgree, lotNow } from '../support/stores.ts';

const shop = await openShop();
const { sql } = shop;
const { technician, clerk } = shop.as;
await sql`update bay set capacity = 100 where id = ${shop.bays.rack}`;
afterAll(shop.close);

/** So many jobs, each wanting the same parts. */
async function jobsWanting(count: number, prefix: string, lines: readonly (readonly [string, number])[]) {
  const jobs: string[] = [];
  for (let index = 0; index < count; index += 1) {
    const { jobId } = await takeIn(shop, { serial: `${prefix}-${index}` });
    await demand(shop, jobId, lines);
    jobs.push(jobId);
  }
  return jobs;
}
const ask = (jobId: string, allOrNothing = true) =>
  technician.post(`/api/jobs/${jobId}/reservations`, { allOrNothing });

test('of 30 that ask for the last one at once exactly one gets it; the others have a named shortage', async () => {
  const part = await addPart(sql, { name: 'Crank bearing set' });
  const lotId = await addLot(shop, { partId: part.id, quantity: 1 });
  const jobs = await jobsWanting(30, 'LAST', [[part.id, 1]]);
  const answers = await Promise.all(jobs.map((jobId) => ask(jobId)));
  expect(answers.map(({ status }) => status)).toEqual(Array(30).fill(200));
  expect(answers.filter(({ body }) => body.complete)).toHaveLength(1);
  const losers = answers.filter(({ body }) => !body.complete);
  for (const { body } of losers) {
    expect(body.shortages).toMatchObject([{ part: { name: 'Crank bearing set' }, available: 0, missing: 1 }]);
  }
  expect(await lotNow(sql, lotId)).toMatchObject({ onHand: 1, reserved: 1 });
  const [short] = await sql`select count(*)::int as lines from demand_line where part_id = ${part.id} and short = 1`;
  expect(short?.lines).toBe(29);
  await expectBooksToAgree(sql);
}, 120_000);

test('8 kits over the same lots, in all orders, promise nothing twice and never break', async () => {
  const parts = [await addPart(sql), await addPart(sql), await addPart(sql)].map(({ id }) => id);
  for (const partId of parts) {
    await addLot(shop, { partId, quantity: 3 });
    await addLot(shop, { partId, quantity: 4 });
  }
  const forward = parts.map((id) => [id, 2] as const);
  const jobs = [...(await jobsWanting(4, 'KIT-A', forward)), ...(await jobsWanting(4, 'KIT-B', forward.toReversed()))];
  const answers = await Promise.all(jobs.map((jobId) => ask(jobId)));
  expect(answers.map(({ status }) => status)).toEqual(Array(8).fill(200));
  // Seven of each on the shelf, two a kit: three whole kits, and one piece of each left over.
  expect(answers.filter(({ body }) => body.complete)).toHaveLength(3);
  const lots = await sql<{ onHand: number; reserved: number }[]>`
    select sum(on_hand)::int as "onHand", sum(reserved)::int as reserved from stock_lot
    where part_id = any(${parts}) group by part_id`;
  expect(lots.map(({ reserved }) => reserved)).toEqual([6, 6, 6]);
  await expectBooksToAgree(sql);
}, 120_000);

test('asking, issuing, releasing, cancelling and counting at once leave the books in agreement, without one error', async () => {
  const parts = [await addPart(sql), await addPart(sql)].map(({ id }) => id);
  const lots: string[] = [];
  for (const partId of parts) {
    lots.push(await addLot(shop, { partId, quantity: 6 }), await addLot(shop, { partId, quantity: 6 }));
  }
  const jobs = await jobsWanting(
    6,
    'MIX',
    parts.map((id) => [id, 3] as const),
  );
  const lines = await sql<
    { id: string }[]
  >`select id from demand_line where job_id = any(${jobs}) order by part_id, id`;
  const soon = () => new Date(Date.now() + 1_500).toISOString();
  const statuses: number[] = [];
  for (let round = 0; round < 4; round += 1) {
    const answers = await Promise.all([
      ...jobs.map((jobId, index) =>
        technician.post(`/api/jobs/${jobId}/reservations`, {
          allOrNothing: index % 2 === 0,
          ...(index % 3 === 0 ? { expiresAt: soon() } : {}),
        }),
      ),
      ...lots.map((lotId, index) =>
        clerk.post('/api/stock-movements', {
          act: 'count',
          lotId,
          counted: 3 + ((index + round) % 3),
          reason: 'count',
        }),
      ),
      ...lines.map(({ id }, index) => {
        if (index % 3 === 0) return clerk.post(`/api/demand-lines/${id}/issue`, { quantity: 1 });
        if (index % 3 === 1) return clerk.post(`/api/demand-lines/${id}/release`, { quantity: 1 });
        return technician.post(`/api/demand-lines/${id}/cancel`, { quantity: 1, words: 'not needed' });
      }),
    ]);
    statuses.push(...answers.map(({ status }) => status));
    await expectBooksToAgree(sql);
  }
  // Pieces may be gone by the time they are asked for (409): refused, never broken.
  expect(statuses.filter((status) => ![200, 201, 409].includes(status))).toEqual([]);
  expect(statuses.filter((status) => status === 200).length).toBeGreaterThan(10);
}, 120_000);
