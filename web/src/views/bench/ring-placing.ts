import type { AssemblyPage } from '#contracts/assembly.ts';
import { placeRings, type RingClock, type RingFault } from '#domain/build/ring-clock.ts';
import { microDegrees } from '#domain/units/quantity.ts';
import type { Words } from '../../words/words.tsx';

export type Gaps = Readonly<Record<string, number>>;

const micro = (degrees: number) => microDegrees(Math.round(degrees * 1_000_000));

/** Degrees of a whole turn, from 0 to below 360. */
export const inTurn = (degrees: number): number => ((degrees % 360) + 360) % 360;

/** Where the marks were seen to face. */
export type Facing = Readonly<Record<string, 'crown' | 'skirt'>>;

/** Where the gaps stand: as placed, else where they are to go. */
export const gapsOf = ({ rings }: AssemblyPage): Gaps =>
  Object.fromEntries(rings.map(({ ring, angle, aim }) => [ring, Number((angle ?? aim?.angle)?.value ?? 0)]));

/** Where pin, maker or rule of thumb want the gaps. */
export const aimedGaps = ({ rings }: AssemblyPage): Gaps =>
  Object.fromEntries(rings.flatMap(({ ring, aim }) => (aim === null ? [] : [[ring, Number(aim.angle.value)]])));

export const facingOf = ({ rings }: AssemblyPage): Facing =>
  Object.fromEntries(rings.flatMap(({ ring, seenFacing }) => (seenFacing === null ? [] : [[ring, seenFacing]])));

function clockOf({ rings, zones, leastSeparation, railOffset }: AssemblyPage): RingClock {
  return {
    rings: rings.map(({ ring, name, part, pin, faces }) => ({
      code: ring,
      name,
      part,
      pin: pin === null ? null : micro(Number(pin.value)),
      faces,
      makersAngle: null,
    })),
    zones: zones.map(({ from, to, reason }) => ({
      from: micro(Number(from.value)),
      to: micro(Number(to.value)),
      reason,
    })),
    leastSeparation: leastSeparation === null ? null : micro(Number(leastSeparation.value)),
    railOffset: railOffset === null ? null : micro(Number(railOffset.value)),
    angleTolerance: null,
  };
}

/** Ring by ring what is against the rule, as the gaps are turned. */
export function faultsOf(page: AssemblyPage, gaps: Gaps, facing: Facing): ReadonlyMap<string, readonly RingFault[]> {
  const chosen = Object.entries(gaps).map(([ring, angle]) => ({ ring, angle: micro(angle), faces: facing[ring] }));
  return new Map(
    placeRings(clockOf(page), chosen).map((placement) => [placement.ring, placement.ok ? [] : placement.faults]),
  );
}

const degrees = (micros: number) => micros / 1_000_000;

export function faultWords(fault: RingFault, page: AssemblyPage, { assemble: { rings } }: Words): string {
  switch (fault.kind) {
    case 'not-placed':
      return rings.notPlaced;
    case 'angle-out-of-turn':
      return rings.outOfTurn;
    case 'too-close': {
      const name = page.rings.find(({ ring }) => ring === fault.to)?.name ?? fault.to;
      return rings.tooClose(degrees(fault.separation), name, degrees(fault.least));
    }
    case 'off-its-pin':
      return rings.offItsPin(degrees(fault.pin));
    case 'mark-not-seen':
      return rings.markNotSeen(fault.faces);
    case 'mark-wrong-way':
      return rings.markWrongWay(fault.faces);
    case 'in-forbidden-zone':
      return rings.inZone(fault.zone.reason, degrees(fault.zone.from), degrees(fault.zone.to));
    case 'away-from-makers-angle':
      return rings.away(degrees(fault.by), degrees(fault.makersAngle));
  }
}
