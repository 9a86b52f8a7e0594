import { type MicroDegrees, microDegrees } from '#domain/units/quantity.ts';

const fullTurn = 360_000_000;

export type RingPart = 'compression' | 'spacer' | 'rail';

/** Where a ring's marked face looks; either: it may be fitted both ways. */
export type RingFaces = 'crown' | 'skirt' | 'either';

/** Where a sheet that says nothing of it wants the mark: of compression rings at the crown; rails and spacers have none. Common practice, no source. */
export const usualFaces = (part: RingPart): RingFaces => (part === 'compression' ? 'crown' : 'either');

/** A ring on the piston, from the top; its gap's angle by the maker (µ°), null when the sheet leaves it open. */
export interface Ring {
  readonly code: string;
  readonly name: string;
  readonly makersAngle: MicroDegrees | null;
  /** Left out: a compression ring. */
  readonly part?: RingPart | undefined;
  /** Where a pin in the groove holds its gap, as in two-strokes; null or left out: it turns freely. */
  readonly pin?: MicroDegrees | null | undefined;
  /** Left out: its mark is not judged. */
  readonly faces?: RingFaces | undefined;
}

/** An arc in which no gap may stand (over the pin, on the thrust side), clockwise `from` → `to`, both included. */
export interface ForbiddenZone {
  readonly from: MicroDegrees;
  readonly to: MicroDegrees;
  readonly reason: string;
}

/** Angles in µ° from 0 to below 360°, clockwise from the arrow on the crown as seen from above. */
export interface RingClock {
  readonly rings: readonly Ring[];
  readonly zones: readonly ForbiddenZone[];
  /** Least angle between any two gaps, or, with a rail offset, of two that are no rails; null when none is asked for. */
  readonly leastSeparation: MicroDegrees | null;
  /** Least angle of an oil rail's gap from any other; left out or null: as of the others. */
  readonly railOffset?: MicroDegrees | null | undefined;
  /** How far a gap may be from the maker's angle, either way; null when that isn't judged. */
  readonly angleTolerance: MicroDegrees | null;
}

/** Where a ring's gap was turned to. */
export interface PlacedGap {
  readonly ring: string;
  readonly angle: MicroDegrees;
  /** Where its mark was seen to look; left out: nobody looked. */
  readonly faces?: 'crown' | 'skirt' | undefined;
}

export type RingFault =
  | { readonly kind: 'not-placed' }
  | { readonly kind: 'angle-out-of-turn'; readonly angle: number }
  | {
      readonly kind: 'too-close';
      readonly to: string;
      readonly separation: MicroDegrees;
      readonly least: MicroDegrees;
    }
  | { readonly kind: 'off-its-pin'; readonly pin: MicroDegrees }
  | { readonly kind: 'mark-not-seen'; readonly faces: 'crown' | 'skirt' }
  | { readonly kind: 'mark-wrong-way'; readonly faces: 'crown' | 'skirt' }
  | { readonly kind: 'in-forbidden-zone'; readonly zone: ForbiddenZone }
  | { readonly kind: 'away-from-makers-angle'; readonly makersAngle: MicroDegrees; readonly by: MicroDegrees };

export type RingPlacement =
  | { readonly ring: string; readonly ok: true }
  | { readonly ring: string; readonly ok: false; readonly faults: readonly RingFault[] };

/** The smaller angle between two gaps, 0 to 180°. */
export function separation(a: MicroDegrees, b: MicroDegrees): MicroDegrees {
  const apart = Math.abs(a - b) % fullTurn;
  return microDegrees(Math.min(apart, fullTurn - apart));
}

/** Whether an angle lies in a zone, which may run through 0°. */
export function isInZone(angle: MicroDegrees, zone: ForbiddenZone): boolean {
  return zone.from <= zone.to ? angle >= zone.from && angle <= zone.to : angle >= zone.from || angle <= zone.to;
}

const isPinned = ({ pin }: Ring): boolean => pin !== undefined && pin !== null;

/** The least angle between two rings' gaps (µ°); null: none is asked for. Two on pins stand where their maker put them. */
export function leastBetween(clock: RingClock, one: Ring, other: Ring): MicroDegrees | null {
  if (isPinned(one) && isPinned(other)) return null;
  const withRail = one.part === 'rail' || other.part === 'rail';
  return withRail ? (clock.railOffset ?? clock.leastSeparation) : clock.leastSeparation;
}

/**
 * Ring by ring, in the order of the clock, whether its gap stands well, and every reason why not. Both of two gaps too
 * close together are told. A ring on a pin is judged by its pin and its neighbours, not by zones. A ring whose mark has a
 * way to face is judged by where it was seen to face. Of two placements of one ring the later counts; rings the clock
 * doesn't know are left out.
 */
export function placeRings(clock: RingClock, chosen: readonly PlacedGap[]): readonly RingPlacement[] {
  const angles = new Map(chosen.map(({ ring, angle }) => [ring, angle]));
  const seen = new Map(chosen.map(({ ring, faces }) => [ring, faces]));
  return clock.rings.map((ring): RingPlacement => {
    const faults = [...faultsOf(clock, ring, angles), ...markFaults(ring, angles.has(ring.code), seen.get(ring.code))];
    return faults.length === 0 ? { ring: ring.code, ok: true } : { ring: ring.code, ok: false, faults };
  });
}

function faultsOf(clock: RingClock, ring: Ring, angles: ReadonlyMap<string, MicroDegrees>): readonly RingFault[] {
  const angle = angles.get(ring.code);
  if (angle === undefined) return [{ kind: 'not-placed' }];
  if (angle < 0 || angle >= fullTurn) return [{ kind: 'angle-out-of-turn', angle }];
  return [
    ...tooClose(clock, ring, angles),
    ...offItsPin(ring, angle),
    ...clock.zones
      .filter((zone) => !isPinned(ring) && isInZone(angle, zone))
      .map((zone) => ({ kind: 'in-forbidden-zone' as const, zone })),
    ...awayFromMakersAngle(clock, ring, angle),
  ];
}

function markFaults({ faces }: Ring, placed: boolean, seen: 'crown' | 'skirt' | undefined): readonly RingFault[] {
  if (!placed || faces === undefined || faces === 'either' || seen === faces) return [];
  return [{ kind: seen === undefined ? 'mark-not-seen' : 'mark-wrong-way', faces }];
}

function offItsPin({ pin }: Ring, angle: MicroDegrees): readonly RingFault[] {
  return pin === undefined || pin === null || pin === angle ? [] : [{ kind: 'off-its-pin', pin }];
}

function tooClose(clock: RingClock, ring: Ring, angles: ReadonlyMap<string, MicroDegrees>): readonly RingFault[] {
  const own = angles.get(ring.code);
  if (own === undefined) return [];
  return clock.rings.flatMap((other): RingFault[] => {
    const angle = angles.get(other.code);
    const least = leastBetween(clock, ring, other);
    if (other.code === ring.code || angle === undefined || least === null) return [];
    const apart = separation(own, angle);
    return apart < least ? [{ kind: 'too-close', to: other.code, separation: apart, least }] : [];
  });
}

function awayFromMakersAngle(clock: RingClock, ring: Ring, angle: MicroDegrees): readonly RingFault[] {
  const { makersAngle } = ring;
  if (makersAngle === null || clock.angleTolerance === null) return [];
  const by = separation(angle, makersAngle);
  return by > clock.angleTolerance ? [{ kind: 'away-from-makers-angle', makersAngle, by }] : [];
}
