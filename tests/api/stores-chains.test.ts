import fc from 'fast-check';
import { afterAll, describe, expect, test } from 'vitest';
import { makeRound } from '#features/stores/reservations/clock.ts';
import { mostServed, piecesOf } from '../support/matching.ts';
import { openShop, takeIn } from '../support/shop.ts';
import { addBin, addLot, addPart, demand, expectBooksToAgree, none, standing } from '../support/stores.ts';

const shop = await openShop();
const { sql } = shop;
const { technician, clerk } = shop.as;
await sql`update bay set capacity = 100`;
afterAll(shop.close);

const far = (days: number) => new Date(Date.now() + days * 86_400_000).toISOString().slice(0, 10);
const rooms = ['rack', 'strip', 'measuring', 'assembly'] as const;
let serial = 0;

async function jobWanting(partId: string, quantity: number, day?: string) {
  serial += 1;
  const job = await takeIn(shop, { serial: `CHAIN-${serial}`, bay: rooms[serial % rooms.length] ?? 'rack' });
  const lines = await demand(shop, job.jobId, [[partId, quantity]]);
  if (day !== undefined) {
    await sql`insert into promise (id, job_id, ready_on, sure_of_5, made_by_id)
      values (${crypto.randomUUID()}, ${job.jobId}, ${day}, 4, ${shop.people.writer})`;
  }
  return { ...job, lineId: lines.get(partId) ?? '' };
}
const ask = (jobId: string, allOrNothing = false) =>
  technician.post(`/api/jobs/${jobId}/reservations`, { allOrNothing });
async function replace(partId: string, byPartId: string, oldStock = 'use up') {
  const { status, body } = await clerk.post(`/api/parts/${partId}/supersession`, { byPartId, oldStock });
  expect(status, JSON.stringify(body)).toBe(200);
}
async function order(partId: string, quantity: number, more: object = {}) {
  const line = { partId, quantity, replacedWhy: 'asked for by its old number', ...more };
  const { status, body } = await clerk.post('/api/purchase-orders', { vendorId: shop.vendorId, lines: [line] });
  expect(status, JSON.stringify(body)).toBe(201);
  return body.lines[0].id as string;
}
const get = async (path: string) => (await clerk.get(`/api${path}`)).body;
const lineOf = async (jobId: string, lineId: string) =>
  (await get(`/jobs/${jobId}/demands`)).lines.find(({ id }: { id: string }) => id === lineId);
const toBuy = async (partIds: readonly string[]) =>
  (await get('/stores/to-buy')).vendors
    .flatMap(({ lines }: { lines: { part: { id: string } }[] }) => lines)
    .filter(({ part }: { part: { id: string } }) => partIds.includes(part.id));

/** Three numbers, the first two replaced by the next. */
async function chain(oldStock = 'use up') {
  const [a, b, c] = [await addPart(sql), await addPart(sql), await addPart(sql)];
  await replace(a.id, b.id, oldStock);
  await replace(b.id, c.id);
  return { a, b, c };
}

