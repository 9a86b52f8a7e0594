import { afterAll, afterEach, describe, expect, test } from 'vitest';
import { newId } from '#platform/act.ts';
import { openShop, takeIn } from '../support/shop.ts';
import { addBin, addPart, demand, expectBooksToAgree } from '../support/stores.ts';

const shop = await openShop();
const { sql, vendorId } = shop;
const { clerk, technician } = shop.as;
afterEach(() => expectBooksToAgree(sql));
afterAll(shop.close);

const money = (minor: string) => ({ minor, currency: 'EUR' });
const bin = await addBin(sql);

/** A part that the vendor sells by the pack. */
async function soldBy(packSize: number, minor: string, facts: Parameters<typeof addPart>[1] = {}) {
  const part = await addPart(sql, facts);
  await tell(part.id, packSize, minor);
  return part;
}
async function tell(partId: string, packSize: number | undefined, minor: string, validFrom = '2020-01-01') {
  const told = await clerk.post('/api/vendor-prices', { vendorId, partId, price: money(minor), packSize, validFrom });
  expect(told.status, JSON.stringify(told.body)).toBe(201);
  return told.body;
}
const order = (lines: readonly object[]) => clerk.post('/api/purchase-orders', { vendorId, lines });
async function ordered(line: object) {
  const { status, body } = await order([line]);
  expect(status, JSON.stringify(body)).toBe(201);
  return { orderId: body.id as string, line: body.lines[0], total: body.total };
}
const receive = (purchaseLineId: string, came: object) =>
  clerk.post('/api/deliveries', { lines: [{ purchaseLineId, binId: bin.id, ...came }] });
const worth = async (partId: string) =>
  (
    await sql<{ onHand: number; value: number }[]>`
      select on_hand as "onHand", value_minor as value from part_value where part_id = ${partId}`
  )[0];
const lineNow = async (id: string) =>
  (
    await sql<{ quantity: number; received: number }[]>`select quantity, received from purchase_line where id = ${id}`
  )[0];
let serial = 0;
async function shortOf(partId: string, quantity: number) {
  serial += 1;
  const job = await takeIn(shop, { serial: `PK-${serial}` });
  await demand(shop, job.jobId, [[partId, quantity]]);
  await technician.post(`/api/jobs/${job.jobId}/reservations`, { allOrNothing: false });
  return job;
}
const toBuy = async (partId: string) => {
  const { body } = await clerk.get('/api/stores/to-buy');
  return body.vendors
    .flatMap(({ lines }: { lines: { part: { id: string } }[] }) => lines)
    .filter(({ part }: { part: { id: string } }) => part.id === partId);
};

describe('a vendor’s price', () => {
  test('is that of a pack, from a day on; a new price keeps the pack unless it says another', async () => {
    const part = await soldBy(10, '450');
    const { prices, unit } = await tell(part.id, undefined, '480', '2021-01-01');
    expect(unit).toBe('piece');
    expect(prices).toMatchObject([
      { price: money('480'), packSize: 10, validFrom: '2021-01-01' },
      { price: money('450'), packSize: 10 },
    ]);
    expect((await tell(part.id, 25, '900', '2022-01-01')).prices[0]).toMatchObject({ packSize: 25 });
    for (const packSize of [0, -1, 1.5, 'box', 100_001]) {
      const refused = await clerk.post('/api/vendor-prices', {
        vendorId,
        partId: part.id,
        price: money('1'),
        packSize,
        validFrom: '2023-01-01',
      });
      expect(refused.status).toBe(400);
      expect(refused.body.errors[0].pointer).toBe('/packSize');
    }
    await expect(sql`
      insert into vendor_price (id, vendor_id, part_id, price_minor, pack_size, valid_from, told_by_id)
      values (${newId()}, ${vendorId}, ${part.id}, 1, 0, '2024-01-01', ${shop.people.clerk})`).rejects.toThrow(
      'vendor_price_pack',
    );
  });

  test('comes in and goes out by file with its pack; an empty cell leaves the pack as it was', async () => {
    const part = await addPart(sql, { number: 'PACK-1' });
    const path = `/api/vendors/${vendorId}/price-list`;
    const bring = (rows: string) => clerk.post(path, `their_number,our_number,price,pack,from\n${rows}`);
    expect((await bring('K-1,PACK-1,4.50,10,2020-01-01\n')).body).toMatchObject({ prices: 1 });
    expect((await bring('K-1,PACK-1,4.60,,2021-01-01\n')).body).toMatchObject({ prices: 1 });
    const file = (await clerk.get(`${path}.csv`)).body as string;
    expect(file).toContain('their_number,our_number,name,price,pack,from\r\n');
    expect(file).toContain(`K-1,PACK-1,Part ${part.number},4.60,10,2021-01-01`);
    expect((await clerk.post(path, file)).body).toMatchObject({ prices: 0, made: 0 });
    expect((await bring('K-1,PACK-1,4.60,5,2021-01-01\n')).body).toMatchObject({ prices: 1, unchanged: 0 });
    for (const pack of ['0', '1.5', '-10', 'box', '100001']) {
      const refused = await bring(`K-1,PACK-1,9.00,10,2022-01-01\nK-2,PACK-1,4.60,${pack},2022-02-01\n`);
      expect(refused.status).toBe(422);
      expect(refused.body.errors).toEqual([
        { pointer: 'row 3, column pack', detail: `"${pack}" is no whole number from 1 to 100000.` },
      ]);
    }
    expect(await sql`select from vendor_price where part_id = ${part.id}`).toHaveLength(3);
    expect((await clerk.get('/api/vendor-prices.csv')).body).toContain(',price,pack,from,told_by');
  });
});

