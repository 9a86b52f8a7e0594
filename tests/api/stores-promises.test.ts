import { afterAll, describe, expect, test } from 'vitest';
import { makeRound } from '#features/stores/reservations/clock.ts';
import { openShop, takeIn } from '../support/shop.ts';
import { addBin, addLot, addPart, demand, expectBooksToAgree, lotNow, none, standing } from '../support/stores.ts';

const shop = await openShop();
const { sql } = shop;
const { technician, clerk } = shop.as;
await sql`update bay set capacity = 100 where id = ${shop.bays.rack}`;
afterAll(shop.close);

async function ask(jobId: string, body: object = { allOrNothing: false }) {
  const answer = await technician.post(`/api/jobs/${jobId}/reservations`, body);
  expect(answer.status, JSON.stringify(answer.body)).toBe(200);
  return answer;
}
const events = async (jobId: string) =>
  (await sql<{ kind: string }[]>`select kind from event where job_id = ${jobId} order by recorded_at`).map(
    ({ kind }) => kind,
  );
async function promised(jobId: string, day: string) {
  await sql`insert into promise (id, job_id, ready_on, sure_of_5, made_by_id)
    values (${crypto.randomUUID()}, ${jobId}, ${day}, 4, ${shop.people.writer})`;
}

/** A job that wants so many of a part, promised for a day where one is given. */
async function jobWanting(serial: string, partId: string, quantity: number, day?: string) {
  const job = await takeIn(shop, { serial });
  const lines = await demand(shop, job.jobId, [[partId, quantity]]);
  if (day !== undefined) await promised(job.jobId, day);
  return { ...job, lineId: lines.get(partId) ?? '' };
}

describe('a hold for a yes that does not come', () => {
  test('is let go when its time is over, is told, and goes to who waits, the earliest promise first', async () => {
    const part = await addPart(sql, { name: 'Piston' });
    const lotId = await addLot(shop, { partId: part.id, quantity: 2 });
    const held = await jobWanting('HOLD-1', part.id, 2);
    const late = await jobWanting('HOLD-2', part.id, 1, '2027-03-01');
    const early = await jobWanting('HOLD-3', part.id, 1, '2027-02-01');
    await ask(held.jobId, { allOrNothing: true, expiresAt: new Date(Date.now() + 700).toISOString() });
    await ask(late.jobId);
    await ask(early.jobId);
    await makeRound(sql);
    expect(await standing(shop, held.jobId, part.id)).toEqual({ ...none, reserved: 2 });
    await new Promise((resolve) => setTimeout(resolve, 750));
    await Promise.all([makeRound(sql), makeRound(sql), makeRound(sql)]);
    expect(await standing(shop, held.jobId, part.id)).toEqual({ ...none, notAsked: 2 });
    expect(await standing(shop, early.jobId, part.id)).toEqual({ ...none, reserved: 1 });
    expect(await standing(shop, late.jobId, part.id)).toEqual({ ...none, reserved: 1 });
    expect(await lotNow(sql, lotId)).toMatchObject({ onHand: 2, reserved: 2 });
    expect(await events(held.jobId)).toContain('hold.lapsed');
    expect((await events(held.jobId)).filter((kind) => kind === 'hold.lapsed')).toHaveLength(1);
    expect((await events(early.jobId)).at(-1)).toBe('kit.reserved');
    await expectBooksToAgree(sql);
  });

  test('gives way at once to who asks, and what was short until then waits no longer', async () => {
    const part = await addPart(sql);
    await addLot(shop, { partId: part.id, quantity: 1 });
    const held = await jobWanting('LAPSE-1', part.id, 3);
    const asking = await jobWanting('LAPSE-2', part.id, 1);
    await ask(held.jobId, { allOrNothing: false, expiresAt: new Date(Date.now() + 300).toISOString() });
    expect(await standing(shop, held.jobId, part.id)).toEqual({ ...none, reserved: 1, short: 2 });
    await new Promise((resolve) => setTimeout(resolve, 350));
    expect((await ask(asking.jobId)).body).toMatchObject({ complete: true });
    expect(await standing(shop, held.jobId, part.id)).toEqual({ ...none, notAsked: 3 });
    await expectBooksToAgree(sql);
  });
});

