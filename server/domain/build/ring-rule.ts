import { type MicroDegrees, microDegrees } from '#domain/units/quantity.ts';
import { isInZone, leastBetween, type Ring, type RingClock, separation } from './ring-clock.ts';

const degree = 1_000_000;
const turn = 360 * degree;

/** Angles (µ°) by which rings go that neither a pin nor the maker places. */
export interface GapRule {
  /** The first compression ring's gap. */
  readonly start: MicroDegrees;
  /** From the first compression ring's gap on to the oil spacer's. */
  readonly spacerOffset: MicroDegrees;
  /** From the spacer's gap back to the first rail's, and on to the second's. */
  readonly railOffset: MicroDegrees;
}

/** Clear of a pin across and of the thrust faces square to it. */
export const usualGapRule: GapRule = {
  start: microDegrees(45 * degree),
  spacerOffset: microDegrees(90 * degree),
  railOffset: microDegrees(45 * degree),
};

export interface StandardGap {
  readonly ring: string;
  readonly angle: MicroDegrees;
  /** Who says so: a locating pin in the groove, the maker's sheet, or the rule of thumb. */
  readonly by: 'pin' | 'maker' | 'rule';
}

export type StandardGaps =
  | { readonly ok: true; readonly gaps: readonly StandardGap[] }
  | { readonly ok: false; readonly reason: 'no-room'; readonly ring: string };

const within = (angle: number): MicroDegrees => microDegrees(((angle % turn) + turn) % turn);

/** Where each ring would go if nothing stood in its way. */
function wishes(clock: RingClock, rule: GapRule): ReadonlyMap<string, number> {
  const compression = clock.rings.filter(({ part }) => (part ?? 'compression') === 'compression');
  const step = turn / Math.max(2, compression.length);
  const first = compression[0];
  const start = first === undefined ? rule.start : (fixedAt(first)?.angle ?? rule.start);
  const spacer = clock.rings.find(({ part }) => part === 'spacer');
  const spacerAt = (spacer === undefined ? undefined : fixedAt(spacer)?.angle) ?? start + rule.spacerOffset;
  const rails = clock.rings.filter(({ part }) => part === 'rail');
  return new Map([
    ...compression.map(({ code }, index) => [code, start + index * step] as const),
    ...clock.rings.flatMap(({ code, part }) => (part === 'spacer' ? [[code, spacerAt] as const] : [])),
    ...rails.map(({ code }, index) => [code, spacerAt + (index % 2 === 0 ? -1 : 1) * rule.railOffset] as const),
  ]);
}

function fixedAt({ code, pin, makersAngle }: Ring): StandardGap | undefined {
  if (pin !== undefined && pin !== null) return { ring: code, angle: pin, by: 'pin' };
  return makersAngle === null ? undefined : { ring: code, angle: makersAngle, by: 'maker' };
}

/** 0, 1, −1, 2, −2 … 180 degrees: the nearest first, clockwise before back. */
const steps: readonly number[] = [
  0,
  ...Array.from({ length: 180 }, (_, index) => [(index + 1) * degree, -(index + 1) * degree]).flat(),
];

function nearestClear(clock: RingClock, ring: Ring, of: { wish: number; taken: readonly StandardGap[] }) {
  const clear = (angle: MicroDegrees) =>
    !clock.zones.some((zone) => isInZone(angle, zone)) &&
    of.taken.every((other) => {
      const neighbour = clock.rings.find(({ code }) => code === other.ring);
      const least = neighbour === undefined ? null : leastBetween(clock, ring, neighbour);
      return least === null || separation(angle, other.angle) >= least;
    });
  return steps.map((by) => within(of.wish + by)).find(clear);
}

/**
 * Standard positions of the ring gaps. A ring on a locating pin (two-stroke) stands there and isn't turned; one with a
 * maker's angle goes there. The rest by a rule of thumb: compression rings shared out evenly over the turn from
 * `start`, the oil spacer `spacerOffset` on from the first, one rail `railOffset` either side of the spacer; each then
 * moved by the fewest whole degrees that clear zones and least separations. Order of the reply: the clock's.
 * Errors: no-room, with the first ring that finds no clear place. Common practice, no source; the manual goes before it.
 */
export function standardGaps(clock: RingClock, rule: GapRule = usualGapRule): StandardGaps {
  const wished = wishes(clock, rule);
  const taken = clock.rings.flatMap((ring) => fixedAt(ring) ?? []);
  const rank = { compression: 0, spacer: 1, rail: 2 } as const;
  const free = clock.rings
    .filter((ring) => fixedAt(ring) === undefined)
    .toSorted((a, b) => rank[a.part ?? 'compression'] - rank[b.part ?? 'compression']);
  for (const ring of free) {
    const angle = nearestClear(clock, ring, { wish: wished.get(ring.code) ?? rule.start, taken });
    if (angle === undefined) return { ok: false, reason: 'no-room', ring: ring.code };
    taken.push({ ring: ring.code, angle, by: 'rule' });
  }
  return { ok: true, gaps: clock.rings.flatMap(({ code }) => taken.find(({ ring }) => ring === code) ?? []) };
}
