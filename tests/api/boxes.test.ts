import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openBench, type TallyBench } from '../support/open-bench.ts';
import { openShop, type Shop } from '../support/shop.ts';
import { addLot, addPart, demand, standing } from '../support/stores.ts';

let shop: Shop;
beforeAll(async () => {
  shop = await openShop();
});
afterAll(() => shop.close());

interface Counted {
  readonly trayId: string | null;
  readonly pieceId: string;
  readonly count: number;
}

const REASON = 'Mr Falk says it costs more than the machine';

async function stripped(): Promise<TallyBench> {
  const bench = await openBench(shop);
  const off = await bench.off([
    { byHand: { name: 'head bolt', expected: 8 }, count: 8 },
    { byHand: { name: 'bucket', expected: 2, matchedSet: 'intake buckets' }, count: 2 },
    { byHand: { name: 'dowel', expected: 2 }, count: 1 },
  ]);
  expect(off.status).toBe(200);
  const beside = await bench.off([{ byHand: { name: 'head', expected: 1, layer: 'head' }, count: 1 }], {
    trayId: undefined,
  });
  expect([beside.status, beside.body.detail]).toEqual([200, undefined]);
  return bench;
}

async function quoted(jobId: string, yes: boolean): Promise<void> {
  const line = { kind: 'labour', words: 'Rebuild', quantity: 1, each: { minor: '90000', currency: 'EUR' } };
  const { body } = await shop.as.writer.post(`/api/jobs/${jobId}/quotes`, { lines: [line] });
  const answer = { yes, saidBy: 'Ingrid Falk', how: 'by telephone', ...(yes ? { sum: line.each } : {}) };
  expect((await shop.as.writer.post(`/api/quotes/${body.id}/answer`, answer)).status).toBeLessThan(300);
}

const listOf = async (jobId: string) => (await shop.as.lead.get(`/api/jobs/${jobId}/packing-list`)).body;
const countsOf = async (jobId: string): Promise<Counted[]> =>
  (await listOf(jobId)).boxes.flatMap((box: { tray: { id: string } | null; lines: Counted[] }) =>
    box.lines.map(({ pieceId, count }) => ({ trayId: box.tray?.id ?? null, pieceId, count })),
  );
const give = async (jobId: string, more: object = {}, as: 'lead' | 'writer' = 'lead') =>
  shop.as[as].post(`/api/jobs/${jobId}/hand-back-in-boxes`, {
    cause: 'no',
    reason: REASON,
    counts: await countsOf(jobId),
    ...more,
  });

