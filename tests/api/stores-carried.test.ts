import { afterAll, afterEach, describe, expect, test } from 'vitest';
import { makeRound } from '#features/stores/reservations/clock.ts';
import { quote } from '../support/quotes.ts';
import { openShop, takeIn } from '../support/shop.ts';
import { addBin, addLot, addPart, demand, expectBooksToAgree, lotNow, none, standing } from '../support/stores.ts';

const shop = await openShop();
const { sql } = shop;
const { clerk, technician } = shop.as;
await sql`update bay set capacity = 100 where id = ${shop.bays.rack}`;
afterEach(() => expectBooksToAgree(sql));
afterAll(shop.close);

let serial = 0;

/** A job that has so many of a part reserved, promised for a day where one is given. */
async function holding(partId: string, quantity: number, day?: string) {
  serial += 1;
  const job = await takeIn(shop, { serial: `CARRY-${serial}` });
  const lines = await demand(shop, job.jobId, [[partId, quantity]]);
  if (day !== undefined)
    await sql`insert into promise (id, job_id, ready_on, sure_of_5, made_by_id)
      values (${crypto.randomUUID()}, ${job.jobId}, ${day}, 4, ${shop.people.writer})`;
  const { status } = await technician.post(`/api/jobs/${job.jobId}/reservations`, { allOrNothing: true });
  expect(status).toBe(200);
  return { ...job, lineId: lines.get(partId) ?? '' };
}

const carry = (lotId: string, quantity: number, toBinId: string) =>
  clerk.post('/api/stock-movements', { act: 'transfer', lotId, quantity, toBinId, reason: 'the shelf is full' });
const issue = (lineId: string, quantity: number, lotId?: string) =>
  clerk.post(`/api/demand-lines/${lineId}/issue`, { quantity, ...(lotId === undefined ? {} : { lotId }) });
const heldOf = async (lineId: string) =>
  (
    await sql<{ bin: string; quantity: number; until: string | null }[]>`
      select b.code as bin, r.quantity, r.expires_at as until from reservation r join stock_lot l on l.id = r.lot_id join bin b on b.id = l.bin_id
      where r.demand_line_id = ${lineId} and r.quantity > 0 order by b.walk_order`
  ).map(({ bin, quantity }) => `${quantity} in ${bin}`);
const walkOf = async (jobId: string) =>
  (await clerk.get(`/api/stores/pick-walk?jobId=${jobId}`)).body.stops.map(
    ({ bin, picks }: { bin: { name: string }; picks: { quantity: number }[] }) =>
      `${bin.name}: ${picks.map(({ quantity }) => quantity).join()}`,
  );

