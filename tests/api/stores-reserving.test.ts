import { afterAll, afterEach, describe, expect, test } from 'vitest';
import { newId } from '#platform/act.ts';
import { openShop, takeIn } from '../support/shop.ts';
import { addBin, addLot, addPart, demand, expectBooksToAgree, lotNow, none, standing } from '../support/stores.ts';

const shop = await openShop();
const { sql } = shop;
const { clerk, technician, writer } = shop.as;
afterEach(() => expectBooksToAgree(sql));
afterAll(shop.close);

let serial = 0;
const newJob = () => {
  serial += 1;
  return takeIn(shop, { serial: `R-${serial}` });
};
const reserve = (jobId: string, body: object, headers?: Record<string, string>) =>
  technician.post(`/api/jobs/${jobId}/reservations`, body, headers);
const whole = { allOrNothing: true };
const partial = { allOrNothing: false };

/** A job that wants one part, with so many on the shelf in one lot. */
async function wanting(wanted: number, onHand: number) {
  const { jobId, engineId, number } = await newJob();
  const part = await addPart(sql);
  const lotId = await addLot(shop, { partId: part.id, quantity: onHand, valueMinor: onHand * 100 });
  const lines = await demand(shop, jobId, [[part.id, wanted]]);
  return { jobId, engineId, number, part, lotId, lineId: lines.get(part.id) ?? '' };
}

