import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { inPacks, packsFor, packsToBuy, packWorth, worthComing } from '#domain/stock/packs.ts';

const size = fc.integer({ min: 1, max: 100_000 });
const price = fc.bigInt({ min: 0n, max: 10_000_000n });
const ones = fc.integer({ min: 0, max: 100_000 });

describe('whole packs', () => {
  test.each([
    [0, 10, 0],
    [1, 10, 1],
    [10, 10, 1],
    [11, 10, 2],
    [4, 1, 4],
    [1_500, 1_000, 2],
  ])('%s out of packs of %s are %s', (wanted, packSize, packs) => {
    expect(packsFor(wanted, packSize)).toBe(packs);
  });

  test('are enough, and one fewer is not', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 100_000 }), size, (wanted, packSize) => {
        const packs = packsFor(wanted, packSize);
        expect(packs * packSize).toBeGreaterThanOrEqual(wanted);
        expect((packs - 1) * packSize).toBeLessThan(wanted);
      }),
    );
  });

  test('and what is over are all the pieces', () => {
    fc.assert(
      fc.property(ones, size, (count, packSize) => {
        const { packs, loose } = inPacks(count, packSize);
        expect(packs * packSize + loose).toBe(count);
        expect(loose).toBeLessThan(packSize);
      }),
    );
    expect(inPacks(9, 10)).toEqual({ packs: 0, loose: 9 });
  });
});

describe('the worth of a pack', () => {
  test('of three at 10.00, taken in one by one, is 3.33, 3.34 and 3.33: no cent is lost', () => {
    const pack = { priceMinor: 1_000n, packSize: 3 };
    expect([0, 1, 2].map((before) => worthComing(pack, before, 1))).toEqual([333n, 334n, 333n]);
  });

  test('is that of its price however its pieces come in, to the last minor unit', () => {
    fc.assert(
      fc.property(
        price,
        size,
        fc.integer({ min: 1, max: 5 }),
        fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 8 }),
        (priceMinor, packSize, packs, cuts) => {
          const all = packs * packSize;
          const marks = [...cuts.map((cut) => Math.floor(cut * all)), 0, all].toSorted((a, b) => a - b);
          const costs = marks.slice(1).map((to, at) => {
            const from = marks[at] ?? 0;
            return worthComing({ priceMinor, packSize }, from, to - from);
          });
          expect(costs.every((cost) => cost >= 0n)).toBe(true);
          expect(costs.reduce((sum, cost) => sum + cost, 0n)).toBe(priceMinor * BigInt(packs));
        },
      ),
    );
  });

  test('of some pieces is never more than half a minor unit from their exact share', () => {
    fc.assert(
      fc.property(price, size, ones, (priceMinor, packSize, count) => {
        const off = packWorth({ priceMinor, packSize }, count) * BigInt(packSize) - priceMinor * BigInt(count);
        expect(2n * (off < 0n ? -off : off)).toBeLessThanOrEqual(BigInt(packSize));
      }),
    );
  });
});

describe('what to buy in packs', () => {
  const lack = (jobId: string, count: number) => ({ jobId, ones: count });

  test('of pieces sold one by one is bought for each job', () => {
    expect(packsToBuy([lack('a', 3), lack('b', 4)], 2, 1)).toEqual([
      { packs: 3, jobId: 'a', needs: [lack('a', 3)] },
      { packs: 4, jobId: 'b', needs: [lack('b', 4)] },
      { packs: 2, jobId: null, needs: [{ jobId: null, ones: 2 }] },
    ]);
  });

  test('for two jobs that fit in one pack is one pack, which is neither’s alone', () => {
    expect(packsToBuy([lack('a', 3), lack('b', 4)], 0, 10)).toEqual([
      { packs: 1, jobId: null, needs: [lack('a', 3), lack('b', 4)] },
    ]);
    expect(packsToBuy([lack('a', 3)], 0, 10)).toEqual([{ packs: 1, jobId: 'a', needs: [lack('a', 3)] }]);
  });

  test('fills the shelf with what is over in the jobs’ pack before it opens another', () => {
    expect(packsToBuy([lack('a', 3)], 7, 10)).toHaveLength(1);
    expect(packsToBuy([lack('a', 3)], 8, 10)[1]).toEqual({
      packs: 1,
      jobId: null,
      needs: [{ jobId: null, ones: 1 }],
    });
  });

  test('is the fewest packs that cover it all', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 50 }), { maxLength: 5 }),
        fc.integer({ min: 0, max: 60 }),
        fc.integer({ min: 2, max: 40 }),
        (lacks, low, packSize) => {
          const bought = packsToBuy(
            lacks.map((count, at) => lack(`job ${at}`, count)),
            low,
            packSize,
          ).reduce((sum, { packs }) => sum + packs, 0);
          const wanted = lacks.reduce((sum, count) => sum + count, low);
          expect(bought).toBe(packsFor(wanted, packSize));
        },
      ),
    );
  });
});
