import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Answer } from '../support/client.ts';
import { openBench, type TallyBench } from '../support/open-bench.ts';
import { insertProcedure } from '../support/procedures.ts';
import { openShop, type Shop } from '../support/shop.ts';

/**
 * Two acts on one engine, both begun and neither allowed on: somebody holds the engine's row, and each must be seen to
 * wait for just that before it has read anything it decides by. Then the row is let go, and one comes after the other.
 */
let shop: Shop;
beforeAll(async () => {
  shop = await openShop();
  await shop.sql`update bay set capacity = 100 where id = ${shop.bays.rack}`;
});
afterAll(() => shop.close());

type Ask = () => Promise<Answer>;

/** How many sessions of this shop wait for the lock that every act on an engine takes first. */
async function waiting(): Promise<number> {
  const [row] = await shop.sql<{ count: number }[]>`
    select count(*)::int as count from pg_stat_activity
    where datname = current_database() and wait_event_type = 'Lock' and query ilike '%from engine where id = % for update%'`;
  return row?.count ?? 0;
}

/** They come to the lock in the order in which they are asked, and are let on in that order. */
async function bothAtTheLock(engineId: string, asks: readonly [Ask, Ask]): Promise<readonly Answer[]> {
  const holder = await shop.sql.reserve();
  await holder`begin`;
  try {
    await holder`select from engine where id = ${engineId} for update`;
    const answers: Promise<Answer>[] = [];
    for (const ask of asks) {
      answers.push(ask());
      await expect.poll(waiting, { timeout: 8000, message: 'acts that wait for the engine' }).toBe(answers.length);
    }
    await holder`commit`;
    return await Promise.all(answers);
  } finally {
    await holder`rollback`;
    holder.release();
  }
}

const statuses = (answers: readonly Answer[]) => answers.map(({ status }) => status).toSorted();

/** Eight dowels in the tray, and that tray with the engine offered to the colleague. */
async function offered(bench: TallyBench) {
  const off = await bench.off([{ byHand: { name: 'dowel' }, count: 8 }]);
  const { status, body } = await bench.as.post(`/api/jobs/${bench.jobId}/handovers`, offerOf(bench));
  expect(status).toBe(201);
  const handover = `/api/handovers/${body.id}`;
  const read = await shop.as.colleague.get(handover);
  const lineId: string = read.body.trays[0].lines[0].lineId;
  const count = (counted: number) =>
    shop.as.colleague.post(`${handover}/trays/${bench.trayId}/count`, { lines: [{ lineId, counted }] });
  return { handover, count, pieceId: off.body.pieces[0].id as string };
}
const offerOf = ({ trayId }: TallyBench) => ({
  receiverId: shop.people.colleague,
  placeId: shop.bays.rack,
  includeEngine: true,
  trayIds: [trayId],
});
const holders = async ({ engineId }: TallyBench): Promise<readonly string[]> => {
  const { body } = await shop.as.clerk.get(`/api/custody?engineId=${engineId}`);
  return body.items.map(({ holder }: { holder: { name: string } }) => holder.name);
};

test('two accept one handover: one does, the other is told so, and one person holds it', async () => {
  const bench = await openBench(shop);
  const { handover, count } = await offered(bench);
  await count(7);
  const accept = () => shop.as.colleague.post(`${handover}/accept`);
  expect(statuses(await bothAtTheLock(bench.engineId, [accept, accept]))).toEqual([200, 409]);
  expect(await holders(bench)).toEqual(['Oskar Pell', 'Oskar Pell']);
  const duties = await shop.as.lead.get(`/api/jobs/${bench.jobId}/obligations`);
  expect(duties.body.items).toHaveLength(1);
});

test('one accepts what the other withdraws: one of the two, and who holds it is who that leaves with it', async () => {
  const bench = await openBench(shop);
  const { handover, count } = await offered(bench);
  await count(8);
  const [accepted, withdrawn] = await bothAtTheLock(bench.engineId, [
    () => shop.as.colleague.post(`${handover}/accept`),
    () => bench.as.post(`${handover}/withdraw`),
  ]);
  expect([accepted?.status, withdrawn?.status].toSorted()).toEqual([200, 409]);
  const holder = accepted?.status === 200 ? 'Oskar Pell' : 'Nadia Quill';
  expect(await holders(bench)).toEqual([holder, holder]);
});

test('two count one tray: a first count and a second one, and what is accepted is the second', async () => {
  const bench = await openBench(shop);
  const { handover, count } = await offered(bench);
  const answers = await bothAtTheLock(bench.engineId, [() => count(8), () => count(7)]);
  expect(statuses(answers)).toEqual([200, 200]);
  expect(answers.map(({ body }) => body.attempts).toSorted()).toEqual([1, 2]);
  const { body } = await shop.as.colleague.get(handover);
  expect(body.trays[0].lines[0].counted).toBe(answers[0]?.body.attempts === 2 ? 8 : 7);
});

test('two take one engine, or offer it: the one has it, the other is told who', async () => {
  const bench = await openBench(shop);
  const offer = () => bench.as.post(`/api/jobs/${bench.jobId}/handovers`, offerOf(bench));
  expect(statuses(await bothAtTheLock(bench.engineId, [offer, offer]))).toEqual([201, 409]);
  const free = await openBench(shop);
  await free.as.post(`/api/engines/${free.engineId}/leave`, { bayId: shop.bays.rack, trayIds: [free.trayId] });
  const take = (as: TallyBench['as']) => () =>
    as.post(`/api/engines/${free.engineId}/take`, { bayId: shop.bays.rack, trayIds: [free.trayId] });
  const taken = await bothAtTheLock(free.engineId, [take(shop.as.technician), take(shop.as.colleague)]);
  expect(statuses(taken)).toEqual([200, 409]);
  const holder = taken[0]?.status === 200 ? 'Nadia Quill' : 'Oskar Pell';
  expect(await holders(free)).toEqual([holder, holder]);
});

