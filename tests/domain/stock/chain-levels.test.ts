import fc from 'fast-check';
import { expect, test } from 'vitest';
import { lowInChains, type Stocked } from '#domain/stock/chain-levels.ts';

const part = (partId: string, next: string | null, of: Partial<Stocked> = {}): Stocked => ({
  partId,
  next,
  usable: true,
  level: 0,
  supply: 0,
  ...of,
});

test('what a replaced number lacks of its level is bought as the newest', () => {
  const low = lowInChains([part('a', 'b', { level: 4, supply: 1 }), part('b', null, { level: 2, supply: 2 })]);
  // 7 lack of twice its level, and 2 of the newest: 4 + 7 − 2.
  expect(low).toEqual([{ partId: 'b', quantity: 9, level: 5 }]);
});

test('a replaced number that has enough leaves the newest alone', () => {
  expect(lowInChains([part('a', 'b', { level: 4, supply: 9 }), part('b', null, { level: 2, supply: 3 })])).toEqual([]);
});

test('old stock that is not fitted any more counts for nothing, however much lies there', () => {
  const old = part('a', 'b', { level: 1, supply: 50, usable: false });
  expect(lowInChains([old, part('b', null)])).toEqual([{ partId: 'b', quantity: 2, level: 1 }]);
  const barred = [
    part('a', 'b', { level: 1, supply: 50 }),
    part('b', 'c', { supply: 50, usable: false }),
    part('c', null),
  ];
  expect(lowInChains(barred)).toEqual([{ partId: 'c', quantity: 2, level: 1 }]);
});

test('a part alone is low at its level, and bought up to it and a level more', () => {
  fc.assert(
    fc.property(fc.nat(9), fc.nat(20), (level, supply) => {
      const low = lowInChains([part('a', null, { level, supply })]);
      expect(low).toEqual(level > 0 && supply <= level ? [{ partId: 'a', quantity: 2 * level - supply, level }] : []);
    }),
  );
});

test('once what is told is bought, nothing is low any more', () => {
  const counts = fc.record({ level: fc.nat(6), supply: fc.nat(12), usable: fc.boolean() });
  fc.assert(
    fc.property(counts, counts, counts, counts, (a, b, c, d) => {
      const chain = [part('a', 'c', a), part('b', 'c', b), part('c', 'd', c), part('d', null, d)];
      const [low] = lowInChains(chain);
      if (low === undefined) return;
      expect(low.quantity).toBeGreaterThan(0);
      const bought = chain.map((one) => (one.partId === 'd' ? { ...one, supply: one.supply + low.quantity } : one));
      expect(lowInChains(bought)).toEqual([]);
    }),
  );
});
