import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { custodyFaults } from '#domain/custody/holding.ts';
import { emptyTrays } from '#features/custody/service.ts';
import { actOn } from '#platform/act.ts';
import type { Client } from '../support/client.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';

let shop: Shop;
let serials = 700;
beforeAll(async () => {
  shop = await openShop();
});
afterAll(() => shop.close());

/** An engine at rest in the rack, opened, with one tray in the technician's hands that holds pieces. */
async function engineWithTray() {
  serials += 1;
  const { jobId, engineId, number } = await takeIn(shop, { serial: `H355-${serials}` });
  const as = shop.as.technician;
  const opening = await as.post(`/api/jobs/${jobId}/openings`);
  const tray = await as.post(`/api/jobs/${jobId}/trays`, { name: 'Dowels' });
  const off = await as.post(`/api/openings/${opening.body.id}/pieces/off`, {
    pieces: [{ byHand: { name: 'dowel' }, count: 8 }],
    trayId: tray.body.id,
  });
  return {
    jobId,
    engineId,
    number,
    openingId: opening.body.id as string,
    trayId: tray.body.id as string,
    label: tray.body.label as string,
    pieceId: off.body.pieces[0].id as string,
  };
}
type Kit = Awaited<ReturnType<typeof engineWithTray>>;
const counted = (of: Kit, number: number) => [{ trayId: of.trayId, pieceId: of.pieceId, counted: number }];
const take = (of: Kit, body: object, as: Client = shop.as.technician) =>
  as.post(`/api/engines/${of.engineId}/take`, { bayId: shop.bays.rack, trayIds: [], ...body });
const leave = (of: Kit, body: object, as: Client = shop.as.technician) =>
  as.post(`/api/engines/${of.engineId}/leave`, { bayId: shop.bays.rack, trayIds: [], ...body });
const obligationsOf = async (of: Kit) => [
  ...(await shop.sql`select words, inside, piece_id, piece_movement_id from obligation where job_id = ${of.jobId}`),
];
async function holderOf(engineId: string): Promise<string> {
  const { body } = await shop.as.clerk.get(`/api/engines/${engineId}/custody?at=${new Date().toISOString()}`);
  return body.items.find(({ subject }: { subject: { kind: string } }) => subject.kind === 'engine').holder.name;
}

/** What the domain finds wrong with the custody of an engine and its trays; nothing, or the rule was broken. */
async function faultsOf(engineId: string) {
  const rows = await shop.sql<
    {
      subject: string;
      person: string | null;
      bay: string | null;
      vendor: string | null;
      place: string | null;
      from: number;
      until: number | null;
    }[]
  >`
    select coalesce(c.engine_id, c.tray_id) as subject, c.person_id as person, c.rest_bay_id as bay, c.vendor_id as vendor,
           c.place_id as place, (extract(epoch from c.from_at) * 1000000)::bigint as from, (extract(epoch from c.until_at) * 1000000)::bigint as until
    from custody c left join tray t on t.id = c.tray_id left join job j on j.id = t.job_id
    where c.engine_id = ${engineId} or j.engine_id = ${engineId}`;
  return [...new Set(rows.map(({ subject }) => subject))].flatMap((subject) =>
    custodyFaults(
      rows
        .filter((row) => row.subject === subject)
        .map(({ person, bay, vendor, place, from, until }) => ({
          subjectId: subject,
          holder:
            person !== null
              ? { kind: 'person' as const, personId: person }
              : bay !== null
                ? { kind: 'bay' as const, bayId: bay }
                : vendor !== null
                  ? { kind: 'vendor' as const, vendorId: vendor }
                  : { kind: 'owner' as const },
          placeBayId: place,
          from,
          until,
        })),
      null,
    ),
  );
}

