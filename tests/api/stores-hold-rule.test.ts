import { afterAll, afterEach, describe, expect, test } from 'vitest';
import { makeRound } from '#features/stores/reservations/clock.ts';
import { answer, endOfDay, quote } from '../support/quotes.ts';
import { openShop, takeIn } from '../support/shop.ts';
import { addBin, addLot, addPart, demand, expectBooksToAgree, lotNow, none, standing } from '../support/stores.ts';

const shop = await openShop();
const { sql } = shop;
const { clerk, lead, technician } = shop.as;
await sql`update bay set capacity = 100 where id = ${shop.bays.rack}`;
afterEach(() => expectBooksToAgree(sql));
afterAll(shop.close);

const inDays = (days: number) => new Date(Date.now() + days * 86_400_000).toISOString();
const setRule = (days: unknown, as = lead) => as.post('/api/stores/hold-rule', { days });

/** A job that wants a piston, of which two lie in stores, and a ring, of which none does. */
async function jobWanting(serial: string) {
  const { jobId, engineId } = await takeIn(shop, { serial });
  const [piston, ring] = [await addPart(sql, { name: 'Piston' }), await addPart(sql, { name: 'Ring' })];
  const lotId = await addLot(shop, { partId: piston.id, quantity: 2 });
  const lines = await demand(shop, jobId, [
    [piston.id, 1],
    [ring.id, 1],
  ]);
  return { jobId, engineId, piston, ring, lotId, pistonLine: lines.get(piston.id) ?? '' };
}

async function ask(jobId: string, more: object = {}): Promise<void> {
  const { status } = await technician.post(`/api/jobs/${jobId}/reservations`, { allOrNothing: false, ...more });
  expect(status).toBe(200);
}

/** Until when the job's pieces are held, and until when it waits for others. */
const untils = async (jobId: string) => ({
  held: (
    await sql<{ until: string | null }[]>`
      select r.expires_at as until from reservation r join demand_line d on d.id = r.demand_line_id
      where d.job_id = ${jobId} and r.quantity > 0 order by r.reserved_at`
  ).map(({ until }) => until),
  waits: (
    await sql<{ until: string | null }[]>`
      select asked_until as until from demand_line where job_id = ${jobId} and short > 0 order by id`
  ).map(({ until }) => until),
});

describe('the rule of the shop', () => {
  test('is two weeks where nobody set another, is set by a lead alone, and refuses what is no number of days', async () => {
    expect((await technician.get('/api/stores/hold-rule')).body).toEqual({ days: 14 });
    expect((await setRule(3, clerk)).status).toBe(403);
    for (const days of [-1, 366, 1.5, '14', null]) expect((await setRule(days)).status, String(days)).toBe(400);
    expect((await setRule(366)).body.errors).toMatchObject([{ pointer: '/days', detail: 'must be from 0 to 365' }]);
    expect((await setRule(3)).body).toEqual({ days: 3 });
    expect((await technician.get('/api/stores/hold-rule')).body).toEqual({ days: 3 });
    const [told] = await sql`select data, actor_id from event where kind = 'hold-rule.set'`;
    expect(told).toEqual({ data: { was: 14, days: 3 }, actor_id: shop.people.lead });
    expect((await setRule(14)).status).toBe(200);
  });

  test('leaves a job firm that nobody quoted, and holds its pieces until a day once a quote is out', async () => {
    const { jobId } = await jobWanting('R-QUOTE');
    await ask(jobId);
    expect(await untils(jobId)).toEqual({ held: [null], waits: [null] });
    const quoteId = await quote(shop, jobId);
    const until = await endOfDay(shop, 14);
    expect(await untils(jobId)).toEqual({ held: [until], waits: [until] });
    const [told] = await sql`select data from event where job_id = ${jobId} and kind = 'quote.sent'`;
    expect(told?.data).toMatchObject({ held: [{ name: 'Piston', quantity: 1 }] });
    await answer(shop, quoteId, true);
    expect(await untils(jobId)).toEqual({ held: [null], waits: [null] });
    await quote(shop, jobId);
    expect(await untils(jobId)).toEqual({ held: [null], waits: [null] });
  });
});