describe('an engine whose owner declines goes home in boxes', () => {
  test('counted and listed, every piece given by a movement; the opening ends as left in boxes, never as closed', async () => {
    const bench = await stripped();
    await quoted(bench.jobId, false);
    const part = await addPart(shop.sql);
    const lotId = await addLot(shop, { partId: part.id, quantity: 3 });
    await demand(shop, bench.jobId, [[part.id, 2]]);
    await shop.as.technician.post(`/api/jobs/${bench.jobId}/reservations`, { allOrNothing: false });

    const before = await listOf(bench.jobId);
    expect(before).toMatchObject({ saidNo: true, depth: 'head', reasons: [], given: null });
    expect(
      before.boxes.map(({ tray, lines }: { tray: object | null; lines: object[] }) => [tray === null, lines.length]),
    ).toEqual([
      [true, 1],
      [false, 3],
    ]);
    expect(before.missing).toEqual([{ name: 'dowel', count: 1, inside: 0 }]);

    const gone = await give(bench.jobId, { note: 'Keep it dry' });
    expect([gone.status, gone.body.detail]).toEqual([200, undefined]);

    const [opening] = await shop.sql`
      select o.closed_at is not null as ended, o.left_in_boxes as boxes, (select count(*)::int from sign_off s where s.opening_id = o.id) as signed
      from opening o where o.id = ${bench.openingId}`;
    expect(opening).toEqual({ ended: true, boxes: true, signed: 0 });
    const pieces = await shop.sql`
      select p.name, p.off, p.accounted, p.with_engine as beside, coalesce((select sum(count)::int from piece_in_tray i where i.piece_id = p.id), 0) as trays,
             (select count(*)::int from position_standing s where s.piece_id = p.id and s.laid) as laid
      from piece p where p.opening_id = ${bench.openingId} order by p.name`;
    expect(pieces.map(({ name, off, accounted }) => [name, off, accounted])).toEqual([
      ['bucket', 2, 2],
      ['dowel', 1, 1],
      ['head', 1, 1],
      ['head bolt', 8, 8],
    ]);
    expect(pieces.every(({ beside, trays, laid }) => beside === 0 && trays === 0 && laid === 0)).toBe(true);
    const [held] = await shop.sql`
      select c.owner_id is not null as owner from custody c where c.engine_id = ${bench.engineId} and c.until_at is null`;
    expect(held).toEqual({ owner: true });
    const [tray] = await shop.sql`
      select t.emptied_at is not null as emptied, (select count(*)::int from custody c where c.tray_id = t.id and c.until_at is null) as held
      from tray t where t.id = ${bench.trayId}`;
    expect(tray).toEqual({ emptied: true, held: 0 });
    expect(await standing(shop, bench.jobId, part.id)).toMatchObject({ reserved: 0, short: 0, cancelled: 2 });
    const [lot] = await shop.sql`select on_hand, reserved from stock_lot where id = ${lotId}`;
    expect(lot).toEqual({ on_hand: 3, reserved: 0 });

    const after = await listOf(bench.jobId);
    expect(after.boxes).toEqual(before.boxes);
    expect(after).toMatchObject({
      depth: 'head',
      missing: before.missing,
      given: { cause: 'no', reason: REASON, note: 'Keep it dry' },
    });
    expect(after.obligations.join()).toMatch(/dowel not found when counted off/);
    const sheet = (await shop.as.lead.get(`/api/jobs/${bench.jobId}/sheet`)).body;
    expect(sheet.openings).toMatchObject([{ leftInBoxes: true, signedBy: null }]);
    expect(sheet.overrides[0].reasons).toEqual(expect.arrayContaining(['The engine is still open.']));
    expect(await bench.events('engine.handed-back')).toMatchObject([{ inBoxes: true, calledOff: 2 }]);
    expect(await bench.events('opening.left-in-boxes')).toMatchObject([{ reason: REASON, depth: 'head' }]);
    expect((await give(bench.jobId, { counts: [] })).status).toBe(409);
  });

  test('with a count that differs, a line left out, or one that lies elsewhere, nothing goes', async () => {
    const bench = await stripped();
    await quoted(bench.jobId, false);
    const counts = await countsOf(bench.jobId);
    const refused = async (other: readonly Counted[], status: number, words: RegExp) => {
      const answer = await give(bench.jobId, { counts: other });
      expect([answer.status, answer.body.detail]).toEqual([status, expect.stringMatching(words)]);
    };
    await refused(counts.slice(1), 422, /Beside the engine, head: not counted/);
    await refused(
      counts.map((each, at) => (at === 1 ? { ...each, count: each.count - 1 } : each)),
      422,
      /Tray .*, head bolt: 7 counted, 8 in the tally/,
    );
    await refused([...counts, { trayId: null, pieceId: crypto.randomUUID(), count: 1 }], 409, /lies elsewhere/);
    await refused([...counts, ...counts.slice(0, 1)], 422, /counted twice/);
    const [job] = await shop.sql`
      select j.handed_back_at as at, (select count(*)::int from boxed_hand_back where job_id = j.id) as lists from job j where id = ${bench.jobId}`;
    expect(job).toEqual({ at: null, lists: 0 });
  });

  test('only by a lead, with a reason, and because the owner said no or withdraws', async () => {
    const bench = await stripped();
    await quoted(bench.jobId, true);
    expect((await give(bench.jobId, {}, 'writer')).status).toBe(403);
    expect((await give(bench.jobId, { reason: '  ' })).status).toBe(400);
    const yes = await give(bench.jobId);
    expect([yes.status, yes.body.detail]).toEqual([422, expect.stringMatching(/no to the newest quote/)]);
    expect((await give(bench.jobId, { cause: 'withdrawn' })).status).toBe(200);
  });

  test('not while something of it is on offer, a rag is still in, or it is closed', async () => {
    const bench = await stripped();
    await quoted(bench.jobId, false);
    const rag = await shop.as.technician.post(`/api/openings/${bench.openingId}/put-in`, {
      kind: 'rag',
      name: 'blue rag',
      where: 'crankcase mouth',
      count: 1,
    });
    expect([rag.status, rag.body.detail]).toEqual([200, undefined]);
    const still = await give(bench.jobId);
    expect([still.status, still.body.detail]).toEqual([409, expect.stringMatching(/1 × blue rag \(crankcase mouth\)/)]);
    const other = await openBench(shop);
    await shop.as.lead.post(`/api/openings/${other.openingId}/close`, { override: 'Nothing was taken off' });
    const closed = await give(other.jobId, { cause: 'withdrawn' });
    expect([closed.status, closed.body.detail]).toEqual([422, expect.stringMatching(/not open/)]);
  });

  test('a piece that may be inside goes on the list as such, and holds nothing up', async () => {
    const bench = await stripped();
    await quoted(bench.jobId, false);
    const list = await listOf(bench.jobId);
    const dowel = list.boxes[1].lines.find(({ name }: { name: string }) => name === 'dowel').pieceId;
    const said = await bench.act('possibly-inside', {
      pieces: [{ pieceId: dowel, count: 1 }],
      reason: 'It was not in its bore',
    });
    expect([said.status < 300, said.body.detail]).toEqual([true, undefined]);
    expect((await give(bench.jobId)).status).toBe(200);
    const after = await listOf(bench.jobId);
    expect(after.missing).toEqual([{ name: 'dowel', count: 1, inside: 1 }]);
    expect(after.obligations.join()).toMatch(/dowel/);
  });
});

