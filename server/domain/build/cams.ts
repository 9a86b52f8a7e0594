import { type MicroDegrees, microDegrees } from '#domain/units/quantity.ts';

/**
 * Opening and closing points of a four-stroke's valves in crank degrees (µ°), at the lift which the sheet states:
 * intake opens before top and closes after bottom dead centre, exhaust opens before bottom and closes after top.
 */
export interface ValveTiming {
  readonly intakeOpensBeforeTop: MicroDegrees;
  readonly intakeClosesAfterBottom: MicroDegrees;
  readonly exhaustOpensBeforeBottom: MicroDegrees;
  readonly exhaustClosesAfterTop: MicroDegrees;
}

/** What follows from the points, in µ° of the crank; the separation of the lobes is half the sum of their centres. */
export interface CamFigures {
  readonly intakeDuration: MicroDegrees;
  readonly exhaustDuration: MicroDegrees;
  readonly intakeCentreAfterTop: MicroDegrees;
  readonly exhaustCentreBeforeTop: MicroDegrees;
  readonly lobeSeparation: MicroDegrees;
  readonly overlap: MicroDegrees;
}

/**
 * Duration = open + 180° + close; lobe centre = half the duration − opening (intake, after top) or − closing (exhaust,
 * before top); overlap = intake opening + exhaust closing, below zero when both are shut together. Geometry, for lobes
 * that are the same on both sides. 32/68 and 70/30: 280°, 280°, centres 108° and 110°, separation 109°, overlap 62°.
 */
export function camFigures(timing: ValveTiming): CamFigures {
  const { intakeOpensBeforeTop, intakeClosesAfterBottom, exhaustOpensBeforeBottom, exhaustClosesAfterTop } = timing;
  const intakeDuration = intakeOpensBeforeTop + 180_000_000 + intakeClosesAfterBottom;
  const exhaustDuration = exhaustOpensBeforeBottom + 180_000_000 + exhaustClosesAfterTop;
  const intakeCentre = intakeDuration / 2 - intakeOpensBeforeTop;
  const exhaustCentre = exhaustDuration / 2 - exhaustClosesAfterTop;
  return {
    intakeDuration: microDegrees(intakeDuration),
    exhaustDuration: microDegrees(exhaustDuration),
    intakeCentreAfterTop: whole(intakeCentre),
    exhaustCentreBeforeTop: whole(exhaustCentre),
    lobeSeparation: whole((intakeCentre + exhaustCentre) / 2),
    overlap: microDegrees(intakeOpensBeforeTop + exhaustClosesAfterTop),
  };
}

function whole(angle: number): MicroDegrees {
  return microDegrees(Math.round(angle));
}
