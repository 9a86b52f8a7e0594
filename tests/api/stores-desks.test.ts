import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openShop, type Shop, takeIn } from '../support/shop.ts';
import { addBin, addLot, addPart, demand, expectBooksToAgree, none, standing } from '../support/stores.ts';

let shop: Shop;
let serials = 0;
beforeAll(async () => {
  shop = await openShop();
}, 240_000);
afterAll(async () => {
  await expectBooksToAgree(shop.sql);
  await shop.close();
});

const price = (minor: string) => ({ minor, currency: 'EUR' });
const clerk = () => shop.as.clerk;
async function shortOf(partId: string, count: number) {
  serials += 1;
  const { jobId } = await takeIn(shop, { serial: `H355-7${serials}` });
  await demand(shop, jobId, [[partId, count]]);
  await shop.as.technician.post(`/api/jobs/${jobId}/reservations`, { allOrNothing: false });
  return jobId;
}
async function order(lines: readonly object[]) {
  const { status, body } = await clerk().post('/api/purchase-orders', { vendorId: shop.vendorId, lines });
  expect(status, JSON.stringify(body)).toBe(201);
  return body;
}
const errorsOf = ({ body }: { body: { errors?: { pointer: string }[] } }) => body.errors?.map(({ pointer }) => pointer);

describe('a delivery of several lines', () => {
  test('tells what is good, wrong and damaged of each, and shows how the freight was spread', async () => {
    const [dear, cheap] = [await addPart(shop.sql), await addPart(shop.sql)];
    const bin = await addBin(shop.sql);
    const jobId = await shortOf(dear.id, 2);
    const placed = await order([
      { partId: dear.id, quantity: 3, jobId, price: price('5000') },
      { partId: cheap.id, quantity: 10, price: price('333') },
    ]);
    const [first, second] = placed.lines;
    const { status, body } = await clerk().post('/api/deliveries', {
      note: 'DN 4471',
      lines: [
        { purchaseLineId: first.id, binId: bin.id, quantity: 1, damaged: { quantity: 1, words: 'box crushed' } },
        { purchaseLineId: second.id, binId: bin.id, quantity: 9, wrong: { quantity: 1, words: 'a 6 mm one' } },
      ],
      freight: price('1000'),
    });
    expect(status, JSON.stringify(body)).toBe(201);
    // 5 000 and 2 997 of goods: 1 000 × 5 000 / 7 997 = 625.23…, the rest 374.77… takes the unit left over.
    expect(body.lines).toMatchObject([
      { goods: price('5000'), freight: price('625'), landed: price('5625'), reservedFor: { quantity: 1 } },
      { goods: price('2997'), freight: price('375'), landed: price('3372'), reservedFor: null },
    ]);
    expect(await standing(shop, jobId, dear.id)).toEqual({ ...none, reserved: 1, short: 1 });
    const after = (await clerk().get(`/api/purchase-orders/${placed.id}`)).body;
    expect(after.lines[0]).toMatchObject({ quantity: 3, received: 1 });
    expect(after.lines[0].facts.map(({ kind }: { kind: string }) => kind).toSorted()).toEqual([
      'came damaged',
      'received',
    ]);
  });

  test('of a part that is kept by serial brings one lot a serial, and each its share', async () => {
    const part = await addPart(shop.sql);
    await shop.sql`update part set by_serial = true where id = ${part.id}`;
    const bin = await addBin(shop.sql);
    const { lines } = await order([{ partId: part.id, quantity: 3, price: price('1000') }]);
    const deliver = (serials: readonly string[] | undefined) =>
      clerk().post('/api/deliveries', {
        lines: [
          { purchaseLineId: lines[0].id, binId: bin.id, quantity: 3, ...(serials === undefined ? {} : { serials }) },
        ],
        freight: price('100'),
      });
    expect(errorsOf(await deliver(undefined))).toEqual(['/lines/0/serial']);
    expect(errorsOf(await deliver(['C-1', 'C-2']))).toEqual(['/lines/0/serials']);
    expect(errorsOf(await deliver(['C-1', 'C-2', 'C-2 ']))).toEqual(['/lines/0/serials']);
    expect(await shop.sql`select from stock_lot where part_id = ${part.id}`).toHaveLength(0);
    const { body } = await deliver(['C-1', 'C-2', 'C-3']);
    expect(body.lines.map(({ landed }: { landed: { minor: string } }) => landed.minor)).toEqual([
      '1034',
      '1033',
      '1033',
    ]);
  });

  test('with nothing good has nothing for the freight to join, and a line of nothing is no line', async () => {
    const part = await addPart(shop.sql);
    const { lines } = await order([{ partId: part.id, quantity: 2 }]);
    const line = { purchaseLineId: lines[0].id, quantity: 0 };
    const wrong = { quantity: 2, words: 'another pitch' };
    const none = await clerk().post('/api/deliveries', { lines: [{ ...line, wrong }], freight: price('500') });
    expect([none.status, errorsOf(none)]).toEqual([422, ['/freight']]);
    expect(errorsOf(await clerk().post('/api/deliveries', { lines: [line] }))).toEqual(['/lines/0/quantity']);
    expect(errorsOf(await clerk().post('/api/deliveries', { lines: [{ ...line, quantity: 1 }] }))).toEqual([
      '/lines/0/binId',
    ]);
    for (const quantity of [-1, 1.5])
      expect((await clerk().post('/api/deliveries', { lines: [{ ...line, quantity }] })).status).toBe(400);
    expect((await clerk().post('/api/deliveries', { lines: [{ ...line, wrong }] })).status).toBe(201);
    expect(await shop.sql`select from stock_lot where part_id = ${part.id}`).toHaveLength(0);
  });

  test('whose freight is not shared out over its lines is refused by the database', async () => {
    const bare = shop.sql.begin(
      (sql) =>
        sql`insert into delivery (id, freight_minor, taken_by_id) values (gen_random_uuid(), 500, ${shop.people.clerk})`,
    );
    await expect(bare).rejects.toThrow('freight');
  });

  test('is expected by vendor, and what is over its day is late', async () => {
    const part = await addPart(shop.sql);
    const { id } = await order([{ partId: part.id, quantity: 4, promisedOn: '2020-02-01' }]);
    const { body } = await clerk().get(`/api/stores/expected?vendorId=${shop.vendorId}`);
    expect(body.vendors[0]).toMatchObject({ id: shop.vendorId, late: 1 });
    expect(body.lines.find(({ orderId }: { orderId: string }) => orderId === id)).toMatchObject({
      late: true,
      received: 0,
    });
  });
});