describe('the database holds to it', () => {
  test('no opening is left in boxes without its list, no list tells other than what lies there or leaves a piece behind', async () => {
    const bench = await stripped();
    const by = shop.people.lead;
    const broken = (write: (sql: Shop['sql']) => Promise<unknown>) =>
      shop.sql
        .begin(async (sql) => void (await write(sql as unknown as Shop['sql'])))
        .then(
          () => 'written',
          (error: Error) => error.message,
        );
    expect(
      await broken(
        (sql) =>
          sql`update opening set closed_at = clock_timestamp(), closed_by_id = ${by}, left_in_boxes = true where id = ${bench.openingId}`,
      ),
    ).toMatch(/no packing list/);
    const listing = (sql: Shop['sql'], person = by) => sql`
      insert into boxed_hand_back (job_id, opening_id, cause, reason, boxed_by_id)
      values (${bench.jobId}, ${bench.openingId}, 'withdrawn', 'x', ${person})`;
    expect(await broken((sql) => listing(sql, shop.people.writer))).toMatch(/only a lead/);
    expect(await broken((sql) => listing(sql))).toMatch(/still lie in the shop/);
    const [piece] = await shop.sql`select id from piece where opening_id = ${bench.openingId} and name = 'head bolt'`;
    expect(
      await broken(async (sql) => {
        await listing(sql);
        await sql`insert into boxed_line (job_id, ordinal, piece_id, tray_id, count) values (${bench.jobId}, 1, ${piece?.id}, ${bench.trayId}, 7)`;
      }),
    ).toMatch(/other than what lies there/);
  });
});
