import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Answer } from '../support/client.ts';
import { openBench } from '../support/open-bench.ts';
import { insertProcedure, type WrittenProcedure } from '../support/procedures.ts';
import { openShop, type Shop } from '../support/shop.ts';

let shop: Shop;
let assemble: WrittenProcedure;
beforeAll(async () => {
  shop = await openShop();
  assemble = await insertProcedure(shop.sql, {
    familyId: shop.sheet.familyId,
    code: 'assemble-h355',
    kind: 'assemble',
    steps: [{ title: 'Oil the bore' }, { title: 'Cylinder on' }],
  });
});
afterAll(() => shop.close());

/** An engine that is covered, with a rag in, a step done and a search going on; offered, or one of its trays alone. */
async function offered(includeEngine = true) {
  const bench = await openBench(shop);
  const { as, jobId, openingId, trayId } = bench;
  const rag = await as.post(`/api/openings/${openingId}/put-in`, { kind: 'rag', where: 'port', count: 2 });
  const ragId: string = rag.body.thing.id;
  const lost = await as.post(`/api/put-in/${ragId}/not-found`, { count: 1, reason: 'gone' });
  const searchId: string = lost.body.searchId;
  const run = await as.post(`/api/jobs/${jobId}/procedure-runs`, { versionId: assemble.versionId });
  const step = (title: string) => `/api/procedure-runs/${run.body.id}/steps/${assemble.steps[title]}`;
  expect((await as.post(`${step('Oil the bore')}/mark`, { mark: 'done' })).status).toBe(200);
  expect((await as.post(`/api/openings/${openingId}/cover`, { covered: true })).status).toBe(200);
  const offer = await as.post(`/api/jobs/${jobId}/handovers`, {
    receiverId: shop.people.colleague,
    placeId: shop.bays.rack,
    includeEngine,
    trayIds: includeEngine ? [] : [trayId],
  });
  expect([offer.status, offer.body.detail]).toEqual([201, undefined]);
  const pull = { set: 'side-bolts', fastener: 1, stage: 1, value: { value: '10', unit: 'N.m' } };
  const acts: Readonly<Record<string, () => Promise<Answer>>> = {
    'a rag in': () => as.post(`/api/openings/${openingId}/put-in`, { kind: 'rag', where: 'port', count: 1 }),
    'a rag out': () => as.post(`/api/put-in/${ragId}/taken-out`, { count: 1 }),
    'a rag found': () => as.post(`/api/put-in/${ragId}/found`, { count: 1, reason: 'under the bench' }),
    'searched with a magnet': () => as.post(`/api/searches/${searchId}/ticks`, { step: 'magnet' }),
    'searched at the bench': () => as.post(`/api/searches/${searchId}/ticks`, { step: 'bench' }),
    'a step done': () => as.post(`${step('Cylinder on')}/mark`, { mark: 'done' }),
    'a step skipped': () => as.post(`${step('Cylinder on')}/mark`, { mark: 'skipped', reason: 'no' }),
    'a step again': () => as.post(`${step('Oil the bore')}/again`, { reason: 'dry' }),
    'a pull': () => as.post(`/api/jobs/${jobId}/torque-pulls`, pull),
    uncovered: () => as.post(`/api/openings/${openingId}/cover`, { covered: false }),
    'seen uncovered': () => as.post(`/api/openings/${openingId}/looks`, { covered: false }),
  };
  return { ...bench, acts, offerId: offer.body.id as string };
}

test('an engine on offer stays as it was offered: nothing goes in or out, no step, no pull, no cover off', async () => {
  const { acts, as, offerId } = await offered();
  for (const [what, ask] of Object.entries(acts)) {
    const { status, body } = await ask();
    expect([what, status, body.handoverId]).toEqual([what, 409, offerId]);
    expect(body.detail).toContain(
      'Nadia Quill is handing it over to Oskar Pell. Wait for the answer, or let Nadia Quill withdraw the offer.',
    );
  }
  await as.post(`/api/handovers/${offerId}/withdraw`);
  for (const what of ['a rag out', 'searched with a magnet', 'a step done', 'uncovered'])
    expect([what, (await acts[what]?.())?.status]).toEqual([what, 200]);
});