describe('who waits', () => {
  test('is served by promise from what became free; a whole kit waits until all of it is there', async () => {
    const [ring, pin] = [await addPart(sql, { name: 'Ring' }), await addPart(sql, { name: 'Pin' })];
    const kit = await takeIn(shop, { serial: 'WAIT-KIT' });
    await demand(shop, kit.jobId, [
      [ring.id, 1],
      [pin.id, 1],
    ]);
    await promised(kit.jobId, '2027-01-01');
    const late = await jobWanting('WAIT-LATE', ring.id, 1, '2027-05-01');
    const bare = await jobWanting('WAIT-NONE', ring.id, 1);
    await ask(kit.jobId, { allOrNothing: true });
    await ask(bare.jobId);
    await ask(late.jobId);
    const lotId = await addLot(shop, { partId: ring.id, quantity: 1 });
    await makeRound(sql);
    expect(await standing(shop, kit.jobId, ring.id)).toMatchObject({ reserved: 0 });
    expect(await standing(shop, late.jobId, ring.id)).toMatchObject({ reserved: 1, short: 0 });
    expect(await standing(shop, bare.jobId, ring.id)).toMatchObject({ reserved: 0, short: 1 });
    await addLot(shop, { partId: pin.id, quantity: 1 });
    await clerk.post('/api/stock-movements', { act: 'receive', lotId, quantity: 2 });
    await makeRound(sql);
    expect(await standing(shop, kit.jobId, ring.id)).toEqual({ ...none, reserved: 1 });
    expect(await standing(shop, kit.jobId, pin.id)).toEqual({ ...none, reserved: 1 });
    expect(await standing(shop, bare.jobId, ring.id)).toEqual({ ...none, reserved: 1 });
    await expectBooksToAgree(sql);
  });

  test('what is let go by hand goes to the next, not back to who let it go', async () => {
    const part = await addPart(sql);
    await addLot(shop, { partId: part.id, quantity: 1 });
    const first = await jobWanting('NEXT-1', part.id, 1, '2027-01-01');
    const second = await jobWanting('NEXT-2', part.id, 1, '2027-02-01');
    await ask(first.jobId);
    await ask(second.jobId);
    await clerk.post(`/api/demand-lines/${first.lineId}/release`, { reason: 'next week will do' });
    await makeRound(sql);
    expect(await standing(shop, first.jobId, part.id)).toEqual({ ...none, notAsked: 1 });
    expect(await standing(shop, second.jobId, part.id)).toEqual({ ...none, reserved: 1 });
  });
});

