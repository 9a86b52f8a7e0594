import { afterAll, expect, test } from 'vitest';
import { openShop, secondServer, takeIn } from '../support/shop.ts';
import { addLot, addPart, demand, expectBooksToAgree } from '../support/stores.ts';

const shop = await openShop();
const other = await secondServer(shop);
const { sql } = shop;
await sql`update bay set capacity = 100`;
afterAll(async () => {
  await other.close();
  await shop.close();
});

const rooms = ['rack', 'strip', 'measuring', 'assembly'] as const;
test('of 200 who ask for the last one at two processes at once exactly one gets it, the rest are short by name', async () => {
  const part = await addPart(sql, { name: 'Crank bearing set' });
  await addLot(shop, { partId: part.id, quantity: 1 });
  const jobs: string[] = [];
  for (let batch = 0; batch < 10; batch += 1) {
    const taken = await Promise.all(
      Array.from({ length: 20 }, (_, at) =>
        takeIn(shop, { serial: `LAST-${batch}-${at}`, bay: rooms[batch % rooms.length] ?? 'rack' }),
      ),
    );
    await Promise.all(taken.map(({ jobId }) => demand(shop, jobId, [[part.id, 1]])));
    jobs.push(...taken.map(({ jobId }) => jobId));
  }
  const answers = await Promise.all(
    jobs.map((jobId, at) =>
      (at % 2 === 0 ? shop : other).as.technician.post(`/api/jobs/${jobId}/reservations`, { allOrNothing: true }),
    ),
  );
  expect(new Set(answers.map(({ status }) => status))).toEqual(new Set([200]));
  expect(answers.filter(({ body }) => body.complete)).toHaveLength(1);
  const [short] = await sql`select count(*)::int as lines from demand_line where part_id = ${part.id} and short = 1`;
  expect(short?.lines).toBe(199);
  await expectBooksToAgree(sql);
}, 120_000);