describe('trays', () => {
  test('a tray is labelled by job and number, and its maker holds it where the engine is', async () => {
    const of = await engineWithTray();
    expect(of.label).toBe(`${of.number}·1`);
    const second = await shop.as.colleague.post(`/api/jobs/${of.jobId}/trays`, {
      name: 'Head',
      alone: true,
      layer: 'head',
    });
    expect(second.body.label).toBe(`${of.number}·2`);
    const { body } = await shop.as.clerk.get(`/api/jobs/${of.jobId}/trays`);
    expect(body.items).toMatchObject([
      { held: { kind: 'person', name: 'Nadia Quill', place: { name: 'Rack' } }, pieces: [{ name: 'dowel', count: 8 }] },
      { alone: true, layer: 'head', held: { name: 'Oskar Pell' }, pieces: [] },
    ]);
    const same = await shop.as.colleague.post(`/api/jobs/${of.jobId}/trays`, { name: 'Head', label: of.label });
    expect(same.status).toBe(409);
    expect((await shop.as.writer.post(`/api/jobs/${of.jobId}/trays`, { name: 'x' })).status).toBe(403);
  });

  test('every tray in use is told with who holds it and where, without a count; an emptied one no more', async () => {
    const of = await engineWithTray();
    const told = async () => {
      const { body } = await shop.as.clerk.get('/api/trays');
      return body.items.find(({ id }: { id: string }) => id === of.trayId);
    };
    expect(await told()).toEqual({
      id: of.trayId,
      label: of.label,
      name: 'Dowels',
      alone: false,
      job: { id: of.jobId, number: of.number },
      engine: { id: of.engineId, serial: expect.stringMatching(/^H355-/) },
      held: expect.objectContaining({
        kind: 'person',
        name: 'Nadia Quill',
        place: { id: shop.bays.rack, name: 'Rack' },
      }),
      offeredIn: null,
    });
    await leave(of, { engine: false, trayIds: [of.trayId], counts: counted(of, 8) });
    expect((await told()).held).toMatchObject({ kind: 'bay', id: shop.bays.rack });
    await shop.sql`update tray set emptied_at = clock_timestamp() where id = ${of.trayId}`;
    expect(await told()).toBeUndefined();
  });
});

