import type { FastenerPosition, FastenerSet } from './fastener-set.ts';

/** Distances that differ by no more than this (1 mm, in nm) count as equal: patterns are measured by hand. */
const equalWithin = 1_000_000;
/** A ring is at most this much wider than its innermost position is far from the middle. */
const ringWidth = 0.2;
/** Angles that differ by no more than this count as equal, in radians (3°). */
const sameAngle = (3 * Math.PI) / 180;

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
 * Inside out and criss-cross, exactly:
 * 1. The middle is the mean of all positions. Sorted by their distance from it they fall into rings: a position belongs
 *    to the ring of the one before when it is at most a fifth (or 1 mm) farther out than the innermost of that ring.
 *    One within 1 mm of the middle is a ring by itself. Rings are tightened from the innermost outwards.
 * 2. The first of the innermost ring is its lowest number; the first of every next ring is the one that lies most
 *    across from the last one tightened, as an angle about the middle; of equals the lowest number.
 * 3. Every further one of a ring is the one that stands farthest, as an angle about the middle, from what is tight in
 *    that ring already: whose nearest is the farthest, then whose second nearest is, and so on. Of equals those that are
 *    no neighbour of the last one around the ring; if all are, the one farther from it; then the lowest number.
 *    Angles within 3° are equal.
 * So 4 on a circle come as 1 3 2 4, 5 as 1 3 5 2 4, 6 as 1 4 2 5 3 6, 8 as 1 5 3 7 2 6 4 8. On 4, 8, 12 and 16 it is the
 * cross pattern of ASME PCC-1 (from memory); a maker's order always wins over it.
 */
export function generatedOrder(positions: readonly FastenerPosition[]): readonly number[] {
  const order: Placed[] = [];
  for (const ring of ringsFromInside(positions)) order.push(...acrossTheRing(ring, order.at(-1)));
  return order.map(({ number }) => number);
}

/** A position by its angle about the middle; null in the middle itself. */
interface Placed {
  readonly number: number;
  readonly angle: number | null;
}

function ringsFromInside(positions: readonly FastenerPosition[]): readonly (readonly Placed[])[] {
  const centre = {
    x: positions.reduce((sum, { x }) => sum + x, 0) / positions.length,
    y: positions.reduce((sum, { y }) => sum + y, 0) / positions.length,
  };
  const rings: { innermost: number; members: Placed[] }[] = [];
  const byDistance = positions
    .map(({ number, x, y }) => ({
      number,
      out: Math.hypot(x - centre.x, y - centre.y),
      angle: Math.atan2(y - centre.y, x - centre.x),
    }))
    .toSorted((a, b) => a.out - b.out || a.number - b.number);
  for (const { number, out, angle } of byDistance) {
    const ring = rings.at(-1);
    const placed = { number, angle: out <= equalWithin ? null : angle };
    const inMiddle = ring !== undefined && ring.innermost <= equalWithin;
    const width = ring === undefined || inMiddle ? equalWithin : Math.max(equalWithin, ring.innermost * ringWidth);
    const belongs = ring !== undefined && out - ring.innermost <= width && inMiddle === (placed.angle === null);
    if (belongs) ring.members.push(placed);
    else rings.push({ innermost: out, members: [placed] });
  }
  return rings.map(({ members }) => members.toSorted((a, b) => a.number - b.number));
}

function acrossTheRing(ring: readonly Placed[], before: Placed | undefined): readonly Placed[] {
  const tight: Placed[] = [];
  let left = ring;
  while (left.length > 0) {
    const last = tight.at(-1);
    const next = last === undefined ? mostAcross(left, before) : farthestFromTight(left, { ring, tight, last });
    if (next === undefined) break;
    tight.push(next);
    left = left.filter((position) => position !== next);
  }
  return tight;
}

/** Candidates come by rising number, so the first of equals is the lowest. */
function mostAcross(candidates: readonly Placed[], from: Placed | undefined): Placed | undefined {
  return from === undefined ? candidates[0] : greatest(candidates, (candidate) => apart(candidate, from))[0];
}

function farthestFromTight(
  left: readonly Placed[],
  of: { readonly ring: readonly Placed[]; readonly tight: readonly Placed[]; readonly last: Placed },
): Placed | undefined {
  const gaps = new Map(
    left.map((candidate) => [candidate, of.tight.map((other) => apart(candidate, other)).toSorted((a, b) => a - b)]),
  );
  let equals = left;
  for (const nth of of.tight.keys()) equals = greatest(equals, (candidate) => gaps.get(candidate)?.[nth] ?? 0);
  const neighbours = neighboursOf(of.last, of.ring);
  const away = equals.filter((candidate) => !neighbours.includes(candidate));
  return away[0] ?? mostAcross(equals, of.last);
}

/** Those whose figure is within the tolerance of the greatest, in the order they came. */
function greatest(candidates: readonly Placed[], figure: (candidate: Placed) => number): readonly Placed[] {
  const most = Math.max(...candidates.map(figure));
  return candidates.filter((candidate) => most - figure(candidate) <= sameAngle);
}

function neighboursOf(position: Placed, ring: readonly Placed[]): readonly (Placed | undefined)[] {
  const around = ring.toSorted((a, b) => (a.angle ?? 0) - (b.angle ?? 0) || a.number - b.number);
  const at = around.indexOf(position);
  return [around.at(at - 1), around[(at + 1) % around.length]];
}

/** The smaller angle between two positions, 0 to π; nothing lies across from the middle. */
function apart(a: Placed, b: Placed): number {
  if (a.angle === null || b.angle === null) return 0;
  const turn = Math.abs(a.angle - b.angle);
  return Math.min(turn, 2 * Math.PI - turn);
}