describe('what is reserved for a job without a yes is held until the day of the rule', () => {
  test('by the kit or by the line, and tells the board', async () => {
    const { jobId } = await jobWanting('R-KIT');
    await quote(shop, jobId);
    await ask(jobId);
    const until = await endOfDay(shop, 14);
    expect(await untils(jobId)).toEqual({ held: [until], waits: [until] });
    const { body } = await technician.get('/api/stores/board');
    const onBoard = body.jobs.find(({ job }: { job: { id: string } }) => job.id === jobId);
    expect(Date.parse(onBoard.heldUntil)).toBe(Date.parse(until));
    expect(onBoard.lines.map(({ state }: { state: string }) => state)).toContain('reserved');
  });

  test('out of a lot that somebody chose', async () => {
    const { jobId, lotId, pistonLine } = await jobWanting('R-LOT');
    await quote(shop, jobId);
    const { status } = await clerk.post(`/api/demand-lines/${pistonLine}/reserve-of-lot`, { lotId, quantity: 1 });
    expect(status).toBe(200);
    expect((await untils(jobId)).held).toEqual([await endOfDay(shop, 14)]);
  });

  test('given over from another job, also where that one held it firmly', async () => {
    const { jobId, piston, pistonLine } = await jobWanting('R-GIVER');
    await ask(jobId);
    const other = await takeIn(shop, { serial: 'R-TAKER' });
    await demand(shop, other.jobId, [[piston.id, 1]]);
    await quote(shop, other.jobId);
    const given = { toJobId: other.jobId, quantity: 1, reason: 'its owner waits longer' };
    expect((await clerk.post(`/api/demand-lines/${pistonLine}/reassign`, given)).status).toBe(200);
    expect((await untils(other.jobId)).held).toEqual([await endOfDay(shop, 14)]);
  });

  test('as it came in for who waited, and again after a count took it back', async () => {
    const { jobId, piston, ring, lotId } = await jobWanting('R-WAITS');
    await quote(shop, jobId);
    await ask(jobId);
    await addLot(shop, { partId: ring.id, quantity: 1 });
    await makeRound(sql);
    const until = await endOfDay(shop, 14);
    expect(await untils(jobId)).toEqual({ held: [until, until], waits: [] });
    const counted = { act: 'count', lotId, counted: 0, reason: 'the box is empty' };
    expect((await clerk.post('/api/stock-movements', counted)).status).toBe(201);
    expect(await untils(jobId)).toEqual({ held: [until], waits: [until] });
    await addLot(shop, { partId: piston.id, quantity: 1 });
    await makeRound(sql);
    expect(await untils(jobId)).toEqual({ held: [until, until], waits: [] });
  });

  test('after a no, for the quote that comes next', async () => {
    const { jobId } = await jobWanting('R-NO');
    await answer(shop, await quote(shop, jobId), false);
    await ask(jobId);
    expect((await untils(jobId)).held).toEqual([await endOfDay(shop, 14)]);
  });

  test('while another quote is out after a yes; a no to that one leaves it to the yes', async () => {
    const { jobId } = await jobWanting('R-MORE');
    await answer(shop, await quote(shop, jobId), true);
    const more = await quote(shop, jobId);
    await ask(jobId);
    expect((await untils(jobId)).held).toEqual([await endOfDay(shop, 14)]);
    await answer(shop, more, false);
    expect((await untils(jobId)).held).toEqual([]);
    await ask(jobId);
    expect((await untils(jobId)).held).toEqual([null]);
  });

  test('goes back to stock on that day, and to who waits, and both are told', async () => {
    const { jobId, piston } = await jobWanting('R-LAPSE');
    await quote(shop, jobId);
    await ask(jobId);
    const other = await takeIn(shop, { serial: 'R-LAPSE-2' });
    await demand(shop, other.jobId, [[piston.id, 2]]);
    await ask(other.jobId);
    await sql`update reservation r set expires_at = now() - interval '1 second' from demand_line d where d.id = r.demand_line_id and d.job_id = ${jobId}`;
    await makeRound(sql);
    expect(await standing(shop, jobId, piston.id)).toEqual({ ...none, notAsked: 1 });
    expect(await standing(shop, other.jobId, piston.id)).toEqual({ ...none, reserved: 2 });
    const told = await sql<{ kind: string }[]>`
      select kind from event where job_id in (${jobId}, ${other.jobId}) and kind in ('hold.lapsed', 'kit.reserved')`;
    expect(told.map(({ kind }) => kind).toSorted()).toEqual(['hold.lapsed', 'kit.reserved']);
  });
});

