import { afterAll, describe, expect, test } from 'vitest';
import type { ShopFacts } from '#contracts/shop.ts';
import { newId } from '#platform/act.ts';
import { openShop } from '../support/shop.ts';

const shop = await openShop();
afterAll(shop.close);
const { sql } = shop;
const { lead, writer, technician, clerk } = shop.as;

const facts = async (): Promise<ShopFacts> => {
  const { status, body } = await technician.get('/api/shop');
  expect(status).toBe(200);
  return body;
};

describe('the shop', () => {
  test('tells its bays, people with their roles, vendors and families', async () => {
    const seen = await facts();
    expect(seen).toMatchObject({ name: 'Quarry Lane Engines', currency: 'EUR', zone: 'Europe/Oslo' });
    expect(seen.bays.map(({ name }) => name)).toEqual(['Bay 1', 'Bay 2', 'Bay 3', 'Rack']);
    expect(seen.people.find(({ initials }) => initials === 'NQ')).toMatchObject({ roles: ['technician'] });
    expect(seen.vendors).toMatchObject([{ name: 'Saltmere Plating', trade: 'plating' }]);
    expect(seen.families).toContainEqual(expect.objectContaining({ code: 'H355', revision: 1 }));
    expect(JSON.stringify(seen)).not.toContain('PIN');
  });

  test('names no one who has left', async () => {
    await sql`insert into person (id, name, initials, pin_hash, left_at) values (${newId()}, 'Long Gone', 'LG', 'x', clock_timestamp())`;
    expect((await facts()).people.map(({ name }) => name)).not.toContain('Long Gone');
  });
});

describe('setting up', () => {
  const bay = (name: string, column: number) => ({
    name,
    kind: 'machining',
    capacity: 1,
    grid: { column, row: 5, width: 2 },
  });

  test('a bay stands on the floor from then on', async () => {
    const { status, body } = await lead.post('/api/bays', bay('Bay 6', 1));
    expect(status).toBe(201);
    const { body: floor } = await technician.get('/api/floor');
    expect(floor.bays).toContainEqual(
      expect.objectContaining({ id: body.id, grid: { column: 1, row: 5, width: 2, height: 1 }, engineIds: [] }),
    );
  });

  test('a bay on another’s cells is refused; two at once get one place between them', async () => {
    const answers = await Promise.all([
      lead.post('/api/bays', bay('Bay 7', 5)),
      lead.post('/api/bays', bay('Bay 8', 6)),
    ]);
    expect(answers.map(({ status }) => status).toSorted()).toEqual([201, 409]);
  });

  test('a name that is there already is refused', async () => {
    expect((await lead.post('/api/bays', bay('Bay 1', 20))).status).toBe(409);
    expect((await lead.post('/api/vendors', { name: 'Saltmere Plating', trade: 'boring' })).status).toBe(409);
  });

  test('is the lead’s; owners are the counter’s too', async () => {
    expect((await writer.post('/api/bays', bay('Bay 9', 30))).status).toBe(403);
    expect((await clerk.post('/api/vendors', { name: 'Ironhall Boring', trade: 'boring' })).status).toBe(403);
    expect((await technician.post('/api/owners', { name: 'Somebody' })).status).toBe(403);
    expect((await writer.post('/api/owners', { name: 'Somebody' })).status).toBe(201);
    expect((await lead.post('/api/vendors', { name: 'Ironhall Boring', trade: 'boring' })).status).toBe(201);
    expect((await writer.get('/api/owners?search=someb')).body.items).toMatchObject([{ name: 'Somebody' }]);
    expect((await facts()).vendors.map(({ name }) => name)).toContain('Ironhall Boring');
  });
});
