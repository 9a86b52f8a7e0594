import { afterAll, describe, expect, test } from 'vitest';
import { audit } from '../../server/admin/audit.ts';
import { openShop } from '../support/shop.ts';
import { addBin, addLot, addPart, expectBooksToAgree } from '../support/stores.ts';
import { testConfig } from '../support/test-config.ts';

const shop = await openShop();
const { sql } = shop;
const { clerk, technician } = shop.as;
afterAll(shop.close);

const worth = async (partId: string) => {
  const [row] = await sql<{ onHand: number; value: number }[]>`
    select on_hand as "onHand", value_minor as value from part_value where part_id = ${partId}`;
  return row;
};
const csv = (path: string, text: string) => clerk.post(path, text);

describe('the moving average is that of the part, over all its lots', () => {
  // The worked example of tests/outside/stock-costing: 300 at 8.00, 175 out, 375 at 10.00 in, 280 out.
  test('two lots at two prices go out at one average, whichever lot they are taken from', async () => {
    const part = await addPart(sql);
    const first = await addLot(shop, { partId: part.id, quantity: 300, valueMinor: 240_000 });
    await clerk.post('/api/stock-movements', { act: 'scrap', lotId: first, quantity: 175, reason: 'sold' });
    const second = await addLot(shop, { partId: part.id, quantity: 375, valueMinor: 375_000 });
    expect(await worth(part.id)).toEqual({ onHand: 500, value: 475_000 });
    await clerk.post('/api/stock-movements', { act: 'scrap', lotId: first, quantity: 100, reason: 'sold' });
    await clerk.post('/api/stock-movements', { act: 'scrap', lotId: second, quantity: 180, reason: 'sold' });
    expect(await worth(part.id)).toEqual({ onHand: 220, value: 209_000 });
    const { body } = await clerk.get(`/api/parts/${part.id}`);
    expect(body.part).toMatchObject({ value: { minor: '209000' }, average: { minor: '950' } });
    expect(body.part.lots.map((lot: { value: { minor: string } }) => lot.value.minor)).toEqual(['23750', '185250']);
    await expectBooksToAgree(sql);
  });

  test('a count that finds more brings it in at the average; the last one out leaves nothing', async () => {
    const part = await addPart(sql);
    const lotId = await addLot(shop, { partId: part.id, quantity: 3, valueMinor: 1000 });
    await clerk.post('/api/stock-movements', { act: 'count', lotId, counted: 4, reason: 'one behind the box' });
    expect(await worth(part.id)).toEqual({ onHand: 4, value: 1333 });
    await clerk.post('/api/stock-movements', { act: 'count', lotId, counted: 0, reason: 'none' });
    expect(await worth(part.id)).toEqual({ onHand: 0, value: 0 });
  });

  test('twenty at once, from two lots, end with one right sum', async () => {
    const part = await addPart(sql);
    const lots = [
      await addLot(shop, { partId: part.id, quantity: 10, valueMinor: 1003 }),
      await addLot(shop, { partId: part.id, quantity: 10, valueMinor: 1999 }),
    ];
    const answers = await Promise.all(
      Array.from({ length: 20 }, (_, at) =>
        clerk.post('/api/stock-movements', { act: 'scrap', lotId: lots[at % 2], quantity: 1, reason: 'bent' }),
      ),
    );
    expect(answers.map(({ status }) => status)).toEqual(Array.from({ length: 20 }, () => 201));
    expect(await worth(part.id)).toEqual({ onHand: 0, value: 0 });
    await expectBooksToAgree(sql);
  });
});

describe('serials and used pieces', () => {
  test('a part kept by serial comes in one by one, each serial once', async () => {
    const part = await addPart(sql);
    await sql`update part set by_serial = true where id = ${part.id}`;
    const bin = await addBin(sql);
    const receipt = { partId: part.id, binId: bin.id, quantity: 1 };
    const without = await clerk.post('/api/receipts', receipt);
    expect(without.status).toBe(422);
    expect(without.body.errors[0].pointer).toBe('/serial');
    expect((await clerk.post('/api/receipts', { ...receipt, quantity: 2, serial: 'C-1' })).status).toBe(422);
    expect((await clerk.post('/api/receipts', { ...receipt, serial: 'C-1' })).status).toBe(201);
    const twice = await clerk.post('/api/receipts', { ...receipt, serial: 'C-1' });
    expect(twice.status).toBe(409);
    expect(twice.body.detail).toContain('serial');
  });

  test('the database itself wants a serial, and what was measured on a used piece', async () => {
    const part = await addPart(sql);
    const bin = await addBin(sql);
    await sql`update part set by_serial = true where id = ${part.id}`;
    await expect(
      sql`insert into stock_lot (id, part_id, bin_id) values (gen_random_uuid(), ${part.id}, ${bin.id})`,
    ).rejects.toThrow('serial');
    await expect(
      sql`insert into stock_lot (id, part_id, bin_id, serial, used) values (gen_random_uuid(), ${part.id}, ${bin.id}, 'x', true)`,
    ).rejects.toThrow('used_is_measured');
  });
});