describe('reassigning', () => {
  test('takes pieces from one job for another; one is short by it, both are told, with who and why', async () => {
    const part = await addPart(sql, { name: 'Gasket set' });
    await addLot(shop, { partId: part.id, quantity: 2 });
    const giver = await jobWanting('GIVE', part.id, 2);
    const taker = await jobWanting('TAKE', part.id, 1);
    await ask(giver.jobId);
    await ask(taker.jobId);
    const { status, body } = await clerk.post(`/api/demand-lines/${giver.lineId}/reassign`, {
      toJobId: taker.jobId,
      quantity: 1,
      reason: 'race on Sunday',
    });
    expect(status, JSON.stringify(body)).toBe(200);
    expect(await standing(shop, giver.jobId, part.id)).toEqual({ ...none, reserved: 1, short: 1 });
    expect(await standing(shop, taker.jobId, part.id)).toEqual({ ...none, reserved: 1 });
    const told =
      await sql`select kind, actor_id as "actorId", data from event where kind like 'reservation.%' order by kind`;
    expect(told).toMatchObject([
      {
        kind: 'reservation.given',
        actorId: shop.people.clerk,
        data: { toJob: taker.number, reason: 'race on Sunday' },
      },
      { kind: 'reservation.taken', actorId: shop.people.clerk, data: { fromJob: giver.number, quantity: 1 } },
    ]);
    // Nothing is free, so that the giver is not served at once again out of nothing.
    await makeRound(sql);
    expect(await standing(shop, giver.jobId, part.id)).toEqual({ ...none, reserved: 1, short: 1 });
    await expectBooksToAgree(sql);
  });

  test('is refused, in words, without the right, a reason, enough pieces or a job that wants them', async () => {
    const part = await addPart(sql);
    await addLot(shop, { partId: part.id, quantity: 1 });
    const giver = await jobWanting('NO-GIVE', part.id, 1);
    const taker = await jobWanting('NO-TAKE', part.id, 5);
    const stranger = await takeIn(shop, { serial: 'NO-WISH' });
    await ask(giver.jobId);
    const give = (body: object, by = clerk) => by.post(`/api/demand-lines/${giver.lineId}/reassign`, body);
    const good = { toJobId: taker.jobId, quantity: 1, reason: 'sooner' };
    expect((await give(good, technician)).status).toBe(403);
    expect((await give({ ...good, reason: ' ' })).status).toBe(400);
    for (const quantity of [0, -1, 0.5]) {
      const { status, body } = await give({ ...good, quantity });
      expect([status, body.errors?.[0]?.pointer]).toEqual([400, '/quantity']);
    }
    expect((await give({ ...good, quantity: 2 })).body.type).toMatch(/stock-short/);
    expect((await give({ ...good, toJobId: stranger.jobId })).body.detail).toMatch(/does not want/);
    expect((await give({ ...good, toJobId: giver.jobId })).body.detail).toMatch(/has the pieces already/);
    expect(await standing(shop, giver.jobId, part.id)).toEqual({ ...none, reserved: 1 });
  });

  test('of two who trade in both directions at once neither waits for ever', async () => {
    const part = await addPart(sql);
    await addLot(shop, { partId: part.id, quantity: 8 });
    const [one, other] = [await jobWanting('SWAP-1', part.id, 8), await jobWanting('SWAP-2', part.id, 8)];
    await ask(one.jobId);
    await clerk.post(`/api/demand-lines/${one.lineId}/reassign`, { toJobId: other.jobId, quantity: 4, reason: 'half' });
    await clerk.post(`/api/demand-lines/${other.lineId}/reassign`, { toJobId: one.jobId, quantity: 1, reason: 'one' });
    const answers = await Promise.all(
      [1, 2, 3, 4].flatMap(() => [
        clerk.post(`/api/demand-lines/${one.lineId}/reassign`, { toJobId: other.jobId, quantity: 1, reason: 'to' }),
        clerk.post(`/api/demand-lines/${other.lineId}/reassign`, { toJobId: one.jobId, quantity: 1, reason: 'fro' }),
      ]),
    );
    expect(answers.filter(({ status }) => ![200, 409].includes(status))).toEqual([]);
    await expectBooksToAgree(sql);
  });
});

describe('used pieces', () => {
  test('are taken by choice alone, with what was measured on them told', async () => {
    const part = await addPart(sql, { name: 'Cam' });
    const bin = await addBin(sql);
    const received = await clerk.post('/api/receipts', {
      partId: part.id,
      binId: bin.id,
      quantity: 1,
      usedCondition: 'lobes 33.41 mm, no pits',
    });
    expect(received.status, JSON.stringify(received.body)).toBe(201);
    const job = await jobWanting('USED', part.id, 1);
    expect((await ask(job.jobId)).body).toMatchObject({ complete: false });
    await makeRound(sql);
    expect(await standing(shop, job.jobId, part.id)).toEqual({ ...none, short: 1 });
    const choose = (body: object) => clerk.post(`/api/demand-lines/${job.lineId}/reserve-of-lot`, body);
    expect((await choose({ lotId: received.body.lotId, quantity: 2 })).body.type).toMatch(/stock-short/);
    const other = await addLot(shop, { partId: (await addPart(sql)).id, quantity: 1 });
    expect((await choose({ lotId: other, quantity: 1 })).body.errors).toMatchObject([{ pointer: '/lotId' }]);
    expect((await choose({ lotId: received.body.lotId, quantity: 1 })).status).toBe(200);
    expect(await standing(shop, job.jobId, part.id)).toEqual({ ...none, reserved: 1 });
    expect((await events(job.jobId)).at(-1)).toBe('part.chosen');
    await expectBooksToAgree(sql);
  });
});

