import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { insertAssemblySheet } from '../support/assembly-sheet.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';

let shop: Shop;
let serials = 700;
beforeAll(async () => {
  shop = await openShop();
});
afterAll(() => shop.close());

/** Nadia holds an engine and a tray with eight dowels in it. */
async function held() {
  serials += 1;
  const { jobId, engineId, number } = await takeIn(shop, { serial: `H355-${serials}` });
  await shop.as.technician.post(`/api/engines/${engineId}/take`, { bayId: shop.bays.rack, trayIds: [] });
  const opening = await shop.as.technician.post(`/api/jobs/${jobId}/openings`);
  const tray = await shop.as.technician.post(`/api/jobs/${jobId}/trays`, { name: 'Dowels' });
  const off = await shop.as.technician.post(`/api/openings/${opening.body.id}/pieces/off`, {
    pieces: [{ byHand: { name: 'dowel' }, count: 8 }],
    trayId: tray.body.id,
  });
  return {
    jobId,
    engineId,
    number,
    openingId: opening.body.id as string,
    trayId: tray.body.id as string,
    pieceId: off.body.pieces[0].id as string,
  };
}
const countOf = (of: { trayId: string; pieceId: string }, counted = 8) => [
  { trayId: of.trayId, pieceId: of.pieceId, counted },
];
const offerAll = async (of: { jobId: string; trayId: string }) =>
  (
    await shop.as.technician.post(`/api/jobs/${of.jobId}/handovers`, {
      receiverId: shop.people.colleague,
      placeId: shop.bays.rack,
      includeEngine: true,
      trayIds: [of.trayId],
    })
  ).body.id as string;
const now = async () => (await shop.sql<{ at: string }[]>`select clock_timestamp() as at`)[0]?.at ?? '';
const asked = async (query: string) => (await shop.as.clerk.get(`/api/custody?${query}`)).body;

describe('who held what', () => {
  test('any moment of the past is told: of an engine, a tray, a person, a bay, the whole shop', async () => {
    const of = await held();
    const then = encodeURIComponent(await now());
    await shop.as.technician.post(`/api/engines/${of.engineId}/leave`, {
      bayId: shop.bays.rack,
      trayIds: [of.trayId],
      counts: countOf(of),
    });
    const names = (reply: { items: { subject: { kind: string }; holder: { name: string } }[] }) =>
      reply.items.map(({ subject, holder }) => `${subject.kind}: ${holder.name}`).toSorted();
    expect(names(await asked(`engineId=${of.engineId}&at=${then}`))).toEqual([
      'engine: Nadia Quill',
      'tray: Nadia Quill',
    ]);
    expect(names(await asked(`engineId=${of.engineId}`))).toEqual(['engine: Rack', 'tray: Rack']);
    expect(names(await asked(`trayId=${of.trayId}&at=${then}`))).toEqual(['tray: Nadia Quill']);
    expect((await asked(`personId=${shop.people.technician}&engineId=${of.engineId}`)).items).toEqual([]);
    expect((await asked(`bayId=${shop.bays.rack}&engineId=${of.engineId}`)).items).toHaveLength(2);
    const whole = await asked(`at=${then}`);
    expect(whole.items.find((each: { subject: { id: string } }) => each.subject.id === of.trayId)).toMatchObject({
      engine: { id: of.engineId, family: 'Halden 355' },
      job: { id: of.jobId, number: of.number },
    });
  });

  test('one steps from change to change, and there is none before the first', async () => {
    const of = await held();
    const steps: string[] = [];
    let at: string | null = (await asked(`engineId=${of.engineId}`)).before;
    while (at !== null) {
      steps.push(at);
      at = (await asked(`engineId=${of.engineId}&at=${encodeURIComponent(at)}`)).before;
    }
    expect(steps).toHaveLength(3);
    const first = await asked(`engineId=${of.engineId}&at=${encodeURIComponent(steps[2] ?? '')}`);
    expect(first.items).toMatchObject([{ subject: { kind: 'engine' }, holder: { name: 'Rack' } }]);
    expect(first.after).toBe(steps[1]);
  });

  test('a moment that is none and a span that ends before it begins are refused', async () => {
    expect((await shop.as.clerk.get('/api/custody?at=yesterday')).status).toBe(400);
    const span = 'from=2026-11-02T00:00:00Z&until=2026-11-01T00:00:00Z';
    const refused = await shop.as.clerk.get(`/api/custody/periods?${span}`);
    expect(refused).toMatchObject({ status: 422 });
    expect(refused.body.detail).toContain('ends before it begins');
  });

  test('holders over a span, and the time worked and waited, come from the same ledger', async () => {
    const of = await held();
    const { body } = await shop.as.clerk.get(`/api/custody/periods?from=2020-01-01T00:00:00Z&engineId=${of.engineId}`);
    expect(body.items.map(({ holder }: { holder: { name: string } }) => holder.name)).toEqual([
      'Rack',
      'Nadia Quill',
      'Nadia Quill',
    ]);
    const times = await shop.as.clerk.get(`/api/jobs/${of.jobId}/bench-times`);
    expect(times.body.stays).toMatchObject([{ kind: 'bay', place: { name: 'Rack' }, until: null }]);
    expect((await shop.as.clerk.get(`/api/jobs/${crypto.randomUUID()}/bench-times`)).status).toBe(404);
  });
});

