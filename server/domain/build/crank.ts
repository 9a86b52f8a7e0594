import {
  type CubicMillimetres,
  type MicroDegrees,
  microDegrees,
  type Nanometres,
  nanometres,
} from '#domain/units/quantity.ts';
import { compressionRatio, sweptVolume } from './cylinder.ts';

/** A crank: stroke, and the rod from centre to centre, nm. The rod is longer than half the stroke. */
export interface Crank {
  readonly stroke: Nanometres;
  readonly rod: Nanometres;
}

/**
 * How far the piston is below top dead centre, in whole nm, at a crank angle after it (µ°):
 * x = r(1 − cos θ) + L − √(L² − r²·sin² θ), r half the stroke (slider-crank, geometry; no pin offset). Undefined when
 * the rod is too short for the crank to turn.
 */
export function pistonBelowTop(crank: Crank, afterTop: MicroDegrees): Nanometres | undefined {
  const throwOfCrank = crank.stroke / 2;
  if (crank.rod <= throwOfCrank) return undefined;
  const angle = (afterTop / 1e6) * (Math.PI / 180);
  const sideways = throwOfCrank * Math.sin(angle);
  // L − √(L² − s²) written as s² / (L + √…), which loses no digits near dead centre
  const rodLean = sideways ** 2 / (crank.rod + Math.sqrt(crank.rod ** 2 - sideways ** 2));
  return nanometres(Math.round(throwOfCrank * (1 - Math.cos(angle)) + rodLean));
}

/** What the effective ratio is worked out from; bore and crank in nm, clearance volume in mm³, angle in µ°. */
export interface EffectiveRatioFacts {
  readonly bore: Nanometres;
  readonly crank: Crank;
  readonly clearance: CubicMillimetres;
  readonly intakeClosesAfterBottom: MicroDegrees;
}

/**
 * Compression ratio reckoned from where the piston is when the intake closes, instead of from the bottom. Undefined when
 * the rod is too short or nothing is left above the piston. Stroke 58.5, rod 103 mm, closing 68° after bottom dead
 * centre, 88 mm bore, 27.4 cm³: 10.73.
 */
export function effectiveCompressionRatio(facts: EffectiveRatioFacts): number | undefined {
  // measured back from 180°, the piston stands as it does the same angle before bottom dead centre
  const afterTop = microDegrees(180_000_000 - facts.intakeClosesAfterBottom);
  const remaining = pistonBelowTop(facts.crank, afterTop);
  return remaining === undefined ? undefined : compressionRatio(sweptVolume(facts.bore, remaining), facts.clearance);
}

/** Mean piston speed in m/s: 2·S·N/60, stroke in nm, N in revolutions a minute. 58.5 mm at 11 500: 22.43 m/s. */
export function meanPistonSpeed(stroke: Nanometres, revolutionsPerMinute: number): number {
  return (2 * (stroke / 1e9) * revolutionsPerMinute) / 60;
}

/** A valve near the piston: `clearanceAtTop` is measured at top dead centre along the valve's axis with the valve shut. */
export interface ValveToPiston {
  readonly clearanceAtTop: Nanometres;
  readonly lift: Nanometres;
  /** Between the valve's axis and the bore's. */
  readonly valveAngle: MicroDegrees;
  readonly afterTop: MicroDegrees;
}

/**
 * Clearance of valve and piston along the valve's axis in whole nm: c₀ + x(θ)·cos γ − lift(θ) (geometry). A caution
 * only: it is to be proved by a trial assembly. Undefined when the rod is too short.
 */
export function valveToPiston(crank: Crank, valve: ValveToPiston): Nanometres | undefined {
  const below = pistonBelowTop(crank, valve.afterTop);
  if (below === undefined) return undefined;
  const alongValve = below * Math.cos((valve.valveAngle / 1e6) * (Math.PI / 180));
  return nanometres(Math.round(valve.clearanceAtTop + alongValve - valve.lift));
}
