import http from 'node:http';
import type { AddressInfo } from 'node:net';
import request from 'supertest';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { SESSION_COOKIE, startSession } from '#platform/identity/sessions.ts';
import { openShop, type Shop, takeIn } from '../../support/shop.ts';

let shop: Shop;
let cookie: string;
beforeAll(async () => {
  shop = await openShop();
  await shop.app.listen({ port: 0, host: '127.0.0.1' });
  const { token } = await startSession(shop.sql, { personId: shop.people.technician, terminalId: undefined });
  cookie = `${SESSION_COOKIE}=${token}`;
});
afterAll(() => shop.close());

/** Opens the live stream and gathers what it says until the server ends it. */
function listen(): { readonly heard: () => string; readonly ended: Promise<void> } {
  let text = '';
  const ended = new Promise<void>((resolve) => {
    const { port } = shop.app.server.address() as AddressInfo;
    const asked = http.get({ port, host: '127.0.0.1', path: '/api/live', headers: { cookie } }, (reply) => {
      reply.setEncoding('utf8');
      reply.on('data', (chunk: string) => {
        text += chunk;
      });
      reply.on('close', () => resolve());
    });
    asked.on('error', () => resolve());
  });
  return { heard: () => text, ended };
}

describe('over a real socket', () => {
  test('a signed-in request carries its cookie, and the reply forbids framing and sniffing', async () => {
    const reply = await request(shop.app.server).get('/api/floor').set('cookie', cookie);
    expect(reply.status).toBe(200);
    expect(reply.headers['x-content-type-options']).toBe('nosniff');
    expect(reply.headers['content-security-policy']).toContain("frame-ancestors 'none'");
  });

  test('a page of another site may not write with the shop’s cookie', async () => {
    const reply = await request(shop.app.server)
      .post('/api/jobs')
      .set('cookie', cookie)
      .set('origin', 'https://elsewhere.example')
      .send({});
    expect(reply.status).toBe(403);
    expect(reply.headers['content-type']).toContain('application/problem+json');
  });

  test('the live stream tells of a write with ids only, and ends at sign-out', async () => {
    const stream = listen();
    await expect.poll(stream.heard).toContain('event: refetch');
    const { engineId, jobId } = await takeIn(shop, { serial: 'H355-0777' });
    await expect.poll(stream.heard).toContain(engineId);
    expect(stream.heard()).toContain(jobId);
    expect(stream.heard()).not.toContain('H355-0777');
    await request(shop.app.server).delete('/api/session').set('cookie', cookie).expect(204);
    await stream.ended;
    expect(stream.heard()).toContain('event: end');
    await request(shop.app.server).get('/api/live').set('cookie', cookie).expect(401);
  });
});
