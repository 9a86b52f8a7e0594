import { afterAll, afterEach, describe, expect, test } from 'vitest';
import { openShop, takeIn } from '../support/shop.ts';
import { addBin, addKit, addLot, addPart, demand, expectBooksToAgree } from '../support/stores.ts';

const shop = await openShop();
const { sql, vendorId } = shop;
const { clerk, technician } = shop.as;
afterEach(() => expectBooksToAgree(sql));
afterAll(shop.close);

const csv = (path: string, text: string) => clerk.post(path, text);
const [family] = await sql<{ code: string }[]>`select code from family where id = ${shop.sheet.familyId}`;
const linesOf = async (path: string): Promise<string[]> => (await clerk.get(path)).body.trimEnd().split('\r\n');

describe('bins', () => {
  test('come in from a file: new ones behind the last, known ones changed, and a check keeps nothing', async () => {
    await csv('/api/bins/import', 'code;walk_order\nF-01;500\nF-02;510\n');
    const file = 'code,walk_order,closed\nf-01,505,\nF-02,,no\nF-03,,\nF-04,,yes\n';
    const would = { rows: 4, added: 2, changed: 1, unchanged: 1 };
    expect((await csv('/api/bins/import/check', file)).body).toEqual(would);
    expect((await linesOf('/api/bins.csv')).some((line) => line.startsWith('F-03'))).toBe(false);
    expect((await csv('/api/bins/import', file)).body).toEqual(would);
    const [last] = await sql<
      { walk: number }[]
    >`select max(walk_order) as walk from bin where code not in ('F-03', 'F-04')`;
    const walk = last?.walk ?? 0;
    expect(await linesOf('/api/bins.csv')).toEqual(
      expect.arrayContaining(['F-01,505,no', 'F-02,510,no', `F-03,${walk + 10},no`, `F-04,${walk + 20},yes`]),
    );
  });

  test('their own file, brought in again, changes nothing', async () => {
    const file = (await clerk.get('/api/bins.csv')).body;
    expect((await csv('/api/bins/import', file)).body).toMatchObject({ added: 0, changed: 0 });
  });

  test('a bad row is named, and nothing of the file is kept', async () => {
    const refused = await csv('/api/bins/import', 'code,walk_order,closed\nG-01,-4,maybe\nG-02,3,\ng-02,4,\n');
    expect(refused.status).toBe(422);
    expect(refused.body.errors).toEqual([
      { pointer: 'row 2, column walk_order', detail: '"-4" is no whole number from 0 to 1000000.' },
      { pointer: 'row 2, column closed', detail: '"maybe" is neither yes nor no.' },
      { pointer: 'row 4, column code', detail: '"g-02" is in row 3 too.' },
    ]);
    expect(await sql`select 1 from bin where code ilike 'G-0%'`).toHaveLength(0);
    expect((await technician.post('/api/bins/import', 'code\nG-03\n')).status).toBe(403);
  });
});

describe('kits', () => {
  test('a kit that a file names gets the very parts its rows say; others stay', async () => {
    const [a, b, c] = [await addPart(sql), await addPart(sql), await addPart(sql)];
    const other = await addKit(shop, [[c.id, 2]]);
    const first = `family,kit,part,quantity\n${family?.code},Big end,${a.number},1\n${family?.code},Big end,${b.number},4\n`;
    expect((await csv('/api/kits/import', first)).body).toEqual({ rows: 2, added: 1, changed: 0, unchanged: 0 });
    const next = `family,kit,part,quantity\n${family?.code},big END,${b.number},5\n${family?.code},big END,${c.number.toLowerCase()},1\n`;
    expect((await csv('/api/kits/import/check', next)).body).toMatchObject({ added: 0, changed: 1 });
    expect(await linesOf('/api/kits.csv')).toContain(`${family?.code},Big end,${a.number},1`);
    expect((await csv('/api/kits/import', next)).body).toMatchObject({ added: 0, changed: 1 });
    const lines = await linesOf('/api/kits.csv');
    expect(lines.filter((line) => line.includes('Big end'))).toEqual([
      `${family?.code},Big end,${b.number},5`,
      `${family?.code},Big end,${c.number},1`,
    ]);
    expect(await sql`select quantity from kit_line where kit_id = ${other}`).toEqual([{ quantity: 2 }]);
    const again = await csv('/api/kits/import', (await clerk.get('/api/kits.csv')).body);
    expect(again.body).toMatchObject({ added: 0, changed: 0 });
  });

  test('an unknown part or family, a part twice and no pieces are named by row', async () => {
    const part = await addPart(sql);
    const row = (kit: string, number: string, quantity: string) => `${family?.code},${kit},${number},${quantity}\n`;
    const bad = `family,kit,part,quantity\n${row('Top', part.number, '0')}${row('Top', part.number, '1')}${row('Top', 'NOPE-1', '1.5')}NO-1,Top,${part.number},1\n`;
    const refused = await csv('/api/kits/import', bad);
    expect(refused.body.errors.map(({ pointer }: { pointer: string }) => pointer)).toEqual([
      'row 2, column quantity',
      'row 3, column part',
      'row 4, column part',
      'row 4, column quantity',
      'row 5, column family',
    ]);
    expect(await sql`select 1 from kit where name = 'Top'`).toHaveLength(0);
  });
});

