import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Client } from '../support/client.ts';
import { insertProcedure, type WrittenProcedure } from '../support/procedures.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';

let shop: Shop;
let strip: WrittenProcedure;
let serials = 900;
beforeAll(async () => {
  shop = await openShop();
  strip = await insertProcedure(shop.sql, {
    familyId: shop.sheet.familyId,
    code: 'strip-h355',
    kind: 'strip',
    steps: [{ title: 'Caps off', pieces: [{ name: 'dowel', expected: GIVEN + 1 }] }],
  });
});
afterAll(() => shop.close());

/** The giver's count: a number that no label or total comes to. */
const GIVEN = 8731;
/** What an answer says, without the ids and instants in it: chance puts any number into those. */
const said = (answer: unknown): string =>
  JSON.stringify(answer)
    .replaceAll(/[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}/g, '')
    .replaceAll(/\d{4}-\d{2}-\d{2}T[\d:.+Z]+/g, '');

/** Nadia holds the engine and one tray, and offers both to Oskar. */
async function offered({ byProcedure = false } = {}) {
  serials += 1;
  const nadia = shop.as.technician;
  const { jobId, engineId } = await takeIn(shop, { serial: `H355-${serials}` });
  await nadia.post(`/api/engines/${engineId}/take`, { bayId: shop.bays.rack, trayIds: [] });
  const run = await nadia.post(`/api/jobs/${jobId}/procedure-runs`, { versionId: strip.versionId });
  const opening = await nadia.post(`/api/jobs/${jobId}/openings`);
  const tray = await nadia.post(`/api/jobs/${jobId}/trays`, { name: 'Dowels' });
  const off = await nadia.post(`/api/openings/${opening.body.id}/pieces/off`, {
    pieces: [
      byProcedure ? { stepPieceId: strip.pieces.dowel, count: GIVEN } : { byHand: { name: 'dowel' }, count: GIVEN },
    ],
    trayId: tray.body.id,
  });
  const alone = await nadia.post(`/api/jobs/${jobId}/trays`, { name: 'Cylinder', alone: true, layer: 'cylinder' });
  const body = {
    receiverId: shop.people.colleague,
    placeId: shop.bays.rack,
    includeEngine: true,
    trayIds: [tray.body.id, alone.body.id],
    looseWords: 'Base studs, not torqued',
  };
  const offer = await nadia.post(`/api/jobs/${jobId}/handovers`, body);
  expect(offer.status).toBe(201);
  return {
    jobId,
    engineId,
    runId: run.body.id as string,
    openingId: opening.body.id as string,
    trayId: tray.body.id as string,
    aloneId: alone.body.id as string,
    pieceId: off.body.pieces[0].id as string,
    handoverId: offer.body.id as string,
    body,
  };
}
type Offer = Awaited<ReturnType<typeof offered>>;

const read = async (of: Offer, as: Client = shop.as.colleague) =>
  (await as.get(`/api/handovers/${of.handoverId}`)).body;
const accept = (of: Offer, as: Client = shop.as.colleague, headers?: Record<string, string>) =>
  as.post(`/api/handovers/${of.handoverId}/accept`, undefined, headers);
async function count(of: Offer, trayId: string, number: number, as: Client = shop.as.colleague) {
  const tray = (await read(of)).trays.find((each: { trayId: string }) => each.trayId === trayId);
  return as.post(`/api/handovers/${of.handoverId}/trays/${trayId}/count`, {
    lines: tray.lines.map(({ lineId }: { lineId: string }) => ({ lineId, counted: number })),
  });
}
const holders = async (of: Offer) => {
  const { body } = await shop.as.clerk.get(`/api/engines/${of.engineId}/custody?at=${new Date().toISOString()}`);
  return [...new Set(body.items.map(({ holder }: { holder: { name: string } }) => holder.name))];
};
const obligationsOf = (of: Offer) =>
  shop.sql<{ words: string; inside: boolean; line: string | null }[]>`
    select words, inside, handover_line_id as line from obligation where job_id = ${of.jobId}`;

