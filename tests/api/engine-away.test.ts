import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Answer } from '../support/client.ts';
import { openBench, type TallyBench } from '../support/open-bench.ts';
import { openShop, type Shop } from '../support/shop.ts';

let shop: Shop;
beforeAll(async () => {
  shop = await openShop();
});
afterAll(() => shop.close());

/** Open, with two gaskets in its tray and one washer beside it, a rag in; then the engine itself goes to the vendor. */
async function away() {
  const bench = await openBench(shop);
  const gaskets = (await bench.off([{ byHand: { name: 'gasket', expected: 3 }, count: 2 }])).body.pieces[0].id;
  const washers = (await bench.off([{ byHand: { name: 'washer' }, count: 1 }], { trayId: undefined })).body.pieces[0]
    .id;
  const rag = await bench.as.post(`/api/openings/${bench.openingId}/put-in`, { kind: 'rag', where: 'port', count: 1 });
  const tin = await bench.as.post(`/api/jobs/${bench.jobId}/trays`, { name: 'Tin' });
  const sent = await bench.as.post(`/api/jobs/${bench.jobId}/outside-work`, {
    subject: { engine: true },
    vendorId: shop.vendorId,
    work: 'Shot-peen the case',
    dueOn: '2099-01-31',
  });
  expect([rag.status, tin.status, sent.status]).toEqual([200, 201, 201]);
  return {
    bench,
    gaskets,
    washers,
    ragId: rag.body.thing.id as string,
    outsideId: sent.body.id as string,
    tinId: tin.body.id,
  };
}

/** Every act at the engine itself. */
const acts = (
  { as, openingId, trayId, off, act }: TallyBench,
  { gaskets, washers, ragId }: Awaited<ReturnType<typeof away>>,
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
  const back = await shop.as.colleague.post(`/api/outside-work/${of.outsideId}/back`, { bayId: shop.bays.rack });
  expect(back.status).toBe(200);
  expect((await acts(of.bench, of)['a rag out']?.())?.status).toBe(200);
});

test('what lies in trays is still moved from one to another, and found into one', async () => {
  const { bench, gaskets, tinId } = await away();
  expect((await bench.act('moved', { pieces: [{ pieceId: gaskets }], trayId: tinId })).status).toBe(200);
  const found = { pieces: [{ pieceId: gaskets, count: 1 }], reason: 'under the bench', trayId: bench.trayId };
  expect((await bench.act('found', found)).status).toBe(200);
});