describe('what to buy', () => {
  test('is the fewest whole packs that cover what jobs are short of, and for whom', async () => {
    const part = await soldBy(10, '450');
    const first = await shortOf(part.id, 3);
    expect(await toBuy(part.id)).toMatchObject([
      { packs: 1, packSize: 10, quantity: 10, job: { id: first.jobId }, needs: [{ quantity: 3 }], price: money('450') },
    ]);
    const second = await shortOf(part.id, 4);
    expect(await toBuy(part.id)).toMatchObject([
      {
        packs: 1,
        quantity: 10,
        job: null,
        why: 'short',
        needs: [
          { job: { id: first.jobId }, quantity: 3 },
          { job: { id: second.jobId }, quantity: 4 },
        ],
      },
    ]);
    // Bought for the first alone, its other seven are the second's.
    await ordered({ partId: part.id, packs: 1, packSize: 10, jobId: first.jobId });
    expect(await toBuy(part.id)).toEqual([]);
    const third = await shortOf(part.id, 5);
    expect(await toBuy(part.id)).toMatchObject([{ packs: 1, job: { id: third.jobId }, needs: [{ quantity: 2 }] }]);
  });

  test('fills a shelf that runs low in whole packs, first with what the jobs’ packs leave over', async () => {
    const part = await soldBy(10, '450', { reorderPoint: 4 });
    expect(await toBuy(part.id)).toMatchObject([
      { why: 'low', packs: 1, quantity: 10, needs: [{ job: null, quantity: 8 }] },
    ]);
    await shortOf(part.id, 5);
    expect(await toBuy(part.id)).toMatchObject([
      { why: 'short', packs: 1 },
      { why: 'low', packs: 1, needs: [{ job: null, quantity: 3 }] },
    ]);
  });

  test('by the learned quantity is rounded up to packs, and the computation says so', async () => {
    const part = await soldBy(10, '2000');
    const { line } = await ordered({ partId: part.id, packs: 10 });
    await receive(line.id, { packs: 10, quantity: 0 });
    await shortOf(part.id, 73);
    const used = await sql<{ id: string }[]>`select id from demand_line where part_id = ${part.id}`;
    await clerk.post(`/api/demand-lines/${used[0]?.id}/issue`, { quantity: 73 });
    await sql`alter table stock_movement disable trigger append_only`;
    await sql`update stock_movement set moved_at = moved_at - interval '5 days' where part_id = ${part.id} and act = 'issue'`;
    await sql`alter table stock_movement enable trigger append_only`;
    const { reorder } = (await clerk.get(`/api/parts/${part.id}/supply`)).body;
    // A pack of ten at 20.00 is 2.00 a piece: √(2 · 15.00 · 73 ÷ 0.40).
    const orderQuantity = Math.round(Math.sqrt((2 * 1500 * 73) / 40));
    expect(reorder).toMatchObject({ orderQuantity, packSize: 10, orderPacks: Math.ceil(orderQuantity / 10) });
  });
});