describe('a date that slips', () => {
  test('has a reason, and a first one needs none', async () => {
    const part = await addPart(shop.sql);
    const { lines } = await order([{ partId: part.id, quantity: 2 }]);
    const tell = (promisedOn: string | null, words = '') =>
      clerk().post(`/api/purchase-lines/${lines[0].id}/dates`, { promisedOn, words });
    expect((await tell('2099-03-01')).status).toBe(201);
    expect(errorsOf(await tell('2099-03-09'))).toEqual(['/words']);
    expect(errorsOf(await tell(null))).toEqual(['/words']);
    expect((await tell('2099-03-09', 'waits for the foundry')).status).toBe(201);
    const bare = shop.sql`insert into purchase_promise (id, purchase_line_id, promised_on, told_by_id)
      values (gen_random_uuid(), ${lines[0].id}, '2099-04-01', ${shop.people.clerk})`;
    await expect(bare).rejects.toThrow('reason');
  });
});

describe('the short desk', () => {
  test('tells by job what is ordered, when it comes, what slipped and what nothing covers', async () => {
    const part = await addPart(shop.sql);
    const [first, second] = [await shortOf(part.id, 2), await shortOf(part.id, 3)];
    const { id, number, lines } = await order([{ partId: part.id, quantity: 4, promisedOn: '2020-03-01' }]);
    await clerk().post(`/api/purchase-lines/${lines[0].id}/dates`, { promisedOn: '2020-03-09', words: 'no castings' });
    const { body } = await clerk().get('/api/stores/short');
    const own = body.items.filter((line: { part: { id: string } }) => line.part.id === part.id);
    expect(own).toMatchObject([
      { job: { id: first }, short: 2, uncovered: 0, expectedOn: '2020-03-09', late: true },
      { job: { id: second }, short: 3, uncovered: 1, expectedOn: null, late: true },
    ]);
    expect(own[1].onOrder).toMatchObject([
      { orderId: id, orderNumber: number, quantity: 2, slips: 1, said: 'no castings', late: true },
    ]);
  });
});

