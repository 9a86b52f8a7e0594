import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Answer } from '../support/client.ts';
import { openShop, type Shop, secondServer, takeIn } from '../support/shop.ts';

/** Two services on one database; the first of a race is asked there, the second here, and the other way round. */
let shop: Shop;
let second: Pick<Shop, 'as' | 'close'>;
let serials = 0;
beforeAll(async () => {
  shop = await openShop();
  second = await secondServer(shop);
  await shop.sql`update bay set capacity = 100 where id = ${shop.bays.rack}`;
});
afterAll(async () => {
  await second.close();
  await shop.close();
});

const ROUNDS = 8;
/** Runs a race several times, each contender through either service by turns. */
async function races(round: (at: readonly [Shop['as'], Shop['as']]) => Promise<void>): Promise<void> {
  for (let turn = 0; turn < ROUNDS; turn += 1) {
    await round(turn % 2 === 0 ? [shop.as, second.as] : [second.as, shop.as]);
  }
}
const done = ({ status }: Answer): boolean => status === 200 || status === 201;

const GIVEN = 8;

/** The technician holds an open engine and a tray of eight dowels, and offers both to the colleague. */
async function offered() {
  const { jobId, engineId, openingId } = await opened();
  const { technician } = shop.as;
  const tray = await technician.post(`/api/jobs/${jobId}/trays`, { name: 'Dowels' });
  const off = await technician.post(`/api/openings/${openingId}/pieces/off`, {
    pieces: [{ byHand: { name: 'dowel' }, count: GIVEN }],
    trayId: tray.body.id,
  });
  const offer = await technician.post(`/api/jobs/${jobId}/handovers`, {
    receiverId: shop.people.colleague,
    placeId: shop.bays.rack,
    includeEngine: true,
    trayIds: [tray.body.id],
  });
  expect(offer.status).toBe(201);
  const read = await shop.as.colleague.get(`/api/handovers/${offer.body.id}`);
  return {
    jobId,
    engineId,
    openingId,
    trayId: tray.body.id as string,
    pieceId: off.body.pieces[0].id as string,
    handover: `/api/handovers/${offer.body.id}`,
    lineId: read.body.trays[0].lines[0].lineId as string,
  };
}
type Offered = Awaited<ReturnType<typeof offered>>;

async function opened() {
  serials += 1;
  const { technician } = shop.as;
  const { jobId, engineId } = await takeIn(shop, { serial: `H355-AT-ONCE-${serials}` });
  await technician.post(`/api/engines/${engineId}/take`, { bayId: shop.bays.rack, trayIds: [] });
  const opening = await technician.post(`/api/jobs/${jobId}/openings`);
  return { jobId, engineId, openingId: opening.body.id as string };
}

const countOf = (of: Offered, counted: number) =>
  [`${of.handover}/trays/${of.trayId}/count`, { lines: [{ lineId: of.lineId, counted }] }] as const;
const holders = async ({ engineId }: { engineId: string }): Promise<string[]> => {
  const { body } = await shop.as.clerk.get(`/api/custody?engineId=${engineId}`);
  return body.items.map(({ holder }: { holder: { name: string } }) => holder.name);
};
const openPeriods = async ({ engineId, jobId }: { engineId: string; jobId: string }) => {
  const [row] = await shop.sql`
    select count(*) filter (where c.engine_id is not null)::int as engine, count(*) filter (where c.tray_id is not null)::int as trays
    from custody c left join tray t on t.id = c.tray_id
    where c.until_at is null and (c.engine_id = ${engineId} or t.job_id = ${jobId})`;
  return row;
};
const eventsOf = async ({ jobId }: { jobId: string }, kind: string): Promise<number> => {
  const [row] = await shop.sql`select count(*)::int as count from event where job_id = ${jobId} and kind = ${kind}`;
  return row?.count ?? 0;
};

