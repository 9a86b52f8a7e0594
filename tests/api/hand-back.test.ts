import { afterAll, beforeAll, describe, expect, test } from 'vitest';
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
});
