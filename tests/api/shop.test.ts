import { afterAll, describe, expect, test } from 'vitest';
import type { InstrumentFacts, ShopFacts } from '#contracts/shop.ts';
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

describe('an instrument', () => {
  let number = 0;
  const gauge = async (of: { due?: number; retired?: boolean } = {}) => {
    number += 1;
    const id = newId();
    await sql`
      insert into instrument (id, code, name, instrument_kind, kind, unit, decimals, range_low, range_high, resolution, mpe,
        calibration_due_on, retired_at)
      values (${id}, ${`BG-${number}`}, 'Bore gauge', 'dial bore gauge', 'length', 'mm', 3, 50000000, 160000000, 1000, 3000,
        (clock_timestamp() at time zone 'Europe/Oslo')::date + ${of.due ?? null}::int, ${of.retired ? new Date() : null})`;
    return id;
  };
  const seen = async (id: string): Promise<InstrumentFacts | undefined> =>
    (await technician.get('/api/instruments')).body.items.find((one: InstrumentFacts) => one.id === id);
  const check = { zeroError: { value: '0.0785', unit: 'thou' }, master: 'ring 88.000' };

  test('is in date until its day is past', async () => {
    const states = await Promise.all([
      gauge({ due: 31 }),
      gauge({ due: 30 }),
      gauge({ due: 0 }),
      gauge({ due: -1 }),
      gauge(),
    ]);
    const found = await Promise.all(states.map(async (id) => (await seen(id))?.calibration));
    expect(found).toEqual(['in date', 'due soon', 'due soon', 'overdue', 'no date']);
    expect((await facts()).instruments.map(({ calibration }) => calibration)).toEqual(found);
  });

  test('shows today’s check, in its own unit whatever was keyed', async () => {
    const id = await gauge();
    expect(await seen(id)).toMatchObject({
      lastCheck: null,
      checkedToday: false,
      mpe: { value: '0.0030', unit: 'mm' },
    });
    const { status, body } = await technician.post(`/api/instruments/${id}/checks`, check);
    expect(status).toBe(201);
    expect(body).toMatchObject({ zeroError: { value: '0.0020', unit: 'mm' }, checkedBy: { name: 'Nadia Quill' } });
    expect(await seen(id)).toMatchObject({ lastCheck: { id: body.id, master: 'ring 88.000' }, checkedToday: true });
    // 0.0785 thou is 1 993.9 nm.
    expect(await sql`select zero_error from instrument_check where id = ${body.id}`).toMatchObject([
      { zero_error: 1994 },
    ]);
  });

  test('checked yesterday is not checked today', async () => {
    const id = await gauge();
    await sql`
      insert into instrument_check (id, instrument_id, zero_error, checked_by_id, checked_at)
      values (${newId()}, ${id}, 1000, ${shop.people.technician}, clock_timestamp() - interval '24 hours')`;
    expect(await seen(id)).toMatchObject({ checkedToday: false, lastCheck: { zeroError: { value: '0.0010' } } });
  });

  test('refuses a zero error in N·m, one beyond its range, and one that is no number', async () => {
    const id = await gauge();
    const zero = (value: string, unit: string) =>
      technician.post(`/api/instruments/${id}/checks`, { zeroError: { value, unit } });
    expect((await zero('0.002', 'N.m')).body).toMatchObject({ type: 'urn:crosshatch:problem:unit-wrong', status: 422 });
    expect((await zero('200', 'mm')).body).toMatchObject({ type: 'urn:crosshatch:problem:implausible' });
    expect((await zero('a hair', 'mm')).status).toBe(400);
    expect((await seen(id))?.lastCheck).toBeNull();
  });

  test('out of use is neither listed nor checked, and a clerk checks none', async () => {
    const id = await gauge({ retired: true });
    expect(await seen(id)).toBeUndefined();
    expect((await technician.post(`/api/instruments/${id}/checks`, check)).status).toBe(409);
    expect((await clerk.post(`/api/instruments/${await gauge()}/checks`, check)).status).toBe(403);
    expect((await technician.post(`/api/instruments/${newId()}/checks`, check)).status).toBe(404);
  });
});