describe('reserved pieces that are carried to another bin', () => {
  test('stay promised to their job, which finds them there on its walk and is told', async () => {
    const part = await addPart(sql, { name: 'Piston' });
    const [from, to] = [await addBin(sql), await addBin(sql)];
    const lotId = await addLot(shop, { partId: part.id, quantity: 4, valueMinor: 400, binId: from.id });
    const job = await holding(part.id, 3);
    expect(await walkOf(job.jobId)).toEqual([`${from.code}: 3`]);
    const { status, body } = await carry(lotId, 4, to.id);
    expect(status, JSON.stringify(body)).toBe(201);
    expect(body).toMatchObject({ onHand: 0, reserved: 0, available: 0, shortages: [] });
    expect(body.carried).toMatchObject([{ job: { id: job.jobId }, part: { id: part.id }, quantity: 3 }]);
    expect(await lotNow(sql, body.toLotId)).toEqual({ onHand: 4, reserved: 3, valueMinor: 400 });
    expect(await standing(shop, job.jobId, part.id)).toEqual({ ...none, reserved: 3 });
    expect(await walkOf(job.jobId)).toEqual([`${to.code}: 3`]);
    const told = await sql`select data from event where job_id = ${job.jobId} and kind = 'reservation.carried'`;
    expect(told.map(({ data }) => data)).toMatchObject([
      { quantity: 3, bin: from.code, toBin: to.code, reason: 'the shelf is full' },
    ]);
    expect((await issue(job.lineId, 1, lotId)).status).toBe(409);
    expect((await issue(job.lineId, 3, body.toLotId)).status).toBe(200);
  });

  test('go after the free ones, and of the job that is promised latest first', async () => {
    const part = await addPart(sql);
    const [from, to] = [await addBin(sql), await addBin(sql)];
    const lotId = await addLot(shop, { partId: part.id, quantity: 6, binId: from.id });
    const [early, late] = [await holding(part.id, 2, '2027-01-01'), await holding(part.id, 2, '2027-05-01')];
    expect((await carry(lotId, 2, to.id)).body.carried).toEqual([]);
    expect((await carry(lotId, 3, to.id)).body.carried).toMatchObject([
      { job: { id: late.jobId }, quantity: 2 },
      { job: { id: early.jobId }, quantity: 1 },
    ]);
    expect(await heldOf(early.lineId)).toEqual([`1 in ${from.code}`, `1 in ${to.code}`]);
    expect(await heldOf(late.lineId)).toEqual([`2 in ${to.code}`]);
    expect((await carry(lotId, 2, to.id)).status).toBe(409);
    expect((await carry(lotId, 1, to.id)).status).toBe(201);
    expect(await heldOf(early.lineId)).toEqual([`2 in ${to.code}`]);
  });

  test('stay held until the day they were held for, and what was picked before comes back to its own bin', async () => {
    const part = await addPart(sql);
    const [from, to] = [await addBin(sql), await addBin(sql)];
    const lotId = await addLot(shop, { partId: part.id, quantity: 3, binId: from.id });
    const job = await holding(part.id, 3);
    expect((await issue(job.lineId, 1)).status).toBe(200);
    await quote(shop, job.jobId);
    const until = async () =>
      (await sql`select expires_at from reservation where demand_line_id = ${job.lineId} and quantity > 0`).map(
        ({ expires_at }) => expires_at,
      );
    const before = await until();
    expect(before).toEqual([expect.any(String)]);
    expect((await carry(lotId, 2, to.id)).body.carried).toMatchObject([{ quantity: 2 }]);
    expect(await until()).toEqual(before);
    expect((await clerk.post(`/api/demand-lines/${job.lineId}/return`, { quantity: 1 })).status).toBe(200);
    expect(await lotNow(sql, lotId)).toMatchObject({ onHand: 1, reserved: 0 });
    expect(await heldOf(job.lineId)).toEqual([`2 in ${to.code}`]);
  });

  test('keep why they were taken against the rule of their line', async () => {
    const part = await addPart(sql);
    const to = await addBin(sql);
    const lotId = await addLot(shop, { partId: part.id, quantity: 2, grade: 'A' });
    serial += 1;
    const { jobId } = await takeIn(shop, { serial: `CARRY-${serial}` });
    const asked = { lines: [{ partId: part.id, quantity: 2, words: 'its bore', grade: 'B' }] };
    const lineId = (await technician.post(`/api/jobs/${jobId}/demands`, asked)).body.lines[0].id;
    const chosen = { lotId, quantity: 2, reason: 'the owner knows' };
    expect((await clerk.post(`/api/demand-lines/${lineId}/reserve-of-lot`, chosen)).status).toBe(200);
    expect((await carry(lotId, 1, to.id)).status).toBe(201);
    const { body } = await clerk.get(`/api/jobs/${jobId}/demands`);
    expect(body.lines[0].held.map(({ againstRule }: { againstRule: string | null }) => againstRule)).toEqual([
      'the owner knows',
      'the owner knows',
    ]);
  });

  test('of an alternative go too, also after it is none any more', async () => {
    const [wanted, other] = [await addPart(sql), await addPart(sql)];
    const to = await addBin(sql);
    const lotId = await addLot(shop, { partId: other.id, quantity: 1 });
    await sql`insert into part_alternative (id, part_id, other_id, condition, told_by_id)
      values (${crypto.randomUUID()}, ${wanted.id}, ${other.id}, 'once it is bored', ${shop.people.clerk})`;
    serial += 1;
    const { jobId } = await takeIn(shop, { serial: `CARRY-${serial}` });
    const lines = await demand(shop, jobId, [[wanted.id, 1]]);
    const lineId = lines.get(wanted.id) ?? '';
    const chosen = { lotId, quantity: 1, reason: 'it is bored' };
    expect((await clerk.post(`/api/demand-lines/${lineId}/reserve-of-lot`, chosen)).status).toBe(200);
    await sql`insert into part_alternative (id, part_id, other_id, condition, told_by_id)
      values (${crypto.randomUUID()}, ${wanted.id}, ${other.id}, '', ${shop.people.clerk})`;
    const { status, body } = await carry(lotId, 1, to.id);
    expect(status, JSON.stringify(body)).toBe(201);
    expect(await heldOf(lineId)).toEqual([`1 in ${to.code}`]);
  });
});

