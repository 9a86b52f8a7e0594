import { afterAll, describe, expect, test } from 'vitest';
import { openShop } from '../support/shop.ts';
import { addPart } from '../support/stores.ts';

const shop = await openShop();
const { sql } = shop;
const { clerk, technician } = shop.as;
afterAll(shop.close);
const path = `/api/vendors/${shop.vendorId}/price-list`;
const pricesOf = async (partId: string) => (await clerk.get(`/api/parts/${partId}/supply`)).body.prices;
const priceCount = async () => (await sql<{ n: number }[]>`select count(*)::int as n from vendor_price`)[0]?.n;

describe('a vendor’s price list', () => {
  test('is of the part with our number, else of what they called so before; each price stays with its day', async () => {
    const part = await addPart(sql, { number: 'PL-1' });
    const first = await clerk.post(path, 'their_number;our_number;price;from\r\nV-1;pl-1;33,60;2026-01-01\r\n');
    expect(first.status, JSON.stringify(first.body)).toBe(201);
    expect(first.body).toEqual({ rows: 1, made: 0, prices: 1, unchanged: 0 });
    const second = await clerk.post(`${path}?validFrom=2026-06-01`, 'their_number,price\nv-1,34.10\n');
    expect(second.body).toMatchObject({ prices: 1 });
    expect(await pricesOf(part.id)).toMatchObject([
      { price: { minor: '3410' }, validFrom: '2026-06-01', theirNumber: 'v-1' },
      { price: { minor: '3360' }, validFrom: '2026-01-01', theirNumber: 'V-1' },
    ]);
    const again = await clerk.post(`${path}?validFrom=2026-07-01`, 'their_number,price\nv-1,34.10\n');
    expect(again.body).toEqual({ rows: 1, made: 0, prices: 0, unchanged: 1 });
  });

  test('with unknown parts is refused, or they are made, as the clerk says; what a check tells is what is kept', async () => {
    const list = 'their_number,our_number,name,price\nN-1,PL-NEW-1,Cam cap,5.00\nN-2,,Cam chain,6.00\n';
    const refused = await clerk.post(path, list);
    expect(refused.status).toBe(422);
    expect(refused.body.errors).toEqual([
      { pointer: 'row 2, column our_number', detail: expect.stringContaining('There is no part PL-NEW-1.') },
      { pointer: 'row 3, column their_number', detail: expect.stringContaining('There is no part N-2.') },
    ]);
    const before = await priceCount();
    const checked = await clerk.post(`${path}/check?unknown=make`, list);
    expect(checked.body).toEqual({ rows: 2, made: 2, prices: 2, unchanged: 0 });
    expect(await priceCount()).toBe(before);
    expect((await clerk.get('/api/parts?search=PL-NEW-1')).body.items).toEqual([]);
    expect((await clerk.post(`${path}?unknown=make`, list)).body).toEqual(checked.body);
    const found = (await clerk.get('/api/parts?search=N-2')).body.items;
    expect(found).toMatchObject([{ number: 'N-2', name: 'Cam chain' }]);
  });

  test.each([
    ['a price that is none', 'V-9,PL-2,abc,', 'row 2, column price'],
    ['a day that is none', 'V-9,PL-2,1.00,2026-02-30', 'row 2, column from'],
    ['neither number', ',,1.00,', 'row 2, column their_number'],
    ['the same part twice', 'V-9,PL-2,1.00,\nV-8,pl-2,2.00,', 'row 3, column our_number'],
  ])('with %s is refused with row and column, and nothing of it is kept', async (_what, rows, pointer) => {
    if ((await clerk.get('/api/parts?search=PL-2')).body.items.length === 0) await addPart(sql, { number: 'PL-2' });
    const before = await priceCount();
    const { status, body } = await clerk.post(path, `their_number,our_number,price,from\n${rows}\n`);
    expect(status).toBe(422);
    expect(body.errors[0].pointer).toBe(pointer);
    expect(await priceCount()).toBe(before);
  });

  test('is the clerk’s to take, of a vendor there is', async () => {
    expect((await technician.post(path, 'their_number,price\nV-1,1.00\n')).status).toBe(403);
    const nobody = path.replace(shop.vendorId, '019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5b');
    expect((await clerk.post(nobody, 'their_number,price\nV-1,1.00\n')).status).toBe(404);
  });

  test('of fifty thousand rows is one write, and a single bad row keeps it out', { timeout: 60_000 }, async () => {
    const row = (n: number) => `BIG-${n},,Part ${n},${(n % 900) + 1}.50`;
    const rows = Array.from({ length: 50_000 }, (_, n) => row(n));
    const head = 'their_number,our_number,name,price';
    const bad = await clerk.post(`${path}?unknown=make`, [head, ...rows.with(40_000, 'BIG-40000,,Part,x')].join('\n'));
    expect(bad.body.errors).toEqual([{ pointer: 'row 40002, column price', detail: expect.any(String) }]);
    expect((await clerk.get('/api/parts?search=BIG-49999')).body.items).toEqual([]);
    const { status, body } = await clerk.post(`${path}?unknown=make`, [head, ...rows].join('\n'));
    expect(status).toBe(201);
    expect(body).toEqual({ rows: 50_000, made: 50_000, prices: 50_000, unchanged: 0 });
    expect((await clerk.get('/api/parts?search=BIG-49999')).body.items).toHaveLength(1);
  });
});