test('it may be covered, and looked at, at any time', async () => {
  const { as, openingId, offerId } = await offered();
  expect((await as.post(`/api/openings/${openingId}/looks`, { covered: true })).status).toBe(200);
  await as.post(`/api/handovers/${offerId}/withdraw`);
  await as.post(`/api/openings/${openingId}/cover`, { covered: false });
  const body = { receiverId: shop.people.colleague, placeId: shop.bays.rack, includeEngine: true, trayIds: [] };
  await as.post(`/api/jobs/${(await as.get(`/api/openings/${openingId}`)).body.jobId}/handovers`, body);
  expect((await as.post(`/api/openings/${openingId}/looks`, { covered: true })).status).toBe(200);
});

test('a step that a short piece holds up tells no count of a tray on offer to who is to count it', async () => {
  const { as, jobId, trayId, off } = await openBench(shop);
  const run = await as.post(`/api/jobs/${jobId}/procedure-runs`, { versionId: assemble.versionId });
  await off([{ byHand: { name: 'dowel', expected: 8 }, count: 7 }]);
  const offer = { receiverId: shop.people.colleague, placeId: shop.bays.rack, includeEngine: false, trayIds: [trayId] };
  expect((await as.post(`/api/jobs/${jobId}/handovers`, offer)).status).toBe(201);
  const mark = (who: 'technician' | 'colleague') =>
    shop.as[who].post(`/api/procedure-runs/${run.body.id}/steps/${assemble.steps['Oil the bore']}/mark`, {
      mark: 'done',
    });
  const told = await mark('colleague');
  expect(told.body.detail).toContain('Stop: dowel: short. Count them off, find them,');
  expect(told.body.shortPieces).toEqual([expect.not.objectContaining({ off: 7 })]);
  expect((await mark('technician')).body.detail).toContain('Stop: dowel: 7 of 8 off.');
});

test('while only a tray of it is on offer the work at the engine goes on', async () => {
  const { acts } = await offered(false);
  for (const what of ['a rag out', 'searched with a magnet', 'a step done', 'uncovered'])
    expect([what, (await acts[what]?.())?.status]).toEqual([what, 200]);
});

/** An engine of which every piece is back on, to be checked and closed by the lead. */
async function readyToClose() {
  const { as, jobId, openingId, trayId, off, act } = await openBench(shop);
  const dowels = (await off([{ byHand: { name: 'dowel' }, count: 2 }])).body.pieces[0].id;
  expect((await act('fitted', { pieces: [{ pieceId: dowels, count: 2 }] })).status).toBe(200);
  return {
    check: () => shop.as.lead.post(`/api/openings/${openingId}/check`, { lines: [dowels] }),
    close: () => shop.as.lead.post(`/api/openings/${openingId}/close`, {}),
    offer: async (includeEngine: boolean): Promise<string> => {
      const trayIds = includeEngine ? [] : [trayId];
      const body = { receiverId: shop.people.colleague, placeId: shop.bays.rack, includeEngine, trayIds };
      return (await as.post(`/api/jobs/${jobId}/handovers`, body)).body.id;
    },
    withdraw: (offerId: string) => as.post(`/api/handovers/${offerId}/withdraw`),
  };
}

test('an engine on offer is neither checked for closing nor closed, though nothing speaks against it', async () => {
  const { check, close, offer, withdraw } = await readyToClose();
  const first = await offer(true);
  expect(await check()).toMatchObject({ status: 409, body: { handoverId: first } });
  await withdraw(first);
  expect((await check()).status).toBe(200);
  const second = await offer(true);
  expect(await close()).toMatchObject({ status: 409, body: { handoverId: second } });
  await withdraw(second);
  expect((await close()).status).toBe(200);
});

test('while only an empty tray of it is on offer it is checked and closed', async () => {
  const { check, close, offer } = await readyToClose();
  await offer(false);
  expect((await check()).status).toBe(200);
  expect((await close()).status).toBe(200);
});
