import type { SpecSheetDocument } from '#contracts/spec-sheets.ts';
import { type RingClock, usualFaces } from '#domain/build/ring-clock.ts';
import { standardGaps } from '#domain/build/ring-rule.ts';
import { parseQuantity } from '#domain/units/parse-quantity.ts';
import { type MicroDegrees, microDegrees } from '#domain/units/quantity.ts';
import type { PrintedPlain, PrintedRing } from './printed.ts';

export type OfRings = Pick<SpecSheetDocument, 'rings' | 'ringZones' | 'ringSeparation' | 'railOffset'>;

/** Where a ring's gap is to go, in degrees, and who says so. */
export interface RingAim {
  readonly angle: number;
  readonly by: 'pin' | 'maker' | 'rule';
}

function microsOf(figure: PrintedPlain | null | undefined): MicroDegrees | null {
  if (figure === null || figure === undefined) return null;
  const read = parseQuantity(figure.value, figure.unit, 'angle');
  return read.ok ? microDegrees(read.value) : null;
}

/** Degrees; null where nothing can be read. */
export const degreesOf = (figure: PrintedPlain | null | undefined): number | null => {
  const micros = microsOf(figure);
  return micros === null ? null : micros / 1e6;
};

export const facesOf = ({ faces, part }: PrintedRing) => faces ?? usualFaces(part ?? 'compression');

export const zonesInDegrees = ({ ringZones }: OfRings) =>
  ringZones.flatMap(({ from, to }) => {
    const ends = { from: degreesOf(from), to: degreesOf(to) };
    return ends.from === null || ends.to === null ? [] : [{ from: ends.from, to: ends.to }];
  });

/** Ring by ring where its gap is to go: by pin, maker or rule of thumb; null: nothing says so, or no place is clear. */
export function ringAims(of: OfRings): readonly (RingAim | null)[] {
  const clock: RingClock = {
    // By place, since a code may be empty or there twice while it is typed.
    rings: of.rings.map(({ name, part, angle, pin }, index) => ({
      code: String(index),
      name,
      part,
      makersAngle: microsOf(angle),
      pin: microsOf(pin),
    })),
    zones: zonesInDegrees(of).map(({ from, to }) => ({
      from: microDegrees(Math.round(from * 1e6)),
      to: microDegrees(Math.round(to * 1e6)),
      reason: '',
    })),
    leastSeparation: microsOf(of.ringSeparation),
    railOffset: microsOf(of.railOffset),
    angleTolerance: null,
  };
  const found = standardGaps(clock);
  return clock.rings.map(({ code, pin, makersAngle }): RingAim | null => {
    const gap = found.ok ? found.gaps.find(({ ring }) => ring === code) : undefined;
    if (gap !== undefined) return { angle: gap.angle / 1e6, by: gap.by };
    if (pin !== null && pin !== undefined) return { angle: pin / 1e6, by: 'pin' };
    return makersAngle === null ? null : { angle: makersAngle / 1e6, by: 'maker' };
  });
}
