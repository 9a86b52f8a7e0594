import { type CubicMillimetres, cubicMillimetres, type Nanometres, nanometres } from '#domain/units/quantity.ts';
import { discVolume } from './cylinder.ts';

/** Oil for so much fuel, whole mm³: fuel / ratio, where 32 stands for 32:1 by volume (arithmetic). Ratio ≥ 1. */
export function oilFor(fuel: CubicMillimetres, ratio: number): CubicMillimetres {
  return cubicMillimetres(Math.round(fuel / ratio));
}

/** Fuel for so much oil, whole mm³: oil × ratio (arithmetic). */
export function fuelFor(oil: CubicMillimetres, ratio: number): CubicMillimetres {
  return cubicMillimetres(Math.round(oil * ratio));
}

/** Coolant: strengths are shares of concentrate by volume, 0 to 1; `found` undefined stands for an empty system. */
export interface CoolantMix {
  readonly holds: CubicMillimetres;
  readonly wanted: number;
  readonly found: number | undefined;
  /** Of what is poured in: 1 for concentrate, 0.5 for one that is mixed half and half. */
  readonly strength: number;
}

/** What is let out and what is poured in, mm³. */
export interface CoolantChange {
  readonly drain: CubicMillimetres;
  readonly concentrate: CubicMillimetres;
  readonly water: CubicMillimetres;
}

/**
 * Volumes that bring a cooling system to a wanted strength, whole mm³. Empty: V·c/s of concentrate, the rest water. Too
 * weak: let out V·(c − f)/(s − f) and pour in as much concentrate; too strong: V·(1 − c/f) out and as much water in
 * (balance of what is let out and put in, volumes taken as additive). Undefined when what is poured in is weaker than
 * what is wanted.
 */
export function coolantChange({ holds, wanted, found, strength }: CoolantMix): CoolantChange | undefined {
  if (strength < wanted) return undefined;
  const whole = (share: number) => cubicMillimetres(Math.round(holds * share));
  if (found === undefined) {
    const concentrate = whole(wanted / strength);
    return { drain: whole(0), concentrate, water: cubicMillimetres(holds - concentrate) };
  }
  if (found > wanted) {
    const water = whole(1 - wanted / found);
    return { drain: water, concentrate: whole(0), water };
  }
  const concentrate = found === wanted ? whole(0) : whole((wanted - found) / (strength - found));
  return { drain: concentrate, concentrate, water: whole(0) };
}

/** A tube with a rod in it and the oil's level measured from its top, nm. */
export interface OilLevel {
  readonly tube: Nanometres;
  /** 0 where nothing stands in the oil at that height. */
  readonly rod: Nanometres;
  readonly found: Nanometres;
  readonly wanted: Nanometres;
}

/** Oil to add (below zero: to take out) to bring the level from found to wanted: π/4·(D² − d²)·Δh, mm³ (geometry). */
export function oilToLevel({ tube, rod, found, wanted }: OilLevel): CubicMillimetres {
  const height = nanometres(found - wanted);
  return cubicMillimetres(discVolume(tube, height) - discVolume(rod, height));
}

/** Volume of so many grams at a density in g/cm³ (that is kg/L), whole mm³: m/ρ. */
export function volumeOfMass(grams: number, density: number): CubicMillimetres {
  return cubicMillimetres(Math.round((grams / density) * 1000));
}

/** Mass in grams of a volume at a density in g/cm³: V·ρ. */
export function massOfVolume(volume: CubicMillimetres, density: number): number {
  return (volume / 1000) * density;
}
