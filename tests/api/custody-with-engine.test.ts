import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Client } from '../support/client.ts';
import { openBench } from '../support/open-bench.ts';
import { openShop, type Shop } from '../support/shop.ts';

let shop: Shop;
beforeAll(async () => {
  shop = await openShop();
});
afterAll(() => shop.close());

/** How many washers lie beside the engine: a number that no label or total comes to. */
const THERE = 8731;
const said = (answer: unknown): string =>
  JSON.stringify(answer)
    .replaceAll(/[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}/g, '')
    .replaceAll(/\d{4}-\d{2}-\d{2}T[\d:.+Z]+/g, '');

/** Nadia holds an open engine with washers beside it in no tray, and two dowels in a tray. */
async function beside() {
  const bench = await openBench(shop);
  const [washers] = (await bench.off([{ byHand: { name: 'washer' }, count: THERE }], { trayId: undefined })).body
    .pieces;
  const [dowels] = (await bench.off([{ byHand: { name: 'dowel' }, count: 2 }])).body.pieces;
  const { engineId, trayId, jobId } = bench;
  const washer = (counted: number) => ({ trayId: engineId, pieceId: washers.id as string, counted });
  const dowel = { trayId, pieceId: dowels.id as string, counted: 2 };
  const obligations = async () => {
    const rows = await shop.sql<
      { words: string }[]
    >`select words from obligation where job_id = ${jobId} order by opened_at, id`;
    return rows.map(({ words }) => words);
  };
  return { ...bench, washer, dowel, obligations };
}
type Beside = Awaited<ReturnType<typeof beside>>;

async function offered(of: Beside, includeEngine = true) {
  const body = { receiverId: shop.people.colleague, placeId: shop.bays.rack, includeEngine, trayIds: [of.trayId] };
  const offer = await of.as.post(`/api/jobs/${of.jobId}/handovers`, body);
  expect(offer.status).toBe(201);
  const url = `/api/handovers/${offer.body.id}`;
  const read = async (as: Client = shop.as.colleague) => (await as.get(url)).body;
  const count = async (trayId: string, counted: number) => {
    const tray = (await read()).trays.find((each: { trayId: string }) => each.trayId === trayId);
    const lines = tray.lines.map(({ lineId }: { lineId: string }) => ({ lineId, counted }));
    return shop.as.colleague.post(`${url}/trays/${trayId}/count`, { lines });
  };
  return { url, read, count, accept: () => shop.as.colleague.post(`${url}/accept`) };
}

test('what lies beside the engine is counted blind with it: hidden until then, and a difference opens an obligation', async () => {
  const of = await beside();
  const { url, read, count, accept } = await offered(of);
  expect((await read()).trays).toMatchObject([
    { trayId: of.trayId, lines: [{ name: 'dowel', given: null }] },
    { trayId: of.engineId, label: 'with engine', counted: false, lines: [{ name: 'washer', given: null }] },
  ]);
  const pages = [
    ...[url, '/api/handovers', '/api/floor', `/api/openings/${of.openingId}`, `/api/openings/${of.openingId}/check`],
    ...['trays', 'opening', 'obligations', 'to-hand-over', 'sheet', 'hand-back', 'bench'].map(
      (page) => `/api/jobs/${of.jobId}/${page}`,
    ),
    ...['', '/events', '/custody'].map((page) => `/api/engines/${of.engineId}${page}`),
    `/api/openings/${of.openingId}/closing`,
  ];
  for (const page of pages)
    for (const who of ['colleague', 'lead'] as const)
      expect(said((await shop.as[who].get(page)).body), `${page} to ${who}`).not.toContain(String(THERE));
  expect(said(await read(of.as))).toContain(String(THERE));
  await count(of.trayId, 2);
  expect((await accept()).body.detail).toBe('Count what lies with the engine first, then accept.');
  expect(said(await read())).not.toContain(String(THERE));
  const seen = await count(of.engineId, THERE - 1);
  expect(seen.body).toMatchObject({
    differences: [{ piece: 'washer', given: THERE, counted: THERE - 1 }],
    obligations: [expect.any(String)],
  });
  expect(await of.obligations()).toEqual([`With the engine: ${THERE - 1} × washer counted, ${THERE} given`]);
  expect((await accept()).body.outcome).toBe('accepted with a difference');
  const page = (await shop.as.lead.get(`/api/engines/${of.engineId}`)).body;
  expect(page.obligations[0].cause).toMatchObject({ kind: 'handover', tray: 'with engine', piece: 'washer' });
  const [listed] = (await shop.as.colleague.get('/api/handovers')).body.items;
  expect(listed).toMatchObject({ trays: 2, traysCounted: 2 });
});

test('where trays alone go over, what lies beside the engine stays with it and is not counted', async () => {
  const of = await beside();
  const { read } = await offered(of, false);
  expect((await read()).trays.map(({ trayId }: { trayId: string }) => trayId)).toEqual([of.trayId]);
});