describe('what an offer says', () => {
  test('obligations as they stood when it was offered; what an offer made now would say', async () => {
    const of = await held();
    const raise = (words: string) => shop.as.lead.post(`/api/jobs/${of.jobId}/obligations`, { words, inside: false });
    await raise('Look at the oil pump');
    const offerId = await offerAll(of);
    await raise('Look at the chain');
    const read = (await shop.as.colleague.get(`/api/handovers/${offerId}`)).body;
    expect(read.openObligations).toEqual(['Look at the oil pump']);
    const next = (await shop.as.technician.get(`/api/jobs/${of.jobId}/to-hand-over`)).body;
    expect(next.openObligations).toEqual(['Look at the oil pump', 'Look at the chain']);
    expect(read.looseFasteners).toEqual([]);
    expect(Date.parse(read.answerDueAt) - Date.parse(read.offeredAt)).toBe(30 * 60_000);
  });

  test('names what lies beside the engine in no tray, which no count has, until it is laid into one', async () => {
    const of = await held();
    const as = shop.as.technician;
    const beside = async () => (await as.get(`/api/jobs/${of.jobId}/to-hand-over`)).body.besideEngine;
    expect(await beside()).toEqual([]);
    const off = await as.post(`/api/openings/${of.openingId}/pieces/off`, {
      pieces: [{ byHand: { name: 'Locating pin', fromWhere: 'case' }, count: 2 }],
    });
    expect(off.status).toBe(200);
    expect(await beside()).toEqual(['Locating pin, case']);
    const [pin] = await shop.sql<
      { id: string }[]
    >`select id from piece where opening_id = ${of.openingId} and name = 'Locating pin'`;
    const moved = { pieces: [{ pieceId: pin?.id, count: 2 }], trayId: of.trayId };
    expect((await as.post(`/api/openings/${of.openingId}/pieces/moved`, moved)).status).toBe(200);
    expect(await beside()).toEqual([]);
  });

  test('fasteners pulled in part are loose: which set, which stage, which positions', async () => {
    const { familyId } = await insertAssemblySheet(shop.sql, shop.people.lead);
    const job = await shop.as.writer.post('/api/jobs', {
      engine: { serial: 'H388-0700', familyId },
      owner: { name: 'Ingrid Falk', contact: '' },
      hours: '10',
      complaint: 'Knocks',
      bayId: shop.bays.rack,
    });
    const { id: jobId, engineId } = job.body;
    await shop.as.technician.post(`/api/engines/${engineId}/take`, { bayId: shop.bays.rack, trayIds: [] });
    await shop.as.technician.post(`/api/jobs/${jobId}/openings`);
    const pulled = await shop.as.technician.post(`/api/jobs/${jobId}/torque-pulls`, {
      set: 'head',
      fastener: 1,
      stage: 1,
      value: { value: '20', unit: 'N.m' },
    });
    expect(pulled.status).toBe(201);
    const offer = await shop.as.technician.post(`/api/jobs/${jobId}/handovers`, {
      receiverId: shop.people.colleague,
      placeId: shop.bays.rack,
      includeEngine: true,
      trayIds: [],
    });
    const read = (await shop.as.colleague.get(`/api/handovers/${offer.body.id}`)).body;
    expect(read.looseFasteners).toMatchObject([
      { set: 'head', stage: 1, positions: [2, 3, 4] },
      { set: 'head', stage: 2, positions: [1, 2, 3, 4] },
    ]);
  });

  test('unanswered for longer than the shop allows, it is overdue; the lead sets how long', async () => {
    const set = (answerMinutes: number, as = shop.as.lead) => as.post('/api/custody/rule', { answerMinutes });
    expect((await set(60, shop.as.technician)).status).toBe(403);
    expect((await set(-5)).status).toBe(400);
    expect((await set(45)).status).toBe(200);
    const of = await held();
    const offerId = await offerAll(of);
    const read = (await shop.as.lead.get(`/api/handovers/${offerId}`)).body;
    expect(Date.parse(read.answerDueAt) - Date.parse(read.offeredAt)).toBe(45 * 60_000);
    const floor = (await shop.as.lead.get('/api/floor')).body;
    const engine = floor.engines.find(({ id }: { id: string }) => id === of.engineId);
    expect(engine.handovers[0].answerDueAt).toBe(read.answerDueAt);
  });
});