describe('pieces that are taken back from a job come to it again as they were held', () => {
  /** A job with a yes, and another quote out, that holds one piston until the day of the rule. */
  async function heldAfterAYes(serial: string) {
    const job = await jobWanting(serial);
    await answer(shop, await quote(shop, job.jobId), true);
    await quote(shop, job.jobId);
    await ask(job.jobId, { demandLineIds: [job.pistonLine] });
    const until = await endOfDay(shop, 14);
    expect(await untils(job.jobId)).toEqual({ held: [until], waits: [] });
    return { ...job, until };
  }
  async function servedAgain(piston: { readonly id: string }) {
    await addLot(shop, { partId: piston.id, quantity: 2 });
    await makeRound(sql);
  }

  test('by a count, after an earlier yes while another quote is out', async () => {
    const { jobId, piston, lotId, until } = await heldAfterAYes('R-TAKEN');
    const counted = { act: 'count', lotId, counted: 0, reason: 'the box is empty' };
    expect((await clerk.post('/api/stock-movements', counted)).status).toBe(201);
    expect(await untils(jobId)).toEqual({ held: [], waits: [until] });
    await servedAgain(piston);
    expect(await untils(jobId)).toEqual({ held: [until], waits: [] });
  });

  test('by another rule of lots, and by another job', async () => {
    const ruled = await heldAfterAYes('R-RULED');
    const rule = { rule: 'grade', grade: 'A', reason: 'as the others' };
    expect((await clerk.post(`/api/demand-lines/${ruled.pistonLine}/lot-rule`, rule)).status).toBe(200);
    expect(await untils(ruled.jobId)).toEqual({ held: [], waits: [ruled.until] });
    const given = await heldAfterAYes('R-GIVEN');
    const other = await takeIn(shop, { serial: 'R-GIVEN-2' });
    await demand(shop, other.jobId, [[given.piston.id, 1]]);
    const over = { toJobId: other.jobId, quantity: 1, reason: 'its owner waits longer' };
    // The other of the two lies free, and comes to the job again at once: as it was held.
    expect((await clerk.post(`/api/demand-lines/${given.pistonLine}/reassign`, over)).status).toBe(200);
    expect(await untils(given.jobId)).toEqual({ held: [], waits: [given.until] });
    await makeRound(sql);
    expect(await untils(given.jobId)).toEqual({ held: [given.until], waits: [] });
    expect((await untils(other.jobId)).held).toEqual([null]);
  });

  test('until the day that somebody said, where no quote is out at all', async () => {
    const { jobId, piston, lotId, pistonLine } = await jobWanting('R-SAID');
    const said = inDays(3);
    await ask(jobId, { demandLineIds: [pistonLine], expiresAt: said });
    const scrapped = { act: 'scrap', lotId, quantity: 2, reason: 'dropped' };
    expect((await clerk.post('/api/stock-movements', scrapped)).status).toBe(201);
    await servedAgain(piston);
    expect((await untils(jobId)).held.map((until) => Date.parse(until ?? ''))).toEqual([Date.parse(said)]);
  });

  test('firmly, where the job waits firmly for others of the line, or they were firm', async () => {
    const { jobId, piston, lotId, pistonLine } = await jobWanting('R-FIRM');
    await ask(jobId, { demandLineIds: [pistonLine] });
    await demand(shop, jobId, [[piston.id, 2]]);
    const said = inDays(3);
    await ask(jobId, { demandLineIds: [pistonLine], expiresAt: said });
    await sql`update reservation set expires_at = null where demand_line_id = ${pistonLine}`;
    expect((await untils(jobId)).waits.map((until) => Date.parse(until ?? ''))).toEqual([Date.parse(said)]);
    const counted = { act: 'count', lotId, counted: 0, reason: 'the box is empty' };
    expect((await clerk.post('/api/stock-movements', counted)).status).toBe(201);
    expect((await untils(jobId)).waits).toEqual([null]);
  });
});