describe('a job that is short of a replaced number', () => {
  test('is promised what replaced it, on its page, in stores, on the floor and to the owner, each time told from which', async () => {
    const { a, c } = await chain();
    const job = await jobWanting(a.id, 2, far(30));
    await ask(job.jobId);
    expect(await lineOf(job.jobId, job.lineId)).toMatchObject({ expectedOn: null, expectedFrom: [], buyAs: c });
    await order(c.id, 2, { promisedOn: far(6) });
    expect(await lineOf(job.jobId, job.lineId)).toMatchObject({
      short: 2,
      expectedOn: far(6),
      expectedFrom: [{ number: c.number }],
    });
    expect(await get(`/jobs/${job.jobId}/parts-ready`)).toMatchObject({
      on: far(6),
      basis: 'on order',
      lines: [{ part: { number: a.number }, instead: [{ part: { number: c.number }, quantity: 2 }] }],
    });
    const floor = await get('/floor');
    const waits = floor.waitingForParts.filter(({ jobId }: { jobId: string }) => jobId === job.jobId);
    expect(waits).toMatchObject([{ part: { number: a.number }, dueOn: far(6), instead: [c.number] }]);
    const short = (await get('/stores/short')).items.find(
      ({ demandLineId }: { demandLineId: string }) => demandLineId === job.lineId,
    );
    expect(short).toMatchObject({
      uncovered: 0,
      expectedOn: far(6),
      onOrder: [{ quantity: 2, instead: { number: c.number } }],
    });
  });

  test('leaves nothing to another that wants the new number itself, and the other way about', async () => {
    const { a, c } = await chain();
    const old = await jobWanting(a.id, 2, far(10));
    const late = await jobWanting(c.id, 1, far(20));
    await ask(old.jobId);
    await ask(late.jobId);
    await order(c.id, 2, { promisedOn: far(4) });
    expect(await lineOf(old.jobId, old.lineId)).toMatchObject({ expectedOn: far(4) });
    expect(await lineOf(late.jobId, late.lineId)).toMatchObject({ expectedOn: null });
    const promise = await get(`/parts/${c.id}/promise?on=${far(30)}`);
    expect(promise.asked).toMatchObject({ promisable: 0 });
    expect(promise.wishes.map(({ part }: { part: { number: string } }) => part.number)).toEqual([a.number, c.number]);
    // Both are to be bought as the newest: one piece more than is on order.
    expect(await toBuy([a.id, c.id])).toMatchObject([{ part: { number: c.number }, quantity: 1, insteadOf: [] }]);
  });

  test('has it bought as its newest number; not as one that is not fitted any more', async () => {
    const { a, b, c } = await chain('new only');
    await addLot(shop, { partId: a.id, quantity: 5 });
    const job = await jobWanting(a.id, 3);
    await ask(job.jobId);
    await order(a.id, 3, { promisedOn: far(3) });
    expect(await lineOf(job.jobId, job.lineId)).toMatchObject({ short: 3, expectedOn: null });
    expect(await toBuy([a.id, b.id, c.id])).toMatchObject([
      {
        part: { number: c.number },
        quantity: 3,
        why: 'short',
        insteadOf: [{ number: a.number }],
        job: { id: job.jobId },
      },
    ]);
    const promise = await get(`/parts/${a.id}/promise`);
    expect(promise).toMatchObject({ free: 5, asked: { promisable: 0 } });
    expect(promise.numbers.map(({ part }: { part: { number: string } }) => part.number)).toEqual([b.number, c.number]);
  });

  test('gets what was bought for it under the new number, before others', async () => {
    const { a, c } = await chain();
    const other = await jobWanting(a.id, 1, far(5));
    const job = await jobWanting(a.id, 1, far(50));
    await ask(other.jobId);
    await ask(job.jobId);
    const purchaseLineId = await order(c.id, 1, { jobId: job.jobId });
    const bin = await addBin(sql);
    const received = await clerk.post('/api/receipts', { partId: c.id, binId: bin.id, quantity: 1, purchaseLineId });
    expect(received.body).toMatchObject({
      available: 0,
      reservedFor: { demandLineId: job.lineId, quantity: 1 },
      waiting: [{ demandLineId: other.lineId, short: 1 }],
    });
    expect(await standing(shop, job.jobId, a.id)).toEqual({ ...none, reserved: 1 });
    await expectBooksToAgree(sql);
  });

  test('may be given what another job holds under the new number', async () => {
    const { a, b, c } = await chain();
    await addLot(shop, { partId: c.id, quantity: 1 });
    const holder = await jobWanting(b.id, 1, far(40));
    await ask(holder.jobId);
    const job = await jobWanting(a.id, 1, far(5));
    await ask(job.jobId);
    const give = () =>
      clerk.post(`/api/demand-lines/${holder.lineId}/reassign`, { toJobId: job.jobId, quantity: 1, reason: 'sooner' });
    expect((await give()).status).toBe(200);
    expect(await standing(shop, job.jobId, a.id)).toEqual({ ...none, reserved: 1 });
    expect(await standing(shop, holder.jobId, b.id)).toEqual({ ...none, short: 1 });
    // What is held under an old number serves nobody who names the new one.
    const naming = await jobWanting(c.id, 1);
    await addLot(shop, { partId: a.id, quantity: 1 });
    const old = await jobWanting(a.id, 1);
    await ask(old.jobId);
    const refused = await clerk.post(`/api/demand-lines/${old.lineId}/reassign`, {
      toJobId: naming.jobId,
      quantity: 1,
      reason: 'sooner',
    });
    expect(refused.body).toMatchObject({ errors: [{ pointer: '/toJobId' }] });
    await expectBooksToAgree(sql);
  });
});

test('a replaced number that runs low is bought as what replaced it; what is free of the old counts first', async () => {
  const [old, next] = [await addPart(sql, { reorderPoint: 4 }), await addPart(sql, { reorderPoint: 2 })];
  await replace(old.id, next.id);
  await addLot(shop, { partId: next.id, quantity: 5 });
  const lot = await addLot(shop, { partId: old.id, quantity: 9 });
  expect(await toBuy([old.id, next.id])).toEqual([]);
  await clerk.post('/api/stock-movements', { act: 'scrap', lotId: lot, quantity: 8, reason: 'rust' });
  expect(await toBuy([old.id, next.id])).toMatchObject([
    { part: { number: next.number }, why: 'low', quantity: 6, reorderPoint: 5 },
  ]);
});

test('alternatives are told beside what can be promised, and never counted in it', async () => {
  const [part, other] = [await addPart(sql), await addPart(sql)];
  await addLot(shop, { partId: other.id, quantity: 2 });
  await clerk.post(`/api/parts/${part.id}/alternatives`, { partId: other.id, condition: 'once bored to +0.25' });
  expect(await get(`/parts/${part.id}/promise`)).toMatchObject({
    asked: { promisable: 0 },
    alternatives: [{ part: { number: other.number }, condition: 'once bored to +0.25', promisable: 2 }],
  });
});

test('a whole kit that lacks a part has its date by that part, though some of it lies free', async () => {
  const part = await addPart(sql);
  await addLot(shop, { partId: part.id, quantity: 3 });
  const job = await jobWanting(part.id, 5);
  await ask(job.jobId, true);
  await order(part.id, 5, { promisedOn: far(8) });
  expect(await lineOf(job.jobId, job.lineId)).toMatchObject({ short: 2, notAsked: 3, expectedOn: far(8) });
});

