import { afterAll, afterEach, describe, expect, test } from 'vitest';
import { newId } from '#platform/act.ts';
import { openShop, takeIn } from '../support/shop.ts';
import { addBin, addLot, addPart, demand, expectBooksToAgree, lotNow, none, standing } from '../support/stores.ts';

const shop = await openShop();
const { sql } = shop;
const { clerk, technician, writer, lead } = shop.as;
afterEach(() => expectBooksToAgree(sql));
afterAll(shop.close);

let serial = 0;
/** A job with so many pieces of the part reserved, promised for a day or for none. */
async function holding(partId: string, quantity: number, promisedOn?: string) {
  serial += 1;
  const job = await takeIn(shop, { serial: `S-${serial}` });
  if (promisedOn !== undefined) {
    await sql`
      insert into promise (id, job_id, ready_on, sure_of_5, made_by_id)
      values (${newId()}, ${job.jobId}, ${promisedOn}, 4, ${shop.people.writer})`;
  }
  const lines = await demand(shop, job.jobId, [[partId, quantity]]);
  await technician.post(`/api/jobs/${job.jobId}/reservations`, { allOrNothing: false });
  return { ...job, lineId: lines.get(partId) ?? '' };
}
const move = (body: object) => clerk.post('/api/stock-movements', body);

