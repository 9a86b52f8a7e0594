import { afterAll, describe, expect, test } from 'vitest';
import { openShop } from '../support/shop.ts';
import { addBin, addLot, addPart, expectBooksToAgree } from '../support/stores.ts';

const shop = await openShop();
const { sql } = shop;
const { technician, clerk } = shop.as;
afterAll(shop.close);
const price = (minor: string, currency = 'EUR') => ({ minor, currency });

describe('a part by hand', () => {
  test('is added with its basics, and changed without losing what is left out', async () => {
    const familyId = shop.sheet.familyId;
    const added = await clerk.post('/api/parts', {
      number: ' PF-1 ',
      name: 'Crush washer 16',
      familyId,
      placeCode: 'cover',
      sizeClass: '+0.25',
      unit: 'pair',
      oneTime: true,
      price: price('45'),
      reorderPoint: 20,
    });
    expect([added.status, added.body.number]).toEqual([201, 'PF-1']);
    const changed = await clerk.post(`/api/parts/${added.body.id}/change`, { reorderPoint: 30, sizeClass: null });
    expect(changed.status).toBe(200);
    const { body } = await clerk.get(`/api/parts/${added.body.id}`);
    expect(body.part).toMatchObject({
      number: 'PF-1',
      name: 'Crush washer 16',
      familyId,
      placeCode: 'cover',
      sizeClass: null,
      unit: 'pair',
      oneTime: true,
      price: price('45'),
      reorderPoint: 30,
      retired: false,
    });
    expect((await clerk.get('/api/parts?search=crush%20PF-1')).body.items).toHaveLength(1);
    await clerk.post(`/api/parts/${added.body.id}/change`, { retired: true });
    expect((await clerk.get(`/api/parts/${added.body.id}`)).body.part.retired).toBe(true);
    await clerk.post(`/api/parts/${added.body.id}/change`, { retired: false });
    expect((await clerk.get(`/api/parts/${added.body.id}`)).body.part.retired).toBe(false);
  });

  test('of ten who add one number at once one adds it, in whatever letters', async () => {
    const answers = await Promise.all(
      Array.from({ length: 10 }, () => clerk.post('/api/parts', { number: 'PF-ONCE', name: 'Seal' })),
    );
    expect(answers.map(({ status }) => status).toSorted()).toEqual([201, ...Array(9).fill(409)]);
    const small = await clerk.post('/api/parts', { number: 'pf-once', name: 'Seal' });
    expect([small.status, small.body.errors?.[0]?.pointer]).toEqual([409, '/number']);
  });

  test('what is wrong is refused at its field, and nothing is kept', async () => {
    const good = { number: 'PF-BAD', name: 'Seal' };
    const wrong: readonly (readonly [object, number, string])[] = [
      [{ ...good, number: ' ' }, 400, '/number'],
      [{ ...good, name: '' }, 400, '/name'],
      [{ ...good, reorderPoint: -1 }, 400, '/reorderPoint'],
      [{ ...good, reorderPoint: 0.5 }, 400, '/reorderPoint'],
      [{ ...good, unit: 'box' }, 400, '/unit'],
      [{ ...good, price: price('5', 'USD') }, 422, '/price'],
      [{ ...good, price: price('-5') }, 422, '/price'],
      [{ ...good, familyId: '019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5b' }, 404, '/familyId'],
    ];
    for (const [body, status, pointer] of wrong) {
      const answer = await clerk.post('/api/parts', body);
      expect([answer.status, answer.body.errors?.[0]?.pointer], JSON.stringify(body)).toEqual([status, pointer]);
    }
    expect(await sql`select from part where number = 'PF-BAD'`).toHaveLength(0);
    expect((await technician.post('/api/parts', good)).status).toBe(403);
    expect((await clerk.post('/api/parts/019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5b/change', { name: 'x' })).status).toBe(
      404,
    );
  });
});

describe('an opening balance', () => {
  test('is tried without keeping anything, then kept as it was told', async () => {
    const part = await addPart(sql);
    const bin = await addBin(sql);
    const text = `part,bin,quantity,value\n${part.number},${bin.code},4,10.00\n${part.number},${bin.code},3,5.01\n`;
    const tried = await clerk.post('/api/stock-opening/check', text);
    expect([tried.status, tried.body]).toEqual([200, { lots: 2, parts: 1, pieces: 7 }]);
    expect(await sql`select from stock_lot where part_id = ${part.id}`).toHaveLength(0);
    const kept = await clerk.post('/api/stock-opening', text);
    expect([kept.status, kept.body]).toEqual([201, tried.body]);
    await expectBooksToAgree(sql);
  });

  test('with faults tells each row and column, tried and kept alike', async () => {
    const [fresh, moved] = [await addPart(sql), await addPart(sql)];
    await addLot(shop, { partId: moved.id, quantity: 1 });
    const bin = await addBin(sql);
    const text = [
      'part,bin,quantity,value',
      `${fresh.number},${bin.code},2,1.00`,
      `NONE,${bin.code},2,1.00`,
      `${moved.number},NOWHERE,0,much`,
    ].join('\n');
    const pointers = [
      'row 3, column part',
      'row 4, column part',
      'row 4, column bin',
      'row 4, column quantity',
      'row 4, column value',
    ];
    for (const path of ['/api/stock-opening/check', '/api/stock-opening']) {
      const { status, body } = await clerk.post(path, text);
      expect([status, body.errors.map(({ pointer }: { pointer: string }) => pointer)]).toEqual([422, pointers]);
    }
    expect(await sql`select from stock_lot where part_id = ${fresh.id}`).toHaveLength(0);
    expect((await technician.post('/api/stock-opening/check', text)).status).toBe(403);
  });
});
