import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Client } from '../support/client.ts';
import { checkAll } from '../support/closing-check.ts';
import { insertStrip, type WrittenProcedure } from '../support/procedures.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';

let shop: Shop;
let strip: WrittenProcedure;
let serials = 100;
beforeAll(async () => {
  shop = await openShop();
  strip = await insertStrip(shop.sql, shop.sheet.familyId);
});
afterAll(() => shop.close());

interface Bench {
  readonly jobId: string;
  readonly engineId: string;
  readonly openingId: string;
  readonly runId: string;
  readonly trayId: string;
  readonly as: Client;
}

/** An engine taken in, its strip begun, opened, with one tray in the technician's hands. */
async function openEngine(): Promise<Bench> {
  serials += 1;
  const as = shop.as.technician;
  const { jobId, engineId } = await takeIn(shop, { serial: `H355-${serials}` });
  const run = await as.post(`/api/jobs/${jobId}/procedure-runs`, { versionId: strip.versionId });
  const opening = await as.post(`/api/jobs/${jobId}/openings`);
  expect(opening.status).toBe(201);
  const tray = await as.post(`/api/jobs/${jobId}/trays`, { name: 'Caps and dowels' });
  return { jobId, engineId, openingId: opening.body.id, runId: run.body.id, trayId: tray.body.id, as };
}

const count = (bench: Bench, name: string, number: number, more: object = {}) =>
  bench.as.post(`/api/openings/${bench.openingId}/pieces/off`, {
    pieces: [{ stepPieceId: strip.pieces[name], count: number }],
    trayId: bench.trayId,
    ...more,
  });
const act = (bench: Bench, what: string, pieceId: string, number: number, reason?: string) =>
  bench.as.post(`/api/openings/${bench.openingId}/pieces/${what}`, {
    pieces: [{ pieceId, count: number }],
    ...(reason === undefined ? {} : { reason }),
  });
const obligationsOf = (jobId: string) =>
  shop.sql<{ id: string; words: string; inside: boolean; open: boolean; reason: string | null }[]>`
    select o.id, o.words, o.inside, o.discharged_at is null as open,
           (select a.reason from obligation_act a where a.obligation_id = o.id and a.act = 'discharged') as reason
    from obligation o where o.job_id = ${jobId} order by o.opened_at`;
const eventsOf = (jobId: string, kind: string) =>
  shop.sql<
    { data: Record<string, unknown> }[]
  >`select data from event where job_id = ${jobId} and kind = ${kind} order by recorded_at`;

describe('opening an engine', () => {
  test('it is open and uncovered until somebody says that it is covered', async () => {
    const bench = await openEngine();
    const seen = await bench.as.get(`/api/openings/${bench.openingId}`);
    expect(seen.body).toMatchObject({
      depth: 'cover',
      covered: false,
      closedAt: null,
      openedBy: { name: 'Nadia Quill' },
    });
    expect((await bench.as.post(`/api/openings/${bench.openingId}/cover`, { covered: true })).status).toBe(200);
    expect((await bench.as.get(`/api/jobs/${bench.jobId}/opening`)).body.covered).toBe(true);
    const again = await bench.as.post(`/api/openings/${bench.openingId}/cover`, { covered: true });
    expect(again.status).toBe(409);
    expect(await eventsOf(bench.jobId, 'opening.covered')).toHaveLength(1);
  });

  test('an open engine is not opened again', async () => {
    const bench = await openEngine();
    const again = await bench.as.post(`/api/jobs/${bench.jobId}/openings`);
    expect(again).toMatchObject({
      status: 409,
      body: { type: 'urn:crosshatch:problem:already-done', openingId: bench.openingId },
    });
  });

  test('of two who open it at once one does', async () => {
    const { jobId } = await takeIn(shop, { serial: 'H355-AT-ONCE' });
    const answers = await Promise.all([
      shop.as.technician.post(`/api/jobs/${jobId}/openings`),
      shop.as.colleague.post(`/api/jobs/${jobId}/openings`),
    ]);
    expect(answers.map(({ status }) => status).toSorted()).toEqual([201, 409]);
  });

  test('a service writer and a clerk only look', async () => {
    const { jobId } = await takeIn(shop, { serial: 'H355-LOOK' });
    expect((await shop.as.writer.post(`/api/jobs/${jobId}/openings`)).status).toBe(403);
    expect((await shop.as.clerk.post(`/api/jobs/${jobId}/openings`)).status).toBe(403);
    expect((await shop.as.writer.get(`/api/jobs/${jobId}/opening`)).status).toBe(404);
  });

  test('the depth follows the innermost layer that is off', async () => {
    const bench = await openEngine();
    for (const [name, depth] of [
      ['valve cover', 'cover'],
      ['head', 'head'],
      ['cylinder', 'cylinder'],
    ] as const) {
      await count(bench, name, 1);
      expect((await bench.as.get(`/api/openings/${bench.openingId}`)).body.depth).toBe(depth);
    }
    const { body } = await bench.as.get(`/api/openings/${bench.openingId}`);
    const cylinder = body.pieces.find(({ name }: { name: string }) => name === 'cylinder');
    await act(bench, 'fitted', cylinder.id, 1);
    expect((await bench.as.get(`/api/openings/${bench.openingId}`)).body.depth).toBe('head');
  });
});