describe('offering', () => {
  test('the offer says the state of the engine, what is loose and what to count, and moves nothing', async () => {
    const of = await offered();
    expect(await read(of)).toMatchObject({
      giver: { name: 'Nadia Quill' },
      receiver: { name: 'Oskar Pell' },
      includesEngine: true,
      stateWords: 'Cover off, not covered',
      looseWords: 'Base studs, not torqued',
      outcome: null,
      trays: [
        { counted: false, lines: [{ name: 'dowel', given: null }] },
        { counted: false, lines: [{ name: 'Cylinder', given: null }] },
      ],
    });
    expect(await holders(of)).toEqual(['Nadia Quill']);
  });

  test('the receiver finds it among what waits for them', async () => {
    const of = await offered();
    const mine = await shop.as.colleague.get('/api/handovers?mine=true&open=true');
    expect(mine.body.items[0]).toMatchObject({ id: of.handoverId, trays: 2, traysCounted: 0 });
    expect((await shop.as.lead.get('/api/handovers?mine=true')).body.items).toEqual([]);
    const first = await shop.as.lead.get('/api/handovers?limit=1');
    const next = await shop.as.lead.get(`/api/handovers?limit=1&after=${encodeURIComponent(first.body.next ?? '')}`);
    expect(next.body.items[0]?.id).not.toBe(first.body.items[0].id);
  });

  test('only who holds all of it offers it, to another who works at the benches', async () => {
    const of = await offered();
    await shop.as.technician.post(`/api/handovers/${of.handoverId}/withdraw`);
    const offer = (body: object, as: Client = shop.as.technician) =>
      as.post(`/api/jobs/${of.jobId}/handovers`, { ...of.body, ...body });
    expect((await offer({ receiverId: shop.people.lead }, shop.as.colleague)).body.detail).toContain(
      "You don't hold the engine",
    );
    expect((await offer({ receiverId: shop.people.technician })).body.detail).toContain('themselves');
    expect((await offer({ receiverId: shop.people.clerk })).body.detail).toContain('does not work at the benches');
    expect((await offer({ includeEngine: false, trayIds: [] })).status).toBe(422);
    expect((await offer({ trayIds: [crypto.randomUUID()] })).status).toBe(404);
    expect((await offer({}, shop.as.writer)).status).toBe(403);
  });

  test('what is offered stands in one offer, and neither its pieces nor its place change meanwhile', async () => {
    const of = await offered();
    const again = await shop.as.technician.post(`/api/jobs/${of.jobId}/handovers`, of.body);
    expect(again).toMatchObject({ status: 409, body: { handoverId: of.handoverId } });
    const fitted = await shop.as.technician.post(`/api/openings/${of.openingId}/pieces/fitted`, {
      pieces: [{ pieceId: of.pieceId, count: 1 }],
    });
    expect(fitted.status).toBe(409);
    const left = await shop.as.technician.post(`/api/engines/${of.engineId}/leave`, {
      bayId: shop.bays.rack,
      trayIds: [],
    });
    expect(left.status).toBe(409);
  });
});

