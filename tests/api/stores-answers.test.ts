import { afterAll, afterEach, describe, expect, test } from 'vitest';
import { makeRound } from '#features/stores/reservations/clock.ts';
import { openShop, takeIn } from '../support/shop.ts';
import { addLot, addPart, demand, expectBooksToAgree, lotNow, none, standing } from '../support/stores.ts';

const shop = await openShop();
const { sql } = shop;
const { clerk, technician, writer } = shop.as;
await sql`update bay set capacity = 100 where id = ${shop.bays.rack}`;
afterEach(() => expectBooksToAgree(sql));
afterAll(shop.close);

const euros = (minor: string) => ({ minor, currency: 'EUR' });
const inDays = (days: number) => new Date(Date.now() + days * 86_400_000).toISOString();
let serial = 0;

/** A job that wants pistons and rings, of which one piston and no ring lies in stores. */
async function quotedJob() {
  serial += 1;
  const { jobId } = await takeIn(shop, { serial: `Y-${serial}` });
  const [piston, ring] = [await addPart(sql, { name: 'Piston' }), await addPart(sql, { name: 'Ring' })];
  const lotId = await addLot(shop, { partId: piston.id, quantity: 2 });
  const lines = await demand(shop, jobId, [
    [piston.id, 2],
    [ring.id, 1],
  ]);
  const lineId = lines.get(piston.id) ?? '';
  return { jobId, piston, ring, lotId, lineId, quoteId: await quote(jobId) };
}

async function quote(jobId: string): Promise<string> {
  const lines = [{ kind: 'labour', words: 'Top end', quantity: 1, each: euros('10000') }];
  const { status, body } = await writer.post(`/api/jobs/${jobId}/quotes`, { lines });
  expect(status).toBe(201);
  return body.id;
}

async function ask(jobId: string, until?: string): Promise<void> {
  const { status } = await technician.post(`/api/jobs/${jobId}/reservations`, {
    allOrNothing: false,
    ...(until === undefined ? {} : { expiresAt: until }),
  });
  expect(status).toBe(200);
}

async function answer(quoteId: string, yes: boolean): Promise<void> {
  const { status, body } = await writer.post(`/api/quotes/${quoteId}/answer`, {
    yes,
    ...(yes ? { sum: euros('10000') } : {}),
    saidBy: 'Ingrid Falk',
    how: 'by telephone',
  });
  expect(status, JSON.stringify(body)).toBe(200);
}

const told = async (jobId: string) =>
  (await sql`select data from event where job_id = ${jobId} and kind = 'quote.answered' order by recorded_at`).map(
    ({ data }) => data,
  );

const untils = async (jobId: string) =>
  (
    await sql<{ until: string | null }[]>`
      select r.expires_at as until from reservation r join demand_line d on d.id = r.demand_line_id
      where d.job_id = ${jobId} and r.quantity > 0
      union all select asked_until from demand_line where job_id = ${jobId} and short > 0`
  ).map(({ until }) => until);

describe('a yes', () => {
  test('makes firm what was held for it, and what is short is waited for without an end', async () => {
    const { jobId, piston, ring, quoteId } = await quotedJob();
    await ask(jobId, inDays(3));
    expect((await untils(jobId)).every((until) => until !== null)).toBe(true);
    await answer(quoteId, true);
    expect(await untils(jobId)).toEqual([null, null]);
    expect(await standing(shop, jobId, piston.id)).toEqual({ ...none, reserved: 2 });
    expect(await standing(shop, jobId, ring.id)).toEqual({ ...none, short: 1 });
    expect(await told(jobId)).toMatchObject([{ yes: true, firm: [{ name: 'Piston', quantity: 2 }] }]);
  });

  test('that comes just before the hold is let go keeps it', async () => {
    const { jobId, piston, quoteId } = await quotedJob();
    await ask(jobId, inDays(3));
    await sql`update reservation set expires_at = clock_timestamp() - interval '1 second' where expires_at is not null`;
    await answer(quoteId, true);
    await makeRound(sql);
    expect(await standing(shop, jobId, piston.id)).toEqual({ ...none, reserved: 2 });
  });
});

