import { afterAll, beforeEach, describe, expect, test } from 'vitest';
import { openShop, takeIn } from '../support/shop.ts';
import { addBin, addPart, demand, expectBooksToAgree, lotNow } from '../support/stores.ts';

const shop = await openShop();
const { sql } = shop;
const { clerk } = shop.as;
afterAll(shop.close);

let visits = 0;
/** A crank with its serial, handed out to a job that is in the shop. */
async function issued() {
  const part = await addPart(sql, { name: 'Crankshaft' });
  await sql`update part set by_serial = true where id = ${part.id}`;
  const bin = await addBin(sql);
  const receipt = { partId: part.id, binId: bin.id, quantity: 1, serial: 'K-77' };
  const { body } = await clerk.post('/api/receipts', receipt);
  visits += 1;
  const job = await takeIn(shop, { serial: `SERIALS-${visits}` });
  const line = (await demand(shop, job.jobId, [[part.id, 1]])).get(part.id) ?? '';
  await clerk.post(`/api/jobs/${job.jobId}/reservations`, { allOrNothing: true });
  expect((await clerk.post(`/api/demand-lines/${line}/issue`, { quantity: 1 })).status).toBe(200);
  return { receipt, bin, lotId: String(body.lotId), job, line };
}
const leave = (jobId: string) =>
  sql`update job set handed_back_at = clock_timestamp(), handed_back_by_id = ${shop.people.lead} where id = ${jobId}`;

describe('a piece that is out with a job', () => {
  let out: Awaited<ReturnType<typeof issued>>;
  beforeEach(async () => {
    out = await issued();
  });

  test('is not received once more, and is told where it is', async () => {
    const { status, body } = await clerk.post('/api/receipts', out.receipt);
    expect(status).toBe(409);
    expect(body.detail).toContain(`K-77 is out with job ${out.job.number}`);
  });

  test('is not counted, corrected or received into the lot it came out of', async () => {
    for (const move of [
      { act: 'count', counted: 1 },
      { act: 'adjust', quantity: 1 },
      { act: 'receive', quantity: 1 },
    ]) {
      const { status, body } = await clerk.post('/api/stock-movements', { lotId: out.lotId, reason: 'seen', ...move });
      expect(status, move.act).toBe(409);
      expect(body.detail).toContain('take it back from there');
    }
    expect(await lotNow(sql, out.lotId)).toMatchObject({ onHand: 0 });
  });

  test('is not added to a sheet as found', async () => {
    const sheet = (await clerk.post('/api/count-sheets', { binIds: [out.bin.id] })).body;
    const { partId, binId, serial } = out.receipt;
    const found = await clerk.post(`/api/count-sheets/${sheet.id}/found`, { partId, binId, serial, counted: 1 });
    expect(found).toMatchObject({ status: 409, body: { errors: [{ pointer: '/serial' }] } });
    expect(found.body.detail).toContain(`out with job ${out.job.number}`);
  });

  test('comes back from its job', async () => {
    expect((await clerk.post(`/api/demand-lines/${out.line}/return`, { quantity: 1 })).status).toBe(200);
    expect(await lotNow(sql, out.lotId)).toMatchObject({ onHand: 1 });
    expect((await clerk.post('/api/receipts', out.receipt)).body.detail).toContain('lies in stock already');
    await expectBooksToAgree(sql);
  });

  test('may come in anew, used, once it left the shop with its engine', async () => {
    await leave(out.job.jobId);
    const used = { ...out.receipt, usedCondition: 'journals 31.99 mm, true to 0.01' };
    expect((await clerk.post('/api/receipts', used)).status).toBe(201);
    await expectBooksToAgree(sql);
  });

  test('issued and received at once by two is in one place all the same', async () => {
    await clerk.post(`/api/demand-lines/${out.line}/return`, { quantity: 1, stillNeeded: true });
    await clerk.post(`/api/jobs/${out.job.jobId}/reservations`, { allOrNothing: true });
    const [handed, received] = await Promise.all([
      clerk.post(`/api/demand-lines/${out.line}/issue`, { quantity: 1 }),
      clerk.post('/api/receipts', out.receipt),
    ]);
    expect([handed.status, received.status]).toEqual([200, 409]);
  });
});

test('a piece with a serial is carried from bin to bin, to and fro, and back from its job into another', async () => {
  const { receipt, lotId, line } = await issued();
  const bins = [await addBin(sql), await addBin(sql), { id: receipt.binId }];
  const back = { quantity: 1, stillNeeded: true, binId: bins[1]?.id };
  expect((await clerk.post(`/api/demand-lines/${line}/return`, back)).status).toBe(200);
  const [lying] = await sql<{ id: string }[]>`
    select id from stock_lot where part_id = ${receipt.partId} and on_hand = 1 and id <> ${lotId}`;
  let carried = String(lying?.id);
  for (const to of [0, 2, 1, 2, 0, 1, 0, 2]) {
    const move = { act: 'transfer', lotId: carried, quantity: 1, toBinId: bins[to]?.id };
    const { status, body } = await clerk.post('/api/stock-movements', move);
    expect(status, body.detail).toBe(201);
    carried = body.toLotId;
  }
  await expectBooksToAgree(sql);
});