describe('the end of a shift', () => {
  test('says who still holds what, what is unanswered and uncovered; nothing is unheld; a lead signs what was read', async () => {
    const of = await held();
    const offerId = await offerAll(of);
    const { body } = await shop.as.technician.get('/api/custody/shift-end');
    expect(body.clear).toBe(false);
    expect(body.snapshot.unheld).toEqual([]);
    expect(body.snapshot.offers.map(({ id }: { id: string }) => id)).toContain(offerId);
    expect(body.snapshot.uncovered).toContainEqual(
      expect.objectContaining({ engine: expect.objectContaining({ id: of.engineId }), depth: 'cover' }),
    );
    const mine = body.snapshot.items.filter(({ engine }: { engine: { id: string } }) => engine.id === of.engineId);
    expect(mine.map(({ holder }: { holder: { name: string } }) => holder.name)).toEqual(['Nadia Quill', 'Nadia Quill']);

    const sign = (asks: object, as = shop.as.lead) => as.post('/api/custody/shift-reports', asks);
    expect((await sign({ mark: body.mark, note: 'x' }, shop.as.technician)).status).toBe(403);
    expect((await sign({ mark: body.mark })).status).toBe(422);
    expect((await sign({ mark: 'another', note: 'x' })).status).toBe(412);
    const signed = await sign({ mark: body.mark, note: 'Oskar counts it first thing' });
    expect(signed.status).toBe(201);
    await shop.as.technician.post(`/api/handovers/${offerId}/withdraw`);
    expect((await sign({ mark: body.mark, note: 'x' })).status).toBe(412);
    const kept = (await shop.as.clerk.get(`/api/custody/shift-reports/${signed.body.id}`)).body;
    expect(kept).toMatchObject({ note: 'Oskar counts it first thing', signedBy: { name: 'Maren Tolk' } });
    expect(kept.snapshot).toEqual(body.snapshot);
    expect((await shop.as.clerk.get('/api/custody/shift-reports')).body.items[0].id).toBe(signed.body.id);
    await expect(shop.sql`update shift_report set note = ''`).rejects.toThrow('append-only');
    await expect(
      shop.sql`insert into shift_report (id, as_of, snapshot, signed_by_id)
        values (${crypto.randomUUID()}, clock_timestamp(), '{}', ${shop.people.technician})`,
    ).rejects.toThrow('only a lead');
  });
});

