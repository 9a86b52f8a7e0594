import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { makeRound } from '#features/stores/reservations/clock.ts';
import { findServable } from '#features/stores/reservations/round-queries.ts';
import { newId } from '#platform/act.ts';
import { openShop, takeIn } from '../support/shop.ts';
import { addBin, addLot, addPart, demand, expectBooksToAgree, none, standing } from '../support/stores.ts';

const shop = await openShop();
const { sql } = shop;
const { technician, clerk } = shop.as;
beforeAll(async () => {
  await sql`update bay set capacity = 100 where id = ${shop.bays.rack}`;
});
afterEach(() => expectBooksToAgree(sql));
afterAll(shop.close);

let jobs = 0;
async function jobWanting(partId: string, quantity: number, more: { grade?: string } = {}) {
  jobs += 1;
  const { jobId } = await takeIn(shop, { serial: `RULES-${jobs}` });
  if (more.grade === undefined) {
    const lines = await demand(shop, jobId, [[partId, quantity]]);
    return { jobId, lineId: lines.get(partId) ?? '' };
  }
  const { status, body } = await technician.post(`/api/jobs/${jobId}/demands`, {
    lines: [{ partId, quantity, words: 'the bore is marked so', grade: more.grade }],
  });
  expect(status, JSON.stringify(body)).toBe(201);
  return { jobId, lineId: String(body.lines[0].id) };
}
const ask = (jobId: string, allOrNothing = true) =>
  technician.post(`/api/jobs/${jobId}/reservations`, { allOrNothing });
const setRule = (lineId: string, body: object) =>
  clerk.post(`/api/demand-lines/${lineId}/lot-rule`, { reason: 'the rod is marked so', ...body });
const heldOf = async (lineId: string) =>
  (
    await sql<{ grade: string; nm: number | null; quantity: number }[]>`
      select l.grade, l.shim_nm as nm, r.quantity from reservation r join stock_lot l on l.id = r.lot_id
      where r.demand_line_id = ${lineId} and r.quantity > 0 order by l.grade, l.shim_nm`
  ).map(({ grade, nm, quantity }) => [grade === '' ? nm : grade, quantity]);
const lineOf = async (jobId: string) => (await clerk.get(`/api/jobs/${jobId}/demands`)).body.lines[0];

/** A part of which A lies there longest, then B, then pieces without a mark. */
async function graded() {
  const part = await addPart(sql);
  const lots = {
    a: await addLot(shop, { partId: part.id, quantity: 3, grade: 'A', receivedAt: '2024-01-01T00:00:00Z' }),
    b: await addLot(shop, { partId: part.id, quantity: 1, grade: 'B', receivedAt: '2025-01-01T00:00:00Z' }),
    plain: await addLot(shop, { partId: part.id, quantity: 3 }),
  };
  return { part, lots };
}

describe('a grade that was asked for', () => {
  test('stays with the line, with who asked and why, and takes that grade alone, in small or large letters', async () => {
    const { part } = await graded();
    const { jobId, lineId } = await jobWanting(part.id, 2, { grade: 'b' });
    expect(await lineOf(jobId)).toMatchObject({
      lotRule: {
        rule: 'grade',
        grade: 'b',
        words: 'in grade b',
        cause: 'grade asked',
        reason: 'the bore is marked so',
        by: expect.any(String),
      },
    });
    const { body } = await ask(jobId, false);
    expect(body).toMatchObject({ complete: false, shortages: [{ missing: 1, rule: 'in grade b' }] });
    expect(body.words).toContain(`1 × ${part.number === '' ? '' : `Part ${part.number} (${part.number})`} in grade b`);
    expect(await heldOf(lineId)).toEqual([['B', 1]]);
  });

  test('is told to the vendor of whom they are bought, and of how many where others want any', async () => {
    const part = await addPart(sql);
    const price = { vendorId: shop.vendorId, partId: part.id, price: { minor: '900', currency: 'EUR' } };
    const pack = await clerk.post('/api/vendor-prices', { ...price, packSize: 10, validFrom: '2020-01-01' });
    expect(pack.status).toBe(201);
    const wanted = async () => {
      const { body } = await clerk.get('/api/stores/to-buy');
      const lines = body.vendors.flatMap((vendor: { lines: object[] }) => vendor.lines);
      return lines.filter((line: { part: { id: string } }) => line.part.id === part.id);
    };
    for (const [quantity, grade, told] of [
      [2, { grade: 'A' }, 'in grade A'],
      [3, { grade: 'B' }, '2 in grade A; 3 in grade B'],
      [1, {}, '2 in grade A; 3 in grade B'],
    ] as const) {
      const { jobId } = await jobWanting(part.id, quantity, grade);
      await ask(jobId, false);
      expect(await wanted()).toMatchObject([{ packs: 1, words: told }]);
    }
  });

  test('is refused where pieces of another grade are open on the line, and in two grades at once', async () => {
    const { part } = await graded();
    const { jobId } = await jobWanting(part.id, 1);
    const more = (lines: object[]) => technician.post(`/api/jobs/${jobId}/demands`, { lines });
    const wish = (grade: string) => ({ partId: part.id, quantity: 1, words: 'more', grade });
    const refused = await more([wish('B')]);
    expect(refused.status).toBe(409);
    expect(refused.body.detail).toContain('of any grade already');
    expect((await more([wish('B'), wish('C')])).body.errors).toEqual([
      { pointer: '/lines/1/grade', detail: 'is C, and B above' },
    ]);
    expect(await standing(shop, jobId, part.id)).toEqual({ ...none, notAsked: 1 });
  });

  test('that is nothing, two lines long or too long is refused, naming the field', async () => {
    const { part } = await graded();
    const { jobId } = await jobWanting(part.id, 1);
    for (const grade of ['', '   ', 'B\nC', 'x'.repeat(21)]) {
      const { status, body } = await technician.post(`/api/jobs/${jobId}/demands`, {
        lines: [{ partId: part.id, quantity: 1, words: 'more', grade }],
      });
      expect(status, grade).toBe(400);
      expect(JSON.stringify(body)).toContain('/lines/0/grade');
    }
  });
});

