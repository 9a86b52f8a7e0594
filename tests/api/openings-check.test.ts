import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { ClosingCheck } from '#contracts/searches.ts';
import { openBench, type TallyBench } from '../support/open-bench.ts';
import { openShop, type Shop } from '../support/shop.ts';

let shop: Shop;
beforeAll(async () => {
  shop = await openShop();
});
afterAll(() => shop.close());

interface BackOn extends TallyBench {
  readonly cover: string;
  readonly dowels: string;
}

/** A cover, then its dowels, came off and went back on by the technician. */
async function allBackOn(): Promise<BackOn> {
  const bench = await openBench(shop);
  const first = await bench.off([{ byHand: { name: 'valve cover', layer: 'cover', expected: 1 }, count: 1 }]);
  const second = await bench.off([{ byHand: { name: 'dowel', expected: 4 }, count: 4 }]);
  const [cover, dowels]: string[] = [first.body.pieces[0].id, second.body.pieces[0].id];
  const pieces = [
    { pieceId: dowels, count: 4 },
    { pieceId: cover, count: 1 },
  ];
  expect((await bench.act('fitted', { pieces })).status).toBe(200);
  return { ...bench, cover: cover ?? '', dowels: dowels ?? '' };
}

const tick = ({ openingId }: TallyBench, who: keyof Shop['as'], lines: readonly (string | undefined)[]) =>
  shop.as[who].post(`/api/openings/${openingId}/check`, { lines });
const checkOf = async ({ as, openingId }: TallyBench): Promise<ClosingCheck> =>
  (await as.get(`/api/openings/${openingId}/check`)).body;
const close = ({ as, openingId }: TallyBench) => as.post(`/api/openings/${openingId}/close`, {});

describe('the closing check', () => {
  test('lists the last removed first, with who put each back, and keeps the engine open until it is ticked', async () => {
    const bench = await allBackOn();
    const check = await checkOf(bench);
    expect(check.lines.map(({ name, words, next }) => [name, words, next])).toEqual([
      ['dowel', '4 back on', true],
      ['valve cover', '1 back on', false],
    ]);
    expect(check.lines[0]?.doneBy).toMatchObject([{ id: shop.people.technician }]);
    const refused = await close(bench);
    expect(refused.body.detail).toContain('2 of 2 lines not ticked by a second person');
    expect(refused.body.reasons).toMatchObject([{ kind: 'not-checked', href: `/bench/${bench.jobId}/check` }]);
  });

  test('is never ticked by who put it back, nor out of order, nor twice, nor by somebody without the bench', async () => {
    const bench = await allBackOn();
    expect(await tick(bench, 'technician', [bench.dowels])).toMatchObject({
      status: 403,
      body: { detail: expect.stringContaining('Another person looks') },
    });
    expect((await tick(bench, 'colleague', [bench.cover])).body.detail).toContain('dowel comes before valve cover');
    expect((await tick(bench, 'writer', [bench.dowels])).status).toBe(403);
    expect((await tick(bench, 'colleague', [crypto.randomUUID()])).status).toBe(404);
    expect((await tick(bench, 'colleague', [])).status).toBe(400);
    expect((await tick(bench, 'colleague', [bench.dowels, bench.dowels])).status).toBe(422);
    expect((await checkOf(bench)).left).toBe(2);
    expect((await tick(bench, 'colleague', [bench.dowels, bench.cover])).body.left).toBe(0);
    expect((await tick(bench, 'colleague', [bench.dowels])).status).toBe(409);
    expect((await close(bench)).status).toBe(200);
  });

  test('waits for a line that is still loose', async () => {
    const bench = await openBench(shop);
    const { body } = await bench.off([{ byHand: { name: 'dowel', expected: 4 }, count: 4 }]);
    const refused = await tick(bench, 'colleague', [body.pieces[0].id]);
    expect(refused).toMatchObject({ status: 422, body: { detail: expect.stringContaining('4 still open') } });
  });

  test('is taken from a line by whatever is done to it afterwards', async () => {
    const bench = await allBackOn();
    await tick(bench, 'colleague', [bench.dowels, bench.cover]);
    await bench.off([{ pieceId: bench.dowels, count: 1 }], { reason: 'one more found in the head' });
    expect((await checkOf(bench)).left).toBe(1);
    expect((await close(bench)).status).toBe(409);
  });

  test('two who tick one line at once: one tick stands', async () => {
    const bench = await allBackOn();
    const answers = await Promise.all([tick(bench, 'colleague', [bench.dowels]), tick(bench, 'lead', [bench.dowels])]);
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 409]);
    const [row] =
      await shop.sql`select count(*)::int as ticks from closing_check where opening_id = ${bench.openingId}`;
    expect(row).toEqual({ ticks: 1 });
  });

  test('a piece comes off while somebody closes: never closed with it loose', async () => {
    for (let round = 0; round < 4; round += 1) {
      const bench = await allBackOn();
      await tick(bench, 'colleague', [bench.dowels, bench.cover]);
      const [off, closed] = await Promise.all([
        bench.off([{ pieceId: bench.dowels, count: 1 }], { reason: 'came off again' }),
        close(bench),
      ]);
      expect([off.status, closed.status]).toSatisfy(
        ([a, b]: number[]) => (a === 200 && b === 409) || (a === 409 && b === 200),
      );
    }
  });

  test('two close at once: one signs for it, the other is told who did', async () => {
    const bench = await allBackOn();
    await tick(bench, 'colleague', [bench.dowels, bench.cover]);
    const path = `/api/openings/${bench.openingId}/close`;
    const answers = await Promise.all([shop.as.technician.post(path, {}), shop.as.colleague.post(path, {})]);
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 409]);
  });

  test('the database itself refuses a tick of who put it back', async () => {
    const bench = await allBackOn();
    const own = shop.sql`
      insert into closing_check (id, opening_id, piece_id, checked_by_id)
      values (${crypto.randomUUID()}, ${bench.openingId}, ${bench.dowels}, ${shop.people.technician})`;
    await expect(own).rejects.toMatchObject({ code: 'CH008' });
  });
});

