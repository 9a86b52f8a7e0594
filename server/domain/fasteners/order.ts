import type { FastenerPosition, FastenerSet } from './fastener-set.ts';

/** Distances that differ by no more than this (1 mm, in nm) count as equal: patterns are measured by hand. */
const equalWithin = 1_000_000;

/**
 * The numbers of a set's positions in the order of tightening: the maker's (rising numbers) where the sheet gives it,
 * else the generated one.
 */
export function tighteningOrder(set: Pick<FastenerSet, 'positions' | 'orderIsMakers'>): readonly number[] {
  if (set.orderIsMakers) return set.positions.map(({ number }) => number).toSorted((a, b) => a - b);
  return generatedOrder(set.positions);
}

/** The order of loosening: that of tightening reversed, so from the outside in. */
export function looseningOrder(set: Pick<FastenerSet, 'positions' | 'orderIsMakers'>): readonly number[] {
  return tighteningOrder(set).toReversed();
}

/**
 * Inside out, each next one the farthest across from the last, exactly:
 * 1. The centre is the mean of all positions. Positions sorted by their distance from it fall into rings: a position
 *    belongs to the ring of the one before when it is at most 1 mm farther out than the innermost of that ring.
 * 2. Rings are tightened from the innermost outwards. The first of all is the innermost ring's lowest number; every
 *    next one is that position of the ring which is farthest from the last one tightened; of those within 1 mm of the
 *    farthest, the lowest number.
 * The trade's rule (common practice, no source); a maker's order always wins over it.
 */
export function generatedOrder(positions: readonly FastenerPosition[]): readonly number[] {
  const order: FastenerPosition[] = [];
  for (const ring of ringsFromInside(positions)) {
    let left = ring;
    while (left.length > 0) {
      const next = farthestFrom(order.at(-1), left);
      if (next === undefined) break;
      order.push(next);
      left = left.filter((position) => position !== next);
    }
  }
  return order.map(({ number }) => number);
}

function ringsFromInside(positions: readonly FastenerPosition[]): readonly (readonly FastenerPosition[])[] {
  const centre = {
    x: positions.reduce((sum, { x }) => sum + x, 0) / positions.length,
    y: positions.reduce((sum, { y }) => sum + y, 0) / positions.length,
  };
  const rings: { innermost: number; members: FastenerPosition[] }[] = [];
  const byDistance = positions.toSorted((a, b) => distance(a, centre) - distance(b, centre));
  for (const position of byDistance) {
    const out = distance(position, centre);
    const ring = rings.at(-1);
    if (ring !== undefined && out - ring.innermost <= equalWithin) ring.members.push(position);
    else rings.push({ innermost: out, members: [position] });
  }
  return rings.map(({ members }) => members.toSorted((a, b) => a.number - b.number));
}

function farthestFrom(
  last: FastenerPosition | undefined,
  left: readonly FastenerPosition[],
): FastenerPosition | undefined {
  if (last === undefined) return left[0];
  const farthest = Math.max(...left.map((position) => distance(position, last)));
  return left.find((position) => farthest - distance(position, last) <= equalWithin);
}

interface Point {
  readonly x: number;
  readonly y: number;
}

function distance(a: Point, b: Point): number {
  return Math.hypot(a.x - b.x, a.y - b.y);
}
