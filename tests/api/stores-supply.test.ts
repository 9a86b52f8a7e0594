import { afterAll, afterEach, describe, expect, test } from 'vitest';
import type { OrderListed } from '#contracts/supply.ts';
import { newId } from '#platform/act.ts';
import { openShop, takeIn } from '../support/shop.ts';
import { addBin, addLot, addPart, demand, expectBooksToAgree, none, standing } from '../support/stores.ts';

const shop = await openShop();
const { sql, vendorId } = shop;
const { clerk, technician } = shop.as;
afterEach(() => expectBooksToAgree(sql));
afterAll(shop.close);

let serial = 0;
async function shortOf(partId: string, quantity: number) {
  serial += 1;
  const job = await takeIn(shop, { serial: `B-${serial}` });
  await demand(shop, job.jobId, [[partId, quantity]]);
  await technician.post(`/api/jobs/${job.jobId}/reservations`, { allOrNothing: false });
  return job;
}
const order = async (lines: readonly object[]) => {
  const answer = await clerk.post('/api/purchase-orders', { vendorId, lines });
  expect(answer.status, JSON.stringify(answer.body)).toBe(201);
  return answer.body;
};
const price = (minor: string) => ({ minor, currency: 'EUR' });
const worth = async (partId: string) =>
  (await sql<{ value: number }[]>`select value_minor as value from part_value where part_id = ${partId}`)[0]?.value;

describe('what to buy', () => {
  test('names shortages that nothing on order covers, by vendor, and what runs low', async () => {
    const part = await addPart(sql);
    const low = await addPart(sql, { reorderPoint: 3 });
    const job = await shortOf(part.id, 4);
    const told = await clerk.post('/api/vendor-prices', {
      vendorId,
      partId: part.id,
      price: price('250'),
      validFrom: '2020-01-01',
    });
    expect(told.status).toBe(201);
    const { body } = await clerk.get('/api/stores/to-buy');
    const group = body.vendors.find(({ vendor }: { vendor: { id: string } | null }) => vendor?.id === vendorId);
    expect(group.lines).toMatchObject([
      { part: { id: part.id }, quantity: 4, job: { id: job.jobId }, price: { minor: '250' }, why: 'short' },
    ]);
    const nobody = body.vendors.find(({ vendor }: { vendor: unknown }) => vendor === null);
    expect(nobody.lines).toMatchObject([{ part: { id: low.id }, quantity: 6, job: null, why: 'low' }]);

    const placed = await order([{ partId: part.id, quantity: 3, jobId: job.jobId }]);
    expect(placed.lines[0].price.minor).toBe('250');
    const after = await clerk.get('/api/stores/to-buy');
    const left = after.body.vendors.flatMap(({ lines }: { lines: object[] }) => lines);
    expect(left.find((line: { part: { id: string } }) => line.part.id === part.id)).toMatchObject({ quantity: 1 });
    expect((await technician.get('/api/stores/to-buy')).body.vendors[0].lines[0].price).toBeNull();
  });
});

test('what runs low says how many of those on hand are free', async () => {
  const part = await addPart(sql, { reorderPoint: 1 });
  await addLot(shop, { partId: part.id, quantity: 2 });
  await shortOf(part.id, 1);
  const { body } = await clerk.get('/api/stores/to-buy');
  const lines = body.vendors.flatMap((group: { lines: { part: { id: string } }[] }) => group.lines);
  expect(lines.find((line: { part: { id: string } }) => line.part.id === part.id)).toMatchObject({
    why: 'low',
    onHand: 2,
    free: 1,
    coming: 0,
    reorderPoint: 1,
    quantity: 1,
  });
});

