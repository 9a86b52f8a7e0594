import { type MicroDegrees, microDegrees, type Nanometres } from '#domain/units/quantity.ts';
import type { Crank } from './crank.ts';

/** Where the piston is, how fast it goes down and how hard that speed changes, at one crank angle. */
export interface PistonMotion {
  /** Below top dead centre, mm. */
  readonly below: number;
  /** Downwards above zero, m/s. */
  readonly speed: number;
  /** Downwards above zero, m/s². */
  readonly acceleration: number;
}

/** Standard gravity, m/s², exact by definition (NIST SP 811). */
export const standardGravity = 9.806_65;

/**
 * Motion of the piston at a steady speed (rev/min) at a crank angle after top dead centre, µ°; undefined when the rod is
 * too short for the crank to turn. Slider-crank, geometry, no pin offset, with r half the stroke and q = √(L² − r²·sin² θ):
 * x = r(1 − cos θ) + L − q; dx/dθ = r·sin θ + r²·sin θ·cos θ/q; d²x/dθ² = r·cos θ + r²·cos 2θ/q + (r²·sin θ·cos θ)²/q³.
 */
export function pistonMotion(
  crank: Crank,
  revolutionsPerMinute: number,
  afterTop: MicroDegrees,
): PistonMotion | undefined {
  if (crank.rod <= crank.stroke / 2) return undefined;
  const [r, rod] = [crank.stroke / 2e6, crank.rod / 1e6];
  const angle = (afterTop / 1e6) * (Math.PI / 180);
  const [sine, cosine] = [r * Math.sin(angle), r * Math.cos(angle)];
  const lean = Math.sqrt(rod ** 2 - sine ** 2);
  const turning = (2 * Math.PI * revolutionsPerMinute) / 60;
  return {
    // L − q written as s² / (L + q), which loses no digits near dead centre
    below: r - cosine + sine ** 2 / (rod + lean),
    speed: ((sine + (sine * cosine) / lean) * turning) / 1000,
    acceleration:
      ((cosine + (cosine ** 2 - sine ** 2) / lean + (sine * cosine) ** 2 / lean ** 3) * turning ** 2) / 1000,
  };
}

/** The fastest that the piston goes, m/s, and how far after top dead centre, µ°; as far before it on the way up. */
export interface PeakSpeed {
  readonly at: MicroDegrees;
  readonly speed: number;
}

/**
 * Where the acceleration passes through zero between top dead centre and a quarter turn, found by halving to 1 µ°;
 * undefined when the rod is too short.
 */
export function peakPistonSpeed(crank: Crank, revolutionsPerMinute: number): PeakSpeed | undefined {
  let [low, high] = [0, 90_000_000];
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    const motion = pistonMotion(crank, revolutionsPerMinute, microDegrees(middle));
    if (motion === undefined) return undefined;
    if (motion.acceleration > 0) low = middle;
    else high = middle;
  }
  const motion = pistonMotion(crank, revolutionsPerMinute, microDegrees(low));
  return motion === undefined ? undefined : { at: microDegrees(low), speed: motion.speed };
}

/**
 * The crank angle after top dead centre, µ° from 0 to 180°, at which the piston is so far below it (nm): the triangle of
 * throw, rod and pin height h = r + L − x has cos θ = (r² + h² − L²) / (2·r·h). Undefined when the piston never stands
 * there, or the rod is too short.
 */
export function crankAngleAt(crank: Crank, below: Nanometres): MicroDegrees | undefined {
  const r = crank.stroke / 2;
  if (crank.rod <= r || below < 0 || below > crank.stroke) return undefined;
  const height = r + crank.rod - below;
  const cosine = (r ** 2 + height ** 2 - crank.rod ** 2) / (2 * r * height);
  return microDegrees(Math.round((Math.acos(Math.min(1, Math.max(-1, cosine))) * 180e6) / Math.PI));
}
