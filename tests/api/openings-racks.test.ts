import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { ClosingCheck, Rack } from '#contracts/searches.ts';
import { openBench, type TallyBench } from '../support/open-bench.ts';
import { openShop, type Shop } from '../support/shop.ts';

let shop: Shop;
beforeAll(async () => {
  shop = await openShop();
});
afterAll(() => shop.close());

interface RackBench extends TallyBench {
  readonly pieceId: string;
}

const caps = { name: 'cam cap', fromWhere: 'head', matchedSet: 'head and cam caps', expected: 4 };

/** An open engine with four cam caps kept in order, so many of them off. */
async function withCaps(off: number, places?: readonly string[]): Promise<RackBench> {
  const bench = await openBench(shop);
  const said = places === undefined ? {} : { places };
  const { status, body } = await bench.off([{ byHand: caps, count: off, ...said }]);
  expect(status).toBe(200);
  return { ...bench, pieceId: body.pieces[0].id };
}

async function rackOf({ as, openingId }: RackBench): Promise<Rack> {
  const { body } = await as.get(`/api/openings/${openingId}/racks`);
  return body.items[0];
}
const filled = async (bench: RackBench) =>
  (await rackOf(bench)).places.filter((place) => place.filled).map(({ code }) => code);
const fitted = ({ act, pieceId }: RackBench, count: number, places?: readonly string[]) =>
  act('fitted', { pieces: [{ pieceId, count, ...(places === undefined ? {} : { places }) }] });
const say = ({ as, openingId, pieceId }: RackBench, body: object) =>
  as.post(`/api/openings/${openingId}/racks/${pieceId}/places`, body);
const swap = ({ as, openingId, pieceId }: RackBench, body: object) =>
  as.post(`/api/openings/${openingId}/racks/${pieceId}/swap`, body);