describe('taking from a bay and leaving in one', () => {
  test('what rests in a bay is taken, worked on elsewhere and left, each an act without a gap', async () => {
    const of = await engineWithTray();
    expect((await take(of, { toBayId: shop.bays.strip })).status).toBe(200);
    expect(await holderOf(of.engineId)).toBe('Nadia Quill');
    const left = await leave(of, { trayIds: [of.trayId], counts: counted(of, 8) });
    expect(left).toMatchObject({ status: 200, body: { differences: [], obligations: [] } });
    expect(await holderOf(of.engineId)).toBe('Rack');
    expect(await faultsOf(of.engineId)).toEqual([]);
  });

  test('only who holds it leaves it, and what somebody holds is not taken', async () => {
    const of = await engineWithTray();
    await take(of, {});
    expect((await take(of, {}, shop.as.colleague)).body.detail).toContain('held by Nadia Quill now');
    expect((await leave(of, {}, shop.as.colleague)).status).toBe(409);
    expect((await leave(of, {}, shop.as.writer)).status).toBe(403);
    await leave(of, {});
    expect((await take(of, { bayId: shop.bays.measuring })).body.detail).toContain('The engine is at Rack now');
  });

  test('every loose piece of a tray that moves has to be counted', async () => {
    const of = await engineWithTray();
    const refused = await leave(of, { engine: false, trayIds: [of.trayId] });
    expect(refused).toMatchObject({ status: 422, body: { detail: `Count these as well: dowel (tray ${of.label}).` } });
  });

  test('a first count that differs is refused but kept, and opens one obligation about the piece, and only one', async () => {
    const of = await engineWithTray();
    const body = { engine: false, trayIds: [of.trayId], counts: counted(of, 7) };
    const asked = await leave(of, body);
    expect(asked).toMatchObject({
      status: 409,
      body: { differences: [{ piece: 'dowel', given: 8, counted: 7 }], obligations: [expect.any(String)] },
    });
    const words = `Tray ${of.label}: 7 × dowel counted, 8 given`;
    expect(await obligationsOf(of)).toEqual([{ words, inside: true, piece_id: of.pieceId, piece_movement_id: null }]);
    const left = await leave(of, { ...body, withDifference: true });
    expect(left).toMatchObject({ status: 200, body: { differences: [{ counted: 7 }], obligations: [] } });
    const taken = await take(of, { ...body, withDifference: true });
    expect(taken.body).toMatchObject({ differences: [{ counted: 7 }], obligations: [] });
    expect(await obligationsOf(of)).toHaveLength(1);
  });

  test('who keys the number that the refusal told goes on, but the first count stays, and a lead sees both', async () => {
    const of = await engineWithTray();
    const ask = (number: number) => leave(of, { engine: false, trayIds: [of.trayId], counts: counted(of, number) });
    expect((await ask(7)).status).toBe(409);
    expect(await ask(8)).toMatchObject({ status: 200, body: { differences: [], obligations: [] } });
    const listed = (await shop.as.lead.get(`/api/jobs/${of.jobId}/obligations`)).body.items;
    const words = `Tray ${of.label}: 7 × dowel counted, 8 given`;
    expect(listed).toMatchObject([{ words: `${words}; counted again: 8, as given` }]);
    const kept = await shop.sql`
      select act, counted, expected, counted_by_id from moving_count where piece_id = ${of.pieceId} order by counted_at`;
    const of8 = { act: 'leave', expected: 8, counted_by_id: shop.people.technician };
    expect([...kept]).toEqual([
      { ...of8, counted: 7 },
      { ...of8, counted: 8 },
    ]);
    const told = (await shop.as.lead.get(`/api/engines/${of.engineId}/events`)).body.items;
    expect(told.find(({ kind }: { kind: string }) => kind === 'custody.counted')).toMatchObject({
      actor: { name: 'Nadia Quill' },
      data: { act: 'leave', differences: [{ tray: of.label, piece: 'dowel', given: 8, counted: 7 }] },
    });
  });

  test('a refused count moves nothing, and is kept once however often it is sent', async () => {
    const of = await engineWithTray();
    const body = { bayId: shop.bays.rack, trayIds: [of.trayId], engine: false, counts: counted(of, 9) };
    const headers = { 'idempotency-key': crypto.randomUUID() };
    const send = () => shop.as.technician.post(`/api/engines/${of.engineId}/leave`, body, headers);
    const [first, second] = [await send(), await send()];
    expect(first.status).toBe(409);
    const { instance, ...refusal } = first.body;
    expect(second).toMatchObject({ status: 409, body: refusal });
    expect(second.body.instance).not.toBe(instance);
    const [kept] = await shop.sql`select count(*)::int from moving_count where piece_id = ${of.pieceId}`;
    expect(kept).toEqual({ count: 1 });
    const [held] = await shop.sql`select person_id from custody where tray_id = ${of.trayId} and until_at is null`;
    expect(held).toEqual({ person_id: shop.people.technician });
  });

  test('a count that agrees from the first keeps nothing, and what was counted is never changed', async () => {
    const of = await engineWithTray();
    await leave(of, { engine: false, trayIds: [of.trayId], counts: counted(of, 8) });
    expect(await shop.sql`select from moving_count where piece_id = ${of.pieceId}`).toHaveLength(0);
    await take(of, { engine: false, trayIds: [of.trayId], counts: counted(of, 7) });
    await expect(shop.sql`update moving_count set counted = 8 where piece_id = ${of.pieceId}`).rejects.toThrow();
    await expect(shop.sql`delete from moving_count where piece_id = ${of.pieceId}`).rejects.toThrow();
  });

  test('a full bay takes no more, and nothing is moved', async () => {
    const [one, other] = [await engineWithTray(), await engineWithTray()];
    await take(one, { toBayId: shop.bays.strip });
    const full = await take(other, { toBayId: shop.bays.strip });
    expect(full).toMatchObject({ status: 409, body: { type: 'urn:crosshatch:problem:bay-full' } });
    expect(await holderOf(other.engineId)).toBe('Rack');
    await leave(one, {});
  });

  test('of two who take one engine at once one has it', async () => {
    const of = await engineWithTray();
    const answers = await Promise.all([take(of, {}), take(of, {}, shop.as.colleague)]);
    expect(answers.map(({ status }) => status).toSorted()).toEqual([200, 409]);
    expect(await faultsOf(of.engineId)).toEqual([]);
  });

  test('a lead moves what somebody absent holds, with a reason; nobody else does', async () => {
    const of = await engineWithTray();
    await take(of, {});
    const move = {
      to: { personId: shop.people.colleague, bayId: shop.bays.rack },
      reason: 'Nadia is ill',
      trayIds: [],
    };
    expect((await shop.as.colleague.post(`/api/engines/${of.engineId}/move`, move)).status).toBe(403);
    expect((await shop.as.lead.post(`/api/engines/${of.engineId}/move`, { ...move, reason: ' ' })).status).toBe(400);
    const offer = { receiverId: shop.people.lead, placeId: shop.bays.rack, includeEngine: true, trayIds: [] };
    const offered = await shop.as.technician.post(`/api/jobs/${of.jobId}/handovers`, offer);
    expect((await shop.as.lead.post(`/api/engines/${of.engineId}/move`, move)).status).toBe(200);
    expect(await holderOf(of.engineId)).toBe('Oskar Pell');
    const { body } = await shop.as.lead.get(`/api/handovers/${offered.body.id}`);
    expect(body).toMatchObject({ outcome: 'withdrawn', endedReason: 'moved by the lead: Nadia is ill' });
  });

  test('who held what at an instant is known, page by page and at that instant', async () => {
    const of = await engineWithTray();
    const before = new Date().toISOString();
    await take(of, {});
    const while_ = new Date().toISOString();
    await leave(of, {});
    const at = async (instant: string) =>
      (await shop.as.clerk.get(`/api/engines/${of.engineId}/custody?at=${instant}`)).body.items.map(
        ({ subject, holder }: { subject: { kind: string }; holder: { name: string } }) =>
          `${subject.kind}: ${holder.name}`,
      );
    expect((await at(before)).toSorted()).toEqual(['engine: Rack', 'tray: Nadia Quill']);
    expect((await at(while_)).toSorted()).toEqual(['engine: Nadia Quill', 'tray: Nadia Quill']);
    const seen: string[] = [];
    for (let after = ''; ; ) {
      const { body } = await shop.as.clerk.get(`/api/engines/${of.engineId}/custody?limit=1${after}`);
      seen.push(...body.items.map(({ id }: { id: string }) => id));
      if (body.next === null) break;
      after = `&after=${encodeURIComponent(body.next)}`;
    }
    expect(new Set(seen).size).toBe(4);
    expect((await shop.as.clerk.get(`/api/engines/${of.engineId}/custody?after=nonsense`)).status).toBe(400);
  });
});

