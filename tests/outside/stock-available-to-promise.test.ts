// Source: the definition of discrete available-to-promise in the operations-management dictionary, as reprinted at
// shipping-data.com/glossary/discrete-available-promise: the first period has the beginning inventory plus its receipt
// less all orders before the next receipt; every later period with a receipt has that less the orders before the next
// one; the others have none. The example's figures are ours, worked through by that rule; from memory, without a source
// seen: a period that comes out below zero is filled from the ones before it, and the running sum is what can be promised.
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { availableToPromise, daysLater, promisableOn } from '#domain/stock/promise.ts';

const start = '2026-11-30';
const weekOf = (index: number): string => daysLater(start, index * 7);

interface Plan {
  readonly inventory: number;
  readonly receipts: readonly number[];
  readonly orders: readonly number[];
}

/** Discrete available-to-promise by the definition's own words, negative periods filled from the ones before. */
function discrete({ inventory, receipts, orders }: Plan): number[] {
  const bucket = receipts.map((receipt, at) => {
    if (at > 0 && receipt === 0) return 0;
    const next = receipts.findIndex((later, index) => index > at && later > 0);
    const due = orders.slice(at, next === -1 ? undefined : next).reduce((sum, order) => sum + order, 0);
    return (at === 0 ? inventory : 0) + receipt - due;
  });
  for (let at = bucket.length - 1; at > 0; at -= 1) {
    const lack = Math.min(0, bucket[at] ?? 0);
    bucket[at] = (bucket[at] ?? 0) - lack;
    bucket[at - 1] = (bucket[at - 1] ?? 0) + lack;
  }
  return bucket;
}

function byDay({ inventory, receipts, orders }: Plan): number[] {
  const dated = (counts: readonly number[]) => counts.map((quantity, at) => ({ on: weekOf(at), quantity }));
  const facts = { today: start, free: inventory, coming: dated(receipts), wanted: dated(orders) };
  const days = availableToPromise(facts);
  return receipts.map((_, at) => promisableOn(days, weekOf(at)));
}

const runningSum = (counts: readonly number[]): number[] =>
  counts.map((_, at) =>
    Math.max(
      0,
      counts.slice(0, at + 1).reduce((sum, count) => sum + count, 0),
    ),
  );

test('eight weeks with receipts in the third, fifth and eighth', () => {
  const plan = {
    inventory: 40,
    receipts: [0, 0, 80, 0, 80, 0, 0, 80],
    orders: [18, 12, 35, 22, 50, 40, 15, 10],
  };
  // 40 − 30; 80 − 57; 80 − 105 = −25, filled from the third week and, as that is not enough, from the first; 80 − 10.
  expect(discrete(plan)).toEqual([8, 0, 0, 0, 0, 0, 0, 70]);
  expect(byDay(plan)).toEqual([8, 8, 8, 8, 8, 8, 8, 78]);
});

test('any plan: day by day it is the running sum of the discrete figures', () => {
  const counts = fc.array(fc.nat(60), { minLength: 8, maxLength: 8 });
  const rare = fc.array(fc.oneof(fc.constant(0), fc.integer({ min: 1, max: 150 })), { minLength: 8, maxLength: 8 });
  fc.assert(
    fc.property(fc.nat(120), rare, counts, (inventory, receipts, orders) => {
      const plan = { inventory, receipts, orders };
      expect(byDay(plan)).toEqual(runningSum(discrete(plan)));
    }),
  );
});
