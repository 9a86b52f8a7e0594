import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Answer } from '../support/client.ts';
import { openBench, type TallyBench } from '../support/open-bench.ts';
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

/** Open, with two gaskets in its tray and one washer beside it, a rag in; then the engine itself goes to the vendor. */
async function away() {
  const bench = await openBench(shop);
  const run = await bench.as.post(`/api/jobs/${bench.jobId}/procedure-runs`, { versionId: assemble.versionId });
  const step = (title: string) => `/api/procedure-runs/${run.body.id}/steps/${assemble.steps[title]}`;
  const oiled = await bench.as.post(`${step('Oil the bore')}/mark`, { mark: 'done' });
  const gaskets = (await bench.off([{ byHand: { name: 'gasket', expected: 3 }, count: 2 }])).body.pieces[0].id;
  const washers = (await bench.off([{ byHand: { name: 'washer' }, count: 1 }], { trayId: undefined })).body.pieces[0]
    .id;
  const rag = await bench.as.post(`/api/openings/${bench.openingId}/put-in`, { kind: 'rag', where: 'port', count: 2 });
  const lost = await bench.as.post(`/api/put-in/${rag.body.thing.id}/not-found`, { count: 1, reason: 'gone' });
  const tin = await bench.as.post(`/api/jobs/${bench.jobId}/trays`, { name: 'Tin' });
  const counts = [{ trayId: bench.engineId, pieceId: washers, counted: 1 }];
  const sent = await bench.as.post(`/api/jobs/${bench.jobId}/outside-work`, {
    subject: { engine: true },
    vendorId: shop.vendorId,
    work: 'Shot-peen the case',
    dueOn: '2099-01-31',
    counts,
  });
  expect([rag, oiled, lost, tin, sent].map(({ status }) => status)).toEqual([200, 200, 200, 201, 201]);
  return {
    bench,
    gaskets,
    washers,
    ragId: rag.body.thing.id as string,
    counts,
    searchId: lost.body.searchId as string,
    step,
    outsideId: sent.body.id as string,
    tinId: tin.body.id,
  };
}

/** Every act at the engine itself. */
const acts = (
  { as, jobId, openingId, trayId, off, act }: TallyBench,
  { gaskets, washers, ragId, searchId, step }: Awaited<ReturnType<typeof away>>,
): Readonly<Record<string, () => Promise<Answer>>> => {
  const some = (pieceId: string) => ({ pieces: [{ pieceId, count: 1 }], reason: 'it is so' });
  return {
    'a rag in': () => as.post(`/api/openings/${openingId}/put-in`, { kind: 'rag', where: 'port', count: 1 }),
    'a rag out': () => as.post(`/api/put-in/${ragId}/taken-out`, { count: 1 }),
    covered: () => as.post(`/api/openings/${openingId}/cover`, { covered: true }),
    'looked at': () => as.post(`/api/openings/${openingId}/looks`, { covered: true }),
    'counted off': () => off([{ byHand: { name: 'shim' }, count: 1 }]),
    'put back': () => act('fitted', some(gaskets)),
    'never there': () => act('never-there', some(gaskets)),
    'found beside it': () => act('found', some(gaskets)),
    'moved from beside it': () => act('moved', { pieces: [{ pieceId: washers }], trayId }),
    'a step done': () => as.post(`${step('Cylinder on')}/mark`, { mark: 'done' }),
    'a step skipped': () => as.post(`${step('Cylinder on')}/mark`, { mark: 'skipped', reason: 'no' }),
    'a step again': () => as.post(`${step('Oil the bore')}/again`, { reason: 'dry' }),
    'a pull': () =>
      as.post(`/api/jobs/${jobId}/torque-pulls`, {
        set: 'side-bolts',
        fastener: 1,
        stage: 1,
        value: { value: '10', unit: 'N.m' },
      }),
    'searched with a magnet': () => as.post(`/api/searches/${searchId}/ticks`, { step: 'magnet' }),
    ticked: () => as.post(`/api/openings/${openingId}/check`, { lines: [gaskets] }),
    closed: () => shop.as.lead.post(`/api/openings/${openingId}/close`, { override: 'It will do' }),
  };
};

test('while the engine is at a vendor nothing is done at it: it comes back first', async () => {
  const of = await away();
  for (const [what, ask] of Object.entries(acts(of.bench, of))) {
    const { status, body } = await ask();
    expect([what, status, body.detail]).toEqual([what, 409, 'The engine is at Saltmere Plating: it comes back first.']);
  }
  const back = await shop.as.colleague.post(`/api/outside-work/${of.outsideId}/back`, {
    bayId: shop.bays.rack,
    counts: of.counts,
  });
  expect(back.status).toBe(200);
  expect((await acts(of.bench, of)['a rag out']?.())?.status).toBe(200);
});

test('what lies in trays is still moved from one to another, and found into one', async () => {
  const { bench, gaskets, tinId } = await away();
  expect((await bench.act('moved', { pieces: [{ pieceId: gaskets }], trayId: tinId })).status).toBe(200);
  const found = { pieces: [{ pieceId: gaskets, count: 1 }], reason: 'under the bench', trayId: bench.trayId };
  expect((await bench.act('found', found)).status).toBe(200);
});

test('a search goes on at trays and benches, and at the engine once it is back', async () => {
  const { bench, searchId, outsideId, counts } = await away();
  const tick = (step: string) => bench.as.post(`/api/searches/${searchId}/ticks`, { step });
  for (const step of ['count-again', 'bench']) expect([step, (await tick(step)).status]).toEqual([step, 200]);
  for (const step of ['stop', 'light', 'magnet', 'tilt', 'borescope', 'drain', 'split'])
    expect([step, (await tick(step)).status]).toEqual([step, 409]);
  await shop.as.colleague.post(`/api/outside-work/${outsideId}/back`, { bayId: shop.bays.rack, counts });
  expect((await tick('magnet')).status).toBe(200);
});