describe('work done outside', () => {
  const send = (of: Kit, body: object, as: Client = shop.as.technician) =>
    as.post(`/api/jobs/${of.jobId}/outside-work`, {
      subject: { trayId: of.trayId },
      vendorId: shop.vendorId,
      work: 'Replate the bore',
      dueOn: '2099-12-04',
      counts: counted(of, 8),
      ...body,
    });

  test('a tray goes to the vendor, who holds it in none of our bays, and comes back to one', async () => {
    const of = await engineWithTray();
    const sent = await send(of, {});
    expect(sent.status).toBe(201);
    const away = await shop.as.writer.get(`/api/jobs/${of.jobId}/trays`);
    expect(away.body.items[0].held).toMatchObject({ kind: 'vendor', name: 'Saltmere Plating', place: null });
    expect(await shop.sql`select waits_for from job_wait where job_id = ${of.jobId}`).toMatchObject([
      { waits_for: 'outside' },
    ]);
    const back = () =>
      shop.as.colleague.post(`/api/outside-work/${sent.body.id}/back`, {
        bayId: shop.bays.rack,
        counts: counted(of, 8),
      });
    expect((await back()).body).toEqual({ differences: [], obligations: [] });
    expect((await back()).body).toMatchObject({ type: 'urn:crosshatch:problem:already-done' });
    expect((await shop.as.writer.get(`/api/jobs/${of.jobId}/outside-work`)).body.items).toMatchObject([
      { vendor: { name: 'Saltmere Plating' }, dueOn: '2099-12-04', backBy: { name: 'Oskar Pell' } },
    ]);
    expect(await faultsOf(of.engineId)).toEqual([]);
  });

  test('only who holds it sends it out, to a vendor we know, and while it is away its pieces stay as they are', async () => {
    const of = await engineWithTray();
    expect((await send(of, {}, shop.as.colleague)).body.detail).toContain('Nadia Quill has tray');
    expect((await send(of, { vendorId: crypto.randomUUID() })).status).toBe(404);
    expect((await send(of, {}, shop.as.writer)).status).toBe(403);
    await send(of, {});
    expect((await send(of, {})).body.detail).toContain('Saltmere Plating has tray');
    const fit = await shop.as.technician.post(`/api/openings/${of.openingId}/pieces/fitted`, {
      pieces: [{ pieceId: of.pieceId, count: 1 }],
    });
    expect(fit.body.detail).toContain('not in the shop now');
  });

  test('it is due back on a day, today or later: without one, or on a day that is past, nothing goes', async () => {
    const of = await engineWithTray();
    const without = await send(of, { dueOn: undefined });
    expect(without).toMatchObject({ status: 400, body: { errors: [{ pointer: '/dueOn' }] } });
    const [day] = await shop.sql<{ today: string; yesterday: string }[]>`
      select (now() at time zone zone)::date as today, (now() at time zone zone)::date - 1 as yesterday from shop`;
    const past = await send(of, { dueOn: day?.yesterday });
    expect(past).toMatchObject({ status: 422, body: { errors: [{ pointer: '/dueOn' }] } });
    expect(past.body.detail).toBe(
      `Due back ${day?.yesterday} is past: today is ${day?.today}. Say a day from today on.`,
    );
    expect((await shop.as.writer.get(`/api/jobs/${of.jobId}/outside-work`)).body.items).toEqual([]);
    expect((await send(of, { dueOn: day?.today })).status).toBe(201);
  });

  test('the engine itself can go', async () => {
    const of = await engineWithTray();
    const sent = await send(of, { subject: { engine: true }, counts: [] });
    expect(sent.status).toBe(201);
    expect(await holderOf(of.engineId)).toBe('Saltmere Plating');
    expect(
      (await shop.as.technician.post(`/api/outside-work/${sent.body.id}/back`, { bayId: shop.bays.rack })).status,
    ).toBe(200);
    expect(await holderOf(of.engineId)).toBe('Rack');
  });
});