describe('an order', () => {
  test('is of whole packs and remembers their size when the vendor sells another', async () => {
    const part = await soldBy(10, '450');
    const { line, total, orderId } = await ordered({ partId: part.id, packs: 3 });
    expect(line).toMatchObject({ quantity: 30, packSize: 10, price: money('450') });
    expect(total).toEqual(money('1350'));
    await tell(part.id, 12, '500', '2021-01-01');
    expect((await clerk.get(`/api/purchase-orders/${orderId}`)).body.lines[0]).toMatchObject({
      packSize: 10,
      quantity: 30,
    });
    expect((await ordered({ partId: part.id, quantity: 24 })).line).toMatchObject({
      packSize: 12,
      price: money('500'),
    });
    await expect(sql`update purchase_line set pack_size = 5 where id = ${line.id}`).rejects.toThrow('stays as it was');
  });

  test('of no whole packs, or of a pack that is not sold, is refused at its field, and nothing is ordered', async () => {
    const part = await soldBy(10, '450', { name: 'Copper washer' });
    const before = (await sql`select from purchase_order`).length;
    const loose = await order([
      { partId: part.id, quantity: 10 },
      { partId: part.id, quantity: 12 },
    ]);
    expect(loose.status).toBe(422);
    expect(loose.body.errors).toEqual([{ pointer: '/lines/1/quantity', detail: 'no whole packs of 10' }]);
    expect(loose.body.detail).toContain(
      'sells Copper washer by the pack of 10: 12 are no whole packs. Order 10 or 20 (2 packs of 10).',
    );
    const other = await order([{ partId: part.id, packs: 1, packSize: 25 }]);
    expect(other.status).toBe(422);
    expect(other.body.errors[0]).toMatchObject({ pointer: '/lines/0/packSize' });
    const agreed = await ordered({ partId: part.id, packs: 1, packSize: 25, price: money('1000') });
    expect(agreed.line).toMatchObject({ quantity: 25, packSize: 25, price: money('1000') });
    for (const line of [{ packs: 1, quantity: 10 }, {}, { packs: 0 }, { packs: 1.5 }, { packs: 1, packSize: 0 }])
      expect((await order([{ partId: part.id, ...line }])).status).toBe(400);
    const many = await order([{ partId: part.id, packs: 100_000 }]);
    expect(many.body.errors[0].pointer).toBe('/lines/0/packs');
    expect((await clerk.post('/api/purchase-lines', { vendorId, partId: part.id, quantity: 7 })).status).toBe(422);
    expect((await clerk.post('/api/purchase-lines', { vendorId, partId: part.id, packs: 7 })).status).toBe(201);
    expect((await sql`select from purchase_order`).length).toBe(before + 1);
    await expect(sql`
      insert into purchase_line (id, vendor_id, part_id, quantity, pack_size, ordered_by_id)
      values (${newId()}, ${vendorId}, ${part.id}, 12, 10, ${shop.people.clerk})`).rejects.toThrow('no whole packs');
  });

  test('says packs and pieces as its vendor picks them, in text and CSV', async () => {
    const washer = await soldBy(10, '450', { name: 'Copper washer' });
    const oil = await soldBy(1000, '1180', { name: 'Oil' });
    await sql`update part set unit = 'ml' where id = ${oil.id}`;
    await clerk.post('/api/vendor-prices', {
      vendorId,
      partId: washer.id,
      price: money('450'),
      validFrom: '2020-01-02',
      theirNumber: 'K 77',
    });
    const { body } = await order([
      { partId: washer.id, packs: 3, promisedOn: '2026-12-04' },
      { partId: oil.id, quantity: 4000 },
    ]);
    const text = (await clerk.get(`/api/purchase-orders/${body.id}/text`)).body as string;
    expect(text).toContain(
      `  1. 3 packs of 10 = 30 pieces\r\n     Copper washer\r\n     Your number K 77, ours ${washer.number}\r\n     Promised for 2026-12-04`,
    );
    expect(text).toContain('  2. 4 packs of 1000 = 4000 ml\r\n     Oil');
    const csv = (await clerk.get(`/api/purchase-orders/${body.id}/csv`)).body as string;
    expect(csv.split('\r\n').slice(0, 2)).toEqual([
      'order,line,their_number,number,name,words,packs,pack,quantity,unit,received,wanted_on,promised_on',
      `${body.number},1,K 77,${washer.number},Copper washer,,3,10,30,piece,0,,2026-12-04`,
    ]);
    const fault = { kind: 'called off', quantity: 1, words: 'one is missing in the box' };
    await clerk.post(`/api/purchase-lines/${body.lines[0].id}/faults`, fault);
    expect((await clerk.get(`/api/purchase-orders/${body.id}/text`)).body).toContain(
      '2 packs of 10 and 9 out of a pack of 10 = 29 pieces',
    );
    expect((await clerk.get('/api/purchase-orders.csv')).body).toContain(',30,piece,10,');
  });

  test('is dated by the shop’s day, wherever the server’s clock stands', async () => {
    const part = await addPart(sql);
    const { orderId } = await ordered({ partId: part.id, quantity: 1 });
    await sql`update purchase_order set opened_at = '2026-11-26 23:30:00+00' where id = ${orderId}`;
    const [was] = await sql<{ zone: string }[]>`select zone from shop`;
    for (const [zone, day] of [
      ['Europe/Oslo', '2026-11-27'],
      ['America/Denver', '2026-11-26'],
    ] as const) {
      await sql`update shop set zone = ${zone}`;
      expect((await clerk.get(`/api/purchase-orders/${orderId}/text`)).body).toContain(`Written  ${day}`);
    }
    await sql`update shop set zone = ${was?.zone ?? 'UTC'}`;
  });
});