describe('a handover answered at two services at once', () => {
  test('two accepts: one is done, the other told so; one holder, one event, one obligation a difference', async () => {
    await races(async ([here, there]) => {
      const of = await offered();
      await here.colleague.post(...countOf(of, GIVEN - 1));
      const answers = await Promise.all([
        here.colleague.post(`${of.handover}/accept`),
        there.colleague.post(`${of.handover}/accept`),
      ]);
      expect(answers.filter(done)).toHaveLength(1);
      expect(answers.find((answer) => !done(answer))).toMatchObject({
        status: 409,
        body: { type: 'urn:crosshatch:problem:already-done' },
      });
      expect(await holders(of)).toEqual(['Oskar Pell', 'Oskar Pell']);
      expect(await openPeriods(of)).toEqual({ engine: 1, trays: 1 });
      expect(await eventsOf(of, 'handover.accepted')).toBe(1);
      const { body } = await shop.as.lead.get(`/api/jobs/${of.jobId}/obligations`);
      expect(body.items).toHaveLength(1);
    });
  });

  test('an accept and a withdrawal: one is done, and who holds it is who that leaves with it', async () => {
    await races(async ([here, there]) => {
      const of = await offered();
      await here.colleague.post(...countOf(of, GIVEN));
      const [accept, withdraw] = await Promise.all([
        here.colleague.post(`${of.handover}/accept`),
        there.technician.post(`${of.handover}/withdraw`),
      ]);
      expect([done(accept), done(withdraw)].filter(Boolean)).toHaveLength(1);
      const holder = done(accept) ? 'Oskar Pell' : 'Nadia Quill';
      expect(await holders(of)).toEqual([holder, holder]);
      expect(await openPeriods(of)).toEqual({ engine: 1, trays: 1 });
    });
  });

  test('the lead’s move and an accept: the move stands, before the accept or after it; never two holders', async () => {
    await races(async ([here, there]) => {
      const of = await offered();
      await here.colleague.post(...countOf(of, GIVEN));
      const [accept, move] = await Promise.all([
        here.colleague.post(`${of.handover}/accept`),
        there.lead.post(`/api/engines/${of.engineId}/move`, {
          to: { personId: shop.people.lead, bayId: shop.bays.rack },
          reason: 'Nadia has gone home',
          trayIds: [of.trayId],
          counts: [{ trayId: of.trayId, pieceId: of.pieceId, counted: GIVEN }],
        }),
      ]);
      expect(move.status).toBe(200);
      expect([200, 409]).toContain(accept.status);
      expect(await holders(of)).toEqual(['Maren Tolk', 'Maren Tolk']);
      expect(await openPeriods(of)).toEqual({ engine: 1, trays: 1 });
      const { body } = await shop.as.colleague.get(of.handover);
      expect(body.outcome).toBe(done(accept) ? 'accepted' : 'withdrawn');
    });
  });

  test('two counts of one tray: both are kept, one after the other, and the later one is what counts', async () => {
    await races(async ([here, there]) => {
      const of = await offered();
      const [one, other] = await Promise.all([
        here.colleague.post(...countOf(of, GIVEN)),
        there.colleague.post(...countOf(of, GIVEN - 1)),
      ]);
      expect([one.status, other.status]).toEqual([200, 200]);
      expect([one.body.attempts, other.body.attempts].toSorted()).toEqual([1, 2]);
      const later = one.body.attempts === 2 ? GIVEN : GIVEN - 1;
      const { body } = await shop.as.colleague.get(of.handover);
      expect(body.trays[0].lines[0]).toMatchObject({ counted: later, given: GIVEN });
    });
  });

  test('somebody else counts the tray at the same time: refused, and nothing of it is kept', async () => {
    await races(async ([here, there]) => {
      const of = await offered();
      const [own, foreign] = await Promise.all([
        here.colleague.post(...countOf(of, GIVEN)),
        there.lead.post(...countOf(of, GIVEN - 3)),
      ]);
      expect([own.status, foreign.status]).toEqual([200, 403]);
      const { body } = await shop.as.colleague.get(of.handover);
      expect(body.trays[0]).toMatchObject({ attempts: 1, lines: [{ counted: GIVEN }] });
    });
  });
});