describe('emptying the trays at hand-back', () => {
  const empty = (of: Kit) =>
    shop.sql.begin((transaction) => {
      const person = { id: shop.people.lead, name: 'Maren Tolk', initials: 'MT', roles: ['lead'] as const };
      return emptyTrays(actOn(transaction, { ...person, sessionId: '', terminalId: undefined }), of.jobId);
    });

  test('a tray with a loose piece or at a vendor is not emptied', async () => {
    const of = await engineWithTray();
    await expect(empty(of)).rejects.toThrow(`Tray ${of.label} still holds 8 × dowel.`);
    await shop.as.technician.post(`/api/jobs/${of.jobId}/outside-work`, {
      subject: { trayId: of.trayId },
      vendorId: shop.vendorId,
      work: 'Plate them',
      dueOn: '2099-12-04',
      counts: counted(of, 8),
    });
    await expect(empty(of)).rejects.toThrow('is still at Saltmere Plating');
  });

  test('an empty one is held by nobody from that instant, and takes no more pieces', async () => {
    const of = await engineWithTray();
    const fit = { pieces: [{ pieceId: of.pieceId, count: 8 }] };
    await shop.as.technician.post(`/api/openings/${of.openingId}/pieces/fitted`, fit);
    expect(await empty(of)).toEqual([of.label]);
    const { body } = await shop.as.clerk.get(`/api/jobs/${of.jobId}/trays`);
    expect(body.items).toMatchObject([{ held: null, pieces: [] }]);
    expect(body.items[0].emptiedAt).not.toBeNull();
    const off = { pieces: [{ byHand: { name: 'washer' }, count: 1 }], trayId: of.trayId };
    expect((await shop.as.technician.post(`/api/openings/${of.openingId}/pieces/off`, off)).body.detail).toContain(
      'was emptied',
    );
  });
});
