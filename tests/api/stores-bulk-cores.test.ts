import { afterAll, expect, test } from 'vitest';
import { openShop } from '../support/shop.ts';
import { addBin, addPart } from '../support/stores.ts';

const shop = await openShop();
const { sql } = shop;
const { clerk, technician } = shop.as;
afterAll(shop.close);

/** A core that is owed for each of so many parts that came in. */
async function owed(count: number): Promise<string[]> {
  const bin = await addBin(sql);
  const parts = [];
  for (let at = 0; at < count; at += 1) {
    const part = await addPart(sql);
    await sql`update part set core_minor = 8000 where id = ${part.id}`;
    parts.push(part.id);
  }
  const { body: order } = await clerk.post('/api/purchase-orders', {
    vendorId: shop.vendorId,
    lines: parts.map((partId) => ({ partId, quantity: 1 })),
  });
  const lines = order.lines.map(({ id }: { id: string }) => ({ purchaseLineId: id, binId: bin.id, quantity: 1 }));
  expect((await clerk.post('/api/deliveries', { lines })).status).toBe(201);
  const { body } = await clerk.get('/api/cores');
  return parts.map((partId) => body.items.find((core: { part: { id: string } }) => core.part.id === partId).id);
}
const marks = async (coreIds: readonly string[]) =>
  (
    await sql<{ marks: string[] }[]>`
      select coalesce(array_agg(m.mark order by m.mark) filter (where m.mark is not null), '{}') as marks
      from unnest(${coreIds}::uuid[]) with ordinality g (id, at) left join core_mark m on m.core_id = g.id group by g.at order by g.at`
  ).map((row) => row.marks);

test('several cores are marked in one act, each as if marked alone; a check keeps nothing', async () => {
  const coreIds = await owed(3);
  expect((await clerk.post(`/api/cores/${coreIds[1]}/marks`, { mark: 'sent' })).status).toBe(201);
  const asked = { coreIds, mark: 'sent', words: 'box 12' };
  const would = (await clerk.post('/api/cores/changes/check', asked)).body;
  expect(would).toMatchObject({
    items: [
      { core: { id: coreIds[0], quantity: 1 }, changes: [{ fact: 'state', from: 'owed', to: 'sent' }] },
      { core: { id: coreIds[2] } },
    ],
    unchanged: 1,
  });
  expect(await marks(coreIds)).toEqual([[], ['sent'], []]);
  const done = await clerk.post('/api/cores/changes', asked);
  expect([done.status, done.body]).toEqual([201, would]);
  expect(await marks(coreIds)).toEqual([['sent'], ['sent'], ['sent']]);
  expect((await sql`select from event where kind = 'core.marked'`).length).toBe(3);
  expect((await sql`select from core_mark where words = 'box 12'`).length).toBe(2);
  expect((await clerk.post('/api/cores/changes', asked)).body).toEqual({ items: [], unchanged: 3 });
});

test('one that is unknown, credited or not owed any more is named, and none of them is marked', async () => {
  const coreIds = await owed(2);
  const refusal = async (ids: readonly string[], by = clerk) => {
    const { status, body } = await by.post('/api/cores/changes', { coreIds: ids, mark: 'sent' });
    return [status, body.errors?.map(({ pointer }: { pointer: string }) => pointer)];
  };
  expect((await refusal(coreIds, technician))[0]).toBe(403);
  expect(await refusal([...coreIds, crypto.randomUUID()])).toEqual([404, ['/coreIds/2']]);
  await clerk.post(`/api/cores/${coreIds[1]}/marks`, { mark: 'credited' });
  expect(await refusal(coreIds)).toEqual([422, ['/coreIds/1']]);
  expect(await marks(coreIds)).toEqual([[], ['credited']]);
});

test('two who mark the same cores at one time both get through, and each is marked once', async () => {
  const coreIds = await owed(3);
  const turns = Array.from({ length: 6 }, (_, at) =>
    clerk.post('/api/cores/changes', { coreIds: at % 2 === 0 ? coreIds : coreIds.toReversed(), mark: 'sent' }),
  );
  expect((await Promise.all(turns)).map(({ status }) => status)).toEqual(turns.map(() => 201));
  expect(await marks(coreIds)).toEqual([['sent'], ['sent'], ['sent']]);
});