describe('a day that somebody said', () => {
  test('stays, earlier or later than the rule, also when the kit is asked for again without one', async () => {
    const { jobId, piston, lotId, pistonLine } = await jobWanting('R-HAND');
    await quote(shop, jobId);
    const later = inDays(60);
    await ask(jobId, { expiresAt: later });
    await demand(shop, jobId, [[piston.id, 1]]);
    await ask(jobId);
    expect((await untils(jobId)).held.map((until) => Date.parse(until ?? ''))).toEqual([Date.parse(later)]);
    expect(await lotNow(sql, lotId)).toMatchObject({ reserved: 2 });
    const earlier = inDays(2);
    await ask(jobId, { demandLineIds: [pistonLine], expiresAt: earlier });
    expect((await untils(jobId)).held.map((until) => Date.parse(until ?? ''))).toEqual([Date.parse(earlier)]);
  });
});

describe('without a rule', () => {
  test('holds are firm as they are asked for; set again, it takes hold of them in the next round, and tells', async () => {
    expect((await setRule(0)).status).toBe(200);
    const { jobId, piston } = await jobWanting('R-NEVER');
    await quote(shop, jobId);
    await ask(jobId);
    await makeRound(sql);
    expect(await untils(jobId)).toEqual({ held: [null], waits: [null] });
    expect((await setRule(5)).status).toBe(200);
    await Promise.all([makeRound(sql), makeRound(sql)]);
    const until = await endOfDay(shop, 5);
    expect(await untils(jobId)).toEqual({ held: [until], waits: [until] });
    const told = await sql`select data from event where job_id = ${jobId} and kind = 'hold.begun'`;
    expect(told.map(({ data }) => data)).toEqual([{ held: [{ part: piston.number, name: 'Piston', quantity: 1 }] }]);
  });
});

test('whoever writes a firm hold for a job without a yes past the service finds it with an end', async () => {
  expect((await setRule(14)).status).toBe(200);
  const { jobId, pistonLine } = await jobWanting('R-PAST');
  await quote(shop, jobId);
  await ask(jobId);
  await sql`update reservation set expires_at = null where demand_line_id = ${pistonLine}`;
  await sql`update demand_line set asked_until = null where job_id = ${jobId}`;
  const until = await endOfDay(shop, 14);
  expect(await untils(jobId)).toEqual({ held: [until], waits: [until] });
});

test('a quote that goes out while its job reserves leaves nothing firm, whichever comes first', async () => {
  for (let at = 0; at < 5; at += 1) {
    const { jobId } = await jobWanting(`R-AT-ONCE-${at}`);
    await Promise.all([quote(shop, jobId), ask(jobId), addBin(sql)]);
    const until = await endOfDay(shop, 14);
    expect(await untils(jobId)).toEqual({ held: [until], waits: [until] });
  }
});