describe('the tally', () => {
  test('a piece counted off stands in its tray, by piece, by tray and by step', async () => {
    const bench = await openEngine();
    const counted = await count(bench, 'cap dowel', 8);
    expect(counted.body).toMatchObject({ pieces: [{ off: 8, loose: 8, missing: 0 }], obligationsOpened: [] });
    const { body } = await bench.as.get(`/api/openings/${bench.openingId}`);
    expect(body.trays).toEqual([{ tray: expect.objectContaining({ id: bench.trayId }), lines: 1, loose: 8 }]);
    expect(body.steps.find(({ title }: { title: string }) => title === 'Caps off')).toMatchObject({
      expected: 10,
      off: 8,
    });
    const [event] = await eventsOf(bench.jobId, 'piece.counted');
    expect(event?.data.pieces).toEqual([{ name: 'cap dowel', count: 8, off: 8, expected: 8 }]);
  });

  test('a short count opens one obligation on the inside, and counting on does not open another', async () => {
    const bench = await openEngine();
    const short = await count(bench, 'cap dowel', 5);
    expect(short.body.obligationsOpened).toHaveLength(1);
    const more = await count(bench, 'cap dowel', 2);
    expect(more.body).toMatchObject({ pieces: [{ off: 7, missing: 1 }], obligationsOpened: [] });
    expect(await obligationsOf(bench.jobId)).toEqual([
      expect.objectContaining({
        inside: true,
        open: true,
        words: '3 of 8 × cap dowel not found when counted off: it may be inside',
      }),
    ]);
  });

  test('what is found makes the piece whole and discharges the obligation with that reason', async () => {
    const bench = await openEngine();
    const { body } = await count(bench, 'cap dowel', 7);
    const [piece] = body.pieces;
    const found = await act(bench, 'found', piece.id, 1, 'stuck in the head');
    expect(found.body.obligationsDischarged).toEqual(body.obligationsOpened);
    expect(await obligationsOf(bench.jobId)).toEqual([
      expect.objectContaining({ open: false, reason: 'Found: stuck in the head' }),
    ]);
    const tooMany = await act(bench, 'found', piece.id, 1, 'another');
    expect(tooMany).toMatchObject({ status: 422, body: { detail: 'cap dowel: 0 are missing, not 1.' } });
  });

  test('what may be inside opens an obligation of its own; nobody talks it away, and once it is found both end', async () => {
    const bench = await openEngine();
    const [piece] = (await count(bench, 'cap dowel', 7)).body.pieces;
    await act(bench, 'possibly-inside', piece.id, 1, 'heard it fall');
    const twice = await act(bench, 'possibly-inside', piece.id, 1, 'heard it again');
    expect(twice.status).toBe(422);
    const open = await obligationsOf(bench.jobId);
    expect(open.map(({ words }) => words)).toContain('May be inside: 1 × cap dowel. heard it fall');
    const away = await act(bench, 'never-there', piece.id, 1, 'the hole is clean and unmarked');
    expect(away).toMatchObject({ status: 422, body: { detail: expect.stringContaining('ends with its search') } });
    const ended = await act(bench, 'found', piece.id, 1, 'under the tensioner blade');
    expect(ended.body.obligationsDischarged).toHaveLength(2);
    expect((await obligationsOf(bench.jobId)).every((obligation) => !obligation.open)).toBe(true);
  });

  test('more than expected is asked about, and taken with a reason', async () => {
    const bench = await openEngine();
    const asked = await count(bench, 'cover bolt', 5);
    expect(asked).toMatchObject({
      status: 422,
      body: { detail: expect.stringContaining('5 would be off, 4 are expected') },
    });
    expect((await bench.as.get(`/api/openings/${bench.openingId}`)).body.pieces).toEqual([]);
    expect((await count(bench, 'cover bolt', 5, { reason: 'a later cover with five' })).status).toBe(200);
  });

  test('a one-time piece is never fitted again, and no more go back than are loose', async () => {
    const bench = await openEngine();
    const [clip] = (await count(bench, 'circlip', 2)).body.pieces;
    expect((await act(bench, 'fitted', clip.id, 1)).body.detail).toContain('used once only');
    expect((await act(bench, 'renewed', clip.id, 2)).body.pieces).toMatchObject([{ loose: 0 }]);
    expect((await act(bench, 'renewed', clip.id, 1)).body.detail).toBe('circlip: 0 are loose, not 1.');
  });

  test('several pieces in one go: one wrong count and none is taken', async () => {
    const bench = await openEngine();
    const refused = await bench.as.post(`/api/openings/${bench.openingId}/pieces/off`, {
      pieces: [
        { stepPieceId: strip.pieces['valve cover'], count: 1 },
        { stepPieceId: strip.pieces['cover bolt'], count: 9 },
      ],
    });
    expect(refused.status).toBe(422);
    expect((await bench.as.get(`/api/openings/${bench.openingId}`)).body.pieces).toEqual([]);
    expect(await eventsOf(bench.jobId, 'piece.counted')).toEqual([]);
  });

  test('a rag counted as a piece of its own is loose until it is accounted for', async () => {
    const bench = await openEngine();
    const put = await bench.as.post(`/api/openings/${bench.openingId}/pieces/off`, {
      pieces: [{ byHand: { name: 'rag', fromWhere: 'put in', why: 'under the piston' }, count: 1 }],
    });
    const [rag] = put.body.pieces;
    expect((await bench.as.get(`/api/openings/${bench.openingId}/closing`)).body.reasons).toEqual([
      expect.objectContaining({ kind: 'piece-loose', subject: rag.id, count: 1 }),
      expect.objectContaining({ kind: 'not-checked', count: 1 }),
    ]);
    await act(bench, 'accounted', rag.id, 1, 'taken out, on the bench');
    await checkAll(shop.as.colleague, bench.openingId);
    expect((await bench.as.get(`/api/openings/${bench.openingId}/closing`)).body.mayClose).toBe(true);
  });

  test('a line moves to another tray whole', async () => {
    const bench = await openEngine();
    const [piece] = (await count(bench, 'cap dowel', 8)).body.pieces;
    const other = await bench.as.post(`/api/jobs/${bench.jobId}/trays`, { name: 'Dowels alone' });
    const move = { pieces: [{ pieceId: piece.id }], trayId: other.body.id };
    expect((await bench.as.post(`/api/openings/${bench.openingId}/pieces/moved`, move)).status).toBe(200);
    expect((await bench.as.get(`/api/openings/${bench.openingId}`)).body.pieces[0].lying).toMatchObject([
      { tray: { id: other.body.id }, count: 8 },
    ]);
    expect((await bench.as.post(`/api/openings/${bench.openingId}/pieces/moved`, move)).status).toBe(409);
  });

  test('two who count one piece at once are added up, never lost', async () => {
    const bench = await openEngine();
    const off = (client: Client) =>
      client.post(`/api/openings/${bench.openingId}/pieces/off`, {
        pieces: [{ stepPieceId: strip.pieces['cap dowel'], count: 4 }],
        trayId: bench.trayId,
      });
    const answers = await Promise.all([off(shop.as.technician), off(shop.as.colleague)]);
    expect(answers.map(({ status }) => status)).toEqual([200, 200]);
    const { body } = await bench.as.get(`/api/openings/${bench.openingId}`);
    expect(body.pieces).toMatchObject([{ name: 'cap dowel', off: 8, missing: 0 }]);
    expect((await obligationsOf(bench.jobId)).map(({ open }) => open)).toEqual([false]);
  });

  test('the same write sent twice counts once', async () => {
    const bench = await openEngine();
    const key = { 'idempotency-key': crypto.randomUUID() };
    const body = { pieces: [{ stepPieceId: strip.pieces['cover bolt'], count: 2 }] };
    const first = await bench.as.post(`/api/openings/${bench.openingId}/pieces/off`, body, key);
    const second = await bench.as.post(`/api/openings/${bench.openingId}/pieces/off`, body, key);
    expect(second.body).toEqual(first.body);
    expect((await bench.as.get(`/api/openings/${bench.openingId}`)).body.pieces).toMatchObject([{ off: 2 }]);
  });

  test('a piece or tray of another job is not known here', async () => {
    const [one, other] = [await openEngine(), await openEngine()];
    const [piece] = (await count(one, 'cap dowel', 8)).body.pieces;
    expect((await act(other, 'fitted', piece.id, 1)).status).toBe(404);
    expect((await count(one, 'cover bolt', 4, { trayId: other.trayId })).status).toBe(404);
    expect((await one.as.get(`/api/openings/${crypto.randomUUID()}`)).status).toBe(404);
  });
});