const close = ({ openingId }: TallyBench) => shop.as.lead.post(`/api/openings/${openingId}/close`, {});
const isOpen = async ({ openingId }: TallyBench): Promise<boolean> =>
  (await shop.as.lead.get(`/api/openings/${openingId}`)).body.closedAt === null;

test('closed while a reading arrives that finds something: closed before it, or kept open by it', async () => {
  const bench = await openBench(shop);
  const [closed, reading] = await bothAtTheLock(bench.engineId, [
    () => close(bench),
    () =>
      bench.as.post(`/api/jobs/${bench.jobId}/readings`, {
        round: 'as received',
        dimension: 'big-end-play',
        readings: [{ position: '1', repeat: 1, felt: true }],
      }),
  ]);
  expect([200, 201]).toContain(reading?.status);
  expect([200, 409]).toContain(closed?.status);
  expect(await isOpen(bench)).toBe(closed?.status === 409);
  const [row] = await shop.sql`
    select o.closed_at < b.opened_at as before from opening o join obligation b on b.job_id = o.job_id where o.id = ${bench.openingId}`;
  expect(row?.before ?? false).toBe(closed?.status === 200);
});

test('closed while a rag goes in, a piece comes off, or another closes it: one of the two', async () => {
  const rag = { kind: 'rag', where: 'case mouth', count: 1 };
  const others: readonly ((bench: TallyBench) => Promise<Answer>)[] = [
    ({ as, openingId }) => as.post(`/api/openings/${openingId}/put-in`, rag),
    ({ off }) => off([{ byHand: { name: 'dowel' }, count: 2 }]),
    close,
  ];
  for (const other of others) {
    const bench = await openBench(shop);
    const answers = await bothAtTheLock(bench.engineId, [() => close(bench), () => other(bench)]);
    expect(statuses(answers)).toEqual([200, 409]);
    expect(await isOpen(bench)).toBe(other !== close && answers[1]?.status === 200);
  }
});

test('two lay a piece into one place of a rack, or take it out: one has it, the other is told how it stands', async () => {
  const bench = await openBench(shop);
  const caps = { name: 'cam cap', fromWhere: 'head', matchedSet: 'head and cam caps', expected: 4 };
  const { body } = await bench.off([{ byHand: caps, count: 3 }]);
  const pieceId: string = body.pieces[0].id;
  const lay = (as: TallyBench['as']) => () =>
    as.post(`/api/openings/${bench.openingId}/racks/${pieceId}/places`, { filled: ['3'] });
  const fit = (as: TallyBench['as']) => () =>
    as.post(`/api/openings/${bench.openingId}/pieces/fitted`, { pieces: [{ pieceId, count: 1, places: ['3'] }] });
  for (const act of [lay, fit]) {
    const answers = await bothAtTheLock(bench.engineId, [act(shop.as.technician), act(shop.as.colleague)]);
    expect(statuses(answers)).toEqual([200, 422]);
  }
  const racks = await shop.as.clerk.get(`/api/openings/${bench.openingId}/racks`);
  expect(racks.body.items[0]).toMatchObject({ loose: 2 });
  expect(racks.body.items[0].places.map(({ filled }: { filled: boolean }) => filled)).toEqual(Array(4).fill(false));
});

/** A step that has the engine turned over, and a rag that may be left inside. */
async function aboutToTurn(as: string) {
  const bench = await openBench(shop);
  const written = await insertProcedure(shop.sql, {
    familyId: shop.sheet.familyId,
    code: `turn-${as}`,
    kind: 'assemble',
    steps: [{ title: 'Bring it to the mark', turnsEngine: true }],
  });
  const run = await bench.as.post(`/api/jobs/${bench.jobId}/procedure-runs`, { versionId: written.versionId });
  const step = `/api/procedure-runs/${run.body.id}/steps/${written.steps['Bring it to the mark']}`;
  const rag = await bench.as.post(`/api/openings/${bench.openingId}/put-in`, { kind: 'rag', where: 'port', count: 1 });
  return {
    bench,
    turned: () => bench.as.post(`${step}/mark`, { mark: 'done' }),
    maybeInside: () =>
      shop.as.colleague.post(`/api/put-in/${rag.body.thing.id}/not-found`, { count: 1, reason: 'not on the bench' }),
    marks: async () => (await shop.sql`select from step_mark where run_id = ${run.body.id}`).length,
  };
}

test('a rag may be left inside while the engine is about to be turned: it is not, when that was said first', async () => {
  const { bench, turned, maybeInside, marks } = await aboutToTurn('after');
  const [lost, refused] = await bothAtTheLock(bench.engineId, [maybeInside, turned]);
  expect([lost?.status, refused?.status]).toEqual([200, 409]);
  expect(refused?.body.detail).toContain('must not be turned over');
  expect(await marks()).toBe(0);
});

test('it was turned first, and then a rag is said to be missing: both stand, in that order', async () => {
  const { bench, turned, maybeInside, marks } = await aboutToTurn('before');
  const [done, lost] = await bothAtTheLock(bench.engineId, [turned, maybeInside]);
  expect([done?.status, lost?.status]).toEqual([200, 200]);
  expect(await marks()).toBe(1);
  const [row] = await shop.sql`
    select max(m.marked_at) < min(s.opened_at) as before from step_mark m join procedure_run r on r.id = m.run_id
    join inside_search s on s.job_id = r.job_id where r.job_id = ${bench.jobId}`;
  expect(row?.before).toBe(true);
});