describe('asking to reserve', () => {
  test('all or nothing, with all there, reserves all of it', async () => {
    const { jobId } = await newJob();
    const [a, b] = [await addPart(sql), await addPart(sql)];
    await addLot(shop, { partId: a.id, quantity: 5 });
    await addLot(shop, { partId: b.id, quantity: 2 });
    await demand(shop, jobId, [
      [a.id, 4],
      [b.id, 2],
    ]);
    const { status, body } = await reserve(jobId, whole);
    expect(status).toBe(200);
    expect(body).toMatchObject({ complete: true, shortages: [] });
    expect(await standing(shop, jobId, a.id)).toEqual({ ...none, reserved: 4 });
    expect(await standing(shop, jobId, b.id)).toEqual({ ...none, reserved: 2 });
    const [event] =
      await sql`select kind, engine_id from event where job_id = ${jobId} order by recorded_at desc limit 1`;
    expect(event?.kind).toBe('kit.reserved');
    expect(event?.engine_id).not.toBeNull();
  });

  test('all or nothing, with one thing missing, reserves nothing and names what is missing', async () => {
    const { jobId } = await newJob();
    const [there, scarce] = [await addPart(sql), await addPart(sql, { name: 'Valve-stem seal' })];
    const lotId = await addLot(shop, { partId: there.id, quantity: 5 });
    await addLot(shop, { partId: scarce.id, quantity: 2 });
    await demand(shop, jobId, [
      [there.id, 1],
      [scarce.id, 8],
    ]);
    const { status, body } = await reserve(jobId, whole);
    expect(status).toBe(200);
    expect(body.reserved).toEqual([]);
    expect(body.shortages).toMatchObject([{ part: { name: 'Valve-stem seal' }, wanted: 8, available: 2, missing: 6 }]);
    expect(body.words).toContain('6 × Valve-stem seal');
    expect(await standing(shop, jobId, there.id)).toEqual({ ...none, notAsked: 1 });
    expect(await standing(shop, jobId, scarce.id)).toEqual({ ...none, notAsked: 2, short: 6 });
    expect(await lotNow(sql, lotId)).toMatchObject({ reserved: 0 });
    const [wait] = await sql`select waits_for, words from job_wait where job_id = ${jobId} and waits_for = 'parts'`;
    expect(wait?.words).toBe('6 × Valve-stem seal');

    await addLot(shop, { partId: scarce.id, quantity: 6 });
    expect((await reserve(jobId, whole)).body.complete).toBe(true);
    expect(await standing(shop, jobId, scarce.id)).toEqual({ ...none, reserved: 8 });
  });

  test('in part takes what there is and leaves the rest short', async () => {
    const { jobId, part } = await wanting(5, 2);
    const { body } = await reserve(jobId, partial);
    expect(body.reserved).toMatchObject([{ quantity: 2 }]);
    expect(body.shortages).toMatchObject([{ wanted: 5, available: 2, missing: 3 }]);
    expect(await standing(shop, jobId, part.id)).toEqual({ ...none, reserved: 2, short: 3 });
  });

  test('serves only the lines that are named, and refuses one of another job', async () => {
    const { jobId } = await newJob();
    const [a, b] = [await addPart(sql), await addPart(sql)];
    await addLot(shop, { partId: a.id, quantity: 1 });
    await addLot(shop, { partId: b.id, quantity: 1 });
    const lines = await demand(shop, jobId, [
      [a.id, 1],
      [b.id, 1],
    ]);
    await reserve(jobId, { ...whole, demandLineIds: [lines.get(a.id)] });
    expect(await standing(shop, jobId, b.id)).toEqual({ ...none, notAsked: 1 });
    const other = await wanting(1, 1);
    const { status } = await reserve(jobId, { ...whole, demandLineIds: [other.lineId] });
    expect(status).toBe(404);
  });

  test('takes the oldest lot first', async () => {
    const { jobId } = await newJob();
    const part = await addPart(sql);
    const young = await addLot(shop, { partId: part.id, quantity: 3, receivedAt: '2026-06-01T00:00:00Z' });
    const old = await addLot(shop, { partId: part.id, quantity: 3, receivedAt: '2026-01-01T00:00:00Z' });
    await demand(shop, jobId, [[part.id, 4]]);
    await reserve(jobId, whole);
    expect(await lotNow(sql, old)).toMatchObject({ reserved: 3 });
    expect(await lotNow(sql, young)).toMatchObject({ reserved: 1 });
  });

  test('takes of a shim the very thickness that was chosen for the valve, not the oldest lot', async () => {
    const { jobId } = await newJob();
    const shim = await addPart(sql, { shimNm: 2_300_000 });
    const old = await addLot(shop, {
      partId: shim.id,
      quantity: 3,
      shimNm: 2_303_000,
      receivedAt: '2026-01-01T00:00:00Z',
    });
    const chosen = await addLot(shop, { partId: shim.id, quantity: 1, shimNm: 2_297_000 });
    await sql`
      insert into shim_choice (id, job_id, valve_code, lash_low_nm, lash_high_nm, fitted_nm, wanted_low_nm, wanted_high_nm, chosen_nm,
                               then_low_nm, then_high_nm, lot_id, from_words, guaranteed, chosen_by_id)
      values (${newId()}, ${jobId}, 'IL', 100000, 120000, 2400000, 2290000, 2300000, 2297000, 150000, 170000, ${chosen}, 'stock', true,
              ${shop.people.technician})`;
    await demand(shop, jobId, [[shim.id, 2]]);
    await reserve(jobId, whole);
    expect(await lotNow(sql, chosen)).toMatchObject({ reserved: 1 });
    expect(await lotNow(sql, old)).toMatchObject({ reserved: 1 });
  });

  test('again with the same key is done once and answered the same', async () => {
    const { jobId, lotId } = await wanting(2, 5);
    const key = { 'idempotency-key': crypto.randomUUID() };
    const first = await reserve(jobId, whole, key);
    const second = await reserve(jobId, whole, key);
    expect(second.body).toEqual(first.body);
    expect(await lotNow(sql, lotId)).toMatchObject({ reserved: 2 });
  });

  test('again when all is reserved changes nothing', async () => {
    const { jobId, lotId } = await wanting(2, 5);
    await reserve(jobId, whole);
    const { body } = await reserve(jobId, whole);
    expect(body).toMatchObject({ complete: true, reserved: [] });
    expect(await lotNow(sql, lotId)).toMatchObject({ reserved: 2 });
  });

  test('for a yes holds until its time has run out, then gives way to whoever asks', async () => {
    const first = await wanting(1, 1);
    const soon = new Date(Date.now() + 3_600_000).toISOString();
    await reserve(first.jobId, { ...whole, expiresAt: soon });
    const second = await newJob();
    await demand(shop, second.jobId, [[first.part.id, 1]]);
    expect((await reserve(second.jobId, whole)).body.complete).toBe(false);
    await sql`update reservation set expires_at = clock_timestamp() - interval '1 second' where demand_line_id = ${first.lineId}`;
    expect((await reserve(second.jobId, whole)).body.complete).toBe(true);
    expect(await standing(shop, first.jobId, first.part.id)).toEqual({ ...none, notAsked: 1 });
    expect(await standing(shop, second.jobId, first.part.id)).toEqual({ ...none, reserved: 1 });
  });

  test('again without an expiry makes what was held for a yes firm', async () => {
    const { jobId, lineId } = await wanting(1, 1);
    await reserve(jobId, { ...whole, expiresAt: new Date(Date.now() + 3_600_000).toISOString() });
    expect((await clerk.get(`/api/jobs/${jobId}/demands`)).body.lines[0].state).toBe('reserved');
    await reserve(jobId, whole);
    const [held] = await sql`select expires_at from reservation where demand_line_id = ${lineId}`;
    expect(held?.expires_at).toBeNull();
    expect((await clerk.get(`/api/jobs/${jobId}/demands`)).body.lines[0].state).toBe('pick now');
  });

  test('until a time that is past is refused', async () => {
    const { jobId } = await wanting(1, 1);
    const { status, body } = await reserve(jobId, { ...whole, expiresAt: '2020-01-01T00:00:00Z' });
    expect(status).toBe(422);
    expect(body.errors[0].pointer).toBe('/expiresAt');
  });
});