describe('the blind count', () => {
  test('no reply and no event tells the giver’s number before the receiver has counted; the giver sees it', async () => {
    const of = await offered({ byProcedure: true });
    const urls = [
      `/api/handovers/${of.handoverId}`,
      '/api/handovers',
      `/api/openings/${of.openingId}`,
      `/api/openings/${of.openingId}/closing`,
      `/api/jobs/${of.jobId}/opening`,
      `/api/jobs/${of.jobId}/trays`,
      `/api/jobs/${of.jobId}/procedure-runs`,
      `/api/engines/${of.engineId}/custody`,
      `/api/engines/${of.engineId}`,
      `/api/engines/${of.engineId}/events`,
      `/api/jobs/${of.jobId}/obligations`,
      `/api/jobs/${of.jobId}/hand-back`,
      '/api/floor',
      `/api/custody?engineId=${of.engineId}`,
      `/api/custody/periods?from=2020-01-01T00:00:00Z&engineId=${of.engineId}`,
      `/api/jobs/${of.jobId}/to-hand-over`,
      '/api/custody/shift-end',
      '/api/outside-work',
    ];
    for (const url of urls) {
      for (const who of ['colleague', 'lead', 'writer'] as const) {
        const { status, body } = await shop.as[who].get(url);
        expect(status).toBe(200);
        expect(said(body), `${url} to ${who}`).not.toContain(String(GIVEN));
      }
    }
    const refused = await shop.as.colleague.post(`/api/openings/${of.openingId}/close`, {});
    expect(refused.status).toBe(409);
    expect(said(refused.body)).not.toContain(String(GIVEN));
    const mark = await shop.as.colleague.post(`/api/procedure-runs/${of.runId}/steps/${strip.steps['Caps off']}/mark`, {
      mark: 'done',
    });
    expect(mark.body.detail).toContain('is handing it over to');
    expect(said(mark.body)).not.toContain(String(GIVEN));
    const early = await accept(of);
    expect(early.body.detail).toMatch(/^Count tray /);
    expect(said(early.body)).not.toContain(String(GIVEN));
    const events =
      await shop.sql`select data::text as data from event where job_id = ${of.jobId} and kind <> 'piece.counted'`;
    expect(said(events)).not.toContain(String(GIVEN));
    expect(said(await read(of, shop.as.technician))).toContain(String(GIVEN));
    const seen = await count(of, of.trayId, GIVEN - 1);
    expect(seen.body).toMatchObject({ counted: true, lines: [{ given: GIVEN, counted: GIVEN - 1 }] });
    expect(said(await read(of, shop.as.lead))).toContain(String(GIVEN));
  });

  test('an obligation about what is in the tray tells no count until the receiver has counted; the giver reads it', async () => {
    const of = await offered({ byProcedure: true });
    const words = `1 of ${GIVEN + 1} × dowel not found`;
    const asked = async (as: Client) => [
      (await as.get(`/api/jobs/${of.jobId}/obligations`)).body.items[0].words,
      (await as.get(`/api/engines/${of.engineId}`)).body.obligations[0].words,
      (await as.get(`/api/handovers/${of.handoverId}`)).body.openObligations[0],
      (await as.get(`/api/jobs/${of.jobId}/sheet`)).body.decisions[0].obligation,
      (await as.get('/api/floor')).body.engines
        .find(({ id }: { id: string }) => id === of.engineId)
        .waits.find(({ cause }: { cause: { kind: string } }) => cause.kind === 'obligation').words,
    ];
    for (const shown of await asked(shop.as.technician)) expect(shown).toContain(words);
    for (const shown of await asked(shop.as.colleague))
      expect(shown).toMatch(/^dowel: counted otherwise than expected/);
    await count(of, of.trayId, 1);
    for (const shown of await asked(shop.as.colleague)) expect(shown).toContain(words);
  });

  test('counts of an earlier handover of the tray are not shown while it is offered again', async () => {
    const of = await offered();
    await count(of, of.trayId, GIVEN - 1);
    await count(of, of.aloneId, 1);
    await accept(of);
    const again = await shop.as.colleague.post(`/api/jobs/${of.jobId}/handovers`, {
      ...of.body,
      receiverId: shop.people.technician,
    });
    expect(again.status).toBe(201);
    for (const url of [`/api/handovers/${of.handoverId}`, `/api/engines/${of.engineId}/events`]) {
      expect(said((await shop.as.lead.get(url)).body), url).not.toContain(String(GIVEN));
      expect(said((await shop.as.colleague.get(url)).body), url).toContain(String(GIVEN));
    }
  });

  /** The colleague lays what was handed over into another tray, and offers that. */
  async function offerFromAnotherTray(of: Awaited<ReturnType<typeof offered>>) {
    const oskar = shop.as.colleague;
    const other = await oskar.post(`/api/jobs/${of.jobId}/trays`, { name: 'Tin' });
    const moved = { pieces: [{ pieceId: of.pieceId }], trayId: other.body.id };
    expect((await oskar.post(`/api/openings/${of.openingId}/pieces/moved`, moved)).status).toBe(200);
    const offer = { ...of.body, receiverId: shop.people.technician, includeEngine: false, trayIds: [other.body.id] };
    expect((await oskar.post(`/api/jobs/${of.jobId}/handovers`, offer)).status).toBe(201);
  }

  test('nor are counts of a piece that lies in another tray by now, which is offered', async () => {
    const of = await offered();
    await count(of, of.trayId, GIVEN);
    await count(of, of.aloneId, 1);
    await accept(of);
    await offerFromAnotherTray(of);
    const linesFor = async (as: Client) => (await read(of, as)).trays[0].lines;
    expect(await linesFor(shop.as.technician)).toMatchObject([{ name: 'dowel', given: null, counted: null }]);
    expect(await linesFor(shop.as.colleague)).toMatchObject([{ name: 'dowel', given: GIVEN, counted: GIVEN }]);
  });

  test('nor is a difference at an earlier handover of a piece that lies in another tray by now', async () => {
    const of = await offered();
    await count(of, of.trayId, GIVEN - 1);
    await count(of, of.aloneId, 1);
    expect((await accept(of)).body.outcome).toBe('accepted with a difference');
    await offerFromAnotherTray(of);
    const asked = async (as: Client) => [
      (await as.get(`/api/engines/${of.engineId}`)).body,
      (await as.get(`/api/jobs/${of.jobId}/obligations`)).body,
      (await as.get('/api/floor')).body.engines.find(({ id }: { id: string }) => id === of.engineId),
    ];
    for (const told of await asked(shop.as.technician)) expect(said(told)).not.toContain(String(GIVEN));
    for (const told of await asked(shop.as.colleague))
      expect(said(told)).toContain(`${GIVEN - 1} × dowel counted, ${GIVEN} given`);
  });

  test('one tray counted does not show another', async () => {
    const of = await offered();
    await count(of, of.aloneId, 1);
    expect(JSON.stringify(await read(of))).not.toContain(String(GIVEN));
  });

  test('only the receiver counts, every line once, three times at most', async () => {
    const of = await offered();
    expect((await count(of, of.trayId, 1, shop.as.lead)).status).toBe(403);
    expect((await count(of, of.trayId, 1, shop.as.technician)).status).toBe(403);
    const url = `/api/handovers/${of.handoverId}/trays/${of.trayId}/count`;
    expect((await shop.as.colleague.post(url, { lines: [{ lineId: crypto.randomUUID(), counted: 1 }] })).status).toBe(
      422,
    );
    expect((await shop.as.colleague.post(url, { lines: [{ lineId: crypto.randomUUID(), counted: -1 }] })).status).toBe(
      400,
    );
    for (const number of [1, 2, 3]) expect((await count(of, of.trayId, number)).body.attempts).toBe(number);
    expect((await count(of, of.trayId, 4)).body.detail).toContain('counted 3 times');
  });

  test('of two counts at once both are kept, one after the other', async () => {
    const of = await offered();
    const answers = await Promise.all([count(of, of.trayId, 5), count(of, of.trayId, 6)]);
    expect(answers.map(({ body }) => body.attempts).toSorted()).toEqual([1, 2]);
  });
});