test('two who carry while others pick and reserve: every piece is promised once, and all of them are there', async () => {
  for (let round = 0; round < 4; round += 1) {
    const part = await addPart(sql);
    const [a, b, c] = [await addBin(sql), await addBin(sql), await addBin(sql)];
    const lotId = await addLot(shop, { partId: part.id, quantity: 8, binId: a.id });
    const [one, two] = [await holding(part.id, 3), await holding(part.id, 3)];
    const third = await takeIn(shop, { serial: `CARRY-R${round}` });
    await demand(shop, third.jobId, [[part.id, 4]]);
    const answers = await Promise.all([
      carry(lotId, 3, b.id),
      carry(lotId, 3, b.id),
      issue(one.lineId, 2),
      carry(lotId, 2, c.id),
      issue(two.lineId, 1),
      technician.post(`/api/jobs/${third.jobId}/reservations`, { allOrNothing: false }),
    ]);
    const faults = answers.filter(({ status }) => status >= 300);
    for (const { status, body } of faults) expect([409, JSON.stringify(body)]).toEqual([status, JSON.stringify(body)]);
    const issued = [answers[2], answers[4]].map((told) => told?.status === 200);
    expect(issued).toEqual([true, true]);
    expect(await standing(shop, one.jobId, part.id)).toEqual({ ...none, reserved: 1, issued: 2 });
    expect(await standing(shop, two.jobId, part.id)).toEqual({ ...none, reserved: 2, issued: 1 });
    // What is on its way while the third asks is short for it, and found by the next round.
    await makeRound(sql);
    expect(await standing(shop, third.jobId, part.id)).toEqual({ ...none, reserved: 2, short: 2 });
    const [sum] = await sql`
      select sum(on_hand)::int as lying, sum(reserved)::int as reserved, count(*)::int as lots from stock_lot where part_id = ${part.id}`;
    expect(sum).toMatchObject({ lying: 5, reserved: 5 });
    expect(sum?.lots).toBeLessThanOrEqual(3);
    await expectBooksToAgree(sql);
  }
});

test('two who carry from two bins into each other wait for no one for ever', async () => {
  const part = await addPart(sql);
  const [a, b] = [await addBin(sql), await addBin(sql)];
  const received = '2026-01-05T08:00:00Z';
  const lotA = await addLot(shop, { partId: part.id, quantity: 3, binId: a.id, receivedAt: received });
  const lotB = await addLot(shop, { partId: part.id, quantity: 3, binId: b.id, receivedAt: received });
  const job = await holding(part.id, 6);
  const answers = await Promise.all([1, 2, 3].flatMap(() => [carry(lotA, 1, b.id), carry(lotB, 1, a.id)]));
  expect(answers.map(({ status, body }) => [status, body.detail])).toEqual(answers.map(() => [201, undefined]));
  expect(await standing(shop, job.jobId, part.id)).toEqual({ ...none, reserved: 6 });
  expect(await heldOf(job.lineId)).toEqual([`3 in ${a.code}`, `3 in ${b.code}`]);
});