describe('releasing', () => {
  test('gives some of the pieces back; the job may ask again', async () => {
    const { jobId, part, lotId, lineId } = await wanting(3, 3);
    await reserve(jobId, whole);
    expect((await clerk.post(`/api/demand-lines/${lineId}/release`, { quantity: 2 })).status).toBe(200);
    expect(await standing(shop, jobId, part.id)).toEqual({ ...none, reserved: 1, notAsked: 2 });
    expect(await lotNow(sql, lotId)).toMatchObject({ reserved: 1 });
    const tooMany = await clerk.post(`/api/demand-lines/${lineId}/release`, { quantity: 2 });
    expect(tooMany.status).toBe(409);
    expect(tooMany.body).toMatchObject({ there: 1, asked: 2 });
  });
});

describe('issuing', () => {
  test('hands reserved pieces out at their average value, and unused ones come back at it', async () => {
    const { jobId, part, lotId, lineId } = await wanting(3, 4);
    await reserve(jobId, whole);
    const { status, body } = await clerk.post(`/api/demand-lines/${lineId}/issue`, { quantity: 3 });
    expect(status).toBe(200);
    expect(body.lines[0].state).toBe('issued');
    expect(await lotNow(sql, lotId)).toEqual({ onHand: 1, reserved: 0, valueMinor: 100 });
    await clerk.post(`/api/demand-lines/${lineId}/return`, { quantity: 1, reason: 'not used' });
    expect(await standing(shop, jobId, part.id)).toEqual({ ...none, issued: 2, cancelled: 1 });
    expect(await lotNow(sql, lotId)).toEqual({ onHand: 2, reserved: 0, valueMinor: 200 });
    await clerk.post(`/api/demand-lines/${lineId}/return`, { quantity: 1, stillNeeded: true });
    expect(await standing(shop, jobId, part.id)).toEqual({ ...none, issued: 1, cancelled: 1, notAsked: 1 });
  });

  test('more than is reserved is refused with the numbers', async () => {
    const { jobId, lotId, lineId } = await wanting(2, 9);
    await reserve(jobId, whole);
    const { status, body } = await clerk.post(`/api/demand-lines/${lineId}/issue`, { quantity: 3 });
    expect(status).toBe(409);
    expect(body).toMatchObject({ type: 'urn:crosshatch:problem:stock-short', reserved: 2, asked: 3 });
    expect(await lotNow(sql, lotId)).toMatchObject({ onHand: 9, reserved: 2 });
  });

  test('of a lot that is reserved for another job is refused and names that job', async () => {
    const mine = await wanting(1, 1);
    await reserve(mine.jobId, whole);
    const other = await newJob();
    const theirLot = await addLot(shop, { partId: mine.part.id, quantity: 1 });
    await demand(shop, other.jobId, [[mine.part.id, 1]]);
    await reserve(other.jobId, whole);
    const { status, body } = await clerk.post(`/api/demand-lines/${mine.lineId}/issue`, {
      quantity: 1,
      lotId: theirLot,
    });
    expect(status).toBe(409);
    expect(body.reservedFor).toEqual([other.number]);
    expect(await lotNow(sql, theirLot)).toMatchObject({ onHand: 1, reserved: 1 });
  });

  test('of a lot of another part is refused', async () => {
    const mine = await wanting(1, 1);
    const other = await wanting(1, 1);
    await reserve(mine.jobId, whole);
    const asked = { quantity: 1, lotId: other.lotId };
    expect((await clerk.post(`/api/demand-lines/${mine.lineId}/issue`, asked)).status).toBe(422);
  });

  test.each([0, -2, 0.5])('%s pieces is refused', async (quantity) => {
    const { lineId } = await wanting(1, 1);
    expect((await clerk.post(`/api/demand-lines/${lineId}/issue`, { quantity })).status).toBe(400);
    expect((await clerk.post(`/api/demand-lines/${lineId}/return`, { quantity })).status).toBe(400);
  });

  test('and returning more than is out is refused, as is an unknown line', async () => {
    const { jobId, lineId } = await wanting(1, 1);
    await reserve(jobId, whole);
    await clerk.post(`/api/demand-lines/${lineId}/issue`, { quantity: 1 });
    expect((await clerk.post(`/api/demand-lines/${lineId}/return`, { quantity: 2 })).status).toBe(409);
    expect((await clerk.post(`/api/demand-lines/${newId()}/issue`, { quantity: 1 })).status).toBe(404);
  });

  test('unused pieces do not go back into a closed bin', async () => {
    const { jobId, part } = await wanting(1, 1);
    const bin = await addBin(sql);
    await addLot(shop, { partId: part.id, quantity: 1, binId: bin.id, receivedAt: '2026-01-01T00:00:00Z' });
    await reserve(jobId, whole);
    const { body } = await clerk.get(`/api/jobs/${jobId}/demands`);
    await clerk.post(`/api/demand-lines/${body.lines[0].id}/issue`, { quantity: 1 });
    await sql`update bin set closed_at = clock_timestamp() where id = ${bin.id}`;
    const back = await clerk.post(`/api/demand-lines/${body.lines[0].id}/return`, { quantity: 1 });
    expect(back.status).toBe(409);
    expect(back.body.detail).toContain(bin.code);
    expect(back.body.errors).toMatchObject([{ pointer: '/binId' }]);
  });

  test('unused pieces go into the bin that is named, with their worth, and can be handed out of it again', async () => {
    const { jobId } = await newJob();
    const part = await addPart(sql);
    const [bin, other, shut] = [await addBin(sql), await addBin(sql), await addBin(sql, true)];
    const lotId = await addLot(shop, { partId: part.id, quantity: 3, binId: bin.id, valueMinor: 900 });
    const lineId = (await demand(shop, jobId, [[part.id, 2]])).get(part.id) ?? '';
    await reserve(jobId, whole);
    await clerk.post(`/api/demand-lines/${lineId}/issue`, { quantity: 2 });
    await sql`update bin set closed_at = clock_timestamp() where id = ${bin.id}`;
    const back = (body: object) => clerk.post(`/api/demand-lines/${lineId}/return`, { quantity: 1, ...body });
    expect((await back({ binId: shut.id })).body.errors).toMatchObject([{ pointer: '/binId' }]);
    expect((await back({ binId: newId() })).status).toBe(404);
    expect((await back({ binId: other.id })).status).toBe(200);
    expect((await back({ binId: other.id, stillNeeded: true })).status).toBe(200);
    expect(await standing(shop, jobId, part.id)).toEqual({ ...none, cancelled: 1, notAsked: 1 });
    const lots = await sql<{ id: string; onHand: number; bin: string }[]>`
      select id, on_hand as "onHand", bin_id as bin from stock_lot where part_id = ${part.id} order by on_hand`;
    expect(lots).toEqual([
      { id: lotId, onHand: 1, bin: bin.id },
      { id: expect.any(String), onHand: 2, bin: other.id },
    ]);
    expect(await lotNow(sql, lotId)).toMatchObject({ valueMinor: 900 });
    expect((await back({})).status).toBe(409);
    await reserve(jobId, whole);
    expect((await clerk.post(`/api/demand-lines/${lineId}/issue`, { quantity: 1 })).status).toBe(200);
    await expectBooksToAgree(sql);
  });

  test('more than is reserved, or out of a lot of another job or part, is refused at its field', async () => {
    const { jobId, lineId, part } = await wanting(1, 1);
    await reserve(jobId, whole);
    const issue = (body: object) => clerk.post(`/api/demand-lines/${lineId}/issue`, { quantity: 1, ...body });
    expect((await issue({ quantity: 2 })).body.errors).toEqual([{ pointer: '/quantity', detail: 'at most 1' }]);
    const free = await addLot(shop, { partId: part.id, quantity: 1 });
    const foreign = await addLot(shop, { partId: (await addPart(sql)).id, quantity: 1 });
    for (const lotId of [free, foreign])
      expect((await issue({ lotId })).body.errors).toMatchObject([{ pointer: '/lotId' }]);
  });
});