describe('a rule that the clerk sets', () => {
  test('lets go what does not meet it, which is served anew out of what does, and tells the engine', async () => {
    const { part } = await graded();
    const { jobId, lineId } = await jobWanting(part.id, 2);
    await ask(jobId);
    expect(await heldOf(lineId)).toEqual([['A', 2]]);
    const set = await setRule(lineId, { rule: 'grade', grade: ' B ' });
    expect(set.status, JSON.stringify(set.body)).toBe(200);
    expect(set.body.lines[0]).toMatchObject({ reserved: 0, short: 2, lotRule: { grade: 'B', cause: 'by hand' } });
    await makeRound(sql);
    expect(await heldOf(lineId)).toEqual([['B', 1]]);
    expect(await findServable(sql)).toEqual([]);
    const [event] = await sql`select data from event where job_id = ${jobId} and kind = 'lot-rule.set'`;
    expect(event?.data).toMatchObject({ words: 'in grade B', givenBack: 2, reason: 'the rod is marked so' });
    expect((await setRule(lineId, { rule: 'grade', grade: 'b' })).status).toBe(409);
    expect((await setRule(lineId, { rule: 'oldest' })).status).toBe(200);
    await makeRound(sql);
    expect(await standing(shop, jobId, part.id)).toEqual({ ...none, reserved: 2 });
  });

  test('is one somebody with the right to stores sets, with a reason, and for a thickness of a shim alone', async () => {
    const { part } = await graded();
    const { lineId } = await jobWanting(part.id, 1);
    const at = `/api/demand-lines/${lineId}/lot-rule`;
    expect((await technician.post(at, { rule: 'grade', grade: 'B', reason: 'so' })).status).toBe(403);
    expect((await setRule(lineId, { rule: 'grade', grade: 'B', reason: ' ' })).status).toBe(400);
    expect((await setRule(lineId, { rule: 'newest' })).status).toBe(400);
    expect((await setRule(lineId, { rule: 'grade' })).status).toBe(400);
    expect((await setRule(newId(), { rule: 'grade', grade: 'B' })).status).toBe(404);
    const thickness = (value: string, unit = 'mm') => ({ rule: 'exact thickness', thickness: { value, unit } });
    const noShim = await setRule(lineId, thickness('2.175'));
    expect(noShim.body).toMatchObject({ status: 422, errors: [{ pointer: '/rule' }] });
    const shim = await addPart(sql, { shimNm: 2_350_000 });
    const wants = await jobWanting(shim.id, 1);
    for (const [value, unit] of [['0'], ['-2.3'], ['two'], ['2.3', 'N·m'], ['2.3', 'furlong']])
      expect((await setRule(wants.lineId, thickness(value ?? '', unit))).body.errors?.[0]?.pointer, value).toMatch(
        /^\/thickness/,
      );
    expect((await lineOf(wants.jobId)).lotRule).toBeNull();
  });

  test('by exact thickness is short in those words until such a shim comes in, and then has it', async () => {
    const shim = await addPart(sql, { shimNm: 2_175_000 });
    await addLot(shop, { partId: shim.id, quantity: 4, shimNm: 2_171_000 });
    const { jobId, lineId } = await jobWanting(shim.id, 1);
    await setRule(lineId, { rule: 'exact thickness', thickness: { value: '2.175', unit: 'mm' } });
    expect((await ask(jobId)).body.words).toContain('2.175 mm exactly');
    const short = await clerk.get('/api/stores/short');
    expect(short.body.items.find((line: { demandLineId: string }) => line.demandLineId === lineId)).toMatchObject({
      rule: '2.175 mm exactly',
    });
    await makeRound(sql);
    expect(await heldOf(lineId)).toEqual([]);
    await addLot(shop, { partId: shim.id, quantity: 1, shimNm: 2_175_000 });
    await makeRound(sql);
    expect(await heldOf(lineId)).toEqual([[2_175_000, 1]]);
  });
});

