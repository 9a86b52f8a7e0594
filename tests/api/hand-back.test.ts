import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openBench } from '../support/open-bench.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';
import { addLot, addPart, demand, standing } from '../support/stores.ts';

let shop: Shop;
beforeAll(async () => {
  shop = await openShop();
});
afterAll(() => shop.close());

const over = (jobId: string) =>
  shop.as.lead.post(`/api/jobs/${jobId}/hand-back`, { override: 'The owner fetches it as it is' });

describe('handing back over open reasons', () => {
  test('nobody hands back an engine that is on offer; once the offer is withdrawn a lead may', async () => {
    const { jobId, engineId } = await takeIn(shop, { serial: 'H355-710' });
    await shop.as.technician.post(`/api/engines/${engineId}/take`, { bayId: shop.bays.rack, trayIds: [] });
    const offer = await shop.as.technician.post(`/api/jobs/${jobId}/handovers`, {
      receiverId: shop.people.colleague,
      placeId: shop.bays.rack,
      includeEngine: true,
      trayIds: [],
    });
    expect(offer.status).toBe(201);
    const refused = await over(jobId);
    expect(refused).toMatchObject({ status: 409, body: { type: 'urn:crosshatch:problem:not-closed' } });
    expect(refused.body.reasons.map(({ kind }: { kind: string }) => kind)).toContain('handover-offered');
    await shop.as.technician.post(`/api/handovers/${offer.body.id}/withdraw`);
    expect((await over(jobId)).status).toBe(200);
  });

  test('what it still has reserved goes back to stock for others, and its wishes are called off', async () => {
    const { jobId } = await takeIn(shop, { serial: 'H355-711' });
    const part = await addPart(shop.sql);
    const lotId = await addLot(shop, { partId: part.id, quantity: 3 });
    await demand(shop, jobId, [[part.id, 5]]);
    await shop.as.technician.post(`/api/jobs/${jobId}/reservations`, { allOrNothing: false });
    expect(await standing(shop, jobId, part.id)).toMatchObject({ reserved: 3, short: 2 });
    expect((await over(jobId)).status).toBe(200);
    expect(await standing(shop, jobId, part.id)).toMatchObject({ reserved: 0, short: 0, cancelled: 5 });
    const [lot] = await shop.sql`select on_hand, reserved from stock_lot where id = ${lotId}`;
    expect(lot).toEqual({ on_hand: 3, reserved: 0 });
    const [hold] = await shop.sql`select quantity from reservation where lot_id = ${lotId}`;
    expect(hold?.quantity).toBe(0);
    const events = await shop.sql`select data from event where job_id = ${jobId} and kind = 'engine.handed-back'`;
    expect(events.map(({ data }) => data)).toMatchObject([{ calledOff: 5 }]);
  });

  test('a piece closed over in a tray is given back with the engine, written out of its tray with the reason', async () => {
    const bench = await openBench(shop);
    const { body } = await bench.off([
      { byHand: { name: 'gasket', expected: 1 }, count: 1 },
      { byHand: { name: 'bucket', expected: 2, matchedSet: 'intake buckets' }, count: 2 },
    ]);
    expect(body.pieces).toHaveLength(2);
    const closing = await shop.as.lead.post(`/api/openings/${bench.openingId}/close`, {
      override: 'The owner keeps the old ones',
    });
    expect([closing.status, closing.body.detail]).toEqual([200, undefined]);
    const refused = await shop.as.lead.post(`/api/jobs/${bench.jobId}/hand-back`, {});
    expect(refused.body.reasons.map(({ kind }: { kind: string }) => kind)).toContain('tray-not-back');
    const back = await over(bench.jobId);
    expect([back.status, back.body.detail]).toEqual([200, undefined]);
    const pieces = await shop.sql`
      select p.name, p.off, p.accounted, p.with_engine as "withEngine", (select sum(count)::int from piece_in_tray i where i.piece_id = p.id) as "inTrays",
             (select count(*)::int from position_standing s where s.piece_id = p.id and s.laid) as laid
      from piece p where p.opening_id = ${bench.openingId} order by p.name`;
    expect(pieces).toEqual([
      { name: 'bucket', off: 2, accounted: 2, withEngine: 0, inTrays: 0, laid: 0 },
      { name: 'gasket', off: 1, accounted: 1, withEngine: 0, inTrays: 0, laid: 0 },
    ]);
    const [left] = await shop.sql`
      select t.emptied_at is not null as emptied, (select count(*)::int from custody c where c.tray_id = t.id and c.until_at is null) as held
      from tray t where t.id = ${bench.trayId}`;
    expect(left).toEqual({ emptied: true, held: 0 });
    const moves = await shop.sql`
      select m.reason, m.moved_by_id as by from piece_movement m join piece p on p.id = m.piece_id
      where p.opening_id = ${bench.openingId} and m.act = 'accounted'`;
    expect(moves).toEqual(Array(2).fill({ reason: 'The owner fetches it as it is', by: shop.people.lead }));
    const [event] = await shop.sql`
      select data from event where job_id = ${bench.jobId} and kind = 'piece.given-back'`;
    expect(event?.data).toMatchObject({
      pieces: [
        { name: 'gasket', count: 1 },
        { name: 'bucket', count: 2 },
      ],
      reason: 'The owner fetches it as it is',
    });
  });
});
