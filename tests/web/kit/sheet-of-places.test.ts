import { expect, test } from 'vitest';
import { placedOrTaken, reachFor, snapped } from '../../../web/src/kit/sheet-of-places.ts';

test('a tap falls on the nearest crossing, and never off the sheet', () => {
  expect(snapped({ x: 42.4, y: -37.6 }, { step: 5, reach: 100 })).toEqual({ x: 40, y: -40 });
  expect(snapped({ x: 41.3, y: -0.4 }, { step: 2.5, reach: 100 })).toEqual({ x: 42.5, y: 0 });
  expect(snapped({ x: 140, y: -3 }, { step: 1, reach: 100 })).toEqual({ x: 100, y: -3 });
});

test('a tap where one sits takes that one out, and the others close up in their order', () => {
  const two = placedOrTaken(placedOrTaken([], { x: 40, y: 0 }), { x: -40, y: 0 });
  expect(two).toEqual([
    { x: 40, y: 0 },
    { x: -40, y: 0 },
  ]);
  expect(placedOrTaken(two, { x: 40, y: 0 })).toEqual([{ x: -40, y: 0 }]);
});

test('the sheet reaches as far as the farthest fastener', () => {
  const offered = [50, 100, 150];
  expect(reachFor([], offered, 100)).toBe(100);
  expect(reachFor([{ x: 120, y: 0 }], offered, 50)).toBe(150);
  expect(reachFor([{ x: 0, y: -410 }], offered, 50)).toBe(450);
});