describe('an order', () => {
  test('is a numbered document that is sent and confirmed once, and goes out as text and CSV', async () => {
    const part = await addPart(sql, { name: 'Base gasket' });
    const first = await order([{ partId: part.id, quantity: 2, price: price('100') }]);
    const second = await order([{ partId: part.id, quantity: 1 }]);
    expect(second.number).toBe(first.number + 1);
    expect(first).toMatchObject({ total: price('200'), sentAt: null });
    const sent = await clerk.post(`/api/purchase-orders/${first.id}/marks`, { mark: 'sent' });
    expect(sent.body.sentAt).not.toBeNull();
    expect((await clerk.post(`/api/purchase-orders/${first.id}/marks`, { mark: 'sent' })).status).toBe(409);
    expect((await clerk.get(`/api/purchase-orders/${first.id}/text`)).body).toContain(
      `  1. 2 pieces\r\n     Base gasket\r\n     Our number ${part.number}`,
    );
    expect((await clerk.get(`/api/purchase-orders/${first.id}/csv`)).body).toContain(
      `${first.number},1,,${part.number},Base gasket,,2,1,2,piece,0,`,
    );
    await clerk.post('/api/vendor-prices', {
      vendorId: shop.vendorId,
      partId: part.id,
      price: price('100'),
      validFrom: '2020-01-01',
      theirNumber: 'ZK/44%',
    });
    const found = async (search: string) =>
      (await clerk.get(`/api/purchase-orders?search=${encodeURIComponent(search)}`)).body.items.map(
        ({ number }: { number: number }) => number,
      );
    expect(await found(` ${first.number} `)).toEqual([first.number]);
    for (const words of [part.number, 'base GASK', 'zk/44%', `saltmere ${part.number}`, `gasket ${first.number}`])
      expect(await found(words), words).toContain(first.number);
    for (const words of [`${first.number}0`, 'zk/44_', `elsewhere ${part.number}`, `gasket ${second.number}x`])
      expect(await found(words), words).toEqual([]);
    expect(await found('gask%')).toEqual([]);
    const page = await clerk.get('/api/purchase-orders?limit=1&open=true');
    expect(page.body.items).toMatchObject([{ id: second.id, lines: 1, open: 1 }]);
    expect((await clerk.get(`/api/purchase-orders?limit=1&after=${page.body.next}`)).body.items[0].id).toBe(first.id);
  });

  test('stands in a list by number, vendor or day, page after page, each once', async () => {
    const part = await addPart(sql);
    const [row] = await sql<{ id: string }[]>`
      insert into vendor (id, name, trade, contact) values (${newId()}, 'Abel Rings', 'parts', '') returning id`;
    const other = row?.id ?? '';
    for (const [vendor, promisedOn] of [
      [vendorId, '2031-05-02'],
      [other, '2031-05-01'],
      [other, undefined],
      [vendorId, '2031-05-02'],
      [other, '2031-06-01'],
    ] as const) {
      const lines = [{ partId: part.id, quantity: 1, ...(promisedOn === undefined ? {} : { promisedOn }) }];
      expect((await clerk.post('/api/purchase-orders', { vendorId: vendor, lines })).status).toBe(201);
    }
    const all = (await clerk.get('/api/purchase-orders?limit=200')).body.items as readonly OrderListed[];
    const day = ({ open, expectedOn }: OrderListed) => (open === 0 ? '~' : (expectedOn ?? 'none'));
    const byNewest = (a: OrderListed, b: OrderListed) => b.number - a.number;
    const sorted = {
      newest: all.toSorted(byNewest),
      oldest: all.toSorted((a, b) => a.number - b.number),
      vendor: all.toSorted((a, b) => a.vendor.name.localeCompare(b.vendor.name, 'en') || byNewest(a, b)),
      expected: all.toSorted((a, b) => (day(a) < day(b) ? -1 : day(a) > day(b) ? 1 : byNewest(a, b))),
    };
    for (const [sort, wanted] of Object.entries(sorted)) {
      const seen: string[] = [];
      for (let next: string | null = ''; next !== null; ) {
        const answer: { body: { items: readonly OrderListed[]; next: string | null } } = await clerk.get(
          `/api/purchase-orders?limit=2&sort=${sort}${next === '' ? '' : `&after=${next}`}`,
        );
        seen.push(...answer.body.items.map(({ id }) => id));
        next = answer.body.next;
      }
      expect(seen, sort).toEqual(wanted.map(({ id }) => id));
    }
    const ids = async (asked: string) =>
      (await clerk.get(`/api/purchase-orders?limit=200&${asked}`)).body.items.map(({ id }: OrderListed) => id);
    expect(await ids(`vendorId=${other}`)).toEqual(
      sorted.newest.filter(({ vendor }) => vendor.id === other).map(({ id }) => id),
    );
    expect(await ids('sent=true')).toEqual(sorted.newest.filter(({ sentAt }) => sentAt !== null).map(({ id }) => id));
    expect(await ids('sent=false&open=true')).toEqual(
      sorted.newest.filter(({ sentAt, open }) => sentAt === null && open > 0).map(({ id }) => id),
    );
    expect((await clerk.get(`/api/purchase-orders?after=${newId()}`)).status).toBe(400);
    expect((await clerk.get('/api/purchase-orders?after=5')).status).toBe(400);
    expect((await clerk.get('/api/purchase-orders?sort=price')).status).toBe(400);
  });

  test('for an unknown part or a job that is gone is refused by its line, and no number is used up for it', async () => {
    const part = await addPart(sql);
    const refused = await clerk.post('/api/purchase-orders', {
      vendorId,
      lines: [
        { partId: part.id, quantity: 1 },
        { partId: newId(), quantity: 1, jobId: newId() },
      ],
    });
    expect(refused.status).toBe(404);
    expect(refused.body.errors.map(({ pointer }: { pointer: string }) => pointer)).toEqual([
      '/lines/1/partId',
      '/lines/1/jobId',
    ]);
    for (const quantity of [-1, 0, 1.5])
      expect(
        (await clerk.post('/api/purchase-orders', { vendorId, lines: [{ partId: part.id, quantity }] })).status,
      ).toBe(400);
    expect(
      (await technician.post('/api/purchase-orders', { vendorId, lines: [{ partId: part.id, quantity: 1 }] })).status,
    ).toBe(403);
  });

  test('keeps every date its vendor gave; the newest is the one that counts', async () => {
    const part = await addPart(sql);
    const { id, lines } = await order([{ partId: part.id, quantity: 2, promisedOn: '2099-03-01' }]);
    await clerk.post(`/api/purchase-lines/${lines[0].id}/dates`, {
      promisedOn: '2099-03-09',
      words: 'waits for the foundry',
    });
    const { body } = await clerk.get(`/api/purchase-orders/${id}`);
    expect(body.lines[0]).toMatchObject({
      promisedOn: '2099-03-09',
      facts: [{ kind: 'date', words: 'waits for the foundry' }],
    });
    await expect(sql`delete from purchase_promise`).rejects.toThrow('append-only');
  });
});