describe('at a vendor', () => {
  test('the slip says what goes, how many, for what, due when; what came back is beside it; late ones are told', async () => {
    const of = await held();
    const sent = await shop.as.technician.post(`/api/jobs/${of.jobId}/outside-work`, {
      subject: { trayId: of.trayId },
      vendorId: shop.vendorId,
      work: 'Zinc plate',
      dueOn: '2099-01-31',
      counts: countOf(of),
    });
    // Years go by.
    await shop.sql`update outside_work set due_on = '2020-01-31' where id = ${sent.body.id}`;
    const slip = (await shop.as.clerk.get(`/api/outside-work/${sent.body.id}/slip`)).body;
    expect(slip).toMatchObject({
      number: `${of.number}/1`,
      vendor: { name: 'Saltmere Plating', trade: 'plating' },
      subject: { kind: 'tray', words: 'Dowels' },
      work: 'Zinc plate',
      dueOn: '2020-01-31',
      late: true,
      lines: [{ name: 'dowel', out: 8, back: null }],
    });
    const away = (await shop.as.clerk.get('/api/outside-work')).body.items[0];
    expect(away).toMatchObject({ id: sent.body.id });
    expect(away.daysLate).toBeGreaterThan(2000);
    const back = await shop.as.technician.post(`/api/outside-work/${sent.body.id}/back`, {
      bayId: shop.bays.rack,
      counts: countOf(of, 7),
      withDifference: true,
    });
    expect(back.body.obligations).toHaveLength(1);
    expect((await shop.as.clerk.get(`/api/outside-work/${sent.body.id}/slip`)).body.lines).toEqual([
      { name: 'dowel', out: 8, back: 7 },
    ]);
    expect((await shop.as.clerk.get(`/api/outside-work/${crypto.randomUUID()}/slip`)).status).toBe(404);
  });

  test.each([
    ['of a tray', false],
    ['of a piece, in another tray by now,', true],
  ])('a slip tells no count %s that somebody is to count blind', async (_what, moves) => {
    const of = await held();
    const sent = await shop.as.technician.post(`/api/jobs/${of.jobId}/outside-work`, {
      subject: { trayId: of.trayId },
      vendorId: shop.vendorId,
      work: 'Wash',
      dueOn: '2099-01-31',
      counts: countOf(of),
    });
    await shop.as.technician.post(`/api/outside-work/${sent.body.id}/back`, {
      bayId: shop.bays.rack,
      counts: countOf(of),
    });
    await shop.as.technician.post(`/api/engines/${of.engineId}/take`, {
      bayId: shop.bays.rack,
      engine: false,
      trayIds: [of.trayId],
      counts: countOf(of),
    });
    const tin = moves ? (await shop.as.technician.post(`/api/jobs/${of.jobId}/trays`, { name: 'Tin' })).body.id : null;
    if (moves) {
      const move = { pieces: [{ pieceId: of.pieceId }], trayId: tin };
      expect((await shop.as.technician.post(`/api/openings/${of.openingId}/pieces/moved`, move)).status).toBe(200);
    }
    await offerAll({ ...of, trayId: tin ?? of.trayId });
    const read = async (as = shop.as.colleague) => (await as.get(`/api/outside-work/${sent.body.id}/slip`)).body.lines;
    expect(await read()).toEqual([{ name: 'dowel', out: null, back: null }]);
    expect(await read(shop.as.technician)).toEqual([{ name: 'dowel', out: 8, back: 8 }]);
  });
});

test('a lead moves nothing to somebody who does not work at the benches', async () => {
  const of = await held();
  const moved = await shop.as.lead.post(`/api/engines/${of.engineId}/move`, {
    to: { personId: shop.people.clerk, bayId: shop.bays.rack },
    reason: 'Nadia is ill',
    trayIds: [],
  });
  expect(moved).toMatchObject({ status: 422 });
  expect(moved.body.detail).toContain('does not work at the benches');
});
