// Source: the (nQ, r) policy as an open set of course notes gives it (neoprimate.github.io/IEOR, supply chain, policies,
// "(nQ, r): continuous review, fixed pack size"): when the inventory position is at or below r, order the smallest whole
// number n of packs of Q that brings it back above r; the pack constrains how many are ordered, not when. The rule is
// theirs; the figures here are ours, since those of the notes were not seen in full. That an economic order quantity is
// then rounded up to whole packs is common practice, no source.
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { packsFor } from '#domain/stock/packs.ts';

const { floor } = Math;

test.each([
  // position, r, Q, n
  [493, 500, 800, 1],
  [500, 500, 24, 1],
  [477, 500, 24, 1],
  [476, 500, 24, 2],
  [0, 500, 100, 6],
])('from a position of %s, above %s by packs of %s takes %s', (position, r, packSize, packs) => {
  expect(packsFor(r + 1 - position, packSize)).toBe(packs);
});

test('so many packs bring the position above r, and one fewer does not', () => {
  fc.assert(
    fc.property(fc.nat(2_000), fc.nat(2_000), fc.integer({ min: 1, max: 400 }), (r, below, packSize) => {
      const position = r - (below % (r + 1));
      const n = packsFor(r + 1 - position, packSize);
      expect(position + n * packSize).toBeGreaterThan(r);
      expect(position + (n - 1) * packSize).toBeLessThanOrEqual(r);
      // As the notes give it in a formula: n = ⌊(r − position) ÷ Q⌋ + 1.
      expect(n).toBe(floor((r - position) / packSize) + 1);
    }),
  );
});