describe('a delivery', () => {
  test('comes in by part, serves the job it was bought for, and shares its freight by worth', async () => {
    const [dear, cheap] = [await addPart(sql), await addPart(sql)];
    const bin = await addBin(sql);
    const job = await shortOf(dear.id, 2);
    const { lines } = await order([
      { partId: dear.id, quantity: 3, jobId: job.jobId, price: price('5000') },
      { partId: cheap.id, quantity: 10, price: price('500') },
    ]);
    const took = await clerk.post('/api/deliveries', {
      lines: [
        { purchaseLineId: lines[0].id, binId: bin.id, quantity: 2 },
        { purchaseLineId: lines[1].id, binId: bin.id, quantity: 10 },
      ],
      freight: price('1000'),
    });
    expect(took.status, JSON.stringify(took.body)).toBe(201);
    expect(took.body.lines[0].reservedFor).toMatchObject({ quantity: 2 });
    expect(await standing(shop, job.jobId, dear.id)).toEqual({ ...none, reserved: 2 });
    // 10 000 and 5 000 of goods: the freight of 1 000 goes 667 to 333.
    expect(await worth(dear.id)).toBe(10_667);
    expect(await worth(cheap.id)).toBe(5_333);
    expect((await clerk.get(`/api/purchase-lines?partId=${dear.id}&coming=true`)).body.items).toMatchObject([
      { quantity: 3, received: 2 },
    ]);
  });

  test('with one bad line takes nothing in', async () => {
    const part = await addPart(sql);
    const [bin, closed] = [await addBin(sql), await addBin(sql, true)];
    const { lines } = await order([
      { partId: part.id, quantity: 2 },
      { partId: part.id, quantity: 2 },
    ]);
    const refused = await clerk.post('/api/deliveries', {
      lines: [
        { purchaseLineId: lines[0].id, binId: bin.id, quantity: 2 },
        { purchaseLineId: lines[1].id, binId: closed.id, quantity: 2 },
      ],
    });
    expect(refused.status).toBe(409);
    expect(await sql`select from stock_lot where part_id = ${part.id}`).toHaveLength(0);
  });

  test('of more than was ordered is kept only when that is said', async () => {
    const part = await addPart(sql);
    const bin = await addBin(sql);
    const { lines } = await order([{ partId: part.id, quantity: 2 }]);
    const receipt = { partId: part.id, binId: bin.id, quantity: 5, purchaseLineId: lines[0].id };
    expect((await clerk.post('/api/receipts', receipt)).status).toBe(422);
    expect((await clerk.post('/api/receipts', { ...receipt, acceptOver: true })).status).toBe(201);
    expect((await clerk.get(`/api/parts/${part.id}`)).body.part).toMatchObject({ onHand: 5, coming: 0 });
  });

  test('that came wrong stays out of stock; what goes back is to come again, unless it is called off', async () => {
    const part = await addPart(sql);
    const bin = await addBin(sql);
    const { id, lines } = await order([{ partId: part.id, quantity: 4, price: price('100') }]);
    const fault = (body: object) => clerk.post(`/api/purchase-lines/${lines[0].id}/faults`, body);
    expect((await fault({ kind: 'came wrong', quantity: 4, words: 'ring sets instead' })).status).toBe(201);
    const { body } = await clerk.post('/api/receipts', {
      partId: part.id,
      binId: bin.id,
      quantity: 3,
      purchaseLineId: lines[0].id,
      cost: price('300'),
    });
    expect((await fault({ kind: 'sent back', quantity: 4, lotId: body.lotId, words: 'cracked' })).status).toBe(409);
    expect((await fault({ kind: 'sent back', quantity: 1, lotId: body.lotId, words: 'cracked' })).status).toBe(201);
    expect(await worth(part.id)).toBe(200);
    expect((await fault({ kind: 'called off', quantity: 3, words: 'not made any more' })).status).toBe(422);
    expect((await fault({ kind: 'called off', quantity: 2, words: 'not made any more' })).status).toBe(201);
    const now = (await clerk.get(`/api/purchase-orders/${id}`)).body.lines[0];
    expect(now).toMatchObject({ quantity: 2, received: 2 });
    expect(now.facts.map(({ kind }: { kind: string }) => kind)).toEqual([
      'came wrong',
      'received',
      'sent back',
      'called off',
    ]);
  });

  test('of a part bought against its worn one leaves a core owed until it is sent and credited', async () => {
    const part = await addPart(sql);
    await sql`update part set core_minor = 8000 where id = ${part.id}`;
    const bin = await addBin(sql);
    const { lines } = await order([{ partId: part.id, quantity: 1 }]);
    await clerk.post('/api/receipts', { partId: part.id, binId: bin.id, quantity: 1, purchaseLineId: lines[0].id });
    const [core] = (await clerk.get('/api/cores')).body.items;
    expect(core).toMatchObject({ part: { id: part.id }, charge: price('8000'), sentAt: null });
    expect((await clerk.post(`/api/cores/${core.id}/marks`, { mark: 'sent' })).body.items[0].sentAt).not.toBeNull();
    expect((await clerk.post(`/api/cores/${core.id}/marks`, { mark: 'sent' })).status).toBe(409);
    expect((await clerk.post(`/api/cores/${newId()}/marks`, { mark: 'sent' })).status).toBe(404);
  });

  describe('of a piece that goes back to its vendor', () => {
    async function twoReceived() {
      const part = await addPart(sql);
      await sql`update part set core_minor = 8000 where id = ${part.id}`;
      const bin = await addBin(sql);
      const { lines } = await order([{ partId: part.id, quantity: 2 }]);
      const receive = (quantity: number) =>
        clerk.post('/api/receipts', { partId: part.id, binId: bin.id, quantity, purchaseLineId: lines[0].id });
      const { body } = await receive(2);
      const sendBack = (quantity: number) =>
        clerk.post(`/api/purchase-lines/${lines[0].id}/faults`, {
          kind: 'sent back',
          quantity,
          lotId: body.lotId,
          words: 'cracked',
        });
      const owed = async () =>
        (await clerk.get('/api/cores')).body.items.filter((core: { part: { id: string } }) => core.part.id === part.id);
      return { receive, sendBack, owed };
    }
    const sum = (cores: readonly { quantity: number }[]) => cores.reduce((all, { quantity }) => all + quantity, 0);

    test('no core is owed; the piece that replaces it leaves one, and no second', async () => {
      const { receive, sendBack, owed } = await twoReceived();
      expect(sum(await owed())).toBe(2);
      expect((await sendBack(1)).status).toBe(201);
      expect(sum(await owed())).toBe(1);
      await receive(1);
      expect(sum(await owed())).toBe(2);
      expect((await owed()).map(({ quantity }: { quantity: number }) => quantity)).toEqual([1, 1]);
    });

    test('a core that its vendor has stays noted, and the replacement asks for no other', async () => {
      const { receive, sendBack, owed } = await twoReceived();
      const [core] = await owed();
      await clerk.post(`/api/cores/${core.id}/marks`, { mark: 'sent' });
      await sendBack(1);
      await receive(1);
      expect(await owed()).toMatchObject([{ id: core.id, quantity: 2 }]);
    });

    test('one whose piece went back cannot be sent, and no core is lifted twice', async () => {
      const { sendBack, owed } = await twoReceived();
      const [core] = await owed();
      await sendBack(2);
      expect(await owed()).toEqual([]);
      const sent = await clerk.post(`/api/cores/${core.id}/marks`, { mark: 'sent' });
      expect(sent.status).toBe(409);
      expect(sent.body.detail).toContain('not owed any more');
      const lift = sql`insert into core_lifted (id, core_id, quantity, words, lifted_by_id) values (${newId()}, ${core.id}, 1, 'x', ${shop.people.clerk})`;
      await expect(lift).rejects.toThrow('not owed any more');
    });
  });

  test('a core that is owed is listed however many were settled since', async () => {
    const part = await addPart(sql);
    await sql`update part set core_minor = 8000 where id = ${part.id}`;
    const { lines } = await order([{ partId: part.id, quantity: 300 }]);
    const old = newId();
    await sql`insert into core_owed (id, purchase_line_id, quantity, charge_minor, owed_at) values (${old}, ${lines[0].id}, 1, 8000, '2020-01-01')`;
    for (let at = 0; at < 205; at += 1) {
      const id = newId();
      await sql`insert into core_owed (id, purchase_line_id, quantity, charge_minor) values (${id}, ${lines[0].id}, 1, 8000)`;
      await sql`insert into core_mark (id, core_id, mark, marked_by_id) values (${newId()}, ${id}, 'credited', ${shop.people.clerk})`;
    }
    const { items } = (await clerk.get('/api/cores')).body;
    const at = items.findIndex(({ id }: { id: string }) => id === old);
    const settled = items.findIndex(({ creditedAt }: { creditedAt: string | null }) => creditedAt !== null);
    expect(at).toBeGreaterThanOrEqual(0);
    expect(settled).toBeGreaterThan(at);
    expect(items.slice(settled)).toHaveLength(200);
    // None of these pieces ever came: what is left owed of them would stand against the books.
    await sql`insert into core_mark (id, core_id, mark, marked_by_id) values (${newId()}, ${old}, 'credited', ${shop.people.clerk})`;
  });
});

