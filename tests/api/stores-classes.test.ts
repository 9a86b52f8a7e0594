import { afterAll, expect, test } from 'vitest';
import type { CountSchedule } from '#contracts/counts.ts';
import { classesByUse } from '#domain/stock/classes.ts';
import { newId } from '#platform/act.ts';
import { openShop } from '../support/shop.ts';
import { addBin, addLot, addPart } from '../support/stores.ts';

const shop = await openShop();
const { sql } = shop;
afterAll(shop.close);

interface Used {
  readonly id: string;
  readonly binId: string;
  /** Each of one piece, and what one is worth. */
  readonly issues: number;
  readonly cost: number;
}

/** Uses that differ by orders of magnitude and, four by four, are equal: whose turn comes first is by id alone. */
const uses = Array.from({ length: 36 }, (_, at) => ({
  issues: [9, 9, 1, 4][at % 4] ?? 1,
  cost: Math.round(100 * 1.7 ** Math.floor(at / 4)),
}));

async function usedOften({ issues, cost }: (typeof uses)[number], binId: string): Promise<Used> {
  const { id } = await addPart(sql);
  const lotId = await addLot(shop, { partId: id, quantity: 10, binId, valueMinor: 10 * cost });
  for (let turn = 0; turn < issues; turn += 1)
    await sql`
      insert into stock_movement (id, lot_id, act, on_hand_change, reserved_change, moved_by_id)
      values (${newId()}, ${lotId}, 'issue', -1, 0, ${shop.people.clerk})`;
  return { id, binId, issues, cost };
}

test('stores are classed as the textbook’s way of doing it classes them, and a bin as the strictest of what lies in it', async () => {
  const bins = await Promise.all(Array.from({ length: 7 }, () => addBin(sql)));
  const used: Used[] = [];
  for (const [at, use] of uses.entries()) used.push(await usedOften(use, bins[at % 6]?.id ?? ''));
  const unused = await addPart(sql);
  await addLot(shop, { partId: unused.id, quantity: 4, binId: bins[6]?.id ?? '' });

  const byValue = classesByUse(used.map(({ id, issues, cost }) => ({ id, amount: issues * cost })));
  const byMovement = new Map(
    classesByUse(used.map(({ id, issues }) => ({ id, amount: issues }))).map((one) => [one.id, one.class]),
  );
  const expected = byValue.map((one) => {
    const moved = byMovement.get(one.id) ?? 'C';
    return { ...one, byValue: one.class, byMovement: moved, class: [one.class, moved].toSorted()[0] ?? 'C' };
  });
  const { body } = await shop.as.clerk.get('/api/count-schedule?limit=200');
  const { parts, bins: due, classes } = body as CountSchedule;
  expect(parts.map(({ part, class: of }) => [part.id, of])).toEqual(expected.map((one) => [one.id, one.class]));
  for (const [at, one] of expected.entries()) {
    expect(parts[at]).toMatchObject({ byValue: one.byValue, byMovement: one.byMovement });
    expect(parts[at]?.share).toBeCloseTo(one.share, 12);
    expect(parts[at]?.before).toBeCloseTo(one.before, 12);
  }
  for (const of of ['A', 'B', 'C'] as const)
    expect(classes.find((one) => one.class === of)?.parts).toBe(expected.filter((one) => one.class === of).length);
  for (const { id } of bins) {
    const inside = expected.filter((one) => used.find((part) => part.id === one.id)?.binId === id);
    const strictest = inside.map((one) => one.class).toSorted()[0] ?? 'C';
    const most = inside.find((one) => one.class === strictest)?.id ?? null;
    const bin = due.find((one) => one.bin.id === id);
    expect([bin?.class, bin?.because?.id ?? null]).toEqual([strictest, most]);
  }
});