describe('prices', () => {
  test('a vendor’s prices go out as a list that brings nothing new when it comes in again', async () => {
    const [a, b] = [await addPart(sql), await addPart(sql)];
    const tell = (partId: string, minor: string, validFrom: string, theirNumber = '') =>
      clerk.post('/api/vendor-prices', { vendorId, partId, price: { minor, currency: 'EUR' }, validFrom, theirNumber });
    await tell(a.id, '250', '2020-01-01', 'V-1');
    await tell(a.id, '275', '2021-01-01', 'V-1');
    await tell(a.id, '300', '2999-01-01', 'V-1');
    await tell(b.id, '90', '2020-01-01');
    const path = `/api/vendors/${vendorId}/price-list`;
    const file = (await clerk.get(`${path}.csv`)).body as string;
    expect(file.split('\r\n').slice(1, -1)).toEqual([
      `V-1,${a.number},Part ${a.number},2.75,1,2021-01-01`,
      `V-1,${a.number},Part ${a.number},3.00,1,2999-01-01`,
      `,${b.number},Part ${b.number},0.90,1,2020-01-01`,
    ]);
    expect((await csv(path, file)).body).toMatchObject({ rows: 3, prices: 0, unchanged: 3, made: 0 });
    expect((await linesOf('/api/vendor-prices.csv')).length).toBe(1 + 4);
    expect((await technician.get(`${path}.csv`)).status).toBe(403);
  });
});

describe('vendors', () => {
  const lead = (path: string, text: string) => shop.as.lead.post(path, text);

  test('come in from a file: new ones are added, known ones changed, and a check keeps nothing', async () => {
    await lead('/api/vendors/import', 'name,trade,contact\nNorth Quay Gaskets,gaskets,by letter\n');
    const file = 'name;trade;contact\nnorth quay gaskets;;weekdays before four\nFell Foundry;castings;\n';
    const would = { rows: 2, added: 1, changed: 1, unchanged: 0 };
    expect((await lead('/api/vendors/import/check', file)).body).toEqual(would);
    expect((await linesOf('/api/vendors.csv')).some((line) => line.startsWith('Fell Foundry'))).toBe(false);
    expect((await lead('/api/vendors/import', file)).body).toEqual(would);
    expect(await linesOf('/api/vendors.csv')).toEqual(
      expect.arrayContaining(['North Quay Gaskets,gaskets,weekdays before four,no', 'Fell Foundry,castings,,no']),
    );
    const again = await lead('/api/vendors/import', (await clerk.get('/api/vendors.csv')).body);
    expect(again.body).toMatchObject({ added: 0, changed: 0 });
  });

  test('a bad row is named, and nothing of the file is kept; who may not set up brings none in', async () => {
    const refused = await lead(
      '/api/vendors/import',
      'name,trade,contact,retired\nHill Bearings,,,\nFell Foundry,,,yes\nTwice,a,,\ntwice,b,,\n',
    );
    expect(refused.status).toBe(422);
    expect(refused.body.errors.map(({ pointer }: { pointer: string }) => pointer)).toEqual([
      'row 2, column trade',
      'row 3, column retired',
      'row 5, column name',
    ]);
    expect((await linesOf('/api/vendors.csv')).some((line) => line.startsWith('Twice'))).toBe(false);
    expect((await csv('/api/vendors/import', 'name,trade\nHill Bearings,bearings\n')).status).toBe(403);
  });
});

