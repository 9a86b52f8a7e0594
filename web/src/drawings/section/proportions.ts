import { clamp } from '../coordinates.ts';

/** The drawn single is the size of an 88.0 × 58.5 engine; other engines change its proportions, not its size. */
export type Proportions = {
  readonly halfBore: number;
  readonly throw: number;
  readonly rod: number;
  /** Crank pin and piston pin at the drawn crank angle. */
  readonly crankPin: { readonly x: number; readonly y: number };
  readonly pistonPin: number;
};

const CRANK_ANGLE = Math.PI / 3;

function atCrankAngle(halfBore: number, crankThrow: number, rod: number): Proportions {
  const x = crankThrow * Math.sin(CRANK_ANGLE);
  const y = -crankThrow * Math.cos(CRANK_ANGLE);
  return { halfBore, throw: crankThrow, rod, crankPin: { x, y }, pistonPin: y - Math.sqrt(rod * rod - x * x) };
}

/** A longer stroke for its bore draws a narrower barrel and a longer throw, within what the outline can hold. */
export function fourStrokeProportions(bore?: number, stroke?: number): Proportions {
  const drawn = 88 / 58.5;
  const known = bore !== undefined && stroke !== undefined && bore > 0 && stroke > 0;
  const wider = known ? Math.sqrt(bore / stroke / drawn) : 1;
  const crankThrow = clamp(29.25 / wider, 26, 33);
  return atCrankAngle(clamp(44 * wider, 40.5, 46), crankThrow, 132.25 - crankThrow);
}

/** The two-stroke's ports are drawn for one bore; only four-strokes follow bore and stroke. */
export function twoStrokeProportions(): Proportions {
  return atCrankAngle(27, 27.25, 105);
}