describe('an engine closed at one service', () => {
  const open = async ({ openingId }: { openingId: string }) => {
    const { body } = await shop.as.lead.get(`/api/openings/${openingId}`);
    return body.closedAt === null;
  };

  test('while a reading arrives at another: closed before it, or kept open by what it found', async () => {
    await races(async ([here, there]) => {
      const of = await opened();
      const [close, reading] = await Promise.all([
        here.lead.post(`/api/openings/${of.openingId}/close`, {}),
        there.technician.post(`/api/jobs/${of.jobId}/readings`, {
          round: 'as received',
          dimension: 'big-end-play',
          readings: [{ position: '1', repeat: 1, felt: true }],
        }),
      ]);
      expect(done(reading)).toBe(true);
      expect([200, 409]).toContain(close.status);
      expect(await open(of)).toBe(!done(close));
      const [row] = await shop.sql`
        select o.closed_at < b.opened_at as before from opening o join obligation b on b.job_id = o.job_id where o.id = ${of.openingId}`;
      expect(row?.before ?? false).toBe(done(close));
    });
  });

  test('while a rag is put in at another: either it is in and the engine open, or the engine closed and no rag in it', async () => {
    await races(async ([here, there]) => {
      const of = await opened();
      const [close, rag] = await Promise.all([
        here.lead.post(`/api/openings/${of.openingId}/close`, {}),
        there.technician.post(`/api/openings/${of.openingId}/put-in`, { kind: 'rag', where: 'case mouth', count: 1 }),
      ]);
      expect([done(close), done(rag)].filter(Boolean)).toHaveLength(1);
      expect([close.status, rag.status].toSorted()).toEqual([200, 409]);
      expect(await open(of)).toBe(done(rag));
      const [row] = await shop.sql`select count(*)::int as count from put_in where opening_id = ${of.openingId}`;
      expect(row?.count).toBe(done(rag) ? 1 : 0);
    });
  });

  test('while a piece comes off at another: either it is on the tally and the engine open, or the engine is closed', async () => {
    await races(async ([here, there]) => {
      const of = await opened();
      const [close, off] = await Promise.all([
        here.lead.post(`/api/openings/${of.openingId}/close`, {}),
        there.technician.post(`/api/openings/${of.openingId}/pieces/off`, {
          pieces: [{ byHand: { name: 'dowel' }, count: 2 }],
        }),
      ]);
      expect([close.status, off.status].toSorted()).toEqual([200, 409]);
      expect(await open(of)).toBe(done(off));
    });
  });
});

test('an engine handed back at one service while it is offered at another: either it is offered and here, or gone', async () => {
  await races(async ([here, there]) => {
    const of = await opened();
    expect((await here.lead.post(`/api/openings/${of.openingId}/close`, {})).status).toBe(200);
    const [back, offer] = await Promise.all([
      here.lead.post(`/api/jobs/${of.jobId}/hand-back`, { override: 'The owner fetches it as it is' }),
      there.technician.post(`/api/jobs/${of.jobId}/handovers`, {
        receiverId: shop.people.colleague,
        placeId: shop.bays.rack,
        includeEngine: true,
        trayIds: [],
      }),
    ]);
    expect([done(back), done(offer)].filter(Boolean)).toHaveLength(1);
    const [row] = await shop.sql`
      select j.handed_back_at is not null as gone, (select count(*)::int from handover h where h.job_id = j.id and h.ended_at is null) as offers
      from job j where j.id = ${of.jobId}`;
    expect(row).toEqual({ gone: done(back), offers: done(offer) ? 1 : 0 });
  });
});

describe('who is refused learns no number that they are yet to count', () => {
  test('not by acts on the pieces, not by the closing check, not by the lead’s own move', async () => {
    const of = await offered();
    const { colleague, lead } = shop.as;
    const pieces = `/api/openings/${of.openingId}/pieces`;
    const more = { pieces: [{ pieceId: of.pieceId, count: 999 }], reason: 'Looked twice' };
    const answers = [
      await colleague.post(`${pieces}/fitted`, more),
      await colleague.post(`${pieces}/accounted`, more),
      await colleague.post(`${pieces}/moved`, { ...more, trayId: null }),
      await colleague.post(`${pieces}/found`, more),
      await colleague.post(`${pieces}/possibly-inside`, more),
      await colleague.post(`/api/openings/${of.openingId}/check`, { lines: [of.pieceId] }),
      await lead.post(`/api/engines/${of.engineId}/move`, {
        to: { bayId: shop.bays.rack },
        reason: 'Nadia has gone home',
        trayIds: [of.trayId],
        counts: [{ trayId: of.trayId, pieceId: of.pieceId, counted: 3 }],
      }),
    ];
    for (const { status, body } of answers) {
      expect([403, 409, 422]).toContain(status);
      expect(body.detail).not.toMatch(/\b8\b/);
      expect(JSON.stringify(body.differences ?? null)).not.toMatch(/\b8\b/);
    }
  });
});