describe('days on which lines come', () => {
  async function ordered(promisedOn: string, twice = false) {
    const part = await addPart(sql);
    const line = { partId: part.id, quantity: 2, promisedOn };
    const { body } = await clerk.post('/api/purchase-orders', { vendorId, lines: twice ? [line, line] : [line] });
    return { part, order: body.number as number, lines: body.lines.map(({ id }: { id: string }) => id) as string[] };
  }
  const dayOf = async (id: string | undefined) =>
    (await sql`select promised_on as day from purchase_line where id = ${id ?? null}`)[0]?.day;

  test('come in as they went out, changed by a spreadsheet: each moves with what was said, and a check keeps nothing', async () => {
    const [moves, stays, none] = [
      await ordered('2098-01-05'),
      await ordered('2098-01-06'),
      await ordered('2098-01-07'),
    ];
    const path = '/api/purchase-lines/days/import';
    const out = (await clerk.get('/api/stores/expected.csv')).body as string;
    expect((await csv(path, out)).body).toMatchObject({ added: 0, changed: 0 });
    const file = `order;number;promised_on;said\n${moves.order};${moves.part.number};2098-02-05;late\n${stays.order};${stays.part.number};;\n${none.order};${none.part.number.toLowerCase()};-;no more\n`;
    const would = { rows: 2, added: 0, changed: 2, unchanged: 0 };
    expect((await csv(`${path}/check`, file)).body).toEqual(would);
    expect(await dayOf(moves.lines[0])).toBe('2098-01-05');
    expect((await csv(path, file)).body).toEqual(would);
    expect([await dayOf(moves.lines[0]), await dayOf(stays.lines[0]), await dayOf(none.lines[0])]).toEqual([
      '2098-02-05',
      '2098-01-06',
      null,
    ]);
    expect(await sql`select words from purchase_promise where purchase_line_id = ${moves.lines[0] ?? ''}`).toEqual([
      { words: 'late' },
    ]);
    expect((await csv(path, file)).body).toMatchObject({ changed: 0, unchanged: 2 });
  });

  test('that are no days, of nothing that is to come, of two lines or moved without a word are named by row', async () => {
    const [one, two] = [await ordered('2098-01-05'), await ordered('2098-01-06', true)];
    const path = '/api/purchase-lines/days/import';
    const pointers = async (text: string) => {
      const { status, body } = await csv(path, text);
      return [status, body.errors?.map(({ pointer }: { pointer: string }) => pointer)];
    };
    const head = 'order,number,promised_on,said,line\n';
    expect(
      await pointers(
        `${head}${one.order},${one.part.number},2098-02-30,x,\n${one.order},NOPE-1,2098-02-05,x,\n${two.order},${two.part.number},2098-02-05,x,\n,,2098-02-05,x,${one.lines[0]}\n,,2098-02-05,x,nobody\n`,
      ),
    ).toEqual([
      422,
      [
        'row 2, column promised_on',
        'row 3, column number',
        'row 4, column number',
        'row 5, column number',
        'row 6, column line',
      ],
    ]);
    expect(await pointers(`${head},,2098-02-05,,${one.lines[0]}\n,,2098-02-05,x,${two.lines[1]}\n`)).toEqual([
      422,
      ['row 2, column said'],
    ]);
    expect([await dayOf(one.lines[0]), await dayOf(two.lines[1])]).toEqual(['2098-01-05', '2098-01-06']);
    expect((await csv(path, `${head},,2098-02-05,x,${two.lines[1]}\n`)).body).toMatchObject({ changed: 1 });
    expect((await technician.post(path, `${head},,2098-02-05,x,${two.lines[0]}\n`)).status).toBe(403);
  });
});

