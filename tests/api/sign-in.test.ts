import { hash } from '@node-rs/argon2';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { SESSION_COOKIE } from '#platform/identity/sessions.ts';
import { openShop, type Shop } from '../support/shop.ts';

let shop: Shop;
beforeAll(async () => {
  shop = await openShop();
  await shop.sql`update person set pin_hash = ${await hash('2468')} where id in ${shop.sql([shop.people.technician, shop.people.colleague])}`;
});
afterAll(() => shop.close());

const signIn = (personId: string, pin: string) =>
  shop.app.inject({ method: 'POST', url: '/api/session', payload: { personId, pin } });
const sessionOf = (token: string) => shop.app.inject({ url: '/api/session', cookies: { [SESSION_COOKIE]: token } });

describe('signing in', () => {
  test('by name and PIN sets a cookie that scripts and other sites do not get', async () => {
    const reply = await signIn(shop.people.technician, '2468');
    expect(reply.statusCode).toBe(200);
    expect(reply.json()).toMatchObject({ person: { name: 'Nadia Quill' }, roles: ['technician'] });
    const [cookie] = reply.cookies;
    expect(cookie).toMatchObject({ name: SESSION_COOKIE, httpOnly: true, sameSite: 'Strict', path: '/' });
    expect((await sessionOf(cookie?.value ?? '')).statusCode).toBe(200);
  });

  test('the token is kept nowhere, only its hash is', async () => {
    const token = (await signIn(shop.people.technician, '2468')).cookies[0]?.value ?? '';
    const [row] = await shop.sql<
      { kept: boolean }[]
    >`select exists (select from session where encode(token_hash, 'base64') like ${`%${token.slice(0, 20)}%`}) as kept`;
    expect(row?.kept).toBe(false);
  });

  test('tapping out ends the session, also for whoever copied its cookie', async () => {
    const token = (await signIn(shop.people.technician, '2468')).cookies[0]?.value ?? '';
    const out = await shop.app.inject({ method: 'DELETE', url: '/api/session', cookies: { [SESSION_COOKIE]: token } });
    expect(out.statusCode).toBe(204);
    expect((await sessionOf(token)).statusCode).toBe(401);
  });

  test('an expired session, or one of somebody who left, opens nothing', async () => {
    const token = (await signIn(shop.people.technician, '2468')).cookies[0]?.value ?? '';
    await shop.sql`update session set expires_at = clock_timestamp() - interval '1 second' where person_id = ${shop.people.technician}`;
    expect((await sessionOf(token)).statusCode).toBe(401);
  });

  test('five wrong PINs close the door for a while, even to the right one, even tried all at once', async () => {
    const tries = await Promise.all(Array.from({ length: 8 }, () => signIn(shop.people.colleague, '0000')));
    expect(tries.filter(({ statusCode }) => statusCode === 401)).toHaveLength(5);
    expect(tries.filter(({ statusCode }) => statusCode === 429)).toHaveLength(3);
    const right = await signIn(shop.people.colleague, '2468');
    expect(right.statusCode).toBe(429);
    expect(right.json().detail).toContain('Wait');
  });
});

describe('rights', () => {
  test('a role does what it may and nothing else', async () => {
    expect((await shop.as.colleague.post('/api/jobs', {})).status).toBe(403);
    expect((await shop.as.writer.post('/api/stock-movements', {})).status).toBe(403);
    expect((await shop.as.clerk.post('/api/obligations/decide', {})).body.detail).toContain('parts clerk');
    expect((await shop.as.lead.post('/api/jobs', {})).status).toBe(400);
  });
});
