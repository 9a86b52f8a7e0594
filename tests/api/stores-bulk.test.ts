import { afterAll, expect, test } from 'vitest';
import { newId } from '#platform/act.ts';
import { openShop } from '../support/shop.ts';
import { addPart } from '../support/stores.ts';

const shop = await openShop();
const { sql, vendorId } = shop;
const { clerk, technician } = shop.as;
afterAll(shop.close);

const points = (ids: readonly string[]) =>
  sql`select number, reorder_point as "reorderPoint" from part where id = any(${ids}::uuid[]) order by number`;

test('several parts change in one recorded act, and what would change is told before', async () => {
  const [a, b, c] = [await addPart(sql), await addPart(sql, { reorderPoint: 4 }), await addPart(sql)];
  const asked = { partIds: [a.id, b.id], reorderPoint: 4, vendorId };
  const [vendor] = await sql<{ name: string }[]>`select name from vendor where id = ${vendorId}`;
  const would = await clerk.post('/api/parts/changes/check', asked);
  expect(would.body).toEqual({
    items: [
      {
        part: expect.objectContaining({ id: a.id }),
        changes: [
          { fact: 'reorderPoint', from: '0', to: '4' },
          { fact: 'vendor', from: '', to: vendor?.name },
        ],
      },
      { part: expect.objectContaining({ id: b.id }), changes: [{ fact: 'vendor', from: '', to: vendor?.name }] },
    ],
    unchanged: 0,
  });
  expect((await points([a.id]))[0]).toMatchObject({ reorderPoint: 0 });
  const events = () => sql<{ data: { parts: unknown[] } }[]>`select data from event where kind = 'parts.changed'`;
  const before = (await events()).length;
  expect((await clerk.post('/api/parts/changes', asked)).body).toEqual(would.body);
  expect(await points([a.id, b.id, c.id])).toMatchObject([
    { reorderPoint: 4 },
    { reorderPoint: 4 },
    { reorderPoint: 0 },
  ]);
  const kept = await events();
  expect(kept).toHaveLength(before + 1);
  expect(kept.at(-1)?.data.parts).toHaveLength(2);
  const buying = (await clerk.get('/api/stores/to-buy')).body.vendors;
  const group = buying.find((one: { vendor: { id: string } | null }) => one.vendor?.id === vendorId);
  expect(group.lines.map((line: { part: { id: string } }) => line.part.id)).toEqual(
    expect.arrayContaining([a.id, b.id]),
  );
  expect((await clerk.post('/api/parts/changes/check', asked)).body).toEqual({ items: [], unchanged: 2 });
});

test('a part nobody knows, an unknown vendor, no fact at all: refused, and no part is changed', async () => {
  const part = await addPart(sql);
  const unknown = await clerk.post('/api/parts/changes', { partIds: [part.id, newId()], reorderPoint: 9 });
  expect(unknown.status).toBe(404);
  expect(unknown.body.errors).toEqual([{ pointer: '/partIds/1', detail: 'is no part that is known here' }]);
  const partIds = [part.id];
  expect((await clerk.post('/api/parts/changes', { partIds, reorderPoint: 9, vendorId: newId() })).status).toBe(404);
  expect((await clerk.post('/api/parts/changes', { partIds })).status).toBe(422);
  expect((await clerk.post('/api/parts/changes', { partIds, reorderPoint: -1 })).status).toBe(400);
  expect((await technician.post('/api/parts/changes', { partIds, reorderPoint: 9 })).status).toBe(403);
  expect((await points(partIds))[0]).toMatchObject({ reorderPoint: 0 });
});
