import { afterAll, describe, expect, test } from 'vitest';
import { openShop } from '../support/shop.ts';
import { addBin, addLot, addPart } from '../support/stores.ts';

const shop = await openShop();
const { sql } = shop;
const { clerk, technician } = shop.as;
afterAll(shop.close);

const bins: { id: string; code: string }[] = [];
for (let at = 0; at < 7; at += 1) bins.push(await addBin(sql, at === 3));
const [first, second] = bins as [{ id: string; code: string }, { id: string; code: string }];
// Two at one place of the walk: the code tells which is first.
await sql`update bin set walk_order = (select walk_order from bin where id = ${first.id}) where id = ${second.id}`;

interface Page {
  readonly items: readonly { readonly id: string; readonly code: string }[];
  readonly next: string | null;
}
const page = async (query: string): Promise<Page> => (await clerk.get(`/api/stores/bins?${query}`)).body;
const found = async (search: string) =>
  (await page(`search=${encodeURIComponent(search)}`)).items.map(({ code }) => code);

describe('the bins', () => {
  test('come page by page in the order of the walk, none twice and none left out, closed ones too', async () => {
    const seen: string[] = [];
    let after = '';
    for (let pages = 0; pages < 9; pages += 1) {
      const { items, next }: Page = await page(`limit=2${after}`);
      expect(items.length).toBeLessThanOrEqual(2);
      seen.push(...items.map(({ id }) => id));
      if (next === null) break;
      after = `&after=${next}`;
    }
    expect(seen).toEqual(bins.map(({ id }) => id));
    const whole = await page('limit=200');
    expect(whole.items.map(({ id }) => id)).toEqual(seen);
    expect(whole.next).toBeNull();
    expect(whole.items.find(({ id }) => id === bins[3]?.id)).toMatchObject({ closed: true });
  });

  test('go on where the last page ended, also where that bin was moved in the walk', async () => {
    const { next } = await page('limit=2');
    await sql`update bin set walk_order = 9000 where id = ${next}`;
    expect((await page(`after=${next}`)).items).toEqual([]);
    await sql`update bin set walk_order = (select walk_order from bin where id = ${first.id}) where id = ${next}`;
    const wrong = await clerk.get(`/api/stores/bins?after=${crypto.randomUUID()}`);
    expect([wrong.status, wrong.body.detail]).toEqual([400, expect.stringContaining('what the last page gave')]);
    expect((await clerk.get('/api/stores/bins?limit=0')).status).toBe(400);
  });

  test('are found by code, or by a part that lies in them, with how much lies in each', async () => {
    const ring = await addPart(sql, { name: 'Ring set', number: 'H355-R' });
    const pin = await addPart(sql, { name: 'Gudgeon pin' });
    await addLot(shop, { partId: ring.id, quantity: 3, binId: first.id });
    await addLot(shop, { partId: ring.id, quantity: 2, binId: first.id });
    await addLot(shop, { partId: pin.id, quantity: 4, binId: first.id });
    await addLot(shop, { partId: pin.id, quantity: 1, binId: second.id });
    expect(await found(first.code.toLowerCase())).toEqual([first.code]);
    expect(await found('h355-r')).toEqual([first.code]);
    expect(await found('pin GUDG')).toEqual([first.code, second.code]);
    expect(await found(`pin ${second.code}`)).toEqual([second.code]);
    expect(await found('%')).toEqual([]);
    const { items } = await page(`search=${first.code}`);
    expect(items).toMatchObject([{ parts: 2, pieces: 9, reserved: 0 }]);
    expect((await technician.get('/api/stores/bins')).status).toBe(200);
  });
});
