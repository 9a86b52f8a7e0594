import { type CubicMillimetres, type Nanometres, nanometres } from '#domain/units/quantity.ts';
import { compressionRatio, displacement, sweptVolume } from './cylinder.ts';
import { gapGrowth } from './ring-gap.ts';

/** A size that the cylinder could be brought to, with the piston to go with it, nm. */
export interface BoreSize {
  readonly name: string;
  /** Least size of the bore as it would be finished. */
  readonly bore: Nanometres;
  /** Largest size; the least where a band is not known. */
  readonly boreMost: Nanometres;
  readonly pistonLeast: Nanometres | undefined;
  readonly pistonMost: Nanometres | undefined;
}

/** What the engine is now: bore and stroke in nm, what is left above the piston in mm³ where it is known. */
export interface PresentBore {
  readonly bore: Nanometres;
  readonly stroke: Nanometres;
  readonly cylinders: number;
  readonly clearance: CubicMillimetres | undefined;
}

/** What a size would give, against what is there now. */
export interface ComparedBore {
  readonly name: string;
  readonly displacement: CubicMillimetres;
  /** More than now, a share of now: 0.02 is 2 %. */
  readonly gain: number;
  readonly ratio: number | undefined;
  /** To be taken off the diameter. */
  readonly cut: Nanometres;
  readonly clearanceLeast: Nanometres | undefined;
  readonly clearanceMost: Nanometres | undefined;
  /** By how much the end gap of the rings now in it would open. */
  readonly gapGrowth: Nanometres;
}

/**
 * A size held against the present bore: displacement π/4·B²·S·n, ratio with the same volume left above the piston,
 * clearance bore least − piston most to bore most − piston least, gap growth π·Δ (geometry). All of the least bore.
 */
export function compareBore(now: PresentBore, size: BoreSize): ComparedBore {
  const { bore, boreMost, pistonLeast, pistonMost } = size;
  const before = displacement(now);
  const after = displacement({ ...now, bore });
  return {
    name: size.name,
    displacement: after,
    gain: after / before - 1,
    ratio: now.clearance === undefined ? undefined : compressionRatio(sweptVolume(bore, now.stroke), now.clearance),
    cut: nanometres(bore - now.bore),
    clearanceLeast: pistonMost === undefined ? undefined : nanometres(bore - pistonMost),
    clearanceMost: pistonLeast === undefined ? undefined : nanometres(boreMost - pistonLeast),
    gapGrowth: gapGrowth(nanometres(bore - now.bore)),
  };
}
