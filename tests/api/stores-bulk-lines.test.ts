import { afterAll, describe, expect, test } from 'vitest';
import { openShop, takeIn } from '../support/shop.ts';
import { addBin, addPart, demand } from '../support/stores.ts';

const shop = await openShop();
const { sql } = shop;
const { clerk, technician } = shop.as;
afterAll(shop.close);

let jobs = 0;
/** A part, of which a job is short by two, ordered for the day given. */
async function waitedFor(promisedOn?: string) {
  const part = await addPart(sql);
  jobs += 1;
  const { jobId } = await takeIn(shop, { serial: `DATES-${jobs}` });
  await demand(shop, jobId, [[part.id, 2]]);
  await technician.post(`/api/jobs/${jobId}/reservations`, { allOrNothing: false });
  const { body } = await clerk.post('/api/purchase-orders', {
    vendorId: shop.vendorId,
    lines: [{ partId: part.id, quantity: 2, ...(promisedOn === undefined ? {} : { promisedOn }) }],
  });
  return { part, jobId, order: body.number as number, lineId: body.lines[0].id as string };
}
const daysOf = async (ids: readonly string[]) =>
  (
    await sql`select l.promised_on as day from unnest(${ids}::uuid[]) with ordinality g (id, at) join purchase_line l on l.id = g.id order by g.at`
  ).map(({ day }) => day);
const events = async () => (await sql`select from event where kind = 'purchase.dated'`).length;

describe('the day of several purchase lines told at once', () => {
  test('is told of each as if told alone, with who gets the pieces later by it; a check keeps nothing', async () => {
    const [first, undated, same] = [await waitedFor('2098-03-01'), await waitedFor(), await waitedFor('2098-04-09')];
    const lineIds = [first, undated, same].map(({ lineId }) => lineId);
    await shop.as.writer.post(`/api/jobs/${first.jobId}/promises`, { readyOn: '2098-03-05', sureOf5: 3 });
    const asked = { lineIds, promisedOn: '2098-04-09', words: ' the foundry is behind ' };
    const would = (await clerk.post('/api/purchase-lines/changes/check', asked)).body;
    expect(would.unchanged).toBe(1);
    expect(would.items).toMatchObject([
      { line: { orderNumber: first.order, part: first.part }, changes: [{ from: '2098-03-01', to: '2098-04-09' }] },
      { line: { orderNumber: undated.order }, changes: [{ from: '', to: '2098-04-09' }] },
    ]);
    expect(would.waits).toHaveLength(2);
    expect(would.waits).toContainEqual(
      expect.objectContaining({ from: '2098-03-01', to: '2098-04-09', promisedOn: '2098-03-05' }),
    );
    expect(would.waits).toContainEqual(expect.objectContaining({ from: null, to: '2098-04-09', promisedOn: null }));
    expect(await daysOf(lineIds)).toEqual(['2098-03-01', null, '2098-04-09']);
    const before = await events();
    const done = await clerk.post('/api/purchase-lines/changes', asked);
    expect([done.status, done.body]).toEqual([201, would]);
    expect(await daysOf(lineIds)).toEqual(['2098-04-09', '2098-04-09', '2098-04-09']);
    expect(await events()).toBe(before + 2);
    const told =
      await sql`select promised_on as day, words from purchase_promise where purchase_line_id = ${first.lineId} order by told_at desc limit 1`;
    expect(told[0]).toMatchObject({ day: '2098-04-09', words: 'the foundry is behind' });
    expect((await clerk.post('/api/purchase-lines/changes', asked)).body).toEqual({
      items: [],
      unchanged: 3,
      waits: [],
    });
  });

  test('none of them is moved without a reason, when one is unknown, or when all of one has come', async () => {
    const [dated, other] = [await waitedFor('2098-05-01'), await waitedFor()];
    const bin = await addBin(sql);
    const lineIds = [other.lineId, dated.lineId];
    const refusal = async (asked: object) => {
      const { status, body } = await clerk.post('/api/purchase-lines/changes', {
        lineIds,
        promisedOn: '2098-06-01',
        words: 'late',
        ...asked,
      });
      return [status, body.errors?.map(({ pointer }: { pointer: string }) => pointer), body.detail] as const;
    };
    expect((await refusal({ words: ' ' })).slice(0, 2)).toEqual([422, ['/words']]);
    expect((await refusal({ lineIds: [...lineIds, crypto.randomUUID()] })).slice(0, 2)).toEqual([404, ['/lineIds/2']]);
    expect((await refusal({ lineIds: [] }))[0]).toBe(400);
    expect((await refusal({ promisedOn: '2098-02-30' }))[0]).toBe(400);
    const taken = await clerk.post('/api/deliveries', {
      lines: [{ purchaseLineId: dated.lineId, binId: bin.id, quantity: 2 }],
    });
    expect(taken.status).toBe(201);
    const [status, at, detail] = await refusal({});
    expect([status, at]).toEqual([422, ['/lineIds/1']]);
    expect(detail).toContain(`on order ${dated.order} nothing is to come any more`);
    expect(
      (await technician.post('/api/purchase-lines/changes', { lineIds, promisedOn: null, words: 'late' })).status,
    ).toBe(403);
    expect(await daysOf(lineIds)).toEqual([null, '2098-05-01']);
  });

  test('two who move the same lines at the same time, each in another order, both get through', async () => {
    const lines = await Promise.all([waitedFor(), waitedFor(), waitedFor()]);
    const lineIds = lines.map(({ lineId }) => lineId);
    const turns = Array.from({ length: 6 }, (_, at) =>
      clerk.post('/api/purchase-lines/changes', {
        lineIds: at % 2 === 0 ? lineIds : lineIds.toReversed(),
        promisedOn: `2098-07-0${at + 1}`,
        words: 'again',
      }),
    );
    expect((await Promise.all(turns)).map(({ status }) => status)).toEqual(turns.map(() => 201));
    expect(new Set(await daysOf(lineIds)).size).toBe(1);
  });
});
