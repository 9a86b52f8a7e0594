import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Search } from '#contracts/searches.ts';
import { expectedSteps } from '#domain/tally/search-steps.ts';
import { openBench, type TallyBench } from '../support/open-bench.ts';
import { openShop, type Shop } from '../support/shop.ts';

let shop: Shop;
beforeAll(async () => {
  shop = await openShop();
});
afterAll(() => shop.close());

interface Lost extends TallyBench {
  readonly pieceId: string;
  readonly searchId: string;
}

const dowel = { name: 'dowel', fromWhere: 'cam cap 1', expected: 8 };

/** Seven of eight dowels counted off, the eighth declared possibly inside. */
async function withLostDowel(): Promise<Lost> {
  const bench = await openBench(shop);
  const { body } = await bench.off([{ byHand: dowel, count: 7 }]);
  const pieceId: string = body.pieces[0].id;
  const lost = { pieces: [{ pieceId, count: 1 }], reason: 'Heard it fall' };
  expect((await bench.act('possibly-inside', lost)).status).toBe(200);
  const [search] = await searchesOf(bench);
  return { ...bench, pieceId, searchId: search?.id ?? '' };
}

async function searchesOf({ as, jobId }: TallyBench): Promise<readonly Search[]> {
  return (await as.get(`/api/jobs/${jobId}/searches`)).body.items;
}
const tick = ({ as, searchId }: Lost, step: string, words?: string) =>
  as.post(`/api/searches/${searchId}/ticks`, { step, ...(words === undefined ? {} : { words }) });
const decide = ({ searchId }: Lost, who: 'lead' | 'technician', reason = 'Shown to lie in the scrap box') =>
  shop.as[who].post(`/api/searches/${searchId}/decision`, { reason });
const close = ({ openingId }: TallyBench, who: 'lead' | 'technician' = 'technician', body: object = {}) =>
  shop.as[who].post(`/api/openings/${openingId}/close`, body);
/** Spins the engine for a proof, past everything but the database's own rule. */
const turnOver = ({ jobId }: TallyBench) => shop.sql`
  insert into proof (id, job_id, proof_code, name, passed, proved_by_id)
  values (${crypto.randomUUID()}, ${jobId}, 'compression', 'Compression', true, ${shop.people.technician})`;
const locked = { code: 'CH019', message: expect.stringContaining('must not be turned over') };
const sheetOf = async ({ jobId }: TallyBench) => (await shop.as.writer.get(`/api/jobs/${jobId}/sheet`)).body;

describe('the search for what may be inside', () => {
  test('opens with its obligation, names what is looked for, and locks the engine from turning over', async () => {
    const bench = await withLostDowel();
    expect(await searchesOf(bench)).toMatchObject([
      { what: 'dowel, cam cap 1', missing: 1, openedBy: { id: shop.people.technician }, ended: null },
    ]);
    await expect(turnOver(bench)).rejects.toMatchObject(locked);
    const { body } = await bench.as.get(`/api/openings/${bench.openingId}/closing`);
    const [reason] = body.reasons;
    expect(reason).toMatchObject({ kind: 'may-be-inside', href: `/bench/${bench.jobId}/search` });
  });

  test('is not closed over by anybody, lead or not', async () => {
    const bench = await withLostDowel();
    expect((await close(bench, 'lead', { override: 'sold as it is' })).status).toBe(409);
  });

  test('goes step by step: each ticked once, by somebody with the bench, and no step it does not have', async () => {
    const bench = await withLostDowel();
    expect((await tick(bench, 'magnet', 'tunnel and sump: nothing')).status).toBe(200);
    expect(await tick(bench, 'magnet')).toMatchObject({
      status: 409,
      body: { detail: expect.stringContaining('has done it') },
    });
    expect((await tick(bench, 'dowse')).body.detail).toContain('no step dowse');
    const path = `/api/searches/${bench.searchId}/ticks`;
    expect((await shop.as.writer.post(path, { step: 'tilt' })).status).toBe(403);
    expect((await bench.as.post(`/api/searches/${crypto.randomUUID()}/ticks`, { step: 'tilt' })).status).toBe(404);
    const [search] = await searchesOf(bench);
    expect(search?.steps.filter(({ ticked }) => ticked !== null)).toMatchObject([
      { code: 'magnet', ticked: { words: 'tunnel and sump: nothing' } },
    ]);
  });

  test('ends when it is found: the lock is gone, the obligation discharged, and the sheet says where it was', async () => {
    const bench = await withLostDowel();
    const found = {
      pieces: [{ pieceId: bench.pieceId, count: 1 }],
      trayId: bench.trayId,
      reason: 'in the head, second hole',
    };
    expect((await bench.act('found', { ...found, reason: '' })).status).toBe(400);
    expect((await bench.act('found', found)).status).toBe(200);
    const [search] = await searchesOf(bench);
    expect(search?.ended).toMatchObject({ outcome: 'found', reason: 'Found: in the head, second hole' });
    expect((await tick(bench, 'tilt')).status).toBe(409);
    expect(await sheetOf(bench)).toMatchObject({
      searches: [
        { what: 'dowel, cam cap 1', outcome: 'found', by: 'Nadia Quill', reason: 'Found: in the head, second hole' },
      ],
    });
  });

  test('is decided by a lead alone, by name, after every step but the last resort; the sheet prints it', async () => {
    const bench = await withLostDowel();
    expect((await decide(bench, 'technician')).status).toBe(403);
    expect((await decide(bench, 'lead')).body.detail).toContain('Not searched to the end yet');
    for (const { code } of expectedSteps) expect((await tick(bench, code)).status).toBe(200);
    expect((await decide(bench, 'lead', '  ')).status).toBe(400);
    expect((await decide(bench, 'lead')).body).toMatchObject({ ended: { outcome: 'not inside' } });
    expect((await decide(bench, 'lead')).status).toBe(409);
    expect((await sheetOf(bench)).searches).toEqual([
      {
        what: 'dowel, cam cap 1',
        outcome: 'not inside',
        by: 'Maren Tolk',
        at: expect.any(String),
        reason: 'Not inside: Shown to lie in the scrap box',
        steps: expectedSteps.length,
      },
    ]);
    expect(await bench.events('piece.not-inside')).toHaveLength(1);
    await turnOver(bench);
  });

  test('two who tick one step at once: one has it, the other is told who', async () => {
    const bench = await withLostDowel();
    const path = `/api/searches/${bench.searchId}/ticks`;
    const answers = await Promise.all([
      shop.as.technician.post(path, { step: 'bench' }),
      shop.as.colleague.post(path, { step: 'bench' }),
    ]);
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 409]);
  });

  test('two declare one piece possibly inside at once: it is declared once', async () => {
    const bench = await openBench(shop);
    const { body } = await bench.off([{ byHand: dowel, count: 7 }]);
    const lost = { pieces: [{ pieceId: body.pieces[0].id, count: 1 }], reason: 'gone' };
    const path = `/api/openings/${bench.openingId}/pieces/possibly-inside`;
    const answers = await Promise.all([shop.as.technician.post(path, lost), shop.as.colleague.post(path, lost)]);
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 422]);
    expect(await searchesOf(bench)).toHaveLength(1);
  });
});