describe('one tray counted by two at once', () => {
  test('off: the second is asked why there are more than expected, and nothing is counted twice', async () => {
    const bench = await openBench(shop);
    const { body } = await bench.off([{ byHand: { name: 'dowel', expected: 8 }, count: 0 }]);
    const pieceId: string = body.pieces[0].id;
    const path = `/api/openings/${bench.openingId}/pieces/off`;
    const counted = { pieces: [{ pieceId, count: 8 }], trayId: bench.trayId };
    const answers = await Promise.all([shop.as.technician.post(path, counted), shop.as.colleague.post(path, counted)]);
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 422]);
    const [row] = await shop.sql`select off from piece where id = ${pieceId}`;
    expect(row).toEqual({ off: 8 });
  });

  test('moved into two trays at once: every piece lies in one of them', async () => {
    const bench = await openBench(shop);
    const { body } = await bench.off([{ byHand: { name: 'bolt', expected: 6 }, count: 6 }]);
    const pieceId: string = body.pieces[0].id;
    const tray = async (name: string) => (await bench.as.post(`/api/jobs/${bench.jobId}/trays`, { name })).body.id;
    const [one, other] = [await tray('one'), await tray('other')];
    const move = (who: 'technician' | 'colleague', trayId: string) =>
      shop.as[who].post(`/api/openings/${bench.openingId}/pieces/moved`, {
        pieces: [{ pieceId, count: 4, fromTrayId: bench.trayId }],
        trayId,
      });
    const answers = await Promise.all([move('technician', one), move('colleague', other)]);
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 422]);
    const [row] = await shop.sql`select sum(count)::int as lying from piece_in_tray where piece_id = ${pieceId}`;
    expect(row).toEqual({ lying: 6 });
  });
});