describe('what comes in', () => {
  test('one by one out of a pack of three at 10.00 costs 10.00 together, and so does what goes out again', async () => {
    const part = await soldBy(3, '1000');
    const { line } = await ordered({ partId: part.id, packs: 1 });
    const costs: string[] = [];
    for (const way of [{ packs: 0, quantity: 1 }, { quantity: 1 }])
      costs.push((await receive(line.id, way)).body.lines[0].goods.minor);
    const last = await clerk.post('/api/receipts', {
      partId: part.id,
      binId: bin.id,
      quantity: 1,
      purchaseLineId: line.id,
    });
    expect(last.status).toBe(201);
    expect(costs).toEqual(['333', '334']);
    expect(await worth(part.id)).toEqual({ onHand: 3, value: 1000 });
    const lots = await sql<{ id: string }[]>`select id from stock_lot where part_id = ${part.id} order by received_at`;
    const left: (number | undefined)[] = [];
    for (const { id } of lots) {
      await clerk.post('/api/stock-movements', { act: 'scrap', lotId: id, quantity: 1, reason: 'bent' });
      left.push((await worth(part.id))?.value);
    }
    expect(left).toEqual([667, 333, 0]);
  });

  test('is keyed in packs, in pieces or both; freight joins it to the last minor unit', async () => {
    const part = await soldBy(3, '1000');
    const { line } = await ordered({ partId: part.id, packs: 4 });
    const took = await clerk.post('/api/deliveries', {
      lines: [
        { purchaseLineId: line.id, binId: bin.id, packs: 2, quantity: 1 },
        { purchaseLineId: line.id, binId: (await addBin(sql)).id, quantity: 1 },
      ],
      freight: money('101'),
    });
    expect(took.status, JSON.stringify(took.body)).toBe(201);
    expect(took.body.lines.map(({ goods }: { goods: { minor: string } }) => goods.minor)).toEqual(['2333', '334']);
    expect(await worth(part.id)).toEqual({ onHand: 8, value: 2333 + 334 + 101 });
    expect(await lineNow(line.id)).toEqual({ quantity: 12, received: 8 });
    expect((await receive(line.id, { packs: 2, quantity: 0 })).body.detail).toContain(
      '12 (4 packs of 3) were ordered and 8 have come in: 4 (1 pack of 3 and 1) can be received on it, not 6.',
    );
    const over = await receive(line.id, { packs: 2, quantity: 0, acceptOver: true });
    expect(over.status).toBe(201);
    expect(await worth(part.id)).toEqual({ onHand: 14, value: 4667 + 101 });
  });

  test('of a short pack leaves its missing piece to come, or to be called off', async () => {
    const part = await soldBy(10, '999');
    const { line } = await ordered({ partId: part.id, packs: 2 });
    await receive(line.id, { packs: 1, quantity: 9 });
    expect(await lineNow(line.id)).toEqual({ quantity: 20, received: 19 });
    expect((await clerk.get(`/api/stores/expected?vendorId=${vendorId}`)).body.lines).toEqual(
      expect.arrayContaining([expect.objectContaining({ id: line.id, packSize: 10, quantity: 20, received: 19 })]),
    );
    const off = { kind: 'called off', quantity: 1, words: 'credited' };
    expect((await clerk.post(`/api/purchase-lines/${line.id}/faults`, off)).status).toBe(201);
    expect(await lineNow(line.id)).toEqual({ quantity: 19, received: 19 });
    expect(await worth(part.id)).toEqual({ onHand: 19, value: 1898 });
  });

  test('wrong stays out; what goes back comes again at what its place in the pack costs', async () => {
    const part = await soldBy(3, '1000');
    const { line } = await ordered({ partId: part.id, packs: 1 });
    const wrong = await receive(line.id, { quantity: 2, wrong: { quantity: 1, words: 'another size' } });
    expect(await worth(part.id)).toEqual({ onHand: 2, value: 667 });
    const lotId = wrong.body.lines[0].lotId;
    await clerk.post(`/api/purchase-lines/${line.id}/faults`, {
      kind: 'sent back',
      quantity: 1,
      lotId,
      words: 'cracked',
    });
    const again = await receive(line.id, { quantity: 2 });
    expect(again.body.lines[0].goods.minor).toBe('667');
    expect(await lineNow(line.id)).toEqual({ quantity: 3, received: 3 });
  });

  test('in packs needs an order, pieces that are whole, and some', async () => {
    const part = await soldBy(10, '450');
    const bare = { partId: part.id, binId: bin.id };
    const refused = await clerk.post('/api/receipts', { ...bare, quantity: 0, packs: 2 });
    expect(refused.status).toBe(422);
    expect(refused.body.errors[0].pointer).toBe('/packs');
    expect((await clerk.post('/api/receipts', { ...bare, quantity: 0 })).status).toBe(400);
    const { line } = await ordered({ partId: part.id, packs: 2 });
    for (const packs of [-1, 0.5]) expect((await receive(line.id, { packs, quantity: 0 })).status).toBe(400);
    expect((await receive(line.id, { packs: 0, quantity: 0 })).body.errors[0].pointer).toBe('/lines/0/quantity');
    const one = await clerk.post('/api/receipts', { ...bare, purchaseLineId: line.id, packs: 1, quantity: 2 });
    expect(one.body).toMatchObject({ onHand: 12 });
  });

  test('for a job serves it out of the opened pack; what is over is free', async () => {
    const part = await soldBy(10, '450');
    const job = await shortOf(part.id, 3);
    const { line } = await ordered({ partId: part.id, packs: 1, jobId: job.jobId });
    const { body } = await receive(line.id, { packs: 1, quantity: 0 });
    expect(body.lines[0]).toMatchObject({ onHand: 10, available: 7, reservedFor: { quantity: 3 } });
  });
});

