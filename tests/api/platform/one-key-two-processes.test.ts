import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openDatabase } from '#platform/database/client.ts';
import { SESSION_COOKIE, startSession } from '#platform/identity/sessions.ts';
import { buildApp } from '../../../server/app.ts';
import { openShop, type Shop } from '../../support/shop.ts';
import { testConfig } from '../../support/test-config.ts';

let shop: Shop;
let other: Awaited<ReturnType<typeof secondProcess>>;
let token: string;

/** A second service on the same database, with connections of its own. */
async function secondProcess() {
  const db = openDatabase(shop.url);
  const app = await buildApp({ config: testConfig(shop.url), db });
  return {
    app,
    close: async () => {
      await app.close();
      await db.close();
    },
  };
}

beforeAll(async () => {
  shop = await openShop();
  other = await secondProcess();
  ({ token } = await startSession(shop.sql, { personId: shop.people.writer, terminalId: undefined }));
});
afterAll(async () => {
  await other.close();
  await shop.close();
});

describe('one idempotency key sent to two processes at once', () => {
  test('is done once: the other is told that it is being done, or the same answer', async () => {
    for (let round = 0; round < 60; round += 1) {
      const name = `Owner ${round}`;
      const key = crypto.randomUUID();
      const ask = (app: Shop['app']) =>
        app.inject({
          method: 'POST',
          url: '/api/owners',
          payload: { name },
          headers: { 'idempotency-key': key },
          cookies: { [SESSION_COOKIE]: token },
        });
      const answers = await Promise.all([ask(shop.app), ask(other.app)]);
      const done = answers.filter(({ statusCode }) => statusCode === 201);
      expect(done.length).toBeGreaterThan(0);
      expect(new Set(done.map(({ body }) => body)).size).toBe(1);
      for (const { statusCode, body } of answers.filter((answer) => !done.includes(answer))) {
        expect({ statusCode, type: JSON.parse(body).type }).toEqual({
          statusCode: 409,
          type: 'urn:crosshatch:problem:in-flight',
        });
      }
      const [rows] = await shop.sql`select count(*)::int as count from owner where name = ${name}`;
      expect(rows?.count).toBe(1);
      const later = await ask(other.app);
      expect(later.body).toBe(done[0]?.body);
    }
  });
});