describe('what is put in', () => {
  const rag = { kind: 'rag', name: 'Blue rag', where: 'case mouth', count: 2 };
  const putIn = async (bench: TallyBench) => {
    const { status, body } = await bench.as.post(`/api/openings/${bench.openingId}/put-in`, rag);
    expect(status).toBe(200);
    return (what: string, count: number, reason?: string) =>
      bench.as.post(`/api/put-in/${body.thing.id}/${what}`, { count, ...(reason === undefined ? {} : { reason }) });
  };

  test('keeps the engine open until every one has come out, whoever signs', async () => {
    const bench = await openBench(shop);
    const settle = await putIn(bench);
    expect((await settle('taken-out', 1)).body.thing).toMatchObject({ stillIn: 1 });
    const { body } = await bench.as.get(`/api/openings/${bench.openingId}/closing`);
    expect(body.reasons).toContainEqual(
      expect.objectContaining({ kind: 'put-in-still-in', count: 1, href: `/bench/${bench.jobId}/procedure#put-in` }),
    );
    expect((await close(bench, 'lead', { override: 'it will burn' })).status).toBe(409);
    expect((await settle('taken-out', 2)).body.detail).toContain('1 are still in, not 2');
    expect((await settle('taken-out', 1)).status).toBe(200);
  });

  test('not found opens a search and locks the engine; found ends it', async () => {
    const bench = await openBench(shop);
    const settle = await putIn(bench);
    expect((await settle('not-found', 1)).status).toBe(400);
    expect((await settle('found', 1, 'here')).body.detail).toContain('0 are being looked for');
    const lost = await settle('not-found', 1, 'gone down the tunnel');
    expect(lost.body).toMatchObject({ thing: { notFound: 1 }, searchId: expect.any(String) });
    await expect(turnOver(bench)).rejects.toMatchObject(locked);
    expect((await settle('taken-out', 2)).body.detail).toContain('say found for these');
    expect((await settle('found', 1, 'under the stand')).body).toMatchObject({ searchId: null });
    expect(await searchesOf(bench)).toMatchObject([{ ended: { outcome: 'found' } }]);
  });

  test.each([
    [{ ...rag, count: 0 }, 400],
    [{ ...rag, count: -1 }, 400],
    [{ ...rag, count: 1.5 }, 400],
    [{ ...rag, kind: 'cat' }, 400],
    [{ ...rag, where: ' ' }, 400],
  ])('%o is refused', async (body, status) => {
    const bench = await openBench(shop);
    expect((await bench.as.post(`/api/openings/${bench.openingId}/put-in`, body)).status).toBe(status);
    expect((await shop.as.clerk.post(`/api/openings/${bench.openingId}/put-in`, rag)).status).toBe(403);
  });

  test('put in while somebody closes: either it is in and the engine open, or it is closed and nothing is in', async () => {
    for (let round = 0; round < 4; round += 1) {
      const bench = await openBench(shop);
      const [put, closed] = await Promise.all([
        shop.as.colleague.post(`/api/openings/${bench.openingId}/put-in`, rag),
        close(bench),
      ]);
      expect([put.status, closed.status]).toSatisfy(
        ([a, b]: number[]) => (a === 200 && b === 409) || (a === 409 && b === 200),
      );
    }
  });
});