describe('the audit', () => {
  const heard = async () => {
    const lines: string[] = [];
    const code = await audit.run({ sql, config: testConfig(shop.url), say: (line) => lines.push(line) });
    return { code, lines };
  };

  test('says that all is well, then where it is not, by part, lot and bin', async () => {
    const part = await addPart(sql, { number: 'AU-1' });
    const bin = await addBin(sql);
    const lotId = await addLot(shop, { partId: part.id, quantity: 5, valueMinor: 500, binId: bin.id });
    await sql`update stock_lot set code = 'L7' where id = ${lotId}`;
    expect((await heard()).code).toBe(0);
    await sql`alter table stock_lot disable trigger stock_lot_balances`;
    await sql`update stock_lot set on_hand = 7 where id = ${lotId}`;
    await sql`update part_value set value_minor = 499 where part_id = ${part.id}`;
    const { code, lines } = await heard();
    await sql`update stock_lot set on_hand = 5 where id = ${lotId}`;
    await sql`update part_value set value_minor = 500 where part_id = ${part.id}`;
    await sql`alter table stock_lot enable trigger stock_lot_balances`;
    expect(code).toBe(1);
    expect(lines).toContain(
      `Part AU-1, lot L7 in bin ${bin.code}: on hand, against its movements: 7 kept, 5 added up.`,
    );
    expect(lines).toContain(
      'Part AU-1, all lots: value in minor units, against its movements: 499 kept, 500 added up.',
    );
    expect(lines.at(-1)).toContain('Nothing was changed');
    expect((await heard()).code).toBe(0);
  });
});

describe('books by CSV', () => {
  test('parts come in, are changed by their number, and go out as a file that can come in again', async () => {
    const first = await csv('/api/parts/import', 'number;name;unit;price\r\nCS-1;Oil;ml;0,02\r\nCS-2;Plug;;4.50\r\n');
    expect(first).toMatchObject({ status: 201, body: { added: 2, changed: 0 } });
    const again = await csv('/api/parts/import', 'number,name,reorder_point\ncs-2,Spark plug,4\nCS-3,Clip,\n');
    expect(again.body).toEqual({ added: 1, changed: 1, unchanged: 0 });
    const file = (await clerk.get('/api/parts.csv')).body;
    expect(file).toContain('CS-2,Spark plug,piece,,,,,,,no,,no,4.50,4');
    expect((await csv('/api/parts/import', file)).body).toMatchObject({ added: 0 });
  });

  test('an opening balance makes lots with their value, and comes out again to the cent', async () => {
    await csv('/api/parts/import', 'number,name\nOP-1,Base gasket\nOP-2,Clip\n');
    const bin = await addBin(sql);
    const kept = await csv(
      '/api/stock-opening',
      `part,bin,lot,quantity,value,grade\nop-1,${bin.code},A1,3,10.00,\nOP-1,${bin.code},A2,4,0.01, B \nOP-2,${bin.code},,50,2.5,\n`,
    );
    expect(kept).toMatchObject({ status: 201, body: { lots: 3, parts: 2, pieces: 57 } });
    const lines = (await clerk.get('/api/stock.csv')).body
      .split('\r\n')
      .filter((line: string) => line.startsWith('OP-1'));
    expect(lines).toEqual([`OP-1,${bin.code},A1,3,4.29,,,,`, `OP-1,${bin.code},A2,4,5.72,,B,,`]);
    const long = await csv('/api/stock-opening', `part,bin,quantity,grade\nOP-2,${bin.code},3,${'B'.repeat(21)}\n`);
    expect(long.body).toMatchObject({
      status: 422,
      errors: expect.arrayContaining([{ pointer: 'row 2, column grade', detail: expect.any(String) }]),
    });
    const twice = await csv('/api/stock-opening', `part,bin,quantity\nOP-1,${bin.code},3\n`);
    expect(twice.body).toMatchObject({ status: 422, errors: [{ pointer: 'row 2, column part' }] });
    await expectBooksToAgree(sql);
  });

  test('of one opening balance brought in several times at once exactly one is kept', async () => {
    await csv('/api/parts/import', 'number,name\nTW-1,Gasket\nTW-2,Clip\n');
    const bin = await addBin(sql);
    const rows = [`TW-1,${bin.code},3`, `TW-2,${bin.code},5`];
    const answers = await Promise.all(
      Array.from({ length: 6 }, (_, at) =>
        csv('/api/stock-opening', `part,bin,quantity\n${(at % 2 === 0 ? rows : rows.toReversed()).join('\n')}\n`),
      ),
    );
    expect(answers.map(({ status }) => status).toSorted()).toEqual([201, 422, 422, 422, 422, 422]);
    const [stock] = await sql`
      select sum(l.on_hand)::int as pieces from stock_lot l join part p on p.id = l.part_id where p.number in ('TW-1', 'TW-2')`;
    expect(stock?.pieces).toBe(8);
  });

  test('every bad cell is named by row and column, and nothing of the file is kept', async () => {
    await csv('/api/parts/import', 'number,name\nOP-9,Seal\n');
    const open = await addBin(sql);
    const closed = await addBin(sql, true);
    const refused = await csv(
      '/api/stock-opening',
      `part,bin,quantity,value\nOP-9,${open.code},2,1.00\nnone,${open.code},1,\nOP-9,${closed.code},-1,x\nOP-9,nowhere,1.5,\n`,
    );
    expect(refused.status).toBe(422);
    expect(refused.body.errors.map(({ pointer }: { pointer: string }) => pointer)).toEqual([
      'row 3, column part',
      'row 4, column bin',
      'row 4, column quantity',
      'row 4, column value',
      'row 5, column bin',
      'row 5, column quantity',
    ]);
    expect(await sql`select from stock_lot l join part p on p.id = l.part_id where p.number = 'OP-9'`).toHaveLength(0);
    expect((await technician.post('/api/stock-opening', 'x')).status).toBe(403);
  });

  test('a bin is put up once, and closed', async () => {
    const made = await clerk.post('/api/bins', { code: 'Z-09' });
    expect(made.status).toBe(201);
    expect((await clerk.post('/api/bins', { code: 'z-09' })).status).toBe(409);
    const shut = await clerk.post(`/api/bins/${made.body.id}/change`, { closed: true });
    expect(shut.body).toMatchObject({ code: 'Z-09', closed: true });
  });
});