describe('closing the opening', () => {
  test('it is refused with every reason, what and how many, and nothing changes', async () => {
    const bench = await openEngine();
    await count(bench, 'valve cover', 1);
    await count(bench, 'cap dowel', 7);
    const refused = await bench.as.post(`/api/openings/${bench.openingId}/close`, {});
    expect(refused).toMatchObject({ status: 409, body: { type: 'urn:crosshatch:problem:not-closed' } });
    expect(refused.body.reasons.map(({ kind, count: n }: { kind: string; count: number | null }) => [kind, n])).toEqual(
      [
        ['layer-off', null],
        ['piece-loose', 1],
        ['piece-loose', 7],
        ['piece-missing', 1],
        ['obligation-open', null],
        ['not-checked', 2],
      ],
    );
    expect(refused.body.detail).toContain('6 things are open');
    expect(refused.body.detail).toContain('7 × cap dowel: off, and neither back on, renewed nor accounted for.');
    expect((await bench.as.get(`/api/openings/${bench.openingId}`)).body.closedAt).toBeNull();
  });

  test('with every piece spoken for it closes once, signed by who closed it', async () => {
    const bench = await openEngine();
    const [cover] = (await count(bench, 'valve cover', 1)).body.pieces;
    await act(bench, 'fitted', cover.id, 1);
    await checkAll(shop.as.colleague, bench.openingId);
    const closed = await bench.as.post(`/api/openings/${bench.openingId}/close`, { note: 'turns free' });
    expect(closed.status).toBe(200);
    expect((await bench.as.post(`/api/openings/${bench.openingId}/close`, {})).status).toBe(409);
    expect((await act(bench, 'fitted', cover.id, 1)).status).toBe(409);
    const { body } = await bench.as.get(`/api/jobs/${bench.jobId}/opening`);
    expect(body).toMatchObject({ depth: null, closedBy: { name: 'Nadia Quill' }, closingNote: 'turns free' });
    const signs = await shop.sql`select signed_by_id from sign_off where opening_id = ${bench.openingId}`;
    expect(signs).toMatchObject([{ signed_by_id: shop.people.technician }]);
    expect((await bench.as.post(`/api/jobs/${bench.jobId}/openings`)).status).toBe(201);
  });

  test('an obligation on the outside does not hold it up, one on the inside does', async () => {
    const bench = await openEngine();
    const raise = (words: string, inside: boolean) => shop.sql`
      insert into obligation (id, engine_id, job_id, words, inside, raised_by_id)
      values (${crypto.randomUUID()}, ${bench.engineId}, ${bench.jobId}, ${words}, ${inside}, ${shop.people.lead})`;
    await raise('Kick lever bent', false);
    expect((await bench.as.get(`/api/openings/${bench.openingId}/closing`)).body.mayClose).toBe(true);
    await raise('Look at the oil pump', true);
    expect((await bench.as.get(`/api/openings/${bench.openingId}/closing`)).body.reasons).toMatchObject([
      { kind: 'obligation-open', words: 'Nobody has discharged: Look at the oil pump.' },
    ]);
  });

  test('one counting and one closing at once: either the count is in time or the opening is closed', async () => {
    const bench = await openEngine();
    const [off, closed] = await Promise.all([
      count(bench, 'valve cover', 1),
      shop.as.colleague.post(`/api/openings/${bench.openingId}/close`, {}),
    ]);
    expect([off.status, closed.status].toSorted()).toEqual([200, 409]);
  });
});