describe('the walk', () => {
  test('goes past the bins in their order, each pick once, and leaves out what waits for a yes', async () => {
    const part = await addPart(shop.sql);
    const [late, early] = [await addBin(shop.sql), await addBin(shop.sql)];
    await shop.sql`update bin set walk_order = 9000 where id = ${late.id}`;
    await addLot(shop, { partId: part.id, quantity: 2, binId: late.id, receivedAt: '2026-01-01T08:00:00Z' });
    await addLot(shop, { partId: part.id, quantity: 2, binId: early.id, receivedAt: '2026-02-01T08:00:00Z' });
    const jobId = await shortOf(part.id, 3);
    const { body } = await clerk().get(`/api/stores/pick-walk?jobId=${jobId}`);
    expect(
      body.stops.map(({ bin, picks }: { bin: { name: string }; picks: { quantity: number }[] }) => [
        bin.name,
        picks.map(({ quantity }) => quantity),
      ]),
    ).toEqual([
      [early.code, [1]],
      [late.code, [2]],
    ]);
    await shop.sql`update reservation set expires_at = now() + interval '1 day' where demand_line_id in (select id from demand_line where job_id = ${jobId})`;
    expect((await clerk().get(`/api/stores/pick-walk?jobId=${jobId}`)).body.stops).toEqual([]);
  });
});

describe('a bin', () => {
  test('goes by another code, keeps its label, and two never share one', async () => {
    const [bin, other] = [await addBin(shop.sql), await addBin(shop.sql)];
    const change = (body: object) => clerk().post(`/api/bins/${bin.id}/change`, body);
    const taken = await change({ code: other.code.toLowerCase() });
    expect([taken.status, errorsOf(taken)]).toEqual([409, ['/code']]);
    const [before] = await shop.sql`select label_serial from bin where id = ${bin.id}`;
    expect((await change({ code: 'Q-77', closed: true })).body).toMatchObject({ code: 'Q-77', closed: true });
    expect(await shop.sql`select label_serial from bin where id = ${bin.id}`).toEqual([before]);
    const kept = (await clerk().get('/api/stores/bins?search=q-77')).body.items;
    expect(kept.find(({ id }: { id: string }) => id === bin.id)).toMatchObject({ closed: true, parts: 0, pieces: 0 });
  });
});

describe('what suggestions assume', () => {
  const rule = {
    servicePercent: 97.5,
    orderCost: price('1800'),
    holdingPercent: 22,
    leadDays: 12,
    historyDays: 180,
    reason: 'two jobs stood still in spring',
  };

  test('is set by a lead alone, holds from then on, and what held before stays', async () => {
    const part = await addPart(shop.sql);
    const read = async () => (await clerk().get(`/api/parts/${part.id}/supply`)).body.reorder;
    expect(await read()).toMatchObject({ service: 0.95, orderCost: 1500, holdingShare: 0.2, leadDays: 10, days: 365 });
    expect((await clerk().post('/api/stores/buying-rules', rule)).status).toBe(403);
    expect((await shop.as.lead.post('/api/stores/buying-rules', rule)).status).toBe(201);
    const second = { ...rule, leadDays: 14, reason: 'the foundry is slower' };
    const { body } = await shop.as.lead.post('/api/stores/buying-rules', second);
    expect(body.inForce).toMatchObject({ leadDays: 14, servicePercent: 97.5 });
    expect(body.history.map(({ reason }: { reason: string }) => reason)).toEqual([second.reason, rule.reason]);
    expect(await read()).toMatchObject({
      service: 0.975,
      orderCost: 1800,
      holdingShare: 0.22,
      leadDays: 14,
      days: 180,
    });
    await expect(shop.sql`update buying_rule set lead_days = 1`).rejects.toThrow('append-only');
  });

  test('refuses what no shop can mean, by its field', async () => {
    for (const [field, value] of [
      ['servicePercent', 100],
      ['servicePercent', 97.55],
      ['holdingPercent', 0],
      ['leadDays', 1.5],
      ['historyDays', 7],
      ['reason', ' '],
    ] as const) {
      const refused = await shop.as.lead.post('/api/stores/buying-rules', { ...rule, [field]: value });
      expect([refused.status, errorsOf(refused)]).toEqual([400, [`/${field}`]]);
    }
    const foreign = { ...rule, orderCost: { minor: '1', currency: 'USD' } };
    expect(errorsOf(await shop.as.lead.post('/api/stores/buying-rules', foreign))).toEqual(['/orderCost']);
  });
});
