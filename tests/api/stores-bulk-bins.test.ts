import { afterAll, describe, expect, test } from 'vitest';
import { openShop } from '../support/shop.ts';
import { addBin, addLot, addPart } from '../support/stores.ts';

const shop = await openShop();
const { sql } = shop;
const { clerk, technician } = shop.as;
afterAll(shop.close);

const three = async () => [await addBin(sql), await addBin(sql), await addBin(sql)] as const;
const standing = async (ids: readonly string[]) =>
  (
    await sql`select b.walk_order as walk, b.closed_at is not null as closed from unnest(${ids}::uuid[]) with ordinality g (id, at)
      join bin b on b.id = g.id order by g.at`
  ).map(({ walk, closed }) => [walk, closed]);

describe('several bins changed in one act', () => {
  test('come to their places in the order named and are closed; a check keeps nothing, the same again changes nothing', async () => {
    const bins = await three();
    const binIds = bins.map(({ id }) => id);
    const before = await standing(binIds);
    const asked = { binIds: binIds.toReversed(), walk: { from: 7000, step: 5 }, closed: true };
    const would = (await clerk.post('/api/bins/changes/check', asked)).body;
    expect(would.unchanged).toBe(0);
    expect(would.items[0]).toMatchObject({
      bin: { code: bins[2].code },
      changes: [{ to: '7000' }, { from: 'no', to: 'yes' }],
    });
    expect(await standing(binIds)).toEqual(before);
    const done = await clerk.post('/api/bins/changes', asked);
    expect([done.status, done.body]).toEqual([201, would]);
    expect(await standing(binIds)).toEqual([
      [7010, true],
      [7005, true],
      [7000, true],
    ]);
    expect((await clerk.post('/api/bins/changes', asked)).body).toEqual({ items: [], unchanged: 3 });
    expect((await clerk.post('/api/bins/changes', { binIds, closed: false })).body.items).toHaveLength(3);
    const [event] = await sql`select data from event where kind = 'bins.changed' order by recorded_at limit 1`;
    expect(event?.data.bins[0].code).toBe(bins[2].code);
  });

  test('one that is counted, unknown or beyond the last place is named, and none of them is changed', async () => {
    const bins = await three();
    const binIds = bins.map(({ id }) => id);
    const before = await standing(binIds);
    await addLot(shop, { partId: (await addPart(sql)).id, quantity: 2, binId: bins[1].id });
    const { body: sheet } = await clerk.post('/api/count-sheets', { binIds: [bins[1].id] });
    const pointers = async (asked: object) => {
      const { status, body } = await clerk.post('/api/bins/changes', { binIds, ...asked });
      return [status, body.errors?.map(({ pointer }: { pointer: string }) => pointer), body.detail] as const;
    };
    const [status, at, detail] = await pointers({ closed: true });
    expect([status, at]).toEqual([422, ['/binIds/1']]);
    expect(detail).toContain(`${bins[1].code} is being counted on sheet ${sheet.number}`);
    expect((await pointers({ walk: { from: 999_995, step: 10 } })).slice(0, 2)).toEqual([
      422,
      ['/binIds/1', '/binIds/2'],
    ]);
    expect((await pointers({ binIds: [binIds[0], crypto.randomUUID()], closed: true })).slice(0, 2)).toEqual([
      404,
      ['/binIds/1'],
    ]);
    expect((await pointers({}))[0]).toBe(422);
    expect((await technician.post('/api/bins/changes', { binIds, closed: true })).status).toBe(403);
    expect(await standing(binIds)).toEqual(before);
  });

  test('one that is being counted is closed in no way, and one who counts and one who closes never both get through', async () => {
    const bins = await three();
    const { body: sheet } = await clerk.post('/api/count-sheets', { binIds: [bins[0].id] });
    const alone = await clerk.post(`/api/bins/${bins[0].id}/change`, { closed: true });
    expect([alone.status, alone.body.detail]).toEqual([
      409,
      `Bin ${bins[0].code} is being counted on sheet ${sheet.number}: end that first.`,
    ]);
    expect((await clerk.post('/api/bins/import', `code,closed\n${bins[0].code},yes\n`)).status).toBe(409);
    for (let turn = 0; turn < 12; turn += 1) {
      const { id } = await addBin(sql);
      const answers = await Promise.all([
        clerk.post('/api/count-sheets', { binIds: [id] }),
        clerk.post('/api/bins/changes', { binIds: [id], closed: true }),
        clerk.post(`/api/bins/${id}/change`, { closed: true }),
      ]);
      for (const { status } of answers) expect([200, 201, 409, 422]).toContain(status);
      expect(
        await sql`select from bin b join count_sheet_bin o on o.bin_id = b.id where b.id = ${id} and b.closed_at is not null`,
      ).toEqual([]);
    }
  });
});