describe('answering', () => {
  test('counts that agree: accepted, and the receiver holds engine and trays from that instant', async () => {
    const of = await offered();
    await count(of, of.trayId, GIVEN);
    await count(of, of.aloneId, 1);
    expect((await accept(of)).body).toEqual({ outcome: 'accepted', differences: [], obligations: [] });
    expect(await holders(of)).toEqual(['Oskar Pell']);
    const { body } = await shop.as.clerk.get(`/api/engines/${of.engineId}/custody?limit=3`);
    expect(body.items.map(({ handoverId }: { handoverId: string }) => handoverId)).toEqual(
      Array(3).fill(of.handoverId),
    );
  });

  test('the first count that differs opens the obligation at once; the latest decides, and opens no second', async () => {
    const of = await offered();
    const first = await count(of, of.trayId, 3);
    const opened = {
      words: expect.stringContaining(`3 × dowel counted, ${GIVEN} given`),
      inside: true,
      line: expect.any(String),
    };
    expect(first.body.obligations).toEqual([expect.any(String)]);
    expect(await obligationsOf(of)).toEqual([opened]);
    await count(of, of.trayId, GIVEN - 1);
    await count(of, of.aloneId, 1);
    const accepted = await accept(of);
    expect(accepted.body).toEqual({
      outcome: 'accepted with a difference',
      differences: [expect.objectContaining({ piece: 'dowel', given: GIVEN, counted: GIVEN - 1 })],
      obligations: first.body.obligations,
    });
    expect(await obligationsOf(of)).toEqual([opened]);
    const told = await shop.as.lead.get(`/api/jobs/${of.jobId}/obligations`);
    expect(told.body.items[0].words).toContain(`counted, ${GIVEN} given; counted again: ${GIVEN - 1}`);
    const [event] = await shop.sql`select data from event where job_id = ${of.jobId} and kind = 'handover.accepted'`;
    expect(event?.data).toMatchObject({
      outcome: 'accepted with a difference',
      giver: 'Nadia Quill',
      receiver: 'Oskar Pell',
    });
  });

  test('who keys the giver’s number after a first count that differed accepts, but the difference stands until a lead settles it', async () => {
    const of = await offered();
    await count(of, of.trayId, GIVEN - 1);
    const again = await count(of, of.trayId, GIVEN);
    expect(again.body).toMatchObject({ differences: [], obligations: [expect.any(String)] });
    await count(of, of.aloneId, 1);
    const accepted = await accept(of);
    expect(accepted.body).toEqual({ outcome: 'accepted', differences: [], obligations: again.body.obligations });
    const closing = await shop.as.lead.get(`/api/openings/${of.openingId}/closing`);
    const words = `${GIVEN - 1} × dowel counted, ${GIVEN} given; counted again: ${GIVEN}, as given`;
    expect(JSON.stringify(closing.body)).toContain(words);
    const settle = (as: Client) =>
      as.post(`/api/obligations/${again.body.obligations[0]}/discharge`, { reason: 'It lay under the lid' });
    expect((await settle(shop.as.colleague)).status).toBe(403);
    expect((await settle(shop.as.lead)).status).toBe(200);
  });

  test('a difference stands also when the handover is declined or taken back after the count', async () => {
    for (const end of ['decline', 'withdraw'] as const) {
      const of = await offered();
      await count(of, of.trayId, GIVEN - 1);
      const as = end === 'decline' ? shop.as.colleague : shop.as.technician;
      const body = end === 'decline' ? { reason: 'One is missing' } : undefined;
      expect((await as.post(`/api/handovers/${of.handoverId}/${end}`, body)).status).toBe(200);
      expect(await obligationsOf(of)).toHaveLength(1);
    }
  });

  test('a second accept of one handover changes nothing; the same write repeated answers the same', async () => {
    const of = await offered();
    await count(of, of.trayId, GIVEN - 1);
    await count(of, of.aloneId, 1);
    const key = { 'idempotency-key': crypto.randomUUID() };
    const first = await accept(of, shop.as.colleague, key);
    expect((await accept(of, shop.as.colleague, key)).body).toEqual(first.body);
    const second = await accept(of);
    expect(second).toMatchObject({
      status: 409,
      body: { type: 'urn:crosshatch:problem:already-done', outcome: 'accepted with a difference' },
    });
    expect(await obligationsOf(of)).toHaveLength(1);
    const [periods] = await shop.sql`select count(*)::int as n from custody where handover_id = ${of.handoverId}`;
    expect(periods?.n).toBe(3);
  });

  test('of two accepts at once one wins', async () => {
    const of = await offered();
    await count(of, of.trayId, GIVEN);
    await count(of, of.aloneId, 0);
    const answers = await Promise.all([accept(of), accept(of)]);
    expect(answers.map(({ status }) => status).toSorted()).toEqual([200, 409]);
    expect(await obligationsOf(of)).toHaveLength(1);
  });

  test('of an accept and a withdrawal at once one wins', async () => {
    const of = await offered();
    await count(of, of.trayId, GIVEN);
    await count(of, of.aloneId, 1);
    const answers = await Promise.all([
      accept(of),
      shop.as.technician.post(`/api/handovers/${of.handoverId}/withdraw`),
    ]);
    expect(answers.map(({ status }) => status).toSorted()).toEqual([200, 409]);
    expect(await holders(of)).toEqual([answers[0].status === 200 ? 'Oskar Pell' : 'Nadia Quill']);
  });

  test('only the receiver accepts or declines, with a reason; only the giver withdraws; the giver holds it all along', async () => {
    const of = await offered();
    const url = `/api/handovers/${of.handoverId}`;
    await count(of, of.trayId, GIVEN);
    await count(of, of.aloneId, 1);
    expect((await accept(of, shop.as.lead)).status).toBe(403);
    expect((await shop.as.technician.post(`${url}/decline`, { reason: 'mine' })).status).toBe(403);
    expect((await shop.as.colleague.post(`${url}/decline`, { reason: '' })).status).toBe(400);
    expect((await shop.as.colleague.post(`${url}/withdraw`)).status).toBe(403);
    expect((await shop.as.colleague.post(`${url}/decline`, { reason: 'still oily' })).status).toBe(200);
    expect(await read(of)).toMatchObject({ outcome: 'declined', endedReason: 'still oily' });
    expect(await holders(of)).toEqual(['Nadia Quill']);
    expect((await accept(of)).status).toBe(409);
    expect((await shop.as.technician.post(`/api/jobs/${of.jobId}/handovers`, of.body)).status).toBe(201);
  });

  test('an unknown handover is not found', async () => {
    expect((await shop.as.colleague.post(`/api/handovers/${crypto.randomUUID()}/accept`)).status).toBe(404);
    expect((await shop.as.colleague.get(`/api/handovers/${crypto.randomUUID()}`)).status).toBe(404);
  });
});