test('a part is never, over others, replaced by itself, however many say so at once', async () => {
  const [a, b, c] = [await addPart(sql), await addPart(sql), await addPart(sql)];
  await sql`update part set superseded_by_id = ${b.id} where id = ${a.id}`;
  const both = await Promise.allSettled([
    sql`update part set superseded_by_id = ${c.id} where id = ${b.id}`,
    sql`update part set superseded_by_id = ${a.id} where id = ${c.id}`,
  ]);
  expect(both.map(({ status }) => status).toSorted()).toEqual(['fulfilled', 'rejected']);
  await expect(sql`update part set superseded_by_id = id where id = ${a.id}`).rejects.toThrow(/replaced/);
});

describe('when parts can be here', () => {
  const far = (days: number) => new Date(Date.now() + days * 86_400_000).toISOString().slice(0, 10);
  async function order(partId: string, quantity: number, promisedOn: string | null) {
    const { body } = await clerk.post('/api/purchase-orders', {
      vendorId: shop.vendorId,
      lines: [{ partId, quantity, ...(promisedOn === null ? {} : { promisedOn }) }],
    });
    return body.lines[0].id as string;
  }

  test('a part is promised over what is on hand, reserved, expected and wanted, for a day', async () => {
    const part = await addPart(sql, { name: 'Bearing' });
    await addLot(shop, { partId: part.id, quantity: 3 });
    const holder = await jobWanting('ATP-1', part.id, 1, far(4));
    await ask(holder.jobId);
    await jobWanting('ATP-2', part.id, 1, far(20));
    await order(part.id, 5, far(10));
    await order(part.id, 7, null);
    const promise = async (query: string) => (await clerk.get(`/api/parts/${part.id}/promise${query}`)).body;
    expect(await promise('')).toMatchObject({ onHand: 3, reserved: 1, free: 2, undated: 7, asked: { promisable: 2 } });
    expect((await promise(`?on=${far(12)}&quantity=6`)).asked).toMatchObject({ promisable: 6, firstOn: far(10) });
    expect((await promise('?quantity=9')).asked).toMatchObject({ firstOn: null, ifOrderedOn: null });
    for (const query of ['?on=soon', '?quantity=0', '?quantity=1.5', '?quantity=-2']) {
      expect((await clerk.get(`/api/parts/${part.id}/promise${query}`)).status).toBe(400);
    }
    expect((await clerk.get(`/api/parts/${crypto.randomUUID()}/promise`)).status).toBe(404);
  });

  test('a kit is complete when its last part comes in its turn; a slip moves it and what the floor waits for', async () => {
    const part = await addPart(sql, { name: 'Sleeve' });
    const first = await jobWanting('TURN-1', part.id, 2, far(30));
    const second = await jobWanting('TURN-2', part.id, 1, far(40));
    await ask(first.jobId);
    await ask(second.jobId);
    const lineId = await order(part.id, 2, far(5));
    const ready = async (jobId: string) => (await clerk.get(`/api/jobs/${jobId}/parts-ready`)).body;
    const waitsUntil = async (engineId: string) => {
      const { body } = await technician.get('/api/floor');
      return body.engines.find(({ id }: { id: string }) => id === engineId).waits[0].dueOn;
    };
    expect(await ready(first.jobId)).toMatchObject({ on: far(5), basis: 'on order', lines: [{ missing: 2 }] });
    // The two that come are the other's, whose promise is earlier.
    expect(await ready(second.jobId)).toMatchObject({ on: null, basis: 'no date' });
    expect([await waitsUntil(first.engineId), await waitsUntil(second.engineId)]).toEqual([far(5), null]);
    await clerk.post(`/api/purchase-lines/${lineId}/dates`, { promisedOn: far(9), words: 'the boat is late' });
    expect(await ready(first.jobId)).toMatchObject({ on: far(9), basis: 'on order' });
    expect(await waitsUntil(first.engineId)).toBe(far(9));
    const board = (await clerk.get('/api/stores/board')).body;
    expect(board.jobs.find(({ job }: { job: { id: string } }) => job.id === first.jobId).ready).toEqual({
      on: far(9),
      basis: 'on order',
    });
  });
});
