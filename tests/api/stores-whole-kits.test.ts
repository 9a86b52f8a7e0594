import { afterAll, describe, expect, test } from 'vitest';
import { makeRound } from '#features/stores/reservations/clock.ts';
import { openShop, takeIn } from '../support/shop.ts';
import { addBin, addLot, addPart, demand, expectBooksToAgree, none, standing } from '../support/stores.ts';

const shop = await openShop();
const { sql } = shop;
const { technician, clerk } = shop.as;
await sql`update bay set capacity = 100`;
afterAll(shop.close);

const whole = { allOrNothing: true };
const ask = (jobId: string, body: object = whole) => technician.post(`/api/jobs/${jobId}/reservations`, body);
const waits = async (jobId: string) =>
  (await sql<{ words: string }[]>`select words from job_wait where job_id = ${jobId} and waits_for = 'parts'`).map(
    ({ words }) => words,
  );

/** A job that asked for four seals and a gasket, all or nothing, where two seals and the gasket lie there. */
async function askedWhole(serial: string) {
  const [seal, gasket] = [await addPart(sql, { name: 'Seal' }), await addPart(sql, { name: 'Gasket' })];
  await addLot(shop, { partId: seal.id, quantity: 2 });
  await addLot(shop, { partId: gasket.id, quantity: 1 });
  const { jobId } = await takeIn(shop, { serial });
  const lines = await demand(shop, jobId, [
    [seal.id, 4],
    [gasket.id, 1],
  ]);
  expect((await ask(jobId)).body.shortages).toMatchObject([{ missing: 2 }]);
  expect(await standing(shop, jobId, seal.id)).toEqual({ ...none, notAsked: 2, short: 2 });
  return { jobId, seal, gasket, sealLine: lines.get(seal.id) ?? '', gasketLine: lines.get(gasket.id) ?? '' };
}

/** The two that it lacks, bought for it and received: they are its own at once. */
async function receiveGap(jobId: string, partId: string) {
  const ordered = await clerk.post('/api/purchase-lines', { partId, vendorId: shop.vendorId, quantity: 2, jobId });
  const received = await clerk.post('/api/receipts', {
    partId,
    binId: (await addBin(sql)).id,
    quantity: 2,
    purchaseLineId: ordered.body.id,
  });
  expect(received.status, JSON.stringify(received.body)).toBe(201);
  expect(received.body.reservedFor).toMatchObject({ quantity: 2 });
}

describe('a kit asked for all or nothing, when what it lacked came in for it', () => {
  test('does not read as complete until the rest, which lay there, is reserved for it too', async () => {
    const { jobId, seal, gasket } = await askedWhole('WHOLE-1');
    await receiveGap(jobId, seal.id);
    expect(await waits(jobId)).toEqual(expect.arrayContaining(['2 × Seal', '1 × Gasket']));
    const before = await clerk.get(`/api/stores/pick-walk?jobId=${jobId}`);
    expect(before.body.stops.flatMap(({ picks }: { picks: object[] }) => picks)).toMatchObject([{ complete: false }]);
    const { body } = await clerk.get(`/api/jobs/${jobId}/demands`);
    expect(body.lines.map(({ state }: { state: string }) => state)).toEqual(['not asked', 'reserved']);

    await makeRound(sql);
    expect(await standing(shop, jobId, seal.id)).toEqual({ ...none, reserved: 4 });
    expect(await standing(shop, jobId, gasket.id)).toEqual({ ...none, reserved: 1 });
    expect(await waits(jobId)).toEqual([]);
    const after = await clerk.get(`/api/stores/pick-walk?jobId=${jobId}`);
    const picks = after.body.stops.flatMap((stop: { picks: { complete: boolean }[] }) => stop.picks);
    expect(picks.map(({ complete }: { complete: boolean }) => complete)).toEqual([true, true, true]);
    await expectBooksToAgree(sql);
  });

  test('is short by name of what went to others meanwhile, and gets it when it comes', async () => {
    const { jobId, seal, gasket } = await askedWhole('WHOLE-2');
    const other = await takeIn(shop, { serial: 'WHOLE-2-OTHER' });
    await demand(shop, other.jobId, [[seal.id, 1]]);
    await receiveGap(jobId, seal.id);
    expect((await ask(other.jobId)).body).toMatchObject({ complete: true });
    await makeRound(sql);
    await makeRound(sql);
    expect(await standing(shop, jobId, seal.id)).toEqual({ ...none, reserved: 2, short: 1, notAsked: 1 });
    expect(await standing(shop, jobId, gasket.id)).toEqual({ ...none, notAsked: 1 });
    expect(await waits(jobId)).toEqual(['1 × Seal']);
    await addLot(shop, { partId: seal.id, quantity: 1 });
    await makeRound(sql);
    expect(await standing(shop, jobId, seal.id)).toEqual({ ...none, reserved: 4 });
    expect(await standing(shop, jobId, gasket.id)).toEqual({ ...none, reserved: 1 });
    await expectBooksToAgree(sql);
  });
});