describe('a lot that does not meet the rule', () => {
  test('is taken by somebody who says why, and by nobody else', async () => {
    const { part, lots } = await graded();
    const { jobId, lineId } = await jobWanting(part.id, 2, { grade: 'B' });
    const take = (body: object) =>
      clerk.post(`/api/demand-lines/${lineId}/reserve-of-lot`, { lotId: lots.a, quantity: 1, ...body });
    const unsaid = await take({});
    expect(unsaid.body).toMatchObject({ status: 422, errors: [{ pointer: '/reason' }] });
    const choice = await clerk.get(`/api/demand-lines/${lineId}/lots`);
    expect(
      choice.body.items.map(({ grade, meetsRule }: { grade: string; meetsRule: boolean }) => [grade, meetsRule]),
    ).toEqual([
      ['A', false],
      ['B', true],
      ['', false],
    ]);
    const taken = await take({ reason: 'the journal is at its upper end' });
    expect(taken.body.lines[0].held).toMatchObject([{ grade: 'A', againstRule: 'the journal is at its upper end' }]);
    await ask(jobId);
    expect(await heldOf(lineId)).toEqual([
      ['A', 1],
      ['B', 1],
    ]);
    const [event] = await sql`select data from event where job_id = ${jobId} and kind = 'part.chosen'`;
    expect(event?.data).toMatchObject({ againstRule: 'in grade B', reason: 'the journal is at its upper end' });
  });

  test('is refused by the database too, whoever writes', async () => {
    const { part, lots } = await graded();
    const { lineId } = await jobWanting(part.id, 2, { grade: 'B' });
    const promise = (lotId: string) =>
      sql.begin(async (own) => {
        await own`insert into reservation (id, demand_line_id, lot_id, quantity) values (${newId()}, ${lineId}, ${lotId}, 1)`;
        throw new Error('not kept');
      });
    await expect(promise(lots.a)).rejects.toThrow('does not meet the rule');
    await expect(promise(lots.plain)).rejects.toThrow('does not meet the rule');
    await expect(promise(lots.b)).rejects.toThrow('not kept');
  });

  test('is not given over from another job', async () => {
    const { part } = await graded();
    const [giver, taker] = [await jobWanting(part.id, 2), await jobWanting(part.id, 1, { grade: 'C' })];
    await ask(giver.jobId);
    const give = () =>
      clerk.post(`/api/demand-lines/${giver.lineId}/reassign`, { toJobId: taker.jobId, quantity: 1, reason: 'sooner' });
    const refused = await give();
    expect(refused.status).toBe(409);
    expect(refused.body.detail).toContain('in grade C');
    await setRule(taker.lineId, { rule: 'grade', grade: 'A' });
    expect((await give()).status).toBe(200);
    expect(await heldOf(taker.lineId)).toEqual([['A', 1]]);
  });
});

describe('what comes in', () => {
  test('for a job is reserved for it only where it meets the rule of its line', async () => {
    const part = await addPart(sql);
    const { jobId, lineId } = await jobWanting(part.id, 2, { grade: 'B' });
    await ask(jobId);
    const [vendor] = await sql<{ id: string }[]>`select id from vendor limit 1`;
    const order = await clerk.post('/api/purchase-lines', {
      vendorId: vendor?.id,
      partId: part.id,
      quantity: 3,
      jobId,
    });
    expect(order.status, JSON.stringify(order.body)).toBe(201);
    const bin = await addBin(sql);
    const receive = (grade?: string) =>
      clerk.post('/api/receipts', {
        partId: part.id,
        binId: bin.id,
        quantity: 1,
        purchaseLineId: order.body.id,
        ...(grade === undefined ? {} : { grade }),
      });
    expect((await receive()).body.reservedFor).toBeNull();
    expect((await receive('A')).body.reservedFor).toBeNull();
    expect((await receive('B')).body.reservedFor).toMatchObject({ demandLineId: lineId, quantity: 1 });
    await makeRound(sql);
    expect(await heldOf(lineId)).toEqual([['B', 1]]);
  });
});

