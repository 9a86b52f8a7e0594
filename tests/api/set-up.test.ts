import { afterAll, describe, expect, test } from 'vitest';
import type { ShopFacts } from '#contracts/shop.ts';
import { openShop, takeIn } from '../support/shop.ts';

const shop = await openShop();
afterAll(shop.close);
const { lead, writer } = shop.as;
const facts = async (): Promise<ShopFacts> => (await lead.get('/api/shop')).body;

describe('a bay', () => {
  test('is renamed and moved, but never onto another’s cells nor below what stands in it', async () => {
    const { body } = await lead.post('/api/bays', {
      name: 'Bay 9',
      kind: 'rack',
      capacity: 2,
      grid: { column: 9, row: 9 },
    });
    expect((await lead.patch(`/api/bays/${body.id}`, { name: 'Cold rack' })).status).toBe(200);
    expect((await facts()).bays.find(({ id }) => id === body.id)).toMatchObject({ name: 'Cold rack', capacity: 2 });
    const onto = await lead.patch(`/api/bays/${body.id}`, { grid: { column: 1, row: 1 } });
    expect([onto.status, onto.body.errors[0].pointer]).toEqual([409, '/grid']);
    expect((await lead.patch(`/api/bays/${body.id}`, { grid: { column: 9, row: 9, width: 2 } })).status).toBe(200);
    await takeIn(shop, { serial: 'S-1' });
    await takeIn(shop, { serial: 'S-2' });
    const narrow = await lead.patch(`/api/bays/${shop.bays.rack}`, { capacity: 1 });
    expect([narrow.status, narrow.body.errors[0].pointer]).toEqual([422, '/capacity']);
  });

  test('is given up empty only, and is then no longer on the floor', async () => {
    const full = await lead.post(`/api/bays/${shop.bays.rack}/give-up`);
    expect([full.status, full.body.detail]).toEqual([422, 'Rack is not empty: move what stands in it first.']);
    expect((await lead.post(`/api/bays/${shop.bays.assembly}/give-up`)).status).toBe(200);
    expect((await facts()).bays.map(({ name }) => name)).not.toContain('Bay 3');
    expect((await lead.patch(`/api/bays/${shop.bays.assembly}`, { capacity: 2 })).status).toBe(404);
  });
});

describe('a terminal', () => {
  test('is added, changed and given up; the session tells when it taps out', async () => {
    const { status, body } = await lead.post('/api/terminals', {
      name: 'Wash corner',
      bayId: shop.bays.strip,
      idleMinutes: 10,
    });
    expect(status).toBe(201);
    expect((await lead.patch(`/api/terminals/${body.id}`, { idleMinutes: null })).status).toBe(200);
    expect((await facts()).terminals).toEqual([
      { id: body.id, name: 'Wash corner', bay: { id: shop.bays.strip, name: 'Bay 1' }, idleMinutes: null },
    ]);
    expect((await lead.post('/api/terminals', { name: 'X', bayId: null, idleMinutes: 0 })).status).toBe(400);
    expect((await lead.post(`/api/terminals/${body.id}/give-up`)).status).toBe(200);
    expect((await facts()).terminals).toEqual([]);
  });
});

describe('a vendor and the shop', () => {
  test('a vendor is changed, and given up while it holds nothing of ours', async () => {
    expect((await lead.patch(`/api/vendors/${shop.vendorId}`, { contact: 'before four' })).status).toBe(200);
    expect((await facts()).vendors[0]).toMatchObject({ name: 'Saltmere Plating', contact: 'before four' });
    expect((await lead.post(`/api/vendors/${shop.vendorId}/give-up`)).status).toBe(200);
    expect((await facts()).vendors).toEqual([]);
  });

  test('the shop’s name, zone and language are checked and kept', async () => {
    expect((await lead.patch('/api/shop', { name: 'Quarry Lane', zone: 'Europe/Lisbon', locale: 'de' })).status).toBe(
      200,
    );
    expect(await facts()).toMatchObject({ name: 'Quarry Lane', zone: 'Europe/Lisbon', locale: 'de', currency: 'EUR' });
    const { status, body } = await lead.patch('/api/shop', { zone: 'Europe/Nowhere' });
    expect([status, body.errors[0].pointer]).toEqual([400, '/zone']);
    expect((await lead.patch('/api/shop', {})).status).toBe(400);
    expect((await writer.patch('/api/shop', { name: 'Mine' })).status).toBe(403);
  });
});