describe('over random chains, stocks, orders and reservations', () => {
  const small = fc.integer({ min: 1, max: 3 });
  const at = fc.nat(4);
  const scene = fc.record({
    /** By which later part each is replaced, if by any, and whether its stock is used up. */
    links: fc.array(fc.record({ by: fc.option(fc.nat(3), { freq: 5 }), useUp: fc.boolean() }), {
      minLength: 5,
      maxLength: 5,
    }),
    lots: fc.array(fc.record({ part: at, quantity: small }), { maxLength: 5 }),
    orders: fc.array(fc.record({ part: at, quantity: small, day: fc.integer({ min: 1, max: 4 }) }), { maxLength: 5 }),
    jobs: fc.array(fc.record({ part: at, quantity: small, day: fc.integer({ min: 1, max: 4 }), asks: fc.boolean() }), {
      minLength: 1,
      maxLength: 5,
    }),
  });
  type Scene = typeof scene extends fc.Arbitrary<infer One> ? One : never;

  async function play({ links, lots, orders, jobs }: Scene) {
    const parts: string[] = [];
    for (const _ of links) parts.push((await addPart(sql)).id);
    const partAt = (index: number): string => parts[index] ?? '';
    for (const [index, { by, useUp }] of links.entries()) {
      const next = by === null ? undefined : parts[index + 1 + by];
      if (next !== undefined) await replace(partAt(index), next, useUp ? 'use up' : 'new only');
    }
    for (const { part, quantity } of lots) await addLot(shop, { partId: partAt(part), quantity });
    for (const { part, quantity, day } of orders) await order(partAt(part), quantity, { promisedOn: far(day * 5) });
    const standings = [];
    for (const { part, quantity, day, asks } of jobs) {
      const job = await jobWanting(partAt(part), quantity, far(day * 5));
      if (asks) await ask(job.jobId);
      standings.push({ ...job, partId: partAt(part), quantity, on: far(day * 5) });
    }
    await makeRound(sql);
    return { parts, jobs: standings };
  }

  /** Which parts serve each, worked out by walking the links themselves. */
  async function servedBy(parts: readonly string[]) {
    const rows = await sql<{ id: string; next: string | null; usable: boolean }[]>`
      select id, superseded_by_id as next, interchangeable as usable from part where id = any(${parts}::uuid[])`;
    const walk = (id: string): string[] => {
      const row = rows.find((part) => part.id === id);
      if (row === undefined || row.next === null) return [id];
      const after = walk(row.next);
      return row.usable && after[0] === row.next ? [id, ...after] : after;
    };
    return new Map(parts.map((id) => [id, walk(id)]));
  }

  test('the sum of what is promised is never more than is there and comes, counted by matching piece to piece', async () => {
    await fc.assert(
      fc.asyncProperty(scene, async (drawn) => {
        const { parts, jobs } = await play(drawn);
        const serving = await servedBy(parts);
        const [stock] = await sql<{ units: { partId: string; on: string; quantity: number }[] }[]>`
          select coalesce(json_agg(u), '[]') as units from (
            select part_id as "partId", ${far(0)} as on, (on_hand - reserved) as quantity from stock_lot
            where part_id = any(${parts}::uuid[]) and on_hand > reserved
            union all
            select part_id, promised_on::text, quantity - received from purchase_line where part_id = any(${parts}::uuid[])) u`;
        const units = piecesOf(stock?.units ?? []);
        const promised: { servedBy: readonly string[]; on: string; quantity: number }[] = [];
        for (const job of jobs) {
          const { lines } = await get(`/jobs/${job.jobId}/parts-ready`);
          for (const { missing, on, basis } of lines) {
            if (basis === 'no date') continue;
            promised.push({ servedBy: serving.get(job.partId) ?? [], on, quantity: missing });
          }
        }
        const wanted = piecesOf(promised);
        expect(mostServed(wanted, units)).toBe(wanted.length);

        // One more job is promised no more than can be served beside all that is promised to others in time.
        const open = await sql<{ id: string; missing: number }[]>`
          select id, short + not_asked as missing from demand_line where id = any(${jobs.map(({ lineId }) => lineId)}::uuid[])`;
        const wishes = piecesOf(
          jobs.map(({ lineId, partId, on }) => ({
            servedBy: serving.get(partId) ?? [],
            on,
            quantity: open.find(({ id }) => id === lineId)?.missing ?? 0,
          })),
        );
        const inTime = mostServed(wishes, units);
        for (const partId of parts) {
          const on = far(10);
          const { asked } = await get(`/parts/${partId}/promise?on=${on}`);
          const more = Array.from({ length: asked.promisable }, () => ({ servedBy: serving.get(partId) ?? [], on }));
          expect(mostServed([...wishes, ...more], units)).toBe(inTime + more.length);
        }
      }),
      { numRuns: 25, seed: 71_205 },
    );
    await expectBooksToAgree(sql);
  }, 120_000);
});