test('a job that was handed back asks for nothing more', async () => {
  const { jobId, lineId } = await wanting(1, 1);
  await sql`update job set handed_back_at = clock_timestamp(), handed_back_by_id = ${shop.people.lead} where id = ${jobId}`;
  expect((await reserve(jobId, whole)).status).toBe(409);
  expect((await clerk.post(`/api/demand-lines/${lineId}/issue`, { quantity: 1 })).status).toBe(409);
});

describe('rights', () => {
  test('a technician and the counter may ask for parts, only stores hand out, release and take back', async () => {
    const { jobId, lineId } = await wanting(1, 1);
    expect((await writer.post(`/api/jobs/${jobId}/reservations`, whole)).status).toBe(200);
    for (const who of [technician, writer]) {
      expect((await who.post(`/api/demand-lines/${lineId}/issue`, { quantity: 1 })).status).toBe(403);
      expect((await who.post(`/api/demand-lines/${lineId}/return`, { quantity: 1 })).status).toBe(403);
      expect((await who.post(`/api/demand-lines/${lineId}/release`, {})).status).toBe(403);
    }
    expect((await clerk.post(`/api/demand-lines/${lineId}/issue`, { quantity: 1 })).status).toBe(200);
  });

  test('nobody who is not signed in sees or asks', async () => {
    const { statusCode } = await shop.app.inject({ url: '/api/stores/board' });
    expect(statusCode).toBe(401);
  });
});
