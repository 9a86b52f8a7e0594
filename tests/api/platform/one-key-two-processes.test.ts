import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openShop, type Shop, secondServer } from '../../support/shop.ts';

let shop: Shop;
let other: Awaited<ReturnType<typeof secondServer>>;

beforeAll(async () => {
  shop = await openShop();
  other = await secondServer(shop);
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
      const ask = (as: Shop['as']) => as.writer.post('/api/owners', { name }, { 'idempotency-key': key });
      const answers = await Promise.all([ask(shop.as), ask(other.as)]);
      const done = answers.filter(({ status }) => status === 201);
      expect(done.length).toBeGreaterThan(0);
      expect(new Set(done.map(({ body }) => JSON.stringify(body))).size).toBe(1);
      for (const { status, body } of answers.filter((answer) => !done.includes(answer))) {
        expect({ status, type: body.type }).toEqual({ status: 409, type: 'urn:crosshatch:problem:in-flight' });
      }
      const [rows] = await shop.sql`select count(*)::int as count from owner where name = ${name}`;
      expect(rows?.count).toBe(1);
      const later = await ask(other.as);
      expect(later.body).toEqual(done[0]?.body);
    }
  });
});
