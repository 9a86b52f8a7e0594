import type { DemoInstrument } from './instruments.ts';
import { demoInstruments } from './instruments.ts';
import type { Chance } from './random.ts';
import type { DimensionFigures, LimitFigures } from './spec-sheet.ts';
import { there } from './world.ts';

/** What somebody saw at one position, in the dimension's unit. */
export type Seen =
  | { readonly position: string; readonly value: number }
  | { readonly position: string; readonly go: number | null; readonly noGo: number | null }
  | { readonly position: string; readonly felt: boolean };

/** The instrument a technician takes up for a dimension; of two that fit, the one in calibration. */
export function instrumentFor(dimension: DimensionFigures): DemoInstrument {
  const size = sizeOf(dimension);
  const straightedge = dimension.code.endsWith('-face');
  const fitting = demoInstruments.filter(
    ({ what, range, due, code }) =>
      what === dimension.instrument &&
      due > 0 &&
      size >= range[0] &&
      size <= range[1] &&
      (what !== 'feeler set' || straightedge === (code === 'FE-2')),
  );
  return there(fitting[0], `an instrument for ${dimension.code}`);
}

const sizeOf = ({ limits }: DimensionFigures): number => {
  const of = limits.standard;
  return of?.standard[1] ?? of?.standard[0] ?? of?.service[1] ?? of?.service[0] ?? 0;
};

/** Where a part is that has used up so much of its life: 0 as new, 1 at its limit. */
export function wornTo(of: LimitFigures, worn: number): number {
  const [low, high] = of.standard;
  const [serviceLow, serviceHigh] = of.service;
  const width = low !== null && high !== null ? high - low : 0;
  const asNew = low !== null && high !== null ? low + 0.45 * width : low !== null ? low * 1.015 : (high ?? 0) * 0.35;
  // A lash closes as the seat wears; everything else with two limits opens.
  const limit = serviceHigh ?? serviceLow ?? high ?? low ?? asNew;
  return asNew + worn * (limit - asNew);
}

/** Plausible readings of a dimension on a part worn so far, one for each position. */
export function specimen(
  dimension: DimensionFigures,
  of: { readonly worn: number; readonly luck: Chance; readonly sizeClass: string },
): readonly Seen[] {
  const { method, positions, code } = dimension;
  if (method.type === 'felt') return positions.map(({ code: position }) => ({ position, felt: of.worn > 1 }));
  const limits = there(dimension.limits[of.sizeClass] ?? dimension.limits.standard, `limits of ${code}`);
  const closing = code.startsWith('lash-');
  const target = closing
    ? wornTo({ standard: limits.standard, service: [limits.service[0], null] }, of.worn)
    : wornTo(limits, of.worn);
  const fresh = wornTo(limits, 0);
  if (dimension.instrument === 'feeler set') {
    return positions.map(({ code: position }, index) => ({
      position,
      ...blades(dimension, target - (index === 1 ? 0 : index * 0.002) * Math.sign(target - fresh)),
    }));
  }
  const scatter = 10 ** -dimension.decimals * 0.6;
  return positions.map((position, index) => {
    const back = shareOfWear(position.level, position.axis, index);
    return { position: position.code, value: fresh + (target - fresh) * back + of.luck.scatter(scatter) };
  });
}

/** A bore wears most at the top and across the pin; of other positions the first shows the wear. */
function shareOfWear(level: number | undefined, axis: 'across' | 'along' | undefined, index: number): number {
  if (level === undefined) return index === 0 ? 1 : 0.85 - 0.05 * (index % 3);
  return (1 - 0.19 * (level - 1)) * (axis === 'along' ? 0.83 : 1);
}

function blades(
  dimension: DimensionFigures,
  gap: number,
): { readonly go: number | null; readonly noGo: number | null } {
  const set = there(instrumentFor(dimension).blades, 'blades');
  return { go: set.filter((blade) => blade <= gap).at(-1) ?? null, noGo: set.find((blade) => blade > gap) ?? null };
}