describe('what can be promised', () => {
  test('counts for a line in a grade what bears it, and leaves the rest to others', async () => {
    const { part } = await graded();
    const { jobId } = await jobWanting(part.id, 2, { grade: 'B' });
    await ask(jobId);
    const ready = await clerk.get(`/api/jobs/${jobId}/parts-ready`);
    expect(ready.body).toMatchObject({ on: null, basis: 'no date' });
    const promise = await clerk.get(`/api/parts/${part.id}/promise`);
    // Six of A and without a mark lie free: nobody who waits for B can have them.
    expect(promise.body.asked.promisable).toBe(6);
  });
});

describe('what a lot bears', () => {
  const mark = (lotId: string, body: object) => clerk.post(`/api/lots/${lotId}/marks`, { reason: 'misread', ...body });

  test('is put right with a reason; who had it by a rule that it meets no longer is short, told, and served anew', async () => {
    const { part, lots } = await graded();
    const b = await jobWanting(part.id, 1, { grade: 'B' });
    const any = await jobWanting(part.id, 4);
    for (const { jobId } of [b, any]) await ask(jobId);
    const put = await mark(lots.b, { grade: ' c ' });
    expect(put.status, JSON.stringify(put.body)).toBe(200);
    expect(put.body).toMatchObject({ onHand: 1, reserved: 0, shortages: [{ demandLineId: b.lineId, missing: 1 }] });
    expect(await standing(shop, b.jobId, part.id)).toEqual({ ...none, short: 1 });
    expect(await standing(shop, any.jobId, part.id)).toEqual({ ...none, reserved: 4 });
    const [told] = await sql`select data from event where job_id = ${b.jobId} and kind = 'part.taken-back'`;
    expect(told?.data).toMatchObject({ quantity: 1, reason: 'misread' });
    expect((await mark(lots.b, { grade: 'B' })).status).toBe(200);
    await makeRound(sql);
    expect(await heldOf(b.lineId)).toEqual([['B', 1]]);
    expect(
      await sql`select was_grade, grade from lot_mark_correction where lot_id = ${lots.b} order by corrected_at`,
    ).toMatchObject([
      { was_grade: 'B', grade: 'c' },
      { was_grade: 'c', grade: 'B' },
    ]);
  });

  test('is refused without a reason, without a change, of a thickness where it is no shim, and to who has no right', async () => {
    const { lots } = await graded();
    expect((await mark(lots.a, { grade: 'B', reason: ' ' })).status).toBe(400);
    expect((await mark(lots.a, {})).body.errors?.[0]?.pointer).toBe('/grade');
    expect((await mark(lots.a, { grade: 'A' })).status).toBe(409);
    expect((await mark(lots.a, { grade: 'x'.repeat(21) })).status).toBe(400);
    const thick = await mark(lots.a, { thickness: { value: '2.3', unit: 'mm' } });
    expect(thick.body).toMatchObject({ status: 422, errors: [{ pointer: '/thickness' }] });
    expect((await mark(newId(), { grade: 'B' })).status).toBe(404);
    const unmay = await technician.post(`/api/lots/${lots.a}/marks`, { grade: 'B', reason: 'misread' });
    expect(unmay.status).toBe(403);
    await expect(sql`update stock_lot set grade = 'Z' where id = ${lots.a}`).rejects.toThrow('with a reason only');
  });

  test('of a shim is its thickness, measured or not', async () => {
    const shim = await addPart(sql, { shimNm: 2_350_000 });
    const lotId = await addLot(shop, { partId: shim.id, quantity: 2, shimNm: 2_345_000 });
    const { jobId, lineId } = await jobWanting(shim.id, 1);
    await setRule(lineId, { rule: 'exact thickness', thickness: { value: '2.345', unit: 'mm' } });
    await ask(jobId);
    expect((await mark(lotId, { thickness: { value: '-2', unit: 'mm' } })).body.errors?.[0]?.pointer).toBe(
      '/thickness',
    );
    expect((await mark(lotId, { thickness: null })).body).toMatchObject({ shortages: [{ missing: 1 }] });
    await setRule(lineId, { rule: 'exact thickness', thickness: { value: '2.35', unit: 'mm' } });
    await makeRound(sql);
    expect(await standing(shop, jobId, shim.id)).toEqual({ ...none, reserved: 1 });
  });
});
