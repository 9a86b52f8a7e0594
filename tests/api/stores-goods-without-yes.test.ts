import { afterAll, afterEach, describe, expect, test } from 'vitest';
import { makeRound } from '#features/stores/reservations/clock.ts';
import { answer, endOfDay, quote } from '../support/quotes.ts';
import { openShop, takeIn } from '../support/shop.ts';
import { addBin, addPart, demand, expectBooksToAgree, lotNow, none, standing } from '../support/stores.ts';

const shop = await openShop();
const { sql, vendorId } = shop;
const { clerk, technician } = shop.as;
await sql`update bay set capacity = 100 where id = ${shop.bays.rack}`;
afterEach(() => expectBooksToAgree(sql));
afterAll(shop.close);

async function ask(jobId: string): Promise<void> {
  expect((await technician.post(`/api/jobs/${jobId}/reservations`, { allOrNothing: false })).status).toBe(200);
}

/** A job that is short of a part and has a quote out, with so many of it on order for that very job. */
async function boughtFor(serial: string, quantity = 2) {
  const part = await addPart(sql, { name: 'Piston' });
  const { jobId, engineId } = await takeIn(shop, { serial });
  await demand(shop, jobId, [[part.id, quantity]]);
  const quoteId = await quote(shop, jobId);
  await ask(jobId);
  const ordered = await clerk.post('/api/purchase-lines', { vendorId, partId: part.id, quantity, jobId });
  expect(ordered.status, JSON.stringify(ordered.body)).toBe(201);
  return { jobId, engineId, part, quoteId, purchaseLineId: ordered.body.id as string };
}

async function receive(of: { part: { id: string }; purchaseLineId: string }, quantity = 2) {
  const bin = await addBin(sql);
  const { status, body } = await clerk.post('/api/receipts', {
    partId: of.part.id,
    binId: bin.id,
    quantity,
    purchaseLineId: of.purchaseLineId,
  });
  expect(status, JSON.stringify(body)).toBe(201);
  return body;
}

const untils = async (jobId: string) =>
  (
    await sql<{ until: string | null }[]>`
      select r.expires_at as until from reservation r join demand_line d on d.id = r.demand_line_id
      where d.job_id = ${jobId} and r.quantity > 0`
  ).map(({ until }) => until);

describe('goods that were bought for a job', () => {
  test('are held until the day of the rule while its quote is out, and firm after a yes', async () => {
    const bought = await boughtFor('G-OUT');
    const received = await receive(bought);
    const until = await endOfDay(shop, 14);
    expect(received).toMatchObject({ available: 0, saidNo: null, reservedFor: { quantity: 2 } });
    expect(Date.parse(received.reservedFor.until)).toBe(Date.parse(until));
    expect(await untils(bought.jobId)).toEqual([until]);
    await answer(shop, bought.quoteId, true);
    expect(await untils(bought.jobId)).toEqual([null]);
  });

  test('are firm where the yes came first', async () => {
    const bought = await boughtFor('G-YES');
    await answer(shop, bought.quoteId, true);
    expect((await receive(bought)).reservedFor).toMatchObject({ quantity: 2, until: null });
    expect(await untils(bought.jobId)).toEqual([null]);
  });

  test('go to the shelf after a no, and to who waits, and the receipt says so', async () => {
    const bought = await boughtFor('G-NO');
    await answer(shop, bought.quoteId, false);
    const other = await takeIn(shop, { serial: 'G-NO-2' });
    await demand(shop, other.jobId, [[bought.part.id, 1]]);
    await ask(other.jobId);
    const received = await receive(bought);
    expect(received).toMatchObject({
      available: 2,
      reservedFor: null,
      saidNo: { id: bought.jobId, serial: 'G-NO' },
      waiting: [{ job: { id: other.jobId }, short: 1 }],
    });
    const [told] = await sql`select data from event where job_id = ${bought.jobId} and kind = 'stock.received'`;
    expect(told?.data).toMatchObject({ reserved: 0, saidNo: expect.any(Number) });
    await makeRound(sql);
    expect(await standing(shop, other.jobId, bought.part.id)).toEqual({ ...none, reserved: 1 });
    expect(await standing(shop, bought.jobId, bought.part.id)).toEqual({ ...none, notAsked: 2 });
    expect(await lotNow(sql, received.lotId)).toMatchObject({ onHand: 2, reserved: 1 });
  });

  test('give a job that asks again after a no its turn among those who wait, and no more', async () => {
    const bought = await boughtFor('G-AGAIN');
    await answer(shop, bought.quoteId, false);
    await ask(bought.jobId);
    const other = await takeIn(shop, { serial: 'G-AGAIN-2' });
    await demand(shop, other.jobId, [[bought.part.id, 1]]);
    await sql`insert into promise (id, job_id, ready_on, sure_of_5, made_by_id)
      values (${crypto.randomUUID()}, ${other.jobId}, '2027-01-01', 4, ${shop.people.writer})`;
    await ask(other.jobId);
    expect(await receive(bought)).toMatchObject({ available: 2, reservedFor: null });
    await makeRound(sql);
    expect(await standing(shop, other.jobId, bought.part.id)).toEqual({ ...none, reserved: 1 });
    expect(await standing(shop, bought.jobId, bought.part.id)).toEqual({ ...none, reserved: 1, short: 1 });
    expect(await untils(bought.jobId)).toEqual([await endOfDay(shop, 14)]);
  });

  test('come in for their job after a new quote and a yes', async () => {
    const bought = await boughtFor('G-SECOND');
    await answer(shop, bought.quoteId, false);
    await answer(shop, await quote(shop, bought.jobId), true);
    await ask(bought.jobId);
    expect(await receive(bought)).toMatchObject({ saidNo: null, reservedFor: { quantity: 2, until: null } });
  });

  test('in a delivery are treated alike', async () => {
    const [out, no] = [await boughtFor('G-DELIVERY-1'), await boughtFor('G-DELIVERY-2')];
    await answer(shop, no.quoteId, false);
    await ask(no.jobId);
    const bin = await addBin(sql);
    const taken = await clerk.post('/api/deliveries', {
      note: 'N-1',
      lines: [out, no].map(({ purchaseLineId }) => ({ purchaseLineId, quantity: 2, binId: bin.id })),
    });
    expect(taken.status, JSON.stringify(taken.body)).toBe(201);
    expect(taken.body.lines).toMatchObject([
      { reservedFor: { quantity: 2, until: expect.any(String) }, saidNo: null },
      { reservedFor: null, saidNo: { id: no.jobId }, available: 2 },
    ]);
  });
});