test('who leaves or takes the engine counts it too; trays alone are counted without', async () => {
  const of = await beside();
  const leave = (body: object) =>
    of.as.post(`/api/engines/${of.engineId}/leave`, { bayId: shop.bays.rack, trayIds: [], ...body });
  const short = await leave({});
  expect(short).toMatchObject({ status: 422, body: { detail: 'Count these as well: washer (with the engine).' } });
  expect((await leave({ engine: false, trayIds: [of.trayId], counts: [of.dowel] })).status).toBe(200);
  const differs = await leave({ counts: [of.washer(THERE - 1)] });
  expect([differs.status, differs.body.detail]).toEqual([
    409,
    expect.stringContaining(`With the engine: ${THERE - 1} × washer counted, ${THERE} given.`),
  ]);
  const first = `With the engine: ${THERE - 1} × washer counted, ${THERE} given`;
  expect((await leave({ counts: [of.washer(THERE)] })).status).toBe(200);
  expect(await of.obligations()).toEqual([first]);
  const taken = await shop.as.colleague.post(`/api/engines/${of.engineId}/take`, {
    bayId: shop.bays.rack,
    trayIds: [of.trayId],
    counts: [of.dowel, of.washer(THERE + 1)],
    withDifference: true,
  });
  expect(taken.body.obligations).toHaveLength(1);
  expect(await of.obligations()).toEqual([first, `With the engine: ${THERE + 1} × washer counted, ${THERE} given`]);
});

test('the lead who moves an engine on offer counts it as well, and is told no number of it', async () => {
  const of = await beside();
  const { url, count } = await offered(of);
  const move = (counted: number, more = {}) =>
    shop.as.lead.post(`/api/engines/${of.engineId}/move`, {
      to: { bayId: shop.bays.rack },
      reason: 'Nadia has gone home',
      trayIds: [],
      counts: [of.washer(counted)],
      ...more,
    });
  const differs = await move(1);
  expect(differs.status).toBe(409);
  expect(said(differs.body)).not.toContain(String(THERE));
  expect(differs.body).toMatchObject({ differences: [], obligations: [expect.any(String)] });
  expect((await shop.as.colleague.get(url)).body).toMatchObject({ outcome: null });
  const pages = ['events', 'custody', ''].map((page) => `/api/engines/${of.engineId}/${page}`.replace(/\/$/, ''));
  for (const page of [...pages, `/api/jobs/${of.jobId}/obligations`])
    for (const who of ['colleague', 'lead'] as const)
      expect(said((await shop.as[who].get(page)).body), `${page} to ${who}`).not.toContain(String(THERE));
  await count(of.engineId, THERE);
  expect((await move(2, { withDifference: true })).body).toMatchObject({ differences: [{ counted: 2, given: THERE }] });
  expect((await shop.as.colleague.get(url)).body).toMatchObject({ outcome: 'withdrawn' });
  const counts = ['1', '2'].map((counted) => `With the engine: ${counted} × washer counted, ${THERE} given`);
  expect(await of.obligations()).toEqual(counts);
});

test('an engine that goes to a vendor goes with what lies beside it, counted out and back, line by line on the slip', async () => {
  const of = await beside();
  const going = { subject: { engine: true }, vendorId: shop.vendorId, work: 'Shot-peen the case', dueOn: '2099-01-31' };
  const send = (counts: readonly object[]) => of.as.post(`/api/jobs/${of.jobId}/outside-work`, { ...going, counts });
  expect((await send([])).status).toBe(422);
  expect((await send([of.washer(THERE + 2)])).status).toBe(409);
  expect(await of.obligations()).toHaveLength(1);
  const sent = await send([of.washer(THERE)]);
  expect(sent.status).toBe(201);
  const takeBack = (more = {}) =>
    shop.as.colleague.post(`/api/outside-work/${sent.body.id}/back`, {
      bayId: shop.bays.rack,
      counts: [of.washer(THERE - 1)],
      ...more,
    });
  expect((await takeBack()).body.obligations).toHaveLength(1);
  const back = await takeBack({ withDifference: true });
  expect(back.body.differences).toMatchObject([{ piece: 'washer', given: THERE, counted: THERE - 1 }]);
  const slip = await shop.as.clerk.get(`/api/outside-work/${sent.body.id}/slip`);
  expect(slip.body.lines).toEqual([
    { name: 'The engine', out: 1, back: 1 },
    { name: 'washer', out: THERE, back: THERE - 1 },
  ]);
  expect(await of.obligations()).toHaveLength(2);
});

test('who is to count finds by name, not by number, what lies beside the engine', async () => {
  const of = await beside();
  const list = async (as: Client) => (await as.get(`/api/jobs/${of.jobId}/trays`)).body.withEngine;
  expect(await list(shop.as.colleague)).toMatchObject([{ name: 'washer', count: THERE }]);
  await offered(of);
  expect(await list(shop.as.colleague)).toMatchObject([{ name: 'washer', count: null }]);
  expect(await list(of.as)).toMatchObject([{ name: 'washer', count: THERE }]);
});