describe('at once', () => {
  test('two who take in the last pack of a line take it in once', async () => {
    const part = await soldBy(10, '999');
    const { line } = await ordered({ partId: part.id, packs: 1 });
    const took = await Promise.all([
      receive(line.id, { packs: 1, quantity: 0 }),
      clerk.post('/api/receipts', { partId: part.id, binId: bin.id, purchaseLineId: line.id, packs: 1, quantity: 0 }),
    ]);
    expect(took.map(({ status }) => status).toSorted()).toEqual([201, 422]);
    expect(await worth(part.id)).toEqual({ onHand: 10, value: 999 });
    expect(await lineNow(line.id)).toEqual({ quantity: 10, received: 10 });
  });

  test('fourteen who each take in a piece of two packs of seven at 9.99 share 19.98 to the cent', async () => {
    const part = await soldBy(7, '999');
    const { line } = await ordered({ partId: part.id, packs: 2 });
    const took = await Promise.all(Array.from({ length: 16 }, () => receive(line.id, { quantity: 1 })));
    expect(took.filter(({ status }) => status === 201)).toHaveLength(14);
    expect(took.filter(({ status }) => status === 422)).toHaveLength(2);
    expect(await worth(part.id)).toEqual({ onHand: 14, value: 1998 });
    const costs = await sql<{ cost: number }[]>`
      select cost_minor as cost from purchase_fact where purchase_line_id = ${line.id} and kind = 'received'`;
    expect(costs.reduce((sum, { cost }) => sum + cost, 0)).toBe(1998);
  });
});
