import { afterAll, describe, expect, test } from 'vitest';
import type { People } from '#contracts/people.ts';
import { newId } from '#platform/act.ts';
import { openShop, takeIn } from '../support/shop.ts';

const shop = await openShop();
afterAll(shop.close);
const { lead, technician, colleague } = shop.as;

const everybody = async (): Promise<People['items']> => (await lead.get('/api/people')).body.items;
const signIn = async (personId: string, pin: string) =>
  (await shop.app.inject({ method: 'POST', url: '/api/session', payload: { personId, pin } })).statusCode;
const runa = { name: ' Runa Solheim ', initials: 'RS', roles: ['technician'], pin: '730591' };

describe('people', () => {
  test('join with roles and a PIN, and sign in from then on', async () => {
    const { status, body } = await lead.post('/api/people', runa);
    expect(status).toBe(201);
    expect((await everybody()).find(({ id }) => id === body.id)).toMatchObject({
      name: 'Runa Solheim',
      roles: ['technician'],
      holds: 0,
      leftAt: null,
    });
    expect(await signIn(body.id, runa.pin)).toBe(200);
  });

  test('are set up by the lead alone', async () => {
    expect((await technician.get('/api/people')).status).toBe(403);
    expect((await technician.post('/api/people', { ...runa, initials: 'RX' })).status).toBe(403);
  });

  test.each([
    ['a PIN of one digit over and over', { pin: '7777' }, '/pin'],
    ['a PIN that runs up', { pin: '3456' }, '/pin'],
    ['a PIN that runs down', { pin: '9876' }, '/pin'],
    ['a PIN of three digits', { pin: '739' }, '/pin'],
    ['no role', { roles: [] }, '/roles'],
    ['a role nobody has', { roles: ['owner'] }, '/roles/0'],
    ['initials of five letters', { initials: 'RUNAS' }, '/initials'],
    ['a name of spaces', { name: '  ' }, '/name'],
  ])('%s is refused at its field', async (_, change, pointer) => {
    const { status, body } = await lead.post('/api/people', { ...runa, initials: 'RY', ...change });
    expect([400, 422]).toContain(status);
    expect(body.errors.map((fault: { pointer: string }) => fault.pointer)).toContain(pointer);
    expect((await everybody()).some(({ initials }) => initials === 'RY')).toBe(false);
  });

  test('initials stand beside each reading, so two never have the same', async () => {
    const { status, body } = await lead.post('/api/people', { ...runa, initials: 'NQ' });
    expect(status).toBe(409);
    expect(body.detail).toContain('initials');
  });

  test('no PIN is in the event, the key’s row or any reply', async () => {
    const key = newId();
    await lead.post('/api/people', { ...runa, initials: 'RZ' }, { 'idempotency-key': key });
    const again = await lead.post('/api/people', { ...runa, initials: 'RZ', pin: '1470' }, { 'idempotency-key': key });
    expect(again.status).toBe(201);
    const kept =
      await shop.sql`select data::text as words from event union all select reply::text from idempotency_key`;
    expect(JSON.stringify(kept)).not.toContain(runa.pin);
  });
});

describe('a PIN', () => {
  test('given by the lead ends every session of that person and opens at once', async () => {
    const { body } = await lead.post('/api/people', { ...runa, initials: 'R1' });
    for (let wrong = 0; wrong < 5; wrong += 1) expect(await signIn(body.id, '000111')).toBe(401);
    expect(await signIn(body.id, runa.pin)).toBe(429);
    expect((await lead.post(`/api/people/${body.id}/pin`, { pin: '48213' })).status).toBe(200);
    expect(await signIn(body.id, runa.pin)).toBe(401);
    expect(await signIn(body.id, '48213')).toBe(200);
    expect((await lead.post(`/api/people/${body.id}/pin`, { pin: '59324' })).status).toBe(200);
    expect((await everybody()).find(({ id }) => id === body.id)?.signedIn).toBe(0);
  });

  test('is changed by whoever knows it, and by nobody else', async () => {
    const { body: person } = await lead.post('/api/people', { ...runa, initials: 'R2' });
    const session = await shop.app.inject({
      method: 'POST',
      url: '/api/session',
      payload: { personId: person.id, pin: runa.pin },
    });
    const change = (pin: string, newPin: string) =>
      shop.app.inject({
        method: 'POST',
        url: '/api/session/pin',
        payload: { pin, newPin },
        cookies: Object.fromEntries(session.cookies.map(({ name, value }) => [name, value])),
        headers: { 'idempotency-key': newId() },
      });
    const wrong = await change('111222', '8642');
    expect([wrong.statusCode, wrong.json().errors[0].pointer]).toEqual([422, '/pin']);
    expect((await change(runa.pin, '1111')).json().errors[0].pointer).toBe('/newPin');
    expect((await change(runa.pin, '8642')).statusCode).toBe(200);
    expect(await signIn(person.id, '8642')).toBe(200);
  });
});

describe('leaving', () => {
  test('with an engine in hand is refused, and afterwards nothing can be taken', async () => {
    const { engineId } = await takeIn(shop, { serial: 'L-1' });
    const take = { bayId: shop.bays.rack, trayIds: [] };
    expect((await colleague.post(`/api/engines/${engineId}/take`, take)).status).toBe(200);
    const held = await lead.post(`/api/people/${shop.people.colleague}/leave`);
    expect([held.status, held.body.detail]).toEqual([
      422,
      'Oskar Pell still holds 1 engines or trays: have them handed over first.',
    ]);
    expect((await colleague.post(`/api/engines/${engineId}/leave`, take)).status).toBe(200);
    expect((await lead.post(`/api/people/${shop.people.colleague}/leave`)).status).toBe(200);
    expect((await colleague.get('/api/floor')).status).toBe(401);
    await expect(
      shop.sql`insert into custody (id, engine_id, person_id, place_id, from_at, moved_by_id)
               select ${newId()}, engine_id, ${shop.people.colleague}, place_id, until_at, moved_by_id from custody
               where engine_id = ${engineId} and until_at is not null limit 1`,
    ).rejects.toThrow('has left the shop');
    expect((await lead.post(`/api/people/${shop.people.colleague}/come-back`)).status).toBe(200);
    expect((await everybody()).find(({ id }) => id === shop.people.colleague)?.leftAt).toBeNull();
  });

  test('the last lead stays lead, also when two try at once', async () => {
    expect((await lead.post(`/api/people/${shop.people.lead}/leave`)).status).toBe(422);
    const { status, body } = await lead.patch(`/api/people/${shop.people.lead}`, { roles: ['technician'] });
    expect([status, body.detail]).toEqual([422, 'The shop needs a lead: make somebody else lead first.']);
    const second = await lead.post('/api/people', { ...runa, initials: 'R3', roles: ['lead'] });
    const answers = await Promise.all(
      [shop.people.lead, second.body.id].map((id) => lead.patch(`/api/people/${id}`, { roles: ['technician'] })),
    );
    expect(answers.filter((answer) => answer.status === 200)).toHaveLength(1);
    const leads = (await shop.sql`select from person_role where role = 'lead'`).length;
    expect(leads).toBeGreaterThanOrEqual(1);
  });
});
