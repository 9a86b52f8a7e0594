import type { RingStanding } from '#contracts/assembly.ts';
import { rounded } from '#contracts/figures.ts';
import { type PlacedGap, placeRings, type Ring, type RingClock } from '#domain/build/ring-clock.ts';
import { type StandardGap, standardGaps } from '#domain/build/ring-rule.ts';
import { microDegrees } from '#domain/units/quantity.ts';
import type { Sql } from '#platform/database/client.ts';
import { findRings, type PlacementRow } from './ring-queries.ts';
import { ringFaults } from './words.ts';

export interface RingSheet {
  readonly clock: RingClock;
  /** What is marked on a ring's face, by its code. */
  readonly marks: ReadonlyMap<string, string>;
  /** Where each ring is to go: by its pin, the maker's angle or the rule of thumb; without one where nothing is clear. */
  readonly aims: readonly StandardGap[];
}

const degrees = { unit: 'deg', decimals: 0 } as const;
const microOrNull = (angle: number | null) => (angle === null ? null : microDegrees(angle));

/** The sheet's ring clock. The maker's angles are shown and not judged: a manual's figure is a place to aim at. */
export async function ringSheet(sql: Sql, revisionId: string): Promise<RingSheet> {
  const { rings, zones, separation, railOffset } = await findRings(sql, revisionId);
  const clock: RingClock = {
    rings: rings.map(
      ({ code, name, angle, part, pin, faces }): Ring => ({
        code,
        name,
        makersAngle: microOrNull(angle),
        part,
        pin: microOrNull(pin),
        faces,
      }),
    ),
    zones: zones.map(({ from, to, reason }) => ({ from: microDegrees(from), to: microDegrees(to), reason })),
    leastSeparation: microOrNull(separation),
    railOffset: microOrNull(railOffset),
    angleTolerance: null,
  };
  const standard = standardGaps(clock);
  return {
    clock,
    marks: new Map(rings.map(({ code, mark }) => [code, mark])),
    aims: standard.ok ? standard.gaps : [],
  };
}

/** Ring by ring how its gap and its mark stand; a ring that was not placed says so. */
export function ringStandings({ clock, marks, aims }: RingSheet, gaps: readonly PlacedGap[]): readonly RingStanding[] {
  const placed = new Map(gaps.map((gap) => [gap.ring, gap]));
  return placeRings(clock, gaps).map((placement) => {
    const code = placement.ring;
    const ring = clock.rings.find((each) => each.code === code);
    const gap = placed.get(code);
    const aim = aims.find((each) => each.ring === code);
    return {
      ring: code,
      name: ring?.name ?? code,
      part: ring?.part ?? 'compression',
      pin: ring?.pin === null || ring?.pin === undefined ? null : rounded(ring.pin, degrees),
      mark: marks.get(code) ?? '',
      faces: ring?.faces ?? 'either',
      aim: aim === undefined ? null : { angle: rounded(aim.angle, degrees), by: aim.by },
      angle: gap === undefined ? null : rounded(gap.angle, degrees),
      seenFacing: gap?.faces ?? null,
      faults: ringFaults(placement),
    };
  });
}

/** The gaps of a kept placement. Those kept before each ring's mark was asked for were ticked once for all of them. */
export function gapsPlaced({ clock }: RingSheet, placement: PlacementRow | undefined): readonly PlacedGap[] {
  return (placement?.gaps ?? []).map(({ ring, angle, faces }) => {
    const asked = clock.rings.find(({ code }) => code === ring)?.faces;
    const ticked = placement?.marksWell === true && asked !== 'either' ? asked : undefined;
    return { ring, angle: microDegrees(angle), faces: faces ?? ticked };
  });
}