describe('a stock movement', () => {
  test.each([
    { act: 'scrap', quantity: 6, reason: 'bent' },
    { act: 'adjust', quantity: -6, reason: 'counted' },
  ])('of more than there is ($act) is refused with the numbers and changes nothing', async (body) => {
    const part = await addPart(sql);
    const lotId = await addLot(shop, { partId: part.id, quantity: 5 });
    await holding(part.id, 2);
    const answer = await move({ ...body, lotId });
    expect(answer.status).toBe(409);
    expect(answer.body).toMatchObject({
      type: 'urn:crosshatch:problem:stock-short',
      onHand: 5,
      reserved: 2,
      available: 3,
      asked: 6,
    });
    expect(await lotNow(sql, lotId)).toMatchObject({ onHand: 5, reserved: 2 });
  });

  test('counted down releases the latest promise first, no promise before all, into named shortages', async () => {
    const part = await addPart(sql, { name: 'Head gasket' });
    const lotId = await addLot(shop, { partId: part.id, quantity: 6 });
    const early = await holding(part.id, 2, '2099-12-01');
    const late = await holding(part.id, 2, '2099-12-20');
    const never = await holding(part.id, 2);
    const { status, body } = await move({ act: 'count', lotId, counted: 3, reason: 'cycle count' });
    expect(status).toBe(201);
    expect(body).toMatchObject({ onHand: 3, reserved: 3, available: 0 });
    expect(body.shortages).toMatchObject([
      { job: { number: never.number }, part: { name: 'Head gasket' }, missing: 2 },
      { job: { number: late.number }, part: { name: 'Head gasket' }, missing: 1 },
    ]);
    expect(await standing(shop, early.jobId, part.id)).toEqual({ ...none, reserved: 2 });
    expect(await standing(shop, late.jobId, part.id)).toEqual({ ...none, reserved: 1, short: 1 });
    expect(await standing(shop, never.jobId, part.id)).toEqual({ ...none, short: 2 });
    const [event] = await sql<{ data: { short: unknown[] } }[]>`
      select data from event where kind = 'stock.moved' order by recorded_at desc limit 1`;
    expect(event?.data.short).toHaveLength(2);
  });

  test('counted as many as there are moves nothing', async () => {
    const part = await addPart(sql);
    const lotId = await addLot(shop, { partId: part.id, quantity: 4 });
    expect((await move({ act: 'count', lotId, counted: 4, reason: 'cycle count' })).status).toBe(201);
    const movements = await sql`select from stock_movement where lot_id = ${lotId}`;
    expect(movements).toHaveLength(1);
  });

  test('takes value out at the average, and the last piece takes what is left', async () => {
    const part = await addPart(sql);
    const lotId = await addLot(shop, { partId: part.id, quantity: 3, valueMinor: 1000 });
    await move({ act: 'scrap', lotId, quantity: 1, reason: 'bent' });
    expect(await lotNow(sql, lotId)).toEqual({ onHand: 2, reserved: 0, valueMinor: 667 });
    await move({ act: 'receive', lotId, quantity: 1, cost: { minor: '33', currency: 'EUR' } });
    expect(await lotNow(sql, lotId)).toEqual({ onHand: 3, reserved: 0, valueMinor: 700 });
    await move({ act: 'scrap', lotId, quantity: 3, reason: 'water in the box' });
    expect(await lotNow(sql, lotId)).toEqual({ onHand: 0, reserved: 0, valueMinor: 0 });
  });

  test('to another bin carries available pieces first, and their value; more than lie there are refused', async () => {
    const part = await addPart(sql);
    const lotId = await addLot(shop, { partId: part.id, quantity: 4, valueMinor: 400 });
    await holding(part.id, 2);
    const bin = await addBin(sql);
    const { body } = await move({ act: 'transfer', lotId, quantity: 1, toBinId: bin.id });
    expect(await lotNow(sql, body.toLotId)).toEqual({ onHand: 1, reserved: 0, valueMinor: 400 });
    const again = await move({ act: 'transfer', lotId, quantity: 1, toBinId: bin.id });
    expect(again.body.toLotId).toBe(body.toLotId);
    const tooMany = await move({ act: 'transfer', lotId, quantity: 3, toBinId: bin.id });
    expect(tooMany.status).toBe(409);
    expect(tooMany.body).toMatchObject({ onHand: 2, reserved: 2, available: 0, asked: 3 });
  });

  test('into a closed bin is refused, whichever way it comes', async () => {
    const part = await addPart(sql);
    const closed = await addBin(sql);
    const inside = await addLot(shop, { partId: part.id, quantity: 1, binId: closed.id });
    await sql`update bin set closed_at = clock_timestamp() where id = ${closed.id}`;
    const outside = await addLot(shop, { partId: part.id, quantity: 1 });
    const answers = await Promise.all([
      move({ act: 'receive', lotId: inside, quantity: 1 }),
      move({ act: 'transfer', lotId: outside, quantity: 1, toBinId: closed.id }),
      clerk.post('/api/receipts', { partId: part.id, binId: closed.id, quantity: 1 }),
      move({ act: 'adjust', lotId: inside, quantity: 1, reason: 'found' }),
      move({ act: 'count', lotId: inside, counted: 2, reason: 'found' }),
    ]);
    for (const { status, body } of answers) {
      expect(status).toBe(409);
      expect(body.detail).toContain(closed.code);
    }
    expect(answers.map(({ body }) => body.errors.map(({ pointer }: { pointer: string }) => pointer))).toEqual([
      ['/lotId'],
      ['/toBinId'],
      ['/binId'],
      ['/lotId'],
      ['/lotId'],
    ]);
    expect((await move({ act: 'count', lotId: inside, counted: 0, reason: 'empty' })).status).toBe(201);
  });

  test('into a bin that is being closed waits for that, and closing it waits for what is on its way in', async () => {
    const part = await addPart(sql);
    const bin = await addBin(sql);
    const receive = () => clerk.post('/api/receipts', { partId: part.id, binId: bin.id, quantity: 1 });
    const isClosed = async () =>
      (await sql<{ closed: boolean }[]>`select closed_at is not null as closed from bin where id = ${bin.id}`)[0]
        ?.closed;
    const moment = () => new Promise((resolve) => setTimeout(resolve, 300));
    const lotId = await addLot(shop, { partId: part.id, quantity: 1, binId: bin.id });
    let closing: ReturnType<typeof receive> | undefined;
    await sql.begin(async (coming) => {
      await coming`
        insert into stock_movement (id, lot_id, act, on_hand_change, reserved_change, value_change, moved_by_id)
        values (${newId()}, ${lotId}, 'receive', 1, 0, 0, ${shop.people.clerk})`;
      closing = clerk.post(`/api/bins/${bin.id}/change`, { closed: true });
      await moment();
      expect(await isClosed()).toBe(false);
    });
    expect((await closing)?.status).toBe(200);
    expect(await isClosed()).toBe(true);

    await sql`update bin set closed_at = null where id = ${bin.id}`;
    let received: ReturnType<typeof receive> | undefined;
    await sql.begin(async (shutting) => {
      await shutting`update bin set closed_at = clock_timestamp() where id = ${bin.id}`;
      received = receive();
      await moment();
    });
    expect((await received)?.status).toBe(409);
    expect(await lotNow(sql, lotId)).toMatchObject({ onHand: 2 });
  });

  test('into a closed bin past every service is refused by the books themselves', async () => {
    const part = await addPart(sql);
    const bin = await addBin(sql);
    const lotId = await addLot(shop, { partId: part.id, quantity: 1, binId: bin.id });
    const other = await addLot(shop, { partId: part.id, quantity: 1 });
    await sql`update bin set closed_at = clock_timestamp() where id = ${bin.id}`;
    const into = sql`
      insert into stock_movement (id, lot_id, act, on_hand_change, reserved_change, value_change, moved_by_id)
      select * from (values (${newId()}::uuid, ${other}::uuid, 'transfer out', -1, 0, 0, ${shop.people.clerk}::uuid),
        (${newId()}::uuid, ${lotId}::uuid, 'transfer in', 1, 0, 0, ${shop.people.clerk}::uuid)) m`;
    await expect(into).rejects.toThrow(`bin ${bin.code} is closed`);
  });

  test('of more than is there says so at the field', async () => {
    const part = await addPart(sql);
    const lotId = await addLot(shop, { partId: part.id, quantity: 2 });
    const tooMany = await move({ act: 'scrap', lotId, quantity: 3, reason: 'bent' });
    expect(tooMany.body.errors).toEqual([{ pointer: '/quantity', detail: 'at most 2' }]);
  });

  test.each([
    { act: 'scrap', quantity: -1, reason: 'x' },
    { act: 'scrap', quantity: 0.5, reason: 'x' },
    { act: 'scrap', quantity: 1, reason: '  ' },
    { act: 'scrap', quantity: 1 },
    { act: 'adjust', quantity: 0, reason: 'x' },
    { act: 'adjust', quantity: -1.5, reason: 'x' },
    { act: 'count', counted: -1, reason: 'x' },
    { act: 'receive', quantity: '3' },
    { act: 'vanish', quantity: 1, reason: 'x' },
  ])('such as %o is refused as malformed', async (body) => {
    const part = await addPart(sql);
    const lotId = await addLot(shop, { partId: part.id, quantity: 5 });
    expect((await move({ ...body, lotId })).status).toBe(400);
    expect(await lotNow(sql, lotId)).toMatchObject({ onHand: 5 });
  });

  test('on an unknown lot, or with money of another currency, is refused', async () => {
    expect((await move({ act: 'scrap', lotId: newId(), quantity: 1, reason: 'x' })).status).toBe(404);
    const part = await addPart(sql);
    const lotId = await addLot(shop, { partId: part.id, quantity: 1 });
    const cost = { minor: '100', currency: 'USD' };
    expect((await move({ act: 'receive', lotId, quantity: 1, cost })).status).toBe(422);
  });

  test('is for stores only', async () => {
    const part = await addPart(sql);
    const lotId = await addLot(shop, { partId: part.id, quantity: 2 });
    const body = { act: 'scrap', lotId, quantity: 1, reason: 'bent' };
    expect((await technician.post('/api/stock-movements', body)).status).toBe(403);
    expect((await writer.post('/api/stock-movements', body)).status).toBe(403);
    expect((await lead.post('/api/stock-movements', body)).status).toBe(201);
  });
});