describe('the rest of a kit asked for all or nothing is taken up as well', () => {
  test('when the piece it lacked is cancelled', async () => {
    const { jobId, seal, gasket, sealLine } = await askedWhole('WHOLE-3');
    await clerk.post(`/api/demand-lines/${sealLine}/cancel`, { words: 'none of them' });
    await makeRound(sql);
    expect(await standing(shop, jobId, seal.id)).toEqual({ ...none, cancelled: 4 });
    expect(await standing(shop, jobId, gasket.id)).toEqual({ ...none, reserved: 1 });
  });

  test('when somebody chose a lot for what it lacked, or gave it what another job had', async () => {
    const { jobId, seal, gasket, sealLine } = await askedWhole('WHOLE-4');
    const giver = await takeIn(shop, { serial: 'WHOLE-4-GIVER' });
    const given = await demand(shop, giver.jobId, [[seal.id, 1]]);
    await ask(giver.jobId);
    const reassigned = await clerk.post(`/api/demand-lines/${given.get(seal.id)}/reassign`, {
      toJobId: jobId,
      quantity: 1,
      reason: 'sooner',
    });
    expect(reassigned.status, JSON.stringify(reassigned.body)).toBe(200);
    const lotId = await addLot(shop, { partId: seal.id, quantity: 1 });
    const chosen = await clerk.post(`/api/demand-lines/${sealLine}/reserve-of-lot`, { lotId, quantity: 1 });
    expect(chosen.status, JSON.stringify(chosen.body)).toBe(200);
    await addLot(shop, { partId: seal.id, quantity: 2 });
    await makeRound(sql);
    expect(await standing(shop, jobId, seal.id)).toEqual({ ...none, reserved: 4 });
    expect(await standing(shop, jobId, gasket.id)).toEqual({ ...none, reserved: 1 });
  });
});

test('what is added to a line after its kit was reserved waits to be asked for', async () => {
  const part = await addPart(sql);
  const { jobId } = await takeIn(shop, { serial: 'WHOLE-5' });
  await demand(shop, jobId, [[part.id, 2]]);
  await ask(jobId);
  await receiveGap(jobId, part.id);
  await demand(shop, jobId, [[part.id, 1]]);
  await addLot(shop, { partId: part.id, quantity: 1 });
  await makeRound(sql);
  expect(await standing(shop, jobId, part.id)).toEqual({ ...none, reserved: 2, notAsked: 1 });
});

test('a kit held for a yes until a day that is over is asked for no longer, in any of its lines', async () => {
  const { jobId, gasket } = await askedWhole('WHOLE-6');
  await ask(jobId, { ...whole, expiresAt: new Date(Date.now() + 300).toISOString() });
  await new Promise((resolve) => setTimeout(resolve, 350));
  await makeRound(sql);
  const [left] = await sql`select count(*)::int as lines from demand_line where job_id = ${jobId} and asked_whole`;
  expect(left?.lines).toBe(0);
  expect(await standing(shop, jobId, gasket.id)).toEqual({ ...none, notAsked: 1 });
});