describe('a set kept in order', () => {
  test('lies whole in its places as it comes off, each place told by who filled it', async () => {
    const bench = await withCaps(4);
    const rack = await rackOf(bench);
    expect(rack).toMatchObject({
      name: 'cam cap',
      fromWhere: 'head',
      loose: 4,
      lying: [{ tray: { id: bench.trayId } }],
    });
    expect(rack.places).toHaveLength(4);
    expect(rack.places[0]).toMatchObject({
      code: '1',
      filled: true,
      from: '1',
      swapped: null,
      since: { by: { id: shop.people.technician } },
    });
  });

  test('goes back piece by piece, each out of its own place; without its place it is refused', async () => {
    const bench = await withCaps(4);
    const unsaid = await fitted(bench, 1);
    expect(unsaid).toMatchObject({ status: 422, body: { detail: expect.stringContaining('say in places') } });
    expect((await fitted(bench, 2, ['2', '4'])).status).toBe(200);
    expect(await filled(bench)).toEqual(['1', '3']);
    expect((await fitted(bench, 1, ['2'])).body.detail).toContain('nothing lies in place 2');
    expect((await fitted(bench, 1, ['9'])).body.detail).toContain('no place 9');
    expect((await fitted(bench, 2, ['1', '1'])).body.detail).toContain('named twice');
    expect((await fitted(bench, 1, ['1', '3'])).body.detail).toContain('2 places are named for 1');
    expect((await fitted(bench, 2)).status).toBe(200);
    expect(await filled(bench)).toEqual([]);
    const [event] = await bench.events('piece.fitted');
    expect(event?.pieces).toMatchObject([{ count: 2, places: ['2', '4'] }]);
  });

  test('of three that came off, somebody says which places they lie in, and which was empty', async () => {
    const bench = await withCaps(3);
    expect(await filled(bench)).toEqual([]);
    expect((await say(bench, {})).status).toBe(422);
    expect((await say(bench, { filled: ['1', '2', '3', '4'] })).body.detail).toContain('but 3 are loose');
    expect((await say(bench, { filled: ['1', '2', '4'] })).status).toBe(200);
    expect((await say(bench, { filled: ['4'] })).body.detail).toContain('already');
    expect((await say(bench, { filled: ['3'], emptied: ['4'] })).status).toBe(200);
    expect(await filled(bench)).toEqual(['1', '2', '3']);
    const found = { pieces: [{ pieceId: bench.pieceId, count: 1 }], reason: 'under the bench' };
    expect((await bench.act('found', found)).status).toBe(200);
    expect(await filled(bench)).toEqual(['1', '2', '3', '4']);
  });

  test('counted off as none, of a set that lies loose with a place emptied by hand, fills no place', async () => {
    const bench = await withCaps(4);
    expect((await say(bench, { emptied: ['2'] })).status).toBe(200);
    expect((await bench.off([{ pieceId: bench.pieceId, count: 0 }])).status).toBe(200);
    expect(await filled(bench)).toEqual(['1', '3', '4']);
    const laid = { pieces: [{ pieceId: bench.pieceId, count: 0, places: ['2'] }], trayId: bench.trayId };
    const named = await bench.as.post(`/api/openings/${bench.openingId}/pieces/off`, laid);
    expect(named).toMatchObject({
      status: 422,
      body: { detail: expect.stringContaining('1 place is named for 0 pieces') },
    });
  });

  test('can be laid by place as it is counted off', async () => {
    expect(await filled(await withCaps(2, ['2', '3']))).toEqual(['2', '3']);
  });

  test('travels in its order when it is moved to another tray', async () => {
    const bench = await withCaps(4);
    const { body: other } = await bench.as.post(`/api/jobs/${bench.jobId}/trays`, { name: 'Caps' });
    expect((await bench.act('moved', { pieces: [{ pieceId: bench.pieceId }], trayId: other.id })).status).toBe(200);
    expect(await rackOf(bench)).toMatchObject({ lying: [{ tray: { id: other.id } }] });
    expect(await filled(bench)).toHaveLength(4);
  });

  describe('in two trays', () => {
    /** Four caps, those of places 3 and 4 moved into another tray by their places. */
    async function split() {
      const bench = await withCaps(4);
      const { body: other } = await bench.as.post(`/api/jobs/${bench.jobId}/trays`, { name: 'Outer caps' });
      const pieces = [{ pieceId: bench.pieceId, count: 2, places: ['3', '4'] }];
      const moved = await bench.act('moved', { pieces, trayId: other.id });
      expect(moved.status, JSON.stringify(moved.body)).toBe(200);
      return { ...bench, otherId: other.id as string };
    }
    const traysOf = async (bench: RackBench) => (await rackOf(bench)).places.map(({ tray }) => tray?.id ?? null);

    test('each place tells the tray its piece lies in; some of a set are moved by their places only', async () => {
      const bench = await split();
      expect(await traysOf(bench)).toEqual([bench.trayId, bench.trayId, bench.otherId, bench.otherId]);
      expect((await rackOf(bench)).lying.map(({ count }) => count)).toEqual([2, 2]);
      const unsaid = {
        pieces: [{ pieceId: bench.pieceId, count: 1, fromTrayId: bench.trayId }],
        trayId: bench.otherId,
      };
      expect((await bench.act('moved', unsaid)).body.detail).toContain('say in places which of them');
      expect(await traysOf(bench)).toEqual([bench.trayId, bench.trayId, bench.otherId, bench.otherId]);
    });

    test('goes back on by its places, out of whichever tray each lies in, in one act', async () => {
      const bench = await split();
      const wrong = { pieces: [{ pieceId: bench.pieceId, count: 1, places: ['3'], fromTrayId: bench.trayId }] };
      expect((await bench.act('fitted', wrong)).body.detail).toMatch(
        /piece of place 3 lies in tray .+Take it from there/,
      );
      expect((await fitted(bench, 2, ['2', '3'])).status).toBe(200);
      expect(await traysOf(bench)).toEqual([bench.trayId, null, null, bench.otherId]);
      expect((await fitted(bench, 2)).status).toBe(200);
      expect(await rackOf(bench)).toMatchObject({ loose: 0, lying: [] });
    });

    test('what was counted off into two trays lies in no place until somebody says which lie in which', async () => {
      const bench = await withCaps(2);
      const { body: other } = await bench.as.post(`/api/jobs/${bench.jobId}/trays`, { name: 'Outer caps' });
      const { pieceId } = bench;
      expect((await bench.off([{ pieceId, count: 2 }], { trayId: other.id })).status).toBe(200);
      expect(await filled(bench)).toEqual([]);
      expect((await say(bench, { filled: ['1'] })).body.detail).toContain('Say in trayId which of them these are');
      const many = await say(bench, { filled: ['1', '2', '3'], trayId: other.id });
      expect(many.body.detail).toContain('2 of them in no place yet in tray');
      expect((await say(bench, { filled: ['1', '2'], trayId: other.id })).status).toBe(200);
      expect((await say(bench, { filled: ['3', '4'] })).status).toBe(200);
      expect(await traysOf(bench)).toEqual([other.id, other.id, bench.trayId, bench.trayId]);
    });

    test('a swap across trays takes the pieces along', async () => {
      const bench = await split();
      expect((await swap(bench, { one: '1', other: '4', reason: 'marked the other way' })).status).toBe(200);
      const { places } = await rackOf(bench);
      expect(places.map(({ from }) => from)).toEqual(['4', '2', '3', '1']);
      expect(places.map(({ tray }) => tray?.id)).toEqual([bench.trayId, bench.trayId, bench.otherId, bench.otherId]);
    });

    test('the closing check tells which trays its loose pieces lie in, and from which places', async () => {
      const bench = await split();
      await fitted(bench, 1, ['1']);
      await swap(bench, { one: '3', other: '1', reason: 'marked otherwise' });
      const { body }: { body: ClosingCheck } = await bench.as.get(`/api/openings/${bench.openingId}/check`);
      expect(body.lines[0]?.lying).toMatchObject([
        { tray: { id: bench.trayId }, count: 1, places: ['2'] },
        { tray: { id: bench.otherId }, count: 2, places: ['1', '4'] },
      ]);
      await fitted(bench, 3);
      const after = await bench.as.get(`/api/openings/${bench.openingId}/check`);
      expect(after.body.lines[0].lying).toEqual([]);
    });

    test('a handover of one of the trays names the other, and tells places only once it is counted', async () => {
      const bench = await split();
      const offer = { receiverId: shop.people.colleague, placeId: shop.bays.rack, includeEngine: false };
      const { body: offered } = await bench.as.post(`/api/jobs/${bench.jobId}/handovers`, {
        ...offer,
        trayIds: [bench.otherId],
      });
      const path = `/api/handovers/${offered.id}`;
      const lineTo = async (as: TallyBench['as']) => (await as.get(path)).body.trays[0].lines[0];
      const alsoIn = [{ tray: { id: bench.trayId } }];
      const line = await lineTo(shop.as.colleague);
      expect(line).toMatchObject({ given: null, places: null, alsoIn });
      expect(await lineTo(bench.as)).toMatchObject({ given: 2, places: ['3', '4'], alsoIn });
      const check: { body: ClosingCheck } = await shop.as.colleague.get(`/api/openings/${bench.openingId}/check`);
      expect(check.body.lines[0]).toMatchObject({ words: null });
      expect(check.body.lines[0]?.lying).toMatchObject([
        { tray: { id: bench.trayId }, count: null, places: null },
        { tray: { id: bench.otherId }, count: null, places: null },
      ]);
      const counted = { lines: [{ lineId: line.lineId, counted: 2 }] };
      const answer = await shop.as.colleague.post(`${path}/trays/${bench.otherId}/count`, counted);
      expect(answer.body.lines[0]).toMatchObject({ given: 2, places: ['3', '4'], alsoIn });
      expect((await shop.as.colleague.post(`${path}/accept`)).status).toBe(200);
      // Later the rest goes back on: the sheet still tells how it lay when it was offered.
      await fitted(bench, 2, ['1', '2']);
      expect(await lineTo(shop.as.colleague)).toMatchObject({ places: ['3', '4'], alsoIn });
      const again = { ...offer, receiverId: shop.people.technician, trayIds: [bench.otherId] };
      await shop.as.colleague.post(`/api/jobs/${bench.jobId}/handovers`, again);
      expect(await lineTo(bench.as)).toMatchObject({ given: null, places: null });
    });

    test('two people taking the last of one tray at once: one has it, and no place is filled that nothing lies in', async () => {
      const bench = await split();
      await fitted(bench, 1, ['1']);
      const take = (as: TallyBench['as']) =>
        as.post(`/api/openings/${bench.openingId}/pieces/moved`, {
          pieces: [{ pieceId: bench.pieceId, count: 1, places: ['2'] }],
          trayId: bench.otherId,
        });
      const answers = await Promise.all([take(shop.as.technician), take(shop.as.colleague)]);
      expect(answers.map(({ status }) => status).sort()).not.toEqual([200, 200]);
      expect(await traysOf(bench)).toEqual([null, bench.otherId, bench.otherId, bench.otherId]);
    });

    test('the database keeps more places from being filled in a tray than pieces lie in it', async () => {
      const bench = await split();
      const laid = shop.sql`
        insert into position_fill (id, piece_id, code, laid, tray_id, filled_by_id)
        values (${crypto.randomUUID()}, ${bench.pieceId}, '3', true, ${bench.trayId}, ${shop.people.technician})`;
      await expect(laid).rejects.toMatchObject({ code: 'CH002' });
    });
  });

  test('a swap needs two places and a reason, shows in both, and takes the closing tick away', async () => {
    const bench = await withCaps(4);
    await fitted(bench, 4);
    const line = `/api/openings/${bench.openingId}/check`;
    expect((await shop.as.colleague.post(line, { lines: [bench.pieceId] })).status).toBe(200);
    expect((await swap(bench, { one: '1', other: '1', reason: 'no' })).status).toBe(422);
    expect((await swap(bench, { one: '1', other: '7', reason: 'no' })).status).toBe(404);
    expect((await swap(bench, { one: '1', other: '2', reason: ' ' })).status).toBe(400);
    expect((await swap(bench, { one: '1', other: '2', reason: 'marked the other way' })).status).toBe(200);
    const { places } = await rackOf(bench);
    expect(places.map(({ from }) => from)).toEqual(['2', '1', '3', '4']);
    expect(places[0]?.swapped).toMatchObject({ reason: 'marked the other way', by: { id: shop.people.technician } });
    const { body }: { body: ClosingCheck } = await bench.as.get(line);
    expect(body.lines[0]).toMatchObject({ ticked: null, words: '4 back on, places changed: 1 from 2, 2 from 1' });
  });

  describe('is checked by somebody who did not work on it', () => {
    const tick = ({ openingId, pieceId }: RackBench, as: TallyBench['as']) =>
      as.post(`/api/openings/${openingId}/check`, { lines: [pieceId] });
    const asColleague = (bench: RackBench): RackBench => ({ ...bench, as: shop.as.colleague });
    const refusedAsOwn = { status: 403, body: { detail: expect.stringContaining('you worked on it yourself') } };

    test('who only swapped two of them does not tick it, and is told beside who put them back', async () => {
      const bench = await withCaps(4);
      expect((await swap(asColleague(bench), { one: '1', other: '2', reason: 'marked otherwise' })).status).toBe(200);
      await fitted(bench, 4);
      expect(await tick(bench, shop.as.colleague)).toMatchObject(refusedAsOwn);
      expect(await tick(bench, shop.as.technician)).toMatchObject(refusedAsOwn);
      const { body }: { body: ClosingCheck } = await bench.as.get(`/api/openings/${bench.openingId}/check`);
      expect(body.lines[0]?.doneBy.map(({ id }) => id).toSorted()).toEqual(
        [shop.people.technician, shop.people.colleague].toSorted(),
      );
      expect((await tick(bench, shop.as.lead)).status).toBe(200);
    });

    test('nor does who only said which places are filled, or empty', async () => {
      for (const said of [{ filled: ['3'] }, { emptied: ['1'] }]) {
        const bench = await withCaps(3, ['1', '2']);
        expect((await say(asColleague(bench), said)).status).toBe(200);
        await fitted(bench, 3);
        await bench.act('never-there', { pieces: [{ pieceId: bench.pieceId, count: 1 }], reason: 'came without it' });
        expect(await tick(bench, shop.as.colleague)).toMatchObject(refusedAsOwn);
        expect((await tick(bench, shop.as.lead)).status).toBe(200);
      }
    });

    test('who counted them off into their places, or moved them to another tray, may tick it', async () => {
      const bench = await withCaps(4);
      const { body: other } = await bench.as.post(`/api/jobs/${bench.jobId}/trays`, { name: 'Caps' });
      const back = asColleague(bench);
      await bench.act('moved', { pieces: [{ pieceId: bench.pieceId }], trayId: other.id });
      const put = `/api/openings/${bench.openingId}/pieces/fitted`;
      expect((await back.as.post(put, { pieces: [{ pieceId: bench.pieceId, count: 4 }] })).status).toBe(200);
      expect((await tick(bench, shop.as.technician)).status).toBe(200);
    });

    test('the database itself refuses the tick of who only swapped', async () => {
      const bench = await withCaps(4);
      await swap(asColleague(bench), { one: '1', other: '2', reason: 'marked otherwise' });
      const own = shop.sql`
        insert into closing_check (id, opening_id, piece_id, checked_by_id)
        values (${crypto.randomUUID()}, ${bench.openingId}, ${bench.pieceId}, ${shop.people.colleague})`;
      await expect(own).rejects.toMatchObject({ code: 'CH008' });
    });
  });

  test('nobody without the bench touches it; a line that is not kept in order has no places', async () => {
    const bench = await withCaps(4);
    const path = `/api/openings/${bench.openingId}/racks/${bench.pieceId}`;
    expect((await shop.as.writer.post(`${path}/places`, { emptied: ['1'] })).status).toBe(403);
    expect((await shop.as.writer.post(`${path}/swap`, { one: '1', other: '2', reason: 'so' })).status).toBe(403);
    const { body } = await bench.off([{ byHand: { name: 'stud', expected: 2 }, count: 2 }]);
    const [stud] = body.pieces;
    const named = await bench.act('fitted', { pieces: [{ pieceId: stud.id, count: 1, places: ['1'] }] });
    expect(named).toMatchObject({ status: 422, body: { detail: expect.stringContaining('not kept in order') } });
    const other = await openBench(shop);
    expect((await swap({ ...bench, openingId: other.openingId }, { one: '1', other: '2', reason: 'so' })).status).toBe(
      404,
    );
  });

  test('nothing of it is told or changed while its tray waits for a blind count', async () => {
    const bench = await withCaps(3, ['1', '2', '4']);
    const offered = await bench.as.post(`/api/jobs/${bench.jobId}/handovers`, {
      receiverId: shop.people.colleague,
      placeId: shop.bays.rack,
      includeEngine: false,
      trayIds: [bench.trayId],
    });
    expect(offered.status, JSON.stringify(offered.body)).toBe(201);
    const { body } = await shop.as.colleague.get(`/api/openings/${bench.openingId}/racks`);
    expect(body.items[0]).toMatchObject({ loose: null });
    expect(body.items[0].places.map((place: { filled: unknown }) => place.filled)).toEqual([null, null, null, null]);
    expect((await say(bench, { emptied: ['1'] })).status).toBe(409);
    expect((await swap(bench, { one: '1', other: '2', reason: 'so' })).status).toBe(409);
    const happened = await shop.as.colleague.get(`/api/engines/${bench.engineId}/events`);
    expect(JSON.stringify(happened.body)).not.toContain('"places"');
  });

  test('what was said of its places before is not told either to who counts it blind', async () => {
    const bench = await withCaps(3);
    expect((await say(bench, { filled: ['1', '2', '4'] })).status).toBe(200);
    expect((await say(bench, { emptied: ['4'], filled: ['3'] })).status).toBe(200);
    const offered = await bench.as.post(`/api/jobs/${bench.jobId}/handovers`, {
      receiverId: shop.people.colleague,
      placeId: shop.bays.rack,
      includeEngine: false,
      trayIds: [bench.trayId],
    });
    expect(offered.status).toBe(201);
    const read = async (as: TallyBench['as']) => {
      const { body } = await as.get(`/api/engines/${bench.engineId}/events`);
      return JSON.stringify(body.items.filter(({ kind }: { kind: string }) => kind === 'rack.filled'));
    };
    expect(await read(shop.as.technician)).toContain('"filled":["1","2","4"]');
    const told = await read(shop.as.colleague);
    expect(told).toContain('cam cap');
    expect(told).not.toMatch(/"(filled|emptied)"/);
  });

  test('two people laying into one place at once: one has it, the other is told that a piece lies there', async () => {
    const bench = await withCaps(3);
    const lay = (as: TallyBench['as']) =>
      as.post(`/api/openings/${bench.openingId}/racks/${bench.pieceId}/places`, { filled: ['3'] });
    const answers = await Promise.all([lay(shop.as.technician), lay(shop.as.colleague), lay(shop.as.lead)]);
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 422, 422]);
    expect(await filled(bench)).toEqual(['3']);
    const [row] = await shop.sql<{ count: number }[]>`
      select count(*)::int as count from position_fill where piece_id = ${bench.pieceId}`;
    expect(row?.count).toBe(1);
  });

  test('two people swapping with one place at once: one after the other, and every piece still has a place of its own', async () => {
    const bench = await withCaps(4);
    const [here, there] = [bench, { ...bench, as: shop.as.colleague }];
    const answers = await Promise.all([
      swap(here, { one: '1', other: '2', reason: 'marked the other way' }),
      swap(there, { one: '2', other: '3', reason: 'marked the other way' }),
    ]);
    expect(answers.map(({ status }) => status)).toEqual([200, 200]);
    const { places } = await rackOf(bench);
    expect(places.map(({ from }) => from).toSorted()).toEqual(['1', '2', '3', '4']);
    expect(places.filter(({ swapped }) => swapped !== null)).toHaveLength(3);
  });

  test('two people taking from one place at once: one has it, the other is told it is empty', async () => {
    const bench = await withCaps(4);
    const take = (as: TallyBench['as']) =>
      as.post(`/api/openings/${bench.openingId}/pieces/fitted`, {
        pieces: [{ pieceId: bench.pieceId, count: 1, places: ['3'] }],
      });
    const answers = await Promise.all([take(shop.as.technician), take(shop.as.colleague)]);
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 422]);
    expect(await rackOf(bench)).toMatchObject({ loose: 3 });
    expect(await filled(bench)).toEqual(['1', '2', '4']);
  });

  test('the database keeps more places from being filled than pieces are loose', async () => {
    const bench = await withCaps(2, ['1', '2']);
    const laid = shop.sql`
      insert into position_fill (id, piece_id, code, laid, filled_by_id)
      values (${crypto.randomUUID()}, ${bench.pieceId}, '3', true, ${shop.people.technician})`;
    await expect(laid).rejects.toMatchObject({ code: 'CH002' });
    const nowhere = shop.sql`
      insert into position_fill (id, piece_id, code, laid, filled_by_id)
      values (${crypto.randomUUID()}, ${bench.pieceId}, '9', true, ${shop.people.technician})`;
    await expect(nowhere).rejects.toMatchObject({ code: 'CH002' });
  });
});