describe('when and how many to buy', () => {
  test('is worked out from what was used and how long it took to come, and every figure is told', async () => {
    const part = await addPart(sql, { priceMinor: 1000 });
    const bin = await addBin(sql);
    const lineIds: string[] = [];
    for (const [ordered, came] of [
      [100, 90],
      [60, 46],
    ] as const) {
      const { lines } = await order([{ partId: part.id, quantity: 50 }]);
      lineIds.push(lines[0].id);
      await sql`update purchase_line set ordered_at = now() - make_interval(days => ${ordered}) where id = ${lines[0].id}`;
      const { body } = await clerk.post('/api/receipts', { partId: part.id, binId: bin.id, quantity: 50 });
      await sql`insert into purchase_fact (id, purchase_line_id, kind, quantity, lot_id, done_by_id, done_at)
        values (${newId()}, ${lines[0].id}, 'received', 50, ${body.lotId}, ${shop.people.clerk}, now() - make_interval(days => ${came}))`;
    }
    const job = await shortOf(part.id, 73);
    const lineId = (await clerk.get(`/api/jobs/${job.jobId}/demands`)).body.lines[0].id;
    await clerk.post(`/api/demand-lines/${lineId}/issue`, { quantity: 73 });
    const today = (await clerk.get(`/api/parts/${part.id}/supply`)).body.reorder;
    // Only whole days before today count.
    expect(today.used).toBe(0);
    await sql`alter table stock_movement disable trigger append_only`;
    await sql`update stock_movement set moved_at = moved_at - interval '5 days' where part_id = ${part.id} and act = 'issue'`;
    await sql`alter table stock_movement enable trigger append_only`;
    const { reorder } = (await clerk.get(`/api/parts/${part.id}/supply`)).body;
    expect(reorder).toMatchObject({
      used: 73,
      days: 365,
      leadLines: 2,
      orderQuantity: Math.round(Math.sqrt((2 * 1500 * 73) / 200)),
    });
    expect(reorder.meanPerDay).toBeCloseTo(0.2, 9);
    expect(reorder.leadDays).toBeCloseTo(12, 1);
    expect(reorder.leadDeviationDays).toBeCloseTo(Math.SQRT2 * 2, 1);
    const sigma = Math.sqrt(reorder.leadDays * reorder.deviationPerDay ** 2 + 0.04 * reorder.leadDeviationDays ** 2);
    expect(reorder.safetyStock).toBeCloseTo(1.6448536 * sigma, 4);
  });
});