describe('a no', () => {
  test('gives back what is reserved and not handed out, ends the waiting, and says so on the timeline', async () => {
    const { jobId, piston, ring, lotId, lineId, quoteId } = await quotedJob();
    await ask(jobId);
    expect((await clerk.post(`/api/demand-lines/${lineId}/issue`, { quantity: 1 })).status).toBe(200);
    await answer(quoteId, false);
    expect(await standing(shop, jobId, piston.id)).toEqual({ ...none, issued: 1, notAsked: 1 });
    expect(await standing(shop, jobId, ring.id)).toEqual({ ...none, notAsked: 1 });
    expect(await lotNow(sql, lotId)).toMatchObject({ onHand: 1, reserved: 0 });
    expect(await told(jobId)).toMatchObject([
      { yes: false, released: [{ part: piston.number, name: 'Piston', quantity: 1 }], noLongerAsked: [ring.number] },
    ]);
    const [moved] =
      await sql`select reason, moved_by_id from stock_movement where act = 'release' and lot_id = ${lotId}`;
    expect(moved).toEqual({ reason: 'no to quote 1', moved_by_id: shop.people.writer });
  });

  test('ends the waiting for a whole kit: what comes later is not reserved for it', async () => {
    const { jobId, piston, ring, quoteId } = await quotedJob();
    const asked = await technician.post(`/api/jobs/${jobId}/reservations`, { allOrNothing: true });
    expect(asked.body.complete).toBe(false);
    await answer(quoteId, false);
    await addLot(shop, { partId: ring.id, quantity: 1 });
    await makeRound(sql);
    expect(await standing(shop, jobId, piston.id)).toEqual({ ...none, notAsked: 2 });
    expect(await standing(shop, jobId, ring.id)).toEqual({ ...none, notAsked: 1 });
    const waits = await sql`select from job_wait where job_id = ${jobId} and waits_for = 'parts'`;
    expect(waits).toHaveLength(0);
  });

  test('gives the pieces to who waits for them', async () => {
    const { jobId, piston, quoteId } = await quotedJob();
    await ask(jobId, inDays(3));
    const other = await takeIn(shop, { serial: 'Y-WAITS' });
    await demand(shop, other.jobId, [[piston.id, 1]]);
    await ask(other.jobId);
    await answer(quoteId, false);
    await makeRound(sql);
    expect(await standing(shop, other.jobId, piston.id)).toEqual({ ...none, reserved: 1 });
    expect(await standing(shop, jobId, piston.id)).toEqual({ ...none, notAsked: 2 });
  });

  test('is followed by another quote, for which the parts are reserved again', async () => {
    const { jobId, piston, quoteId } = await quotedJob();
    await ask(jobId, inDays(3));
    await answer(quoteId, false);
    const second = await quote(jobId);
    await ask(jobId, inDays(3));
    await answer(second, true);
    expect(await standing(shop, jobId, piston.id)).toEqual({ ...none, reserved: 2 });
  });

  test('to a later quote leaves what an earlier yes was given for', async () => {
    const { jobId, piston, quoteId } = await quotedJob();
    await ask(jobId);
    await answer(quoteId, true);
    const more = await addPart(sql, { name: 'Cam chain' });
    await addLot(shop, { partId: more.id, quantity: 1 });
    await demand(shop, jobId, [[more.id, 1]]);
    const second = await quote(jobId);
    await ask(jobId, inDays(3));
    await answer(second, false);
    expect(await standing(shop, jobId, piston.id)).toEqual({ ...none, reserved: 2 });
    expect(await standing(shop, jobId, more.id)).toEqual({ ...none, notAsked: 1 });
  });

  test('beside clerks who reserve and count the same lots leaves the books right, and nobody waits for ever', async () => {
    const jobs = await Promise.all([1, 2, 3].map(() => quotedJob()));
    await Promise.all(jobs.map(({ jobId }) => ask(jobId, inDays(3))));
    const other = await takeIn(shop, { serial: 'Y-BESIDE' });
    await demand(
      shop,
      other.jobId,
      jobs.map(({ piston }) => [piston.id, 1] as const),
    );
    const answers = await Promise.all(
      jobs.flatMap(({ jobId, quoteId, lotId }, at) => [
        writer.post(`/api/quotes/${quoteId}/answer`, { yes: false, saidBy: 'Ingrid Falk', how: 'by telephone' }),
        technician.post(`/api/jobs/${at === 0 ? other.jobId : jobId}/reservations`, { allOrNothing: false }),
        clerk.post('/api/stock-movements', { act: 'adjust', lotId, quantity: -1, reason: 'counted' }),
      ]),
    );
    expect(answers.filter(({ status }) => status >= 300).map(({ status, body }) => [status, body.detail])).toEqual([]);
  });
});

test('the board tells what was said to the newest quote of a job, and no sum', async () => {
  const { jobId, quoteId } = await quotedJob();
  const onBoard = async () =>
    (await technician.get('/api/stores/board')).body.jobs.find((each: { job: { id: string } }) => each.job.id === jobId)
      ?.quote;
  expect(await onBoard()).toBe('not answered');
  await answer(quoteId, false);
  expect(await onBoard()).toBe('no');
  await answer(await quote(jobId), true);
  expect(await onBoard()).toBe('yes');
});