describe('the ledger', () => {
  test('is append-only: no movement is rewritten or taken out', async () => {
    const part = await addPart(sql);
    const lotId = await addLot(shop, { partId: part.id, quantity: 5 });
    await expect(sql`update stock_movement set on_hand_change = 9 where lot_id = ${lotId}`).rejects.toThrow(
      'append-only',
    );
    await expect(sql`delete from stock_movement where lot_id = ${lotId}`).rejects.toThrow('append-only');
  });

  test('alone sets balances: a bare change of a lot is refused', async () => {
    const part = await addPart(sql);
    const lotId = await addLot(shop, { partId: part.id, quantity: 5 });
    await expect(sql`update stock_lot set on_hand = 9 where id = ${lotId}`).rejects.toThrow('by a movement only');
  });
});

describe('receiving', () => {
  test('makes a lot with its value and names who is short, earliest promise first', async () => {
    const part = await addPart(sql);
    const bin = await addBin(sql);
    const late = await holding(part.id, 1, '2099-12-20');
    const early = await holding(part.id, 3, '2099-12-01');
    const { status, body } = await clerk.post('/api/receipts', {
      partId: part.id,
      binId: bin.id,
      quantity: 8,
      lotCode: '5512',
      cost: { minor: '3360', currency: 'EUR' },
    });
    expect(status).toBe(201);
    expect(body).toMatchObject({ onHand: 8, available: 8, reservedFor: null });
    expect(body.waiting.map((who: { job: { number: number }; short: number }) => [who.job.number, who.short])).toEqual([
      [early.number, 3],
      [late.number, 1],
    ]);
    expect(await lotNow(sql, body.lotId)).toEqual({ onHand: 8, reserved: 0, valueMinor: 3360 });
  });

  test('on a purchase line bought for a job reserves for that job first', async () => {
    const part = await addPart(sql);
    const bin = await addBin(sql);
    const other = await holding(part.id, 2, '2099-12-01');
    const mine = await holding(part.id, 3, '2099-12-20');
    const ordered = await clerk.post('/api/purchase-lines', {
      vendorId: shop.vendorId,
      partId: part.id,
      quantity: 4,
      promisedOn: '2099-11-26',
      jobId: mine.jobId,
    });
    expect(ordered.status).toBe(201);
    const receipt = { partId: part.id, binId: bin.id, quantity: 4, purchaseLineId: ordered.body.id };
    const { body } = await clerk.post('/api/receipts', receipt);
    expect(body.reservedFor).toMatchObject({ job: { number: mine.number }, quantity: 3 });
    expect(body.available).toBe(1);
    expect(body.waiting).toMatchObject([{ job: { number: other.number }, short: 2 }]);
    expect(await standing(shop, mine.jobId, part.id)).toEqual({ ...none, reserved: 3 });

    const again = await clerk.post('/api/receipts', { ...receipt, quantity: 1 });
    expect(again.status).toBe(422);
    expect(again.body.detail).toContain('0 can be received');
  });

  test.each([-1, 0, 2.5])('%s pieces is refused', async (quantity) => {
    const part = await addPart(sql);
    const bin = await addBin(sql);
    expect((await clerk.post('/api/receipts', { partId: part.id, binId: bin.id, quantity })).status).toBe(400);
  });

  test('an unknown part, bin or purchase line, or another part than was ordered, is refused', async () => {
    const [part, other] = [await addPart(sql), await addPart(sql)];
    const bin = await addBin(sql);
    const good = { partId: part.id, binId: bin.id, quantity: 1 };
    expect((await clerk.post('/api/receipts', { ...good, partId: newId() })).status).toBe(404);
    expect((await clerk.post('/api/receipts', { ...good, binId: newId() })).status).toBe(404);
    expect((await clerk.post('/api/receipts', { ...good, purchaseLineId: newId() })).status).toBe(404);
    const { body } = await clerk.post('/api/purchase-lines', {
      vendorId: shop.vendorId,
      partId: other.id,
      quantity: 1,
    });
    const wrong = await clerk.post('/api/receipts', { ...good, purchaseLineId: body.id });
    expect(wrong.status).toBe(422);
    expect(await sql`select from stock_lot where part_id = ${part.id}`).toHaveLength(0);
  });

  test('shims keeps the thickness that was measured; anything else has none', async () => {
    const shim = await addPart(sql, { shimNm: 2_300_000 });
    const gasket = await addPart(sql);
    const bin = await addBin(sql);
    const thickness = { value: '2.298', unit: 'mm' };
    const { body } = await clerk.post('/api/receipts', { partId: shim.id, binId: bin.id, quantity: 3, thickness });
    const sheet = await clerk.get(`/api/parts/${shim.id}`);
    expect(sheet.body.part.lots[0]).toMatchObject({ id: body.lotId, thickness });
    const refused = await clerk.post('/api/receipts', { partId: gasket.id, binId: bin.id, quantity: 3, thickness });
    expect(refused.status).toBe(422);
    const mass = { partId: shim.id, binId: bin.id, quantity: 3, thickness: { value: '2.298', unit: 'N·m' } };
    expect((await clerk.post('/api/receipts', mass)).status).toBe(422);
  });
});

test('purchase lines are listed newest first, by page, and those that came in can be left out', async () => {
  const part = await addPart(sql);
  const bin = await addBin(sql);
  const ids: string[] = [];
  for (let count = 0; count < 3; count += 1) {
    const { body } = await clerk.post('/api/purchase-lines', {
      vendorId: shop.vendorId,
      partId: part.id,
      quantity: 1,
    });
    ids.unshift(body.id);
  }
  const first = await clerk.get(`/api/purchase-lines?partId=${part.id}&limit=2`);
  expect(first.body.items.map(({ id }: { id: string }) => id)).toEqual(ids.slice(0, 2));
  const second = await clerk.get(`/api/purchase-lines?partId=${part.id}&limit=2&after=${first.body.next}`);
  expect(second.body).toMatchObject({ items: [{ id: ids[2] }], next: null });
  await clerk.post('/api/receipts', { partId: part.id, binId: bin.id, quantity: 1, purchaseLineId: ids[0] });
  const coming = await clerk.get(`/api/purchase-lines?partId=${part.id}&coming=true`);
  expect(coming.body.items).toHaveLength(2);
  expect((await clerk.get('/api/purchase-lines?after=nonsense')).status).toBe(400);
});
