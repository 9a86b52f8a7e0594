import { expect, test } from 'vitest';
import { chooseLots, type Lot } from '#domain/stock/lots.ts';

const lot = (id: string, partId: string, receivedAt: string): Lot => ({
  id,
  partId,
  receivedAt,
  onHand: 2,
  reserved: 0,
  thickness: null,
});
const lots = [lot('new', 'b', '2024-01-01'), lot('old-2', 'a', '2026-02-01'), lot('old-1', 'a', '2026-01-01')];

test('a wish that several parts serve takes them in their order, of each the oldest lot first', () => {
  expect(chooseLots(lots, { partId: 'a', servedBy: ['a', 'b'], count: 5, thickness: null })).toEqual({
    shares: [
      { lotId: 'old-1', count: 2 },
      { lotId: 'old-2', count: 2 },
      { lotId: 'new', count: 1 },
    ],
    missing: 0,
  });
});

test('a part that is not fitted any more gives nothing, even to a wish for itself', () => {
  expect(chooseLots(lots, { partId: 'a', servedBy: ['b'], count: 3, thickness: null })).toEqual({
    shares: [{ lotId: 'new', count: 2 }],
    missing: 1,
  });
});