describe('orders and shortages', () => {
  test('go out line by line, with what is late', async () => {
    const part = await addPart(sql, { name: '=1+1' });
    const { jobId } = await takeIn(shop, { serial: 'F-77' });
    await demand(shop, jobId, [[part.id, 3]]);
    await technician.post(`/api/jobs/${jobId}/reservations`, { allOrNothing: false });
    const lines = [
      { partId: part.id, quantity: 2, promisedOn: '2020-02-03', price: { minor: '1250', currency: 'EUR' } },
    ];
    const order = (await clerk.post('/api/purchase-orders', { vendorId, lines })).body;
    const [head = '', line = ''] = await linesOf('/api/purchase-orders.csv');
    expect(head.split(',')[0]).toBe('order');
    expect(line).toContain(`${order.number},`);
    // What a spreadsheet would reckon is led by an apostrophe.
    expect(line).toContain(`${part.number},,'=1+1,,2,piece,1,0,2020-02-03,yes,12.50`);
    const short = (await linesOf('/api/stores/short.csv')).find((one) => one.includes(part.number)) ?? '';
    expect(short).toContain(`${part.number},'=1+1,3,`);
    expect(short).toContain(`,1,,yes,"2 of ${order.vendor.name}, order ${order.number}"`);
    expect((await technician.get('/api/purchase-orders.csv')).status).toBe(403);
  });

  test('the apostrophe that guards a cell is no part of a name that comes in again', async () => {
    const file = (await clerk.get('/api/parts.csv')).body as string;
    expect(file).toContain("'=1+1");
    expect((await csv('/api/parts/import/check', file)).status).toBe(200);
    await csv('/api/parts/import', file);
    expect(await sql`select name from part where name like '%1+1'`).toEqual([{ name: '=1+1' }]);
  });
});

describe('what happened and what is wanted', () => {
  test('every movement goes out as it happened, of all parts or of one, and adds up to what lies there', async () => {
    const part = await addPart(sql, { name: 'Crank seal, left' });
    const other = await addPart(sql);
    const lot = await addLot(shop, { partId: part.id, quantity: 7, valueMinor: 70 });
    await addLot(shop, { partId: other.id, quantity: 1 });
    const moved = { act: 'scrap', lotId: lot, quantity: 2, reason: 'bent, "both" =2' };
    expect((await clerk.post('/api/stock-movements', moved)).status).toBe(201);
    const [head = '', ...own] = await linesOf(`/api/parts/${part.id}/movements.csv`);
    expect(head).toBe('at,act,number,name,lot,bin,on_hand_change,reserved_change,value_change,job,reason,by');
    expect(own.every((line) => line.includes(`,${part.number},"Crank seal, left",`))).toBe(true);
    expect(own.at(-1)).toContain(',-2,0,-0.20,');
    expect(own.at(-1)).toContain('"bent, ""both"" =2"');
    const changeAt = (line: string) => Number(/,(-?\d+),-?\d+,-?[\d.]+,\d*,/.exec(line)?.[1]);
    expect(own.map(changeAt).reduce((sum, change) => sum + change, 0)).toBe(5);
    const all = await linesOf('/api/stock-movements.csv');
    expect(all[0]).toBe(head);
    expect(all).toEqual(expect.arrayContaining(own));
    expect(all.some((line) => line.includes(`,${other.number},`))).toBe(true);
    expect((await technician.get('/api/stock-movements.csv')).status).toBe(403);
    expect((await clerk.get('/api/parts/019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5b/movements.csv')).status).toBe(404);
  });

  test('what jobs want goes out line by line, with where it lies', async () => {
    const part = await addPart(sql, { name: 'Stud' });
    const bin = await addBin(sql);
    await addLot(shop, { partId: part.id, quantity: 3, binId: bin.id });
    const { jobId, number } = await takeIn(shop, { serial: 'H355-0777' });
    await demand(shop, jobId, [[part.id, 5]]);
    await technician.post(`/api/jobs/${jobId}/reservations`, { allOrNothing: false });
    const line = (await linesOf('/api/stores/wanted.csv')).find((one) => one.includes(`,${part.number},`));
    expect(line).toMatch(
      new RegExp(`^${number},Halden 355,H355-0777,,${part.number},Stud,piece,5,0,3,2,0,0,3 in ${bin.code}`),
    );
  });

  test('worn pieces that are owed go out with their order and charge', async () => {
    const part = await addPart(sql, { name: 'Cylinder' });
    await sql`update part set core_minor = 9000 where id = ${part.id}`;
    const { body: order } = await clerk.post('/api/purchase-orders', {
      vendorId,
      lines: [{ partId: part.id, quantity: 1 }],
    });
    const bin = await addBin(sql);
    const receipt = { partId: part.id, binId: bin.id, quantity: 1, purchaseLineId: order.lines[0].id };
    expect((await clerk.post('/api/receipts', receipt)).status).toBe(201);
    const line = (await linesOf('/api/cores.csv')).find((one) => one.includes(part.number));
    expect(line).toMatch(new RegExp(`^${part.number},Cylinder,Saltmere Plating,${order.number},1,90\\.00,\\S+,,$`));
    expect((await technician.get('/api/cores.csv')).status).toBe(403);
  });
});
